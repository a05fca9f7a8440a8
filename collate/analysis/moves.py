"""Moved words as an editor sees them: which readings are the two ends of a move, and how it is printed."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from collate.model.collation import Collation, Locus, columns_of
from collate.model.witness import TokenKind, without_points

NEAR = 4
"""Over how many words of the base a move is printed as one inverted phrase."""


@dataclass(frozen=True, slots=True)
class Move:
    """Words that stand in the columns `away` in some witnesses and in the columns `home` in others."""

    away: Locus
    home: Locus
    moved: frozenset[str]
    settled: frozenset[str]

    def parts(self, a: str, b: str) -> bool:
        """Say whether one of two witnesses has the words away and the other at home."""
        return (a in self.moved and b in self.settled) or (b in self.moved and a in self.settled)

    def touches(self, locus: Locus) -> bool:
        """Say whether a place lies in the columns of either end."""
        return any(end.first <= locus.first and locus.stop <= end.stop for end in (self.away, self.home))


def moves(collation: Collation) -> tuple[Move, ...]:
    """Return the moves of a collation, each with all its witnesses, in order of their homes."""
    grouped: dict[tuple[int, int, int, int], set[str]] = {}
    for moved in collation.transpositions:
        w = collation.sigla.index(moved.siglum)
        away = columns_of(collation.columns, w, moved.start, moved.stop)
        grouped.setdefault((away.first, away.stop, moved.home, moved.home_stop), set()).add(moved.siglum)
    return tuple(_move(collation, key, frozenset(sigla)) for key, sigla in sorted(grouped.items()))


def _move(collation: Collation, key: tuple[int, int, int, int], moved: frozenset[str]) -> Move:
    away, home = Locus(key[0], key[1]), Locus(key[2], key[3])
    settled = frozenset(
        siglum
        for w, siglum in enumerate(collation.sigla)
        if siglum not in moved and _has_words(collation, w, home)
    )
    return Move(away, home, moved, settled)


def _has_words(collation: Collation, w: int, locus: Locus) -> bool:
    tokens = collation.tokens(w, locus.first, locus.stop)
    return any(token.kind in (TokenKind.WORD, TokenKind.NUMERAL) for token in tokens)


MovesAt = Mapping[int, tuple[Move, ...]]
"""The moves that have an end in a column."""


def by_column(found: Sequence[Move]) -> MovesAt:
    """Return moves by the columns of both their ends."""
    at: dict[int, tuple[Move, ...]] = {}
    for move in found:
        columns = {*range(move.away.first, move.away.stop), *range(move.home.first, move.home.stop)}
        for column in columns:
            at[column] = (*at.get(column, ()), move)
    return at


def is_move(found: MovesAt, locus: Locus, base: str, siglum: str) -> bool:
    """Say whether what a witness has at a place, beside the base, is only one end of a move."""
    return any(move.touches(locus) and move.parts(base, siglum) for move in found.get(locus.first, ()))


@dataclass(frozen=True, slots=True)
class PrintedMove:
    """A move as printed: the columns of its lemma, who reads otherwise, and after which column of the base.

    `after` is None where the lemma is the whole inverted phrase.
    """

    lemma: Locus
    sigla: tuple[str, ...]
    after: int | None


def printed(collation: Collation, found: Sequence[Move], base: str) -> Iterator[PrintedMove]:
    """Yield the moves in which the base takes part; those of one lemma, printed alike, are one."""
    grouped: dict[tuple[Locus, int | None], set[str]] = {}
    for move in _each(collation, found, base):
        grouped.setdefault((move.lemma, move.after), set()).update(move.sigla)
    for (lemma, after), sigla in grouped.items():
        yield PrintedMove(lemma, tuple(siglum for siglum in collation.sigla if siglum in sigla), after)


def _each(collation: Collation, found: Sequence[Move], base: str) -> Iterator[PrintedMove]:
    w = collation.sigla.index(base)
    for move in found:
        if base in move.settled:
            ours, theirs, others = move.home, move.away, move.moved
        elif base in move.moved:
            ours, theirs, others = move.away, move.home, move.settled
        else:
            continue
        sigla = tuple(siglum for siglum in collation.sigla if siglum in others)
        low, high = min(ours.first, theirs.first), max(ours.stop, theirs.stop)
        words = without_points(collation.tokens(w, low, high))
        mine = without_points(collation.tokens(w, ours.first, ours.stop))
        if len(words) - len(mine) <= NEAR:
            yield PrintedMove(Locus(low, high), sigla, None)
        else:
            yield PrintedMove(ours, sigla, theirs.first)
