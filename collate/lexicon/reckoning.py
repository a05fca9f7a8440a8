"""Dates reckoned from their parts: days, a year of a reign, a year of grace in, every reading out."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from collate.lexicon.calendar import in_words, weekday, weekday_names
from collate.lexicon.day_phrases import DayKind, DayPhrase
from collate.lexicon.days import DayRule
from collate.lexicon.grace import GraceYear, reckon_both, reckon_grace
from collate.lexicon.kings import ROMAN, candidates
from collate.lexicon.regnal import named, reckon_regnal
from collate.lexicon.year_phrases import KingPhrase, YearPhrase
from collate.model.clauses import ClauseReading, Reckoning

FEW_HUNDREDS = 100
"""A year of grace below this leaves out its hundreds."""


def reckoned(days: Sequence[DayPhrase], year: YearPhrase | None, grace: GraceYear | None) -> Reckoning:
    """Return every reading of a date; where a day may be one of several feasts, each is reckoned."""
    choices = tuple(_choices(days))
    weekdays = [day.weekday for day in days if day.weekday is not None]
    if year is None and grace is None:
        return Reckoning(problem=_no_year(days))
    if grace is not None and grace.year < FEW_HUNDREDS:
        return Reckoning(
            problem=f"the year of grace {grace.year} lacks its hundreds; give it whole, as 14{grace.year:02}"
        )
    found = [_one_choice(rules, year, grace) for rules in choices]
    readings = tuple(dict.fromkeys(reading for each in found for reading in each.readings))
    problems = [each.problem for each in found if each.problem and (each.readings or not readings)]
    told = Reckoning(readings, "; ".join(dict.fromkeys(problems)))
    return _with_weekdays(told, weekdays) if choices != ((),) else told


def _choices(days: Sequence[DayPhrase]) -> Iterator[tuple[DayRule, ...]]:
    exact = any(day.kind in (DayKind.EXACT, DayKind.FEAST) for day in days)
    ruled = [day.rules for day in days if day.rules and not (exact and day.kind is DayKind.MONTH)]
    yield from product(*ruled)


def _no_year(days: Sequence[DayPhrase]) -> str:
    told = ", ".join(dict.fromkeys(rule.said for day in days for rule in day.rules[:1]))
    return f"no year is named with {told}, so it gives no date; a year of a reign or of grace would give one"


def _one_choice(rules: Sequence[DayRule], year: YearPhrase | None, grace: GraceYear | None) -> Reckoning:
    told = _by_years(rules, year, grace)
    if told.readings or len(rules) < 2:
        return told
    apart = [(rule, _by_years([rule], year, grace)) for rule in rules]
    readings = tuple(reading for _, each in apart for reading in each.readings)
    if not readings or not all(each.readings for _, each in apart):
        return told
    days = "; ".join(f"{rule.said} is {_listed(each.readings)}" for rule, each in apart)
    return Reckoning(readings, f"{named(rules)} do not fall on one day: {days}")


def _listed(readings: Sequence[ClauseReading]) -> str:
    days = [in_words(reading.bounds.not_before) for reading in readings if reading.bounds.not_before]
    return " or ".join(dict.fromkeys(days))


def _by_years(rules: Sequence[DayRule], year: YearPhrase | None, grace: GraceYear | None) -> Reckoning:
    if year is None or year.king is None:
        return reckon_grace(grace, rules) if grace else Reckoning()
    other = reckon_grace(grace, rules) if grace else Reckoning()
    if not year.king.name:
        return Reckoning(other.readings, "the words refer to a king, and none is named before; name him")
    if year.number is None:
        return Reckoning(other.readings, _no_regnal_year(year.king))
    kings = candidates(year.king)
    if kings.problem:
        return Reckoning(other.readings, kings.problem)
    if grace is None:
        told = reckon_regnal(kings.reigns, year.number, rules)
    else:
        told = reckon_both(kings.reigns, year.number, grace, rules)
    return _styled(told, kings.said)


def _no_regnal_year(king: KingPhrase) -> str:
    number = f" {ROMAN[king.number]}" if king.number else ""
    either = (
        f"; or {king.number} is the year, and the king {king.name} has no number"
        if king.number and king.maybe_year
        else ""
    )
    return f"no year of the reign of King {king.name}{number} is named{either}; give both, as 16 Ric. II"


def _styled(told: Reckoning, said: str) -> Reckoning:
    if not said:
        return told
    return replace(told, readings=tuple(replace(each, said=f"{said}; {each.said}") for each in told.readings))


def _with_weekdays(told: Reckoning, weekdays: Sequence[int]) -> Reckoning:
    """Hold readings against a weekday that is stated: those it fits stay; if it fits none, all do."""
    for wanted in dict.fromkeys(weekdays):
        name = weekday_names()[wanted]
        fitting = [reading for reading in told.readings if _falls_on(reading, wanted)]
        if fitting:
            left = len(told.readings) - len(fitting)
            only = f" (of {left + 1} readings only this one is)" if left else ""
            stated = f"; it is a {name}, as stated{only}"
            told = replace(told, readings=tuple(replace(r, said=r.said + stated) for r in fitting))
        elif told.readings:
            days = " and ".join(dict.fromkeys(_with_name(reading) for reading in told.readings))
            told = replace(told, problem="; ".join(filter(None, (told.problem, f"{days}, not a {name}"))))
    return told


def _falls_on(reading: ClauseReading, wanted: int) -> bool:
    first, last = reading.bounds.not_before, reading.bounds.not_after
    return first is not None and (first != last or weekday(first) == wanted)


def _with_name(reading: ClauseReading) -> str:
    first = reading.bounds.not_before
    return f"{in_words(first)} was a {weekday_names()[weekday(first)]}" if first else ""
