"""An edition as its editor states it: the witnesses, their hands and practice, and the persons."""

from dataclasses import dataclass, field
from enum import StrEnum

from collate.model.source import Place
from collate.model.words import UserWords


class LineMode(StrEnum):
    """Whether the lines of a transcription file are lines of the manuscript."""

    FREE = "free"
    MANUSCRIPT = "manuscript"


@dataclass(frozen=True, slots=True)
class DateRange:
    """A date as `stated`, and what it means in years under the named `scheme`, both ends included."""

    stated: str
    not_before: int
    not_after: int
    scheme: str


@dataclass(frozen=True, slots=True)
class Practice:
    """One scribe's stated practice: sign -> expansion pairs, and the signs that mean nothing."""

    expansions: tuple[tuple[str, str], ...] = ()
    otiose: tuple[str, ...] = ()
    hand: str = "1"


@dataclass(frozen=True, slots=True)
class Witness:
    """One copy: `file` is its transcription, relative to the edition folder; `told` is where it is named."""

    siglum: str
    name: str
    file: str
    hand: DateRange | None = None
    lines: LineMode = LineMode.FREE
    practices: tuple[Practice, ...] = ()
    told: Place | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody the text may name. Dates are EDTF strings as the editor wrote them."""

    name: str
    written: tuple[str, ...] = ()
    office: str | None = None
    held_from: str | None = None
    held_to: str | None = None
    died: str | None = None
    authority: str | None = None


@dataclass(frozen=True, slots=True)
class FixedMatch:
    """An editor's ruling: the items named, (siglum, label) each, are one (or, if `apart`, are not)."""

    items: tuple[tuple[str, str], ...]
    reason: str
    place: Place
    apart: bool = False


@dataclass(frozen=True, slots=True)
class Edition:
    """What an edition folder (or a list of files) declares. `witnesses` stand in the edition's order.

    `base_reason` is "" unless the base was found by a rule.
    """

    title: str
    base: str
    witnesses: tuple[Witness, ...]
    persons: tuple[Person, ...] = ()
    silenced: tuple[tuple[str, str], ...] = ()
    date_scheme: str = "quarters"
    rules_on: tuple[str, ...] = ()
    rules_off: tuple[str, ...] = ()
    words: UserWords = field(default_factory=UserWords)
    base_reason: str = ""
    matches: tuple[FixedMatch, ...] = ()
