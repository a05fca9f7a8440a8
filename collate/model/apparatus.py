"""What an apparatus says: readings at a place, and what their difference is."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.collation import Locus, Presence
from collate.model.value import value

BASE_DOUBLES = "the base has "
"""How the reason of an omission begins where what is omitted stands twice in the base."""


class VariantKind(StrEnum):
    """What a reading is beside the lemma."""

    LEMMA = "lemma"
    SPELLING = "spelling"
    ABBREVIATION = "abbreviation"
    DIVISION = "division"
    PUNCTUATION = "punctuation"
    NUMERAL = "numeral"
    INFLECTION = "inflection"
    TENSE = "tense"
    MOOD = "mood"
    SUBSTITUTION = "substitution"
    OMISSION = "omission"
    ADDITION = "addition"
    TRANSPOSITION = "transposition"
    DITTOGRAPHY = "dittography"
    EYE_SKIP = "eye-skip"
    LACUNA = "lacuna"


class Weight(StrEnum):
    """W. W. Greg's division ("The Rationale of Copy-Text", 1950): of meaning, or of presentation."""

    ACCIDENTAL = "accidental"
    SUBSTANTIVE = "substantive"


@value
class Reading:
    """The words of some witnesses at a place: `text` is as displayed, "" where they have none.

    Readings of one `normal` differ in spelling only.
    """

    text: str
    normal: str
    sigla: tuple[str, ...]
    presence: Presence = Presence.PRESENT


@dataclass(frozen=True, slots=True)
class Beside:
    """Where moved words stand: after the token of the base that has this index, or before it."""

    token: int
    before: bool


@value
class Variant:
    """A reading that is not the lemma: what it is, how much it weighs, and by which rule.

    `cause` is the short name of a likely misreading ("n/u"), as a second opinion, and `confusion` its
    sort ("minim"); "" where none is known. `beside` says where moved words stand, if not within the lemma.
    """

    reading: Reading
    kind: VariantKind
    weight: Weight
    reason: str
    cause: str = ""
    confusion: str = ""
    beside: Beside | None = None


@value
class Entry:
    """One place of an apparatus: the base's reading, and the others in the edition's order."""

    locus: Locus
    lemma: Reading
    variants: tuple[Variant, ...]
