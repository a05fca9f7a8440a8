"""What the scribes of a copy did to their own text: corrections, words struck out, notes, changes of hand."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.collation import Locus


class Act(StrEnum):
    """What was done at a place of a copy."""

    CORRECTED = "corrected"
    CANCELLED = "cancelled"
    DELETED = "deleted"
    NOTED = "noted"
    TAKEN_UP = "taken up"


@dataclass(frozen=True, slots=True)
class Correction:
    """An act of a scribe, at the words that stand in `locus`.

    CORRECTED: `first` is what was there at first ("" for nothing), `second` what is there now, `struck`
    the letters cancelled, and `above` says that something was written in above the line.
    CANCELLED: the words `struck` stand before the words of the locus, or after them if `after`.
    DELETED: the words of the locus themselves stand there struck out.
    NOTED: `second` stands in the margin. TAKEN_UP: the hand `hand` begins to write here.

    `begun` is the word, right after them, that words CANCELLED are a false start of, "" where they are none.
    `word` is the word of the locus as the copy has it, where no correction is told of. `hand` is the
    number of the hand that did it, "" where no other than that of the text is known.
    `agrees` says that what is there now is the base's reading but for accidentals. `heading` is "" for an
    act in the text, for one in a heading the words of the base's heading it is told of; it has no locus.
    """

    siglum: str
    locus: Locus
    act: Act
    first: str = ""
    second: str = ""
    struck: str = ""
    word: str = ""
    hand: str = ""
    above: bool = False
    after: bool = False
    agrees: bool = True
    heading: str = ""
    begun: str = ""
