"""Dates as a text states them: the words that state them, and what each reading of them says."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.dates import Bounds


class ClauseKind(StrEnum):
    """By what a clause reckons: the years of a king's reign, or those of the calendar."""

    REGNAL = "regnal-date"
    CALENDAR = "calendar-date"


@dataclass(frozen=True, slots=True)
class ClauseReading:
    """One thing that a dated clause may mean; `said` is the arithmetic of it, in one sentence."""

    bounds: Bounds
    said: str
    authority: str


@dataclass(frozen=True, slots=True)
class DatedClause:
    """The tokens [start, stop) that state a date, and every reading of them.

    `problem` is "" or one sentence: why the clause gives no date, or what in it does not agree, and
    what would be right. The readings stand side by side; none is chosen.
    """

    start: int
    stop: int
    kind: ClauseKind
    readings: tuple[ClauseReading, ...] = ()
    problem: str = ""


@dataclass(frozen=True, slots=True)
class NumberedKing:
    """The tokens [start, stop) that name a king by his number, and what follows for the wording.

    `bounds` holds his first day, before which nobody could so name him.
    """

    start: int
    stop: int
    king: str
    bounds: Bounds
    said: str
    authority: str


@dataclass(frozen=True, slots=True)
class Reckoning:
    """What comes of reckoning a date: its readings, and the problem where something does not agree."""

    readings: tuple[ClauseReading, ...] = ()
    problem: str = ""
