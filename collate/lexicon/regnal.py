"""Years of the kings of England, 1154 to 1547: king, year and day in, days and the arithmetic out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from collate.lexicon.calendar import in_words, plus, same_day_of, span_in_words
from collate.lexicon.days import Anchor, Base, DayRule, day_in_words, explained, spans
from collate.lexicon.tables import table
from collate.model.clauses import ClauseReading, Reckoning
from collate.model.dates import Bounds, Day

_ASCENSION = DayRule("Ascension Day", Anchor("Ascension Day", Base.EASTER, offset=39))


@dataclass(frozen=True, slots=True)
class Reign:
    """One row of the table of reigns; `first_year` is 1 but for the Readeption of Henry VI, 49.

    `rule` says where its years begin: "anniversary" of the first day, "ascension" (John), or
    "both-ends" (Edward I: the anniversary is counted in two years by some tables). `ancestors` are
    his father's name, his father's father's and so on; `styled` the father documents name him by.
    """

    king: str
    name: str
    number: int
    short: str
    first_year: int
    first: Day
    last: Day
    rule: str
    ancestors: tuple[str, ...]
    styled: str
    basis: str
    authority: str
    note: str

    @property
    def last_year(self) -> int:
        """The number of the reign's last year."""
        year = self.first_year
        while _start(self, year + 1) <= self.last:
            year += 1
        return year


_COLUMNS = (
    *("king", "name", "number", "short", "first_year", "first", "last", "rule"),
    *("ancestors", "styled", "basis", "authority", "note"),
)


@cache
def reigns() -> tuple[Reign, ...]:
    """Return the reigns in the order of the table, the Readeption as one of its own."""
    return tuple(
        Reign(
            *(row[0], row[1], int(row[2]), row[3], int(row[4]), _day(row[5]), _day(row[6]), row[7]),
            *(tuple(row[8].split()), row[9], row[10], row[11], row[12]),
        )
        for row in table("reigns", *_COLUMNS)
    )


def _day(iso: str) -> Day:
    year, month, day = iso.split("-")
    return Day(int(year), int(month), int(day))


def reigns_of(name: str, number: int | None = None) -> tuple[Reign, ...]:
    """Return the reigns of every king of a name, or of the one king of that number.

    John's number is 0, and 1 is taken for it.
    """
    found = [reign for reign in reigns() if reign.name == name]
    if number is None:
        return tuple(found)
    return tuple(reign for reign in found if reign.number == number or (not reign.number and number == 1))


def _start(reign: Reign, year: int) -> Day:
    past = year - reign.first_year
    if past and reign.rule == "ascension":
        return spans(_ASCENSION, reign.first.year + past)[0].not_before or reign.first
    return same_day_of(reign.first, reign.first.year + past)


def year_bounds(reign: Reign, year: int) -> Bounds | None:
    """Return the first and last day of a regnal year, or None where the reign has no such year."""
    if not reign.first_year <= year <= reign.last_year:
        return None
    return Bounds(_start(reign, year), min(plus(_start(reign, year + 1), -1), reign.last))


def called(reign: Reign, year: int) -> str:
    """Return a regnal year as it is cited: 16 Ric. II."""
    return f"{year} {reign.short}"


def regnal_years_of(day: Day) -> tuple[str, ...]:
    """Return the regnal years in which a day lies, as they are cited; 20 November may give two."""
    return tuple(
        called(reign, year)
        for reign in reigns()
        if reign.first <= day <= reign.last
        for year in range(reign.first_year, reign.last_year + 1)
        if day in _reach(reign, year)
    )


def _reach(reign: Reign, year: int) -> "_Reach":
    bounds = year_bounds(reign, year)
    if bounds is None or bounds.not_before is None or bounds.not_after is None:
        return _Reach(plus(reign.first, 1), reign.first)
    double = reign.rule == "both-ends" and year < reign.last_year
    return _Reach(bounds.not_before, plus(bounds.not_after, 1) if double else bounds.not_after)


@dataclass(frozen=True, slots=True)
class _Reach:
    """The days that may be dated by a regnal year, a doubtful last one included."""

    first: Day
    last: Day

    def __contains__(self, day: Day) -> bool:
        return self.first <= day <= self.last


def reckon_regnal(found: Sequence[Reign], year: int, rules: Sequence[DayRule] = ()) -> Reckoning:
    """Return what a year of one of these reigns is, or the days in it that fit every rule.

    Each king is taken in turn: those whose reign has no such year, or no such day in it, drop out
    if another has; if none has, the problem says what would be right.
    """
    readings: list[ClauseReading] = []
    problems: list[str] = []
    for reign in found:
        if year_bounds(reign, year) is None:
            problems.append(_beyond(found, reign, year))
        elif not rules:
            readings.append(_whole_year(reign, year))
        else:
            days = list(_days(reign, year, rules))
            readings += days
            problems += [] if days else [_no_such_day(reign, year, rules)]
    return Reckoning(tuple(readings), "" if readings else "; ".join(dict.fromkeys(problems)))


def _whole_year(reign: Reign, year: int) -> ClauseReading:
    bounds = year_bounds(reign, year) or Bounds()
    double = reign.rule == "both-ends" and year < reign.last_year
    doubt = f"; some tables count {in_words(_reach(reign, year).last)} in it too" if double else ""
    return ClauseReading(bounds, f"{_arithmetic(reign, year)}{doubt}", reign.authority)


def _arithmetic(reign: Reign, year: int) -> str:
    bounds = span_in_words(year_bounds(reign, year) or Bounds())
    if reign.first_year > 1:
        note = f", {reign.basis}; {reign.note}"
    elif reign.rule == "ascension":
        note = ", each year from Ascension Day"
    else:
        note = f", the reign from {in_words(reign.first)}"
    return f"{called(reign, year)}: {bounds}{note}"


def _days(reign: Reign, year: int, rules: Sequence[DayRule]) -> Iterator[ClauseReading]:
    reach = _reach(reign, year)
    for span in common_spans(rules, range(reach.first.year, reach.last.year + 1)):
        first, last = span.not_before, span.not_after
        if first is None or last is None or last < reach.first or reach.last < first:
            continue
        bounds = Bounds(max(first, reach.first), min(last, reach.last))
        authority = [reign.authority, *(rule.anchor.authority for rule in rules)]
        said = _said(reign, year, rules, bounds)
        yield ClauseReading(bounds, said, "; ".join(dict.fromkeys(filter(None, authority))))


def common_spans(rules: Sequence[DayRule], years: range) -> tuple[Bounds, ...]:
    """Return the spans of some Julian years that every rule allows, in their order."""
    head, *rest = rules
    found = [span for year in years for span in spans(head, year)]
    for rule in rest:
        others = [span for year in years for span in spans(rule, year)]
        found = [both for one in found for other in others if (both := met(one, other)) is not None]
    return tuple(found)


def met(one: Bounds, other: Bounds) -> Bounds | None:
    """Return the days that two closed spans have in common, or None."""
    firsts = [day for day in (one.not_before, other.not_before) if day]
    lasts = [day for day in (one.not_after, other.not_after) if day]
    first, last = max(firsts, default=None), min(lasts, default=None)
    return None if first and last and last < first else Bounds(first, last)


def named(rules: Sequence[DayRule]) -> str:
    """Return a day as its rules name it: Monday, 20 May."""
    return ", ".join(rule.said for rule in rules)


def _said(reign: Reign, year: int, rules: Sequence[DayRule], bounds: Bounds) -> str:
    first = bounds.not_before or reign.first
    days = day_in_words(first) if bounds.not_before == bounds.not_after else span_in_words(bounds)
    how = [explained(rule, first) for rule in rules]
    told = [f"{named(rules)} {called(reign, year)} is {days}", *filter(None, how), _arithmetic(reign, year)]
    if year == reign.first_year == 1 and first.year > reign.first.year:
        told += [
            f"{in_words(day)} is {' or '.join(regnal_years_of(day))}"
            for span in common_spans(rules, range(reign.first.year, reign.first.year + 1))
            if (day := span.not_before) and day < reign.first and regnal_years_of(day)
        ]
    if reign.rule == "both-ends" and (first.month, first.day) == (reign.first.month, reign.first.day):
        told.append(f"{reign.note}, so that the day stands in two years")
    return "; ".join(told)


def _beyond(found: Sequence[Reign], reign: Reign, year: int) -> str:
    same_king = [each for each in found if (each.name, each.number) == (reign.name, reign.number)]
    if year < 1:
        return f"a regnal year is counted from 1, so {called(reign, year)} does not exist"
    ends = [
        f"the last year of {each.king} was {each.last_year} ({_of_last(each)})"
        if each.first_year == 1
        else f"{called(each, each.first_year)} is the Readeption ({_of_last(each)})"
        for each in same_king
    ]
    return f"{called(reign, year)} does not exist: {', and '.join(ends)}"


def _of_last(reign: Reign) -> str:
    return span_in_words(year_bounds(reign, reign.last_year) or Bounds())


def _no_such_day(reign: Reign, year: int, rules: Sequence[DayRule]) -> str:
    reach = _reach(reign, year)
    near = [
        f"{in_words(span.not_before)} is {' or '.join(held)}"
        for span in common_spans(rules, range(reach.first.year, reach.last.year + 1))
        if span.not_before and (held := regnal_years_of(span.not_before))
    ]
    hint = f" ({', '.join(near)})" if near else ""
    bounds = span_in_words(year_bounds(reign, year) or Bounds())
    return f"{named(rules)} {called(reign, year)} does not exist: {called(reign, year)} ran {bounds}{hint}"
