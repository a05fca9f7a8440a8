"""The Julian calendar, its feasts, regnal years and years of grace."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from collate.lexicon.calendar import (
    advent,
    day_number,
    day_of_number,
    easter,
    gregorian,
    in_words,
    is_valid,
    last_weekday,
    next_weekday,
    plus,
    span_in_words,
    weekday,
    with_weekday,
)
from collate.lexicon.clauses import LITTLE
from collate.lexicon.date_words import Word, loose, plays, weekday_of
from collate.lexicon.days import Anchor, Base, DayRule, Side, plain_day, spans
from collate.lexicon.grace import GraceYear, reckon_both, reckon_grace
from collate.lexicon.regnal import Reign, reckon_regnal, regnal_years_of, reigns, reigns_of, year_bounds
from collate.lexicon.tables import table
from collate.model.dates import Bounds, Day

FEAST_COLUMNS = ("name", "month", "day", "leap", "alone", "saint", "authority", "note")
MOVABLE_COLUMNS = ("name", "base", "month", "day", "offset", "length", "forms", "authority", "note")
FEASTS = (
    *((row[0], f"{row[4]}|{row[5]}") for row in table("feasts", *FEAST_COLUMNS)),
    *((row[0], row[6]) for row in table("movable", *MOVABLE_COLUMNS)),
)
NUMBERS = st.integers(1757000, 2400000)
YEARS = st.integers(1100, 1700)


@given(NUMBERS)
def test_a_day_and_its_number_give_each_other_back(number: int) -> None:
    day = day_of_number(number)
    assert is_valid(day)
    assert day_number(day) == number


@given(NUMBERS, st.integers(0, 6))
def test_the_nearest_weekdays_lie_within_a_week_and_leave_the_day_out(number: int, wanted: int) -> None:
    day = day_of_number(number)
    after, before = next_weekday(day, wanted), last_weekday(day, wanted)
    assert weekday(after) == weekday(before) == wanted
    assert 1 <= day_number(after) - number <= 7
    assert 1 <= number - day_number(before) <= 7


@given(YEARS)
def test_easter_is_a_sunday_in_its_range_and_comes_round_in_532_years(year: int) -> None:
    assert weekday(easter(year)) == 6
    assert Day(year, 3, 22) <= easter(year) <= Day(year, 4, 25)
    again = easter(year + 532)
    assert (again.month, again.day) == (easter(year).month, easter(year).day)


@given(YEARS)
def test_advent_sunday_is_the_sunday_nearest_st_andrew(year: int) -> None:
    assert weekday(advent(year)) == 6
    assert abs(day_number(advent(year)) - day_number(Day(year, 11, 30))) <= 3


@pytest.mark.parametrize(
    ("day", "valid"),
    [(Day(1400, 2, 29), True), (Day(1401, 2, 29), False), (Day(1500, 2, 29), True), (Day(1400, 13, 1), False),
     (Day(1400, 4, 31), False), (Day(1400, 4, 0), False)],
)  # fmt: skip
def test_every_fourth_year_is_a_leap_year(day: Day, valid: bool) -> None:
    assert is_valid(day) is valid


def test_days_in_words() -> None:
    assert in_words(Day(1390, 6, 22)) == "22 June 1390"
    assert with_weekday(Day(1390, 6, 22)) == "Wednesday 22 June 1390"
    assert span_in_words(Bounds(Day(1390, 6, 22))) == "from 22 June 1390"
    assert span_in_words(Bounds(None, Day(1390, 6, 22))) == "until 22 June 1390"


def test_the_gregorian_equivalent_is_eight_days_on_in_the_fourteenth_century_and_ten_in_the_sixteenth() -> (
    None
):
    assert gregorian(Day(1390, 6, 22)) == "1390-06-30"
    assert gregorian(Day(1582, 10, 5)) == "1582-10-15"
    assert gregorian(Day(1500, 2, 29)) == "1500-03-10"


def one(rule: DayRule, year: int) -> list[str]:
    return [str(span.not_before) for span in spans(rule, year)]


MICHAELMAS = Anchor("Michaelmas", Base.FIXED, 9, 29)


def test_a_weekday_beside_a_feast_never_is_the_feast() -> None:
    assert one(DayRule("", MICHAELMAS, weekday=4, side=Side.AFTER), 1335) == ["1335-10-06"]
    assert one(DayRule("", MICHAELMAS, weekday=4, side=Side.BEFORE), 1335) == ["1335-09-22"]
    assert one(DayRule("", MICHAELMAS, weekday=4), 1335) == ["1335-09-29"]
    assert one(DayRule("", MICHAELMAS, weekday=3), 1335) == []


def test_a_day_may_fall_into_the_year_beside_its_feast_s() -> None:
    silvester = Anchor("St Silvester", Base.FIXED, 12, 31)
    assert one(DayRule("the morrow", silvester, shift=1), 1400) == ["1400-01-01"]
    assert one(DayRule("", Anchor("", Base.FIXED, 1, 1), weekday=0, side=Side.BEFORE), 1400) == ["1400-12-27"]


def test_st_matthias_is_a_day_later_in_leap_years() -> None:
    matthias = Anchor("St Matthias", Base.FIXED, 2, 24, leap=1)
    assert one(DayRule("", matthias), 1399) == ["1399-02-24"]
    assert one(DayRule("", matthias), 1400) == ["1400-02-25"]


def test_the_ember_days_are_those_of_the_rule() -> None:
    assert one(DayRule("", Anchor("", Base.EMBER, 12, 13, length=4), weekday=4, side=Side.BEFORE), 1470) == [
        "1470-12-14"
    ]
    assert one(
        DayRule("", Anchor("", Base.EMBER, offset=-42, length=4), weekday=5, side=Side.WITHIN), 1390
    ) == ["1390-02-26"]


def test_roman_days_are_counted_with_both_ends_and_the_bissextile_day_twice() -> None:
    sixth = DayRule("", Anchor("", Base.ROMAN, 3, 6, offset=1))
    assert one(sixth, 1399) == ["1399-02-24"]
    assert one(sixth, 1400) == ["1400-02-24", "1400-02-25"]
    assert one(DayRule("", Anchor("", Base.ROMAN, 3, 7, offset=1)), 1400) == ["1400-02-23"]
    assert one(DayRule("", Anchor("", Base.ROMAN, 1, 2, offset=1)), 1400) == ["1400-12-31"]


@pytest.mark.parametrize("reign", reigns(), ids=lambda reign: reign.king)
def test_the_years_of_a_reign_follow_each_other_without_hole_or_overlap(reign: Reign) -> None:
    days: list[Day] = []
    for year in range(reign.first_year, reign.last_year + 1):
        bounds = year_bounds(reign, year)
        assert bounds is not None
        assert bounds.not_before is not None
        assert bounds.not_after is not None
        days += [bounds.not_before, bounds.not_after]
    assert (days[0], days[-1]) == (reign.first, reign.last)
    assert [plus(last, 1) for last in days[1:-1:2]] == days[2::2]


@given(st.integers(day_number(Day(1154, 12, 19)), day_number(Day(1547, 1, 28))))
def test_a_day_is_found_again_by_its_regnal_year(number: int) -> None:
    day = day_of_number(number)
    for cited in regnal_years_of(day):
        year, _, short = cited.partition(" ")
        found = [reign for reign in reigns() if reign.short == short]
        told = reckon_regnal(found, int(year), [plain_day(day.month, day.day)])
        assert Bounds(day, day) in [reading.bounds for reading in told.readings]


def test_a_day_of_the_readeption_has_two_regnal_years() -> None:
    assert regnal_years_of(Day(1470, 12, 14)) == ("49 Hen. VI", "10 Edw. IV")
    assert regnal_years_of(Day(1284, 11, 20)) == ("12 Edw. I", "13 Edw. I")
    assert regnal_years_of(Day(1327, 1, 22)) == ()


def test_a_year_beyond_the_reign_is_told_with_its_last() -> None:
    assert "the last year of Richard II was 23" in reckon_regnal(reigns_of("Richard", 2), 24).problem
    problem = reckon_regnal(reigns_of("Henry", 6), 45).problem
    assert "39 (1 September 1460 – 4 March 1461)" in problem
    assert "49 Hen. VI is the Readeption" in problem
    assert "counted from 1" in reckon_regnal(reigns_of("Richard", 2), 0).problem


def test_a_king_without_number_is_every_king_whose_reign_has_the_year() -> None:
    told = reckon_regnal(reigns_of("Edward"), 30)
    assert [reading.said.partition(":")[0] for reading in told.readings] == ["30 Edw. I", "30 Edw. III"]


@given(YEARS, st.integers(1, 365))
def test_a_day_of_a_year_of_grace_has_two_readings_only_before_lady_day(year: int, step: int) -> None:
    day = plus(Day(year, 1, 1), step - 1)
    rule = plain_day(day.month, day.day)
    readings = reckon_grace(GraceYear(year), [rule]).readings
    early = (day.month, day.day) < (3, 25)
    if (day.month, day.day) != (2, 29):
        assert len(readings) == (2 if early and is_valid(Day(year + 1, day.month, day.day)) else 1)
    assert any("25 March" in reading.said for reading in readings) or not early


def test_both_numbers_of_a_year_leave_one_reading() -> None:
    (reading,) = reckon_grace(GraceYear(1453, both=True), [plain_day(3, 12)]).readings
    assert reading.bounds == Bounds(Day(1454, 3, 12), Day(1454, 3, 12))
    assert "1453/4" in reading.said


def test_a_year_of_grace_is_given_by_both_reckonings_and_its_outer_bounds_in_words() -> None:
    old, new = reckon_grace(GraceYear(1453)).readings
    assert old.bounds == Bounds(Day(1453, 3, 25), Day(1454, 3, 24))
    assert new.bounds == Bounds(Day(1453, 1, 1), Day(1453, 12, 31))
    assert "1 January 1453 – 24 March 1454" in old.said
    assert reckon_grace(GraceYear(1800)).problem
    assert "ran 25 March 1453 – 24 March 1454" in reckon_grace(GraceYear(1453), [plain_day(2, 29)]).problem


def test_years_of_reign_and_of_grace_that_do_not_agree_are_both_given() -> None:
    told = reckon_both(reigns_of("Henry", 4), 9, GraceYear(1420), [plain_day(7, 4)])
    assert [str(reading.bounds.not_before) for reading in told.readings] == ["1408-07-04", "1420-07-04"]
    assert "do not agree" in told.problem
    assert "8 Hen. V" in told.problem
    whole = reckon_both(reigns_of("Henry", 4), 9, GraceYear(1420))
    assert "do not agree" in whole.problem
    assert len(whole.readings) == 3


def test_the_feasts_of_the_tables_are_days_that_there_are() -> None:
    for name, month, day, leap, alone, saint, _, _ in table("feasts", *FEAST_COLUMNS):
        assert is_valid(Day(1399, int(month), int(day))), name
        assert leap in ("0", "1")
        assert alone or saint, name


def test_no_feast_is_known_by_a_little_word_or_a_weekday_alone() -> None:
    for name, forms in FEASTS:
        for form in filter(None, forms.split("|")):
            keys = [loose(word) for word in form.split(" ")]
            assert any(
                weekday_of(key) is None and not plays(Word(0, key, key), *LITTLE, "saint") for key in keys
            ), name
            assert form == form.strip()


def test_a_form_of_a_month_or_a_weekday_belongs_to_one() -> None:
    for name in ("months", "weekdays"):
        columns = (name[:-1], "name", "forms", "authority", "note")
        owners: dict[str, str] = {}
        for number, _, forms, _, _ in table(name, *columns):
            for form in forms.split(" "):
                assert owners.setdefault(loose(form), number) == number, form
