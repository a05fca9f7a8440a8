"""Dated clauses: the tokens of a passage in, what in them states a date and what it may mean out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from collate.lexicon.calendar import in_words
from collate.lexicon.date_numbers import atoms_at
from collate.lexicon.date_words import Word, begins_date, is_at, plays, words_of
from collate.lexicon.day_phrases import DayKind, DayPhrase, day_at
from collate.lexicon.feasts import begins_feast
from collate.lexicon.kings import candidates, kings_named
from collate.lexicon.reckoning import reckoned
from collate.lexicon.year_phrases import KingPhrase, YearPhrase, bare_year, year_at
from collate.model.clauses import ClauseKind, DatedClause, NumberedKing, Reckoning
from collate.model.dates import Bounds
from collate.model.witness import Token

LITTLE = ("article", "of", "in", "and", "our", "between", "next", "day", "same", "year")
"""The parts that the words between and beside the parts of a date may play."""
_REACH = 6
"""How many little words may stand between the parts of one date."""


@dataclass(frozen=True, slots=True)
class Parts:
    """The parts of one date: days, and at most one year of a reign and one of grace."""

    days: tuple[DayPhrase, ...] = ()
    regnal: YearPhrase | None = None
    grace: YearPhrase | None = None
    same: YearPhrase | None = None

    @property
    def spans(self) -> tuple[tuple[int, int], ...]:
        """The words of each part, [start, stop), in their order."""
        years = [(year.start, year.stop) for year in (self.regnal, self.grace, self.same) if year]
        return tuple(sorted([*((day.start, day.stop) for day in self.days), *years]))

    def joined(self, part: DayPhrase | YearPhrase) -> "Parts | None":
        """Return these parts with one more, or None where it belongs to another date."""
        dated = self.regnal or self.grace or self.same
        if isinstance(part, DayPhrase):
            return None if self.days and dated else replace(self, days=(*self.days, part))
        if part.same:
            return None if dated else replace(self, same=part)
        if part.king is not None:
            return None if self.regnal else replace(self, regnal=part)
        return None if self.grace else replace(self, grace=part)


def dated_clauses(tokens: Sequence[Token]) -> tuple[DatedClause, ...]:
    """Return the dated clauses of a passage in their order, each with every reading of it.

    "The same king", "his reign" and "the same year" are the last that the passage names. A king
    without a year is no date, nor is a feast or a month without one; a day beside a feast or by its
    number is reported though no year gives it a date.
    """
    words = words_of(tokens)
    return tuple(
        replace(clause, start=_from(words, clause.start), stop=words[clause.stop - 1].at + 1)
        for clause in clauses_of(words)
    )


def _from(words: Sequence[Word], start: int) -> int:
    """Take the article before a clause with it."""
    before = start > 0 and plays(words[start - 1], "article") and not words[start].broken
    return words[start - 1 if before else start].at


def clauses_of(words: Sequence[Word]) -> tuple[DatedClause, ...]:
    """Return the dated clauses of some words; start and stop count words."""
    kings, last = kings_named(words), Parts()
    found: list[DatedClause] = []
    for parts in parts_of(words):
        if not _is_date(words, parts):
            continue
        full = _resolved(parts, kings, last)
        found.append(_clause(parts, full))
        last = full if full.regnal or full.grace else last
    return tuple(found)


def parts_of(words: Sequence[Word]) -> Iterator[Parts]:
    """Yield the parts of each date that some words may name, joined where only little words part them."""
    held, end, month = Parts(), 0, None
    for part in _single_parts(words, month):
        near = part.start - end <= _REACH and _joins(words, end, part.start)
        longer = held.joined(part) if near and held.spans else None
        if longer is None:
            if held.spans:
                yield held
            longer = Parts().joined(part)
        held, end = longer or held, part.stop
    if held.spans:
        yield held


def _joins(words: Sequence[Word], start: int, stop: int) -> bool:
    whole = not any(word.broken for word in words[start : stop + 1])
    return whole and all(plays(word, *LITTLE) for word in words[start:stop])


def _single_parts(words: Sequence[Word], month: int | None) -> Iterator[DayPhrase | YearPhrase]:
    at = 0
    while at < len(words):
        if not _may_begin(words, at):
            at += 1
            continue
        day, year = day_at(words, at, month), year_at(words, at)
        part = max((each for each in (year, day) if each), key=lambda each: each.stop, default=None)
        part = part or _figures(words, at)
        if part is None:
            at += 1
            continue
        yield part
        at = part.stop
        if isinstance(part, DayPhrase):
            month = part.month or month
            if part.kind is not DayKind.WEEKDAY and (bare := _bare(words, at)):
                yield bare
                at = bare.stop


def _may_begin(words: Sequence[Word], at: int) -> bool:
    """Say whether it is worth looking for a date here: nearly every word of a text is passed over."""
    word = words[at]
    return begins_date(word) or bool(atoms_at(words, at)) or begins_feast(word.key)


def _figures(words: Sequence[Word], at: int) -> YearPhrase | None:
    """Return a year in four figures behind *in*, at the very end (a colophon's), or typed by a scholar."""
    shown = is_at(words, at - 1, "in") or at == len(words) - 1 or not words[at].language
    if words[at].both or (shown and words[at].key.isdigit() and len(words[at].key) == 4):
        return bare_year(words, at)
    return None


def _bare(words: Sequence[Word], at: int) -> YearPhrase | None:
    return None if year_at(words, at) else bare_year(words, at)


def _is_date(words: Sequence[Word], parts: Parts) -> bool:
    """Say whether parts make a date to be told of, if only as one that lacks its year."""
    if parts.grace or parts.same:
        return bool(parts.grace or parts.days)
    if parts.regnal is not None and parts.regnal.king is not None:
        if parts.regnal.number is None and parts.regnal.king.number is None:
            return False
        return _is_regnal(words, parts, parts.regnal.king)
    for day in parts.days:
        relation = any(rule.weekday is not None for rule in day.rules)
        numbered = any(plays(word, "day", "kalends", "nones", "ides") for word in words[day.start : day.stop])
        if day.kind is DayKind.EXACT and (relation or numbered):
            return True
    return False


def _is_regnal(words: Sequence[Word], parts: Parts, king: KingPhrase) -> bool:
    """Say whether a year and a name are a regnal year: "xij hen" in a text is none, "12 Hen. IV" is."""
    typed = not words[king.start].language
    if king.short and not king.titled:
        capital = any(word.written[:1].isupper() for word in words[king.start : king.stop])
        return typed or (capital and bool(king.number or king.sons or parts.days))
    return bool(king.titled or king.same or king.number or king.sons or parts.days or typed)


def _resolved(parts: Parts, kings: Sequence[KingPhrase], last: Parts) -> Parts:
    """Put the last king named for "the same king", the last year for "the same year"."""
    if parts.same is not None:
        return replace(parts, regnal=parts.regnal or last.regnal, grace=parts.grace or last.grace)
    year = parts.regnal
    if year is None or year.king is None or not year.king.same or year.king.number:
        return parts
    name, start = year.king.name, year.king.start
    named = [king for king in kings if king.stop <= start and name in ("", king.name)]
    numbered = [king for king in named if king.number] if name else named
    return replace(parts, regnal=replace(year, king=numbered[-1])) if numbered else parts


def _clause(parts: Parts, full: Parts) -> DatedClause:
    spans = parts.spans
    kind = ClauseKind.REGNAL if full.regnal is not None else ClauseKind.CALENDAR
    told = _told(full)
    return DatedClause(spans[0][0], max(stop for _, stop in spans), kind, told.readings, told.problem)


def _told(full: Parts) -> Reckoning:
    year, grace = full.regnal, full.grace
    if full.same and not year and not grace:
        return Reckoning(
            problem="“the same year” refers to no year that is named before; give the year itself"
        )
    return reckoned(full.days, year, grace.grace if grace else None)


def numbered_kings(tokens: Sequence[Token]) -> tuple[NumberedKing, ...]:
    """Return the kings named by number (or as son of another) in a passage, in their order.

    Nobody could so name a king before his first day: that bounds the wording from below.
    """
    words = words_of(tokens)
    return tuple(_numbered_kings(words))


def _numbered_kings(words: Sequence[Word]) -> Iterator[NumberedKing]:
    for king in kings_named(words):
        found = candidates(king).reigns
        if not found or not (king.number or king.sons) or not (king.titled or king.conquest or king.sons):
            continue
        first = min(found, key=lambda reign: reign.first)
        said = f"{first.king} is so named, and his reign began on {in_words(first.first)}"
        span = words[king.start].at, words[king.stop - 1].at + 1
        yield NumberedKing(*span, first.king, Bounds(first.first), said, first.authority)
