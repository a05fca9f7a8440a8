"""Days as documents name them, by feast and weekday: a rule in, the days of a year it gives out."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from collate.lexicon.calendar import (
    advent,
    easter,
    gregorian,
    in_words,
    is_leap,
    is_valid,
    last_weekday,
    length_of_month,
    month_names,
    next_weekday,
    plus,
    weekday,
    weekday_names,
    with_weekday,
)
from collate.model.dates import Bounds, Day


class Base(StrEnum):
    """From what an anchor is reckoned."""

    FIXED = "fixed"
    EASTER = "easter"
    ADVENT = "advent"
    EMBER = "ember"
    MONTH = "month"
    ROMAN = "roman"


class Side(StrEnum):
    """On which side of its anchor a weekday lies."""

    ON = "on"
    AFTER = "after"
    BEFORE = "before"
    WITHIN = "within"


@dataclass(frozen=True, slots=True)
class Anchor:
    """What a day is reckoned from: a fixed day, a day so far from Easter, a month, the Ember days.

    `length` is the number of days it lasts. `leap` is how many days later it is kept in a leap year.
    For `ROMAN`, `day` is how many days are counted back from the kalends, nones or ides at `offset`.
    """

    name: str
    base: Base
    month: int = 0
    day: int = 0
    offset: int = 0
    length: int = 1
    leap: int = 0
    authority: str = "Julian calendar"


@dataclass(frozen=True, slots=True)
class DayRule:
    """A day as it is named: an anchor, moved by so many days, or a weekday beside it.

    `count` says which such weekday: the second Sunday after.
    """

    said: str
    anchor: Anchor
    shift: int = 0
    weekday: int | None = None
    side: Side = Side.ON
    count: int = 1
    authority: str = ""


def spans(rule: DayRule, year: int) -> tuple[Bounds, ...]:
    """Return the days of a Julian year (from 1 January) that a rule names; a month is one span."""
    found: dict[Bounds, None] = {}
    for near in (year - 1, year, year + 1):
        for first, last in _anchored(rule.anchor, near):
            for span in _placed(rule, plus(first, rule.shift), plus(last, rule.shift)):
                if span.not_before is not None and span.not_before.year == year:
                    found[span] = None
    return tuple(found)


def _anchored(anchor: Anchor, year: int) -> Iterator[tuple[Day, Day]]:
    if anchor.base is Base.MONTH:
        yield Day(year, anchor.month, 1), Day(year, anchor.month, length_of_month(year, anchor.month))
        return
    for first in _first_days(anchor, year):
        yield first, plus(first, anchor.length - 1)


def _first_days(anchor: Anchor, year: int) -> tuple[Day, ...]:
    match anchor.base:
        case Base.EASTER:
            return (plus(easter(year), anchor.offset),)
        case Base.ADVENT:
            return (plus(advent(year), anchor.offset),)
        case Base.EMBER:
            start = Day(year, anchor.month, anchor.day) if anchor.month else plus(easter(year), anchor.offset)
            return (next_weekday(start, 2),)
        case Base.ROMAN:
            return _roman(anchor, year)
        case _:
            day = Day(year, anchor.month, anchor.day + (anchor.leap if is_leap(year) else 0))
            return (day,) if is_valid(day) else ()


def _roman(anchor: Anchor, year: int) -> tuple[Day, ...]:
    """Count back from kalends, nones or ides, both ends counted; the bissextile day stands twice."""
    start = Day(year, anchor.month, anchor.offset)
    back = anchor.day - 1
    if anchor.month == 3 and anchor.offset == 1 and is_leap(year) and back >= 5:
        return (plus(start, -back - 1), plus(start, -back)) if back == 5 else (plus(start, -back - 1),)
    return (plus(start, -back),)


def _placed(rule: DayRule, first: Day, last: Day) -> Iterator[Bounds]:
    wanted, weeks = rule.weekday, 7 * (rule.count - 1)
    if wanted is None:
        yield Bounds(first, last)
    elif rule.side is Side.AFTER:
        yield _one(plus(next_weekday(last, wanted), weeks))
    elif rule.side is Side.BEFORE:
        yield _one(plus(last_weekday(first, wanted), -weeks))
    elif rule.side is Side.WITHIN:
        yield _one(plus(next_weekday(plus(first, -1), wanted), weeks))
    elif first != last or weekday(first) == wanted:
        yield from (_one(day) for day in _days(first, last) if weekday(day) == wanted)


def _one(day: Day) -> Bounds:
    return Bounds(day, day)


def _days(first: Day, last: Day) -> Iterator[Day]:
    while first <= last:
        yield first
        first = plus(first, 1)


def explained(rule: DayRule, day: Day) -> str:
    """Return how a rule gives a day, "" where the day is simply named: Easter 1259 was 13 April."""
    anchor = rule.anchor
    if anchor.base is Base.EASTER or (anchor.base is Base.EMBER and not anchor.month):
        return f"Easter {day.year} was {_short(easter(day.year))}"
    if anchor.base is Base.ADVENT:
        return f"Advent Sunday {day.year} was {_short(advent(day.year))}"
    if anchor.base is Base.EMBER:
        wednesday = _first_days(anchor, day.year)[0]
        return f"the Ember days of {day.year} began on Wednesday {_short(wednesday)}"
    plain = rule.weekday is None and not rule.shift
    if anchor.base is Base.FIXED and (anchor.name or not plain):
        return _of_fixed(rule, day)
    return ""


def _of_fixed(rule: DayRule, day: Day) -> str:
    near = [
        each for year in (day.year - 1, day.year, day.year + 1) for each in _first_days(rule.anchor, year)
    ]
    kept = min(near, key=lambda each: abs(_apart(each, day)))
    name = rule.anchor.name or "that day"
    if rule.weekday is None:
        return f"{name} is {_short(kept)}"
    return f"{name}, {_short(kept)}, was a {weekday_names()[weekday(kept)]} in {kept.year}"


def _apart(one: Day, other: Day) -> int:
    return 400 * (one.year - other.year) + 31 * (one.month - other.month) + one.day - other.day


def _short(day: Day) -> str:
    return f"{day.day} {month_names()[day.month]}"


def day_in_words(day: Day) -> str:
    """Return a day with its weekday, both numbers of its year from January to Lady Day, and its Gregorian."""
    both = f", {day.year - 1}/{day.year % 10}" if (day.month, day.day) < (3, 25) else ""
    return f"{with_weekday(day)} (Julian{both}; {gregorian(day)} Gregorian)"


def plain_day(month: int, day: int, year: int | None = None) -> DayRule:
    """Return the rule of a day of the month."""
    said = in_words(Day(year, month, day)) if year is not None else f"{day} {month_names()[month]}"
    return DayRule(said, Anchor("", Base.FIXED, month, day))
