"""A transcription as a reader hands it on: runs of text under the labels of their items."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.edition import Witness
from collate.model.notice import Notice
from collate.model.source import Place
from collate.model.value import value


class Mark(StrEnum):
    """What an editor's mark says of the letters under it. `docs/transcribing.md` shows each."""

    EXPANDED = "expanded"
    ADDED = "added"
    SURPLUS = "surplus"
    SUPPLIED = "supplied"
    DELETED = "deleted"
    INSERTED = "inserted"
    UNCERTAIN = "uncertain"
    ILLEGIBLE = "illegible"
    LOST = "lost"
    RUBRIC = "rubric"
    INITIAL = "initial"
    MARGIN = "margin"
    CATCHWORD = "catchword"
    SPACE = "space"


ASIDE = frozenset({Mark.DELETED, Mark.MARGIN, Mark.CATCHWORD, Mark.SPACE})
"""Marks whose letters stand outside the text as the copy finally has it."""


class Part(StrEnum):
    """What a run is to the text: letters, an opening or closing mark, a break, or a lost stretch."""

    TEXT = "text"
    OPEN = "open"
    CLOSE = "close"
    BREAK = "break"
    GAP = "gap"


@value
class Run:
    """A stretch under the same marks. The `raw`s of all runs, joined, give the source text back.

    `text` is what the letters are once the mark is understood: "" for a mark itself.
    `marks` stand outermost first; `note` is a mark's argument (the hand of a marginal addition).
    """

    raw: str
    text: str
    place: Place
    marks: tuple[Mark, ...] = ()
    part: Part = Part.TEXT
    note: str = ""


@dataclass(frozen=True, slots=True)
class Passage:
    """One item of a witness before it is cut into words.

    `lead` is the raw text before its first run, the item line included; `heading` that line's words.
    """

    label: str
    heading: tuple[Run, ...]
    lead: str
    place: Place
    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Transcript:
    """One witness as read, its items in the order of the book."""

    witness: Witness
    passages: tuple[Passage, ...]
    notices: tuple[Notice, ...] = ()
