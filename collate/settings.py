"""What a user may choose: one frozen group per stage, each with its default."""

from dataclasses import dataclass, field
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class Normalising:
    """Which spelling rules are switched on or off against the table's own default."""

    on: frozenset[str] = frozenset()
    off: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Aligning:
    """The scores of the alignment, all per pair of words; a perfect match scores `match`.

    Two function words that match score the share `function` of that: they stand anywhere. A word beside one
    with nothing of it costs `unlike`, beside one of likeness `alike` costs `mismatch`, and from there on the
    score rises to `match`; a function word beside a word of content costs `apart` more.
    A gap costs `gap_open` and, for each word in it, `gap_extend`. `rounds` bounds the refinement.
    """

    match: float = 1.0
    function: float = 0.5
    mismatch: float = -0.4
    unlike: float = -0.48
    apart: float = -0.1
    gap_open: float = -0.45
    gap_extend: float = -0.25
    alike: float = 0.5
    rounds: int = 2


@dataclass(frozen=True, slots=True)
class Printing:
    """How a report is laid out."""

    width: int = 80
    colour: bool = False
    positive: bool = False
    accidentals: bool = True


class Attachment(StrEnum):
    """How the entries of a TEI document are tied to its text.

    They stand in it, each in its place (parallel segmentation), or apart from it, each pointing to
    where its place begins and ends (double end-point attachment).
    """

    INLINE = "inline"
    END_POINTS = "end-points"


@dataclass(frozen=True, slots=True)
class Settings:
    """Everything a user may choose."""

    normalising: Normalising = field(default_factory=Normalising)
    aligning: Aligning = field(default_factory=Aligning)
    printing: Printing = field(default_factory=Printing)
    base: str | None = None
    jobs: int = 1
