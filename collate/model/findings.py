"""All that was found of an edition."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from collate.model.apparatus import Entry
from collate.model.collation import Collation, Locus, Transposition
from collate.model.edition import Edition
from collate.model.evidence import Evidence
from collate.model.hands import Correction
from collate.model.notice import Notice
from collate.model.tense import TenseShift
from collate.model.witness import ItemKind


@dataclass(frozen=True, slots=True)
class Bearing:
    """A place of variation at which words stand that bear on date, and the evidence.

    Evidence of several witnesses stands together if its words are the same and it concludes the same.
    """

    locus: Locus
    evidence: tuple[tuple[Evidence, ...], ...]


@dataclass(frozen=True, slots=True)
class ItemFindings:
    """One item: its collation, the apparatus on `base`, and which witnesses lack the item.

    `entries` are the places of the collation, all variants in each; `substantive` and `accidental`
    the same variants as an editor prints them. `shifts` are its shifts of tense, `bearings` the places that
    bear on date, where these were asked for, `corrections` what the scribes did to their own text, `moved`
    the transpositions that the apparatus tells, each with the witnesses of which it tells them.
    """

    collation: Collation
    kind: ItemKind
    base: str
    absent: tuple[str, ...]
    entries: tuple[Entry, ...]
    substantive: tuple[Entry, ...] = ()
    accidental: tuple[Entry, ...] = ()
    shifts: tuple[TenseShift, ...] = ()
    bearings: tuple[Bearing, ...] = ()
    corrections: tuple[Correction, ...] = ()
    moved: Mapping[Transposition, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Findings:
    """An edition's items in its order; `items` may be an iterator that is read once."""

    edition: Edition
    items: Iterable[ItemFindings]
    notices: tuple[Notice, ...] = ()
