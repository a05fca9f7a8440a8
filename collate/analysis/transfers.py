"""Moved words as they are told: which words of the base, beside which word, and what differs within them.

Words that keep most of their number together in another place are told as moved, each word within them that
differs as a variant of its own. Of two neighbours that changed places that one is told as moved of which
every word is the same.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from collate.analysis.elsewhere import NEXT, Block, Sides, beside
from collate.model.collation import Collation, Locus
from collate.model.witness import Token

BEFORE = 2
"""How many words, at most, that a copy adds before moved words are told with the first of these."""

LEAST = 3
"""How many words must be the same, where some differ."""


@dataclass(frozen=True, slots=True)
class Change:
    """Words of the base, by their columns, for which a witness has others where it moved them, or beside."""

    locus: Locus
    words: tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Transfer:
    """Words of the base in the columns `lemma` that a witness has before the token `at` of the base.

    All that differs in `columns` between the two is told by that and by the changes. `block` are the words
    as they stand in the columns: those that moved, or their neighbours, past which they moved.
    """

    lemma: Locus
    at: int
    columns: frozenset[int]
    changes: tuple[Change, ...]
    block: Block


def transfers(collation: Collation, base: int, sides: Sides, moved: Sequence[Block]) -> Iterator[Transfer]:
    """Yield the transfers of a witness that can be told, the longest first.

    Two that come to one place are told if they stand there in the order of the base.
    """
    told: list[Block] = []
    for block in moved:
        if not (sides.pure_home(block) and sides.pure_away(block)):
            continue
        place = _place(sides, block)
        others = [other for other in told if _place(sides, other) == place]
        if any((o.ours.start < block.ours.start) != (o.theirs.start < block.theirs.start) for o in others):
            continue
        before = _before(sides, block, {j for other in others for j in other.theirs})
        after = beside(sides, block.theirs[-1], 1) and block.theirs.stop not in {
            j for other in moved for j in other.theirs
        }
        if after and block.count < LEAST and sides.apart(block) <= NEXT:
            continue
        if before > BEFORE or (block.count < LEAST and (before or not all(map(sides.same, block.groups)))):
            continue
        told.append(block)
        yield _past(sides, block, before) or _transfer(collation, base, sides, block, before)


def _place(sides: Sides, block: Block) -> int:
    """Return how many words of the base stand before the place where some words went."""
    return sides.place(sides.theirs[block.theirs.start].column)


def _before(sides: Sides, block: Block, taken: set[int]) -> int:
    """Return how many words a copy adds right before some words, less those told as moved there."""
    j = block.theirs.start
    while beside(sides, j, -1) and j - 1 not in taken:
        j -= 1
    return block.theirs.start - j


def _columns(sides: Sides, block: Block, before: int) -> frozenset[int]:
    ours = {sides.ours[i].column for i in block.ours if sides.loose_ours[i]}
    start = block.theirs.start - before
    theirs = {sides.theirs[j].column for j in range(start, block.theirs.stop) if sides.loose_theirs[j]}
    return frozenset(ours | theirs | block.others)


def _transfer(collation: Collation, base: int, sides: Sides, block: Block, before: int) -> Transfer:
    home, away = sides.columns(block)
    at = collation.columns[away.first].spans[base].start
    changes = tuple(_changes(sides, block, before))
    return Transfer(home, at, _columns(sides, block, before), changes, block)


def _changes(sides: Sides, block: Block, before: int) -> Iterator[Change]:
    """Yield what differs within moved words; what is added goes with the word before it, or else after it."""
    groups = [(g.i, g.i_stop, g.j, g.j_stop, sides.same(g)) for g in block.groups]
    if before:
        i, i_stop, j, j_stop, _ = groups[0]
        groups[0] = i, i_stop, j - before, j_stop, False
    for at, (i, i_stop, j, j_stop, same) in enumerate(groups):
        if i == i_stop:
            i, _, j, *_ = groups[at - 1]
        elif same or (at + 1 < len(groups) and groups[at + 1][0] == groups[at + 1][1]):
            continue
        columns = Locus(sides.ours[i].column, sides.ours[i_stop - 1].column + 1)
        yield Change(columns, tuple(word for cell in sides.theirs[j:j_stop] for word in cell.words))


def _past(sides: Sides, block: Block, before: int) -> Transfer | None:
    """Return the neighbours of some words as what moved, if they are no longer and all the same."""
    if block.whole and not before:
        return None
    home, away = sides.columns(block)
    start = block.theirs.start - before
    if away.first < home.first:
        ours = range(_place(sides, block), block.ours.start)
        theirs = range(block.theirs.stop, bisect_left(sides.their_columns, home.first))
        at = sides.ours[block.ours[-1]].words[-1].index + 1
    else:
        ours = range(block.ours.stop, _place(sides, block))
        theirs = range(bisect_left(sides.their_columns, home.stop), start)
        at = sides.ours[block.ours.start].words[0].index
    same = [sides.ours[i].key for i in ours] == [sides.theirs[j].key for j in theirs]
    loose = any(sides.loose_ours[i] for i in ours)
    if not same or loose or len(ours) > block.count or not any(map(sides.has_content, ours)):
        return None
    lemma = Locus(sides.ours[ours[0]].column, sides.ours[ours[-1]].column + 1)
    return Transfer(lemma, at, _columns(sides, block, before), tuple(_changes(sides, block, before)), block)
