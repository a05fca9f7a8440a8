"""What the engine has to say about its input without stopping: notices and faults."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.source import Place


class Severity(StrEnum):
    """How grave a notice is: an error must be mended, a warning looked at, a note known."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Notice:
    """One remark: a stable `code`, one sentence, and the place it is about (None: no place)."""

    code: str
    message: str
    place: Place | None = None
    severity: Severity = Severity.WARNING


CODES = {
    "unreadable": "the file cannot be read, or a mark in it is not sound",
    "item-twice": "two items of one witness have one number or name",
    "item-order": "an item's number is lower than the one before",
    "empty-item": "an item has no words",
    "folio-order": "a page mark goes backwards",
    "line-order": "a line number goes backwards",
    "control-character": "a control character stands in the text",
    "unknown-sign": "a character that is no sign of the notation",
    "doubtful-gap": "letters supplied look like a gap of so many letters",
    "three-for-yogh": "the figure 3 stands for yogh",
    "mixed-yogh": "ezh and yogh stand side by side",
    "roman-numeral": "something looks like a roman numeral and is none",
    "doubled-word": "a word stands twice running",
    "lonely-spelling": "a spelling found once, a letter from a common one",
    "modern-spelling": "a spelling not found before 1500",
    "broken-word": "a word goes on in the next line without a mark",
    "unraised-letters": "a word is one only with some of its letters raised",
    "open-expansion": "an abbreviation is written out by its usual value only",
    "tei-apparatus": "an apparatus entry that is not as it should be",
    "tei-break": "a page or line break that belongs to no one witness",
    "tei-date": "a date in the header that is not understood",
    "tei-glyph": "a glyph without a definition",
    "tei-hand": "a change to a hand that is not described",
    "tei-layers": "a witness with several readings at one place",
    "tei-lemma": "a lemma that differs from the text it is attached to",
    "tei-loose": "text outside any item",
    "tei-negative": "witnesses that are named in no reading of an entry",
    "tei-note": "an editor's note, left out of the text",
    "tei-pointer": "a pointer to a witness that is not as it should be",
    "tei-siglum": "a siglum with a blank in it",
    "tei-stray": "an element where it has no meaning",
    "tei-unknown": "an element of the TEI that is not understood",
    "tei-unnamed": "a witness without a name",
    "tei-witness": "a witness list that is not as it should be",
}
"""Every code a notice may have, and what it says; docs/checks.md has a passage on each."""


@dataclass(frozen=True, slots=True)
class Checked:
    """A notice on a witness; `silenced` is the editor's reason to pass over it, None if there is none."""

    siglum: str
    notice: Notice
    silenced: str | None = None

    @property
    def stands(self) -> bool:
        """Whether this is a fault that remains."""
        return self.silenced is None and self.notice.severity is not Severity.NOTE


@dataclass(frozen=True, slots=True)
class Difference:
    """What stands in the first pass and what in the second, as written, and where."""

    item: str
    first: str
    second: str
    place: Place
    other_place: Place
