"""Which item of each witness answers to which, and how the books stand in order."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.witness import Item, ItemKind


class Certainty(StrEnum):
    """How sure it is that an item answers to another."""

    FIXED = "fixed"
    CERTAIN = "certain"
    UNCERTAIN = "uncertain"


@dataclass(frozen=True, slots=True)
class Member:
    """What one witness has of an item of the edition.

    Where several of its items answer together, `item` holds the words of all under a joined label
    ("12+12b"), and `places` says where each stands in the book, from 0. `torn_before` says that the book
    takes up with it after a loss, `torn_after` that it breaks off with it before one.
    `likeness` (0 to 1) is to the first member's words, None for that member itself; `reason` is the ground.
    """

    siglum: str
    item: Item
    places: tuple[int, ...]
    likeness: float | None
    certainty: Certainty
    reason: str
    torn_before: bool = False
    torn_after: bool = False


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
    """An item without a counterpart in another witness, and the likest there is.

    It is too unlike to match, or another item of its own book answers to it: `answered` is that one's label,
    `alike` how like the two are, which says whether the book has it twice.
    """

    siglum: str
    label: str
    other: str
    other_label: str
    likeness: float
    answered: str = ""
    alike: float = 0.0


@dataclass(frozen=True, slots=True)
class Concordance:
    """The items of an edition in the order of its base, and what was too unlike to be matched."""

    base: str
    sigla: tuple[str, ...]
    items: tuple[Match, ...]
    unlike: tuple[Likest, ...] = ()
    orders: tuple["BookOrder", ...] = ()


class Wanting(StrEnum):
    """How a witness comes to lack items that the base has."""

    SINGLE = "single"
    TOGETHER = "together"
    BEGINNING = "beginning"
    END = "end"
    LOST_LEAF = "lost-leaf"


@dataclass(frozen=True, slots=True)
class Loss:
    """Items of the base, neighbours there, that a witness lacks.

    `lost` says whether they are lost rather than left out: "likely", "possible", or "no sign" of it. `after`
    is the item they follow in the base, None at its beginning. `leaves` is how many leaves the count passes
    over, 0 where it does not tell.
    """

    items: tuple[str, ...]
    kind: Wanting
    lost: str
    reason: str
    after: str | None = None
    leaves: int = 0


@dataclass(frozen=True, slots=True)
class Moved:
    """Items that stand elsewhere than in the base: `after` which there, and after which in the base.

    None: at the beginning.
    """

    items: tuple[str, ...]
    after: str | None
    home: str | None


@dataclass(frozen=True, slots=True)
class BookOrder:
    """The order of one witness against the base.

    `items` are the names of what it has, as they follow one another there; `more` those that the base lacks.
    """

    siglum: str
    items: tuple[str, ...]
    moved: tuple[Moved, ...]
    losses: tuple[Loss, ...]
    more: tuple[str, ...]
