"""Which words stand beside which: the alignment of one item in several witnesses."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from collate.model.value import value
from collate.model.witness import Item, Token


class Presence(StrEnum):
    """Whether a witness has words at a place, has none, or has lost the place."""

    PRESENT = "present"
    OMITTED = "omitted"
    LACUNOSE = "lacunose"


@value
class Span:
    """Tokens [start, stop) of one witness."""

    start: int
    stop: int
    presence: Presence


@dataclass(frozen=True, slots=True)
class Column:
    """Words that stand beside one another: one span for each witness of the collation, in its order."""

    spans: tuple[Span, ...]


@dataclass(frozen=True, slots=True, order=True)
class Locus:
    """Columns [first, stop) that vary together."""

    first: int
    stop: int


@dataclass(frozen=True, slots=True)
class Transposition:
    """Tokens [start, stop) of a witness whose like stands in the columns [home, home_stop)."""

    siglum: str
    start: int
    stop: int
    home: int
    home_stop: int


def columns_of(columns: Sequence[Column], witness: int, start: int, stop: int) -> Locus:
    """Return the columns in which the tokens [start, stop) of a witness (by its index) stand."""

    def begins(column: Column) -> int:
        return column.spans[witness].start

    first = bisect_right(columns, start, key=begins) - 1
    return Locus(first, bisect_right(columns, stop - 1, key=begins))


@dataclass(frozen=True, slots=True)
class Collation:
    """One item of several witnesses, aligned.

    `items` and `sigla` stand in one order, which is also that of every column's spans. The spans
    of a witness run from 0 to the number of its tokens without a hole or an overlap. `parted` are columns
    over which two copies have one text divided otherwise, and some third copy other words.
    """

    key: str
    sigla: tuple[str, ...]
    items: tuple[Item, ...]
    columns: tuple[Column, ...]
    loci: tuple[Locus, ...]
    transpositions: tuple[Transposition, ...] = ()
    parted: tuple[Locus, ...] = ()

    def tokens(self, witness: int, first: int, stop: int) -> tuple[Token, ...]:
        """Return the tokens of a witness (by its index) in the columns [first, stop)."""
        if first >= stop:
            return ()
        begin = self.columns[first].spans[witness].start
        return self.items[witness].tokens[begin : self.columns[stop - 1].spans[witness].stop]
