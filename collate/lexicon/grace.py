"""Years of grace, which in England began on 25 March: a year and a day in, both readings out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from collate.lexicon.calendar import span_in_words
from collate.lexicon.days import DayRule, day_in_words, explained
from collate.lexicon.regnal import (
    Reign,
    called,
    common_spans,
    met,
    named,
    reckon_regnal,
    regnal_years_of,
)
from collate.model.clauses import ClauseReading, Reckoning
from collate.model.dates import Bounds, Day

AUTHORITY = "Cheney & Jones 2000, the year of grace"
LAST_YEAR = 1751
"""The last year of grace that began on 25 March in England."""


@dataclass(frozen=True, slots=True)
class GraceYear:
    """A year of grace as written; `both` where it is written with both numbers, 1453/4."""

    year: int
    both: bool = False

    def __str__(self) -> str:
        """Return the year as it is cited."""
        return f"{self.year}/{(self.year + 1) % 10}" if self.both else str(self.year)


@dataclass(frozen=True, slots=True)
class _Style:
    """One way to begin the year, and what it makes of a written one."""

    said: str
    bounds: Bounds


def _styles(written: GraceYear) -> tuple[_Style, ...]:
    year = written.year
    old = _Style("reckoned from 25 March (Old Style)", Bounds(Day(year, 3, 25), Day(year + 1, 3, 24)))
    if written.both:
        between = Bounds(Day(year + 1, 1, 1), Day(year + 1, 3, 24))
        return (_Style("as both numbers of the year say", between),)
    new = Bounds(Day(year, 1, 1), Day(year, 12, 31))
    return (old, _Style("if the year is taken to begin on 1 January", new))


def reckon_grace(written: GraceYear, rules: Sequence[DayRule] = ()) -> Reckoning:
    """Return what a year of grace is, or the days in it that fit every rule.

    From 1 January to 24 March the two beginnings of the year give two readings; elsewhere one.
    """
    if not 1 <= written.year <= LAST_YEAR:
        return Reckoning(
            problem=f"{written.year} is no year that began on 25 March: those run from 1 to {LAST_YEAR}"
        )
    if not rules:
        return Reckoning(tuple(_whole_years(written)))
    found = list(_days(written, rules))
    return Reckoning(tuple(found)) if found else Reckoning(problem=_no_such_day(written, rules))


def _whole_years(written: GraceYear) -> Iterator[ClauseReading]:
    wide = Bounds(Day(written.year, 1, 1), Day(written.year + 1, 3, 24))
    either = "" if written.both else f"; whichever was meant, it lies within {span_in_words(wide)}"
    for style in _styles(written):
        said = f"A.D. {written}, {style.said}: {span_in_words(style.bounds)} (Julian){either}"
        yield ClauseReading(style.bounds, said, AUTHORITY)


def _days(written: GraceYear, rules: Sequence[DayRule]) -> Iterator[ClauseReading]:
    found = [(style, _within(style, rules)) for style in _styles(written)]
    agreed = all(days == found[0][1] for _, days in found)
    for style, days in found[:1] if agreed else found:
        for bounds in days:
            yield _reading(written, rules, bounds, "" if agreed and not written.both else f", {style.said},")


def _within(style: _Style, rules: Sequence[DayRule]) -> tuple[Bounds, ...]:
    first, last = style.bounds.not_before, style.bounds.not_after
    if first is None or last is None:
        return ()
    found = common_spans(rules, range(first.year, last.year + 1))
    return tuple(both for span in found if (both := met(span, style.bounds)) is not None)


def _reading(written: GraceYear, rules: Sequence[DayRule], bounds: Bounds, style: str) -> ClauseReading:
    first = bounds.not_before or Day(written.year, 1, 1)
    days = day_in_words(first) if bounds.not_before == bounds.not_after else span_in_words(bounds)
    how = [explained(rule, first) for rule in rules]
    said = "; ".join([f"{named(rules)} A.D. {written}{style} is {days}", *filter(None, how)])
    authorities = dict.fromkeys([AUTHORITY, *(rule.anchor.authority for rule in rules)])
    return ClauseReading(bounds, said, "; ".join(authorities))


def _no_such_day(written: GraceYear, rules: Sequence[DayRule]) -> str:
    ran = span_in_words(_styles(written)[0].bounds)
    return f"{named(rules)} does not fall in A.D. {written}, which ran {ran}"


def reckon_both(
    found: Sequence[Reign], year: int, written: GraceYear, rules: Sequence[DayRule] = ()
) -> Reckoning:
    """Return what a year of a reign and a year of grace give together.

    Where they agree, reckoned from 25 March, what they have in common; where they do not, the
    readings of each, and the problem.
    """
    regnal, grace = reckon_regnal(found, year, rules), reckon_grace(written, rules)
    if not regnal.readings or not grace.readings:
        problems = [each.problem for each in (regnal, grace) if each.problem]
        return Reckoning((*regnal.readings, *grace.readings), "; ".join(problems))
    agreed = [
        _agreed(one, other, common)
        for one in regnal.readings
        for other in grace.readings
        if (common := met(one.bounds, other.bounds)) is not None
    ]
    lady_day = any(_in_old_style(reading, written) for reading in agreed)
    if agreed and (lady_day or written.both):
        return Reckoning(tuple(reading for reading in agreed if not rules or _in_old_style(reading, written)))
    modern = "; they agree only if the year is taken to begin on 1 January" if agreed else ""
    return Reckoning(
        (*regnal.readings, *(reading for reading in grace.readings if not _same(reading, regnal.readings))),
        _conflict(regnal.readings, grace.readings, called(found[0], year), modern),
    )


def _in_old_style(reading: ClauseReading, written: GraceYear) -> bool:
    return met(reading.bounds, _styles(written)[0].bounds) is not None


def _same(reading: ClauseReading, others: Sequence[ClauseReading]) -> bool:
    return any(reading.bounds == other.bounds for other in others)


def _agreed(regnal: ClauseReading, grace: ClauseReading, common: Bounds) -> ClauseReading:
    agree = "agree on" if common.not_before == common.not_after else "have in common only"
    said = f"the two years {agree} {span_in_words(common)}: {regnal.said}; {grace.said}"
    authority = dict.fromkeys((*regnal.authority.split("; "), *grace.authority.split("; ")))
    return ClauseReading(common, said, "; ".join(authority))


def _conflict(
    regnal: Sequence[ClauseReading], grace: Sequence[ClauseReading], cited: str, modern: str
) -> str:
    one = " or ".join(span_in_words(reading.bounds) for reading in regnal)
    other = grace[0]
    first = other.bounds.not_before
    held = " or ".join(regnal_years_of(first)) if first and first == other.bounds.not_after else ""
    which = f", which is {held}" if held else ""
    return (
        f"the year of grace and the year of the reign do not agree: by {cited} it is {one}; by the year of "
        f"grace, if that begins on 25 March, {span_in_words(other.bounds)}{which}{modern}"
    )
