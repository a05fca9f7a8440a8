"""Which item of each witness answers to which: what concord finds, and what an editor rules of it."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.source import Place
from collate.model.witness import Item, ItemKind


class Certainty(StrEnum):
    """How sure it is that an item answers to another."""

    FIXED = "fixed"
    CERTAIN = "certain"
    UNCERTAIN = "uncertain"


@dataclass(frozen=True, slots=True)
class FixedMatch:
    """An editor's ruling: the items named, (siglum, label) each, are one (or, if `apart`, are not)."""

    items: tuple[tuple[str, str], ...]
    reason: str
    place: Place
    apart: bool = False


@dataclass(frozen=True, slots=True)
class Member:
    """What one witness has of an item of the edition.

    Where several of its items answer together, `item` holds the words of all under a joined label
    ("12+12b"), and `places` says where each stands in the book, from 0. `likeness` (0 to 1) is to the
    first member's words, None for that member itself; `reason` is the ground.
    """

    siglum: str
    item: Item
    places: tuple[int, ...]
    likeness: float | None
    certainty: Certainty
    reason: str


@dataclass(frozen=True, slots=True)
class Match:
    """One item of the edition: its name, its kind, and the witnesses that have it, in the edition's order."""

    key: str
    kind: ItemKind
    members: tuple[Member, ...]

    @property
    def texts(self) -> tuple[tuple[str, Item], ...]:
        """The sigla of the witnesses, each with its words."""
        return tuple((member.siglum, member.item) for member in self.members)

    def member(self, siglum: str) -> Member | None:
        """Return what a witness has of the item, None where it has nothing."""
        return next((member for member in self.members if member.siglum == siglum), None)


@dataclass(frozen=True, slots=True)
class Likest:
    """An item without a counterpart in another witness, and the likest there is: too unlike to match."""

    siglum: str
    label: str
    other: str
    other_label: str
    likeness: float


@dataclass(frozen=True, slots=True)
class Concordance:
    """The items of an edition in the order of its base, and what was too unlike to be matched."""

    base: str
    sigla: tuple[str, ...]
    items: tuple[Match, ...]
    unlike: tuple[Likest, ...] = ()
