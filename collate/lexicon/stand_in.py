"""Stands in for the calendar until it is merged."""

import calendar
import re
from collections.abc import Sequence
from dataclasses import dataclass

from collate.model.dates import Bounds, Day
from collate.model.witness import Token


@dataclass(frozen=True, slots=True)
class ClauseReading:
    """One thing that a dated clause may mean."""

    bounds: Bounds
    said: str
    authority: str


@dataclass(frozen=True, slots=True)
class DatedClause:
    """The tokens [start, stop) that state a date."""

    start: int
    stop: int
    kind: str
    readings: tuple[ClauseReading, ...] = ()
    problem: str = ""


@dataclass(frozen=True, slots=True)
class NumberedKing:
    """The tokens [start, stop) that name a king by his number."""

    start: int
    stop: int
    king: str
    bounds: Bounds
    said: str
    authority: str


def dated_clauses(tokens: Sequence[Token]) -> tuple[DatedClause, ...]:
    """Find nothing."""
    return ()


def numbered_kings(tokens: Sequence[Token]) -> tuple[NumberedKing, ...]:
    """Find nothing."""
    return ()


def read_edtf(text: str) -> Bounds:
    """Read years, months, days and intervals of them."""
    if "/" in text:
        first, last = text.split("/")
        return Bounds(
            read_edtf(first).not_before if first not in ("", "..") else None,
            read_edtf(last).not_after if last not in ("", "..") else None,
        )
    found = re.fullmatch(r"(\d{4})(?:-(\d\d)(?:-(\d\d))?)?[?~%]?", text)
    if not found:
        raise ValueError(f"{text!r} is no date")
    year, month, day = (int(part) if part else None for part in found.groups())
    assert year is not None
    last_month = month or 12
    end = calendar.monthrange(year, last_month)[1]
    return Bounds(Day(year, month or 1, day or 1), Day(year, last_month, day or end))


@dataclass(frozen=True, slots=True)
class VerbGroup:
    """A verb with its auxiliaries."""

    start: int
    stop: int
    tense: str
    headword: str
    subject: str = ""


def verb_groups(tokens: Sequence[Token]) -> tuple[VerbGroup, ...]:
    """Find finite forms that can be of one tense only."""
    from collate.lexicon.words import lexicon, senses

    found = []
    for at, token in enumerate(tokens):
        verbs = [s for s in senses(token.expanded, lexicon()) if s.headword.word_class == "verb"]
        features = {feature for sense in verbs for feature in sense.features}
        if not verbs or token.language != "en":
            continue
        past = any("preterite" in feature for feature in features)
        present = "present-3s" in features or "present-plural" in features
        before = tokens[at - 1].expanded.casefold() if at else ""
        subject = before if before in ("he", "she", "they", "þei") else ""
        if past != present:
            found.append(
                VerbGroup(at, at + 1, "present" if present else "preterite", verbs[0].headword.name, subject)
            )
    return tuple(found)
