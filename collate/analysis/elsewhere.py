"""Words that one text has in one place and another in another: found in the columns of the two alone.

What the two have alike in one column stays. Of the rest the longest runs of the same words are sought, in
both directions from a word of content; a word or two within them may differ, if most are the same. Where
the same word stands before or after, it cannot be said which of the two is wanting (*and X and Y*: *and Y and
X*): the run is then shifted to one side.
"""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from math import log

from collate.analysis.cells import LOST, Cell, Keys, Text
from collate.model.collation import Locus
from collate.model.division import one_wording

NEAR = 20
"""Over how many columns a single word is seen to have moved."""

FAR = 80
"""The same of a phrase."""

NEXT = 10
"""Over how many columns words are looked for that moved and are not the very same."""

GAP = 2
"""How many words, at most, may differ in one place within moved words."""

GAPS = sorted(
    ((m, n) for m in range(GAP + 1) for n in range(GAP + 1) if m + n), key=lambda gap: (sum(gap), gap)
)
"""How many words of both may differ, the fewest first."""

NEAR_LENGTH = 3
"""By how many letters a divided word may differ from the whole."""

CHANCE = 1.05
"""How much rarer than the text is long a run must be: the sum of ln(words / times) over ln(words)."""


@dataclass(frozen=True, slots=True)
class Group:
    """Words [i, i_stop) of one text that answer to words [j, j_stop) of another; `same` if they agree."""

    i: int
    i_stop: int
    j: int
    j_stop: int
    same: bool = True


@dataclass(frozen=True, slots=True)
class Block:
    """Words that stand in both texts, elsewhere: the groups from first to last, and how many are the same.

    `others` are columns that differ between the two by this besides, where it was shifted to one side.
    """

    groups: tuple[Group, ...]
    count: int
    others: frozenset[int] = frozenset()

    @property
    def ours(self) -> range:
        """Return the words of the one text."""
        return range(self.groups[0].i, self.groups[-1].i_stop)

    @property
    def theirs(self) -> range:
        """Return the words of the other text."""
        return range(self.groups[0].j, self.groups[-1].j_stop)

    @property
    def whole(self) -> bool:
        """Say whether all words of the two are the same."""
        return all(group.same for group in self.groups)


class Sides:
    """Two texts by their words, and which of these stand beside no word that is the same."""

    def __init__(self, ours: Text, theirs: Text, keys: Keys) -> None:
        """Set the two side by side."""
        self.ours, self.theirs, self.names = ours.cells, theirs.cells, keys.of
        here, there = ours.by_column, theirs.by_column
        self.here, self.there, self.times = here, there, ours.times
        self.closed: set[int] = set()
        self.our_columns, self.their_columns = ours.columns, theirs.columns
        self.loose_ours = [there.get(column) != key != LOST for column, key in here.items()]
        self.loose_theirs = [here.get(column) != key != LOST for column, key in there.items()]

    def alike(self, i: int, j: int) -> bool:
        """Say whether two words that are there are the same, and one of them at least beside no like."""
        if not (0 <= i < len(self.ours) and 0 <= j < len(self.theirs)):
            return False
        loose = self.loose_ours[i] or self.loose_theirs[j]
        told = not self.closed.isdisjoint((self.ours[i].column, self.theirs[j].column))
        return loose and not told and self.names.alike(self.ours[i], self.theirs[j])

    def close(self, span: Locus) -> None:
        """Take the words in some columns out: what they are is told."""
        self.closed.update(range(span.first, span.stop))
        for columns, loose in (
            (self.our_columns, self.loose_ours),
            (self.their_columns, self.loose_theirs),
        ):
            first, stop = (bisect_left(columns, at) for at in (span.first, span.stop))
            loose[first:stop] = [False] * (stop - first)

    def free(self, i: int, i_stop: int, j: int, j_stop: int) -> bool:
        """Say whether some words of both are there, and beside no like."""
        if i < 0 or j < 0 or i_stop > len(self.ours) or j_stop > len(self.theirs):
            return False
        return all(self.loose_ours[i:i_stop]) and all(self.loose_theirs[j:j_stop])

    def stays(self, i: int) -> bool:
        """Say whether a word of the first text stands beside its like, and no exchange is told of it."""
        return not self.loose_ours[i] and self.ours[i].column not in self.closed

    def wanting(self, i: int) -> bool:
        """Say whether the second text has no word in the column of one of the first."""
        return self.ours[i].column not in self.there

    def same(self, group: Group) -> bool:
        """Say whether the words of a group are the same, as read by themselves."""
        sides = self.ours[group.i : group.i_stop], self.theirs[group.j : group.j_stop]
        ours, theirs = ([word for cell in cells for word in cell.words] for cells in sides)
        return group.same and one_wording(ours, theirs, self.names.judge)

    def has_content(self, i: int) -> bool:
        """Say whether a word of the first text is more than a function word or a number."""
        return self.names.has_content(self.ours[i].key)

    def place(self, column: int) -> int:
        """Return how many words of the first text stand before a column."""
        return bisect_left(self.our_columns, column)

    def apart(self, block: Block) -> int:
        """Return how many columns lie between the two places of some words."""
        return abs(self.ours[block.ours.start].column - self.theirs[block.theirs.start].column)

    def crosses(self, block: Block) -> bool:
        """Say whether a column in which both texts have words lies between the two places of some words."""
        home, away = self.columns(block)
        (_, first), (stop, _) = sorted(((home.first, home.stop), (away.first, away.stop)))
        low, high = (bisect_left(self.our_columns, at) for at in (first, stop))
        return any(column in self.there for column in self.our_columns[low:high])

    def columns(self, block: Block) -> tuple[Locus, Locus]:
        """Return the columns of some words in the first text, and in the second."""
        ours, theirs = block.ours, block.theirs
        return (
            Locus(self.ours[ours.start].column, self.ours[ours[-1]].column + 1),
            Locus(self.theirs[theirs.start].column, self.theirs[theirs[-1]].column + 1),
        )

    def pure_home(self, block: Block) -> bool:
        """Say whether the second text has no word where the first has those that it has elsewhere."""
        held = [self.ours[i].column for i in block.ours if self.loose_ours[i]]
        return not _any_in(self.their_columns, Locus(held[0], held[-1] + 1))

    def pure_away(self, block: Block) -> bool:
        """Say whether the first text has no word where the second has them."""
        _, away = self.columns(block)
        return not _any_in(self.our_columns, away)


def _any_in(columns: Sequence[int], span: Locus) -> bool:
    """Say whether any of some columns, in order, is in a span."""
    return bisect_left(columns, span.first) < bisect_left(columns, span.stop)


@dataclass(frozen=True, slots=True)
class Found:
    """What is found of two texts: words that moved, and some that may have, and are not told as moved."""

    moved: tuple[Block, ...]
    loose: tuple[Block, ...] = ()


def blocks(sides: Sides, only: Set[int] | None = None) -> Found:
    """Return the words of the first of two texts that the second has elsewhere, the longest first.

    Of those of one length what is all the same, then what stands first in the base, and then nearest. No word
    is in two. Where `only` some columns are asked for, both places begin there.
    """
    drawn = [_shifted(sides, block) for block in _drawn(sides, only)]
    drawn.sort(key=lambda b: (-b.count, not b.whole, b.ours.start, sides.apart(b), b.theirs.start))
    ours: set[int] = set()
    theirs: set[int] = set()
    moved: list[Block] = []
    loose: list[Block] = []
    for block in drawn:
        if not (ours.isdisjoint(block.ours) and theirs.isdisjoint(block.theirs)):
            continue
        if _counts(block, sides):
            ours.update(block.ours)
            theirs.update(block.theirs)
            moved.append(block)
        elif sides.apart(block) <= NEXT:
            loose.append(block)
    return Found(tuple(moved), tuple(loose))


def _drawn(sides: Sides, only: Set[int] | None) -> Iterator[Block]:
    """Yield each run of the same words about a word of content, as long as it goes."""
    where: dict[str, list[int]] = defaultdict(list)
    for j, cell in enumerate(sides.theirs):
        if sides.loose_theirs[j] and (only is None or cell.column in only):
            where[cell.key].append(j)
    done: set[tuple[int, int]] = set()
    for i, cell in enumerate(sides.ours):
        if not sides.loose_ours[i] or cell.key not in where or not (only is None or cell.column in only):
            continue
        for j in _within_reach(sides, where[cell.key], cell.column):
            if (i, j) in done or not _begins(sides, i, j):
                continue
            seed = Group(i, i + 1, j, j + 1)
            groups = _trimmed(sides, [*reversed([*_onward(sides, seed, -1)]), seed, *_onward(sides, seed, 1)])
            done |= {(group.i, group.j) for group in groups}
            yield Block(groups, sum(group.i_stop - group.i for group in groups if group.same))


def _within_reach(sides: Sides, places: Sequence[int], column: int) -> Sequence[int]:
    """Return those of some places of the second text, in order, that are near enough a column to be of use.

    Of a run that lies within `FAR` one word may lie farther, where other words stand within it.
    """
    first, stop = (
        bisect_left(places, at, key=lambda j: sides.theirs[j].column)
        for at in (column - 2 * FAR, column + 2 * FAR)
    )
    return places[first:stop]


def _begins(sides: Sides, i: int, j: int) -> bool:
    """Say whether a run may be drawn from a word: one of content, or with one beside it."""
    if sides.has_content(i):
        return True
    near = [(i + step, j + step) for step in (-1, 1)]
    return any(sides.free(a, a + 1, b, b + 1) and sides.has_content(a) and sides.alike(a, b) for a, b in near)


def _trimmed(sides: Sides, groups: Sequence[Group]) -> tuple[Group, ...]:
    """Return groups less those at the ends that differ, or of which a word stands beside its like."""
    free = [
        at
        for at, group in enumerate(groups)
        if group.same and sides.free(group.i, group.i_stop, group.j, group.j_stop)
    ]
    return tuple(groups[free[0] : free[-1] + 1])


def _onward(sides: Sides, last: Group, step: int) -> Iterator[Group]:
    """Yield the groups that follow one, or go before it, while they are the same but for a word or two."""
    while True:
        found = _next(sides, last, step) or _over_a_gap(sides, last, step)
        if not found:
            return
        yield from found
        last = found[-1]


def _next(sides: Sides, last: Group, step: int) -> tuple[Group, ...]:
    """Return the next word, which one of the two may have divided; nothing if they differ."""
    i, j = (last.i_stop, last.j_stop) if step > 0 else (last.i - 1, last.j - 1)
    if sides.alike(i, j):
        return (Group(i, i + 1, j, j + 1),)
    for m, n in ((1, 2), (2, 1)):
        a, b = (i, j) if step > 0 else (i - m + 1, j - n + 1)
        if sides.free(a, a + m, b, b + n):
            ours, theirs = ([w for cell in side for w in cell.words] for side in _cut(sides, a, m, b, n))
            longer, shorter = (sum(len(word.normal) for word in words) for words in (ours, theirs))
            if abs(longer - shorter) <= NEAR_LENGTH and sides.names(ours) == sides.names(theirs):
                return (Group(a, a + m, b, b + n),)
    return ()


def _cut(sides: Sides, i: int, m: int, j: int, n: int) -> tuple[Sequence[Cell], Sequence[Cell]]:
    return sides.ours[i : i + m], sides.theirs[j : j + n]


def _over_a_gap(sides: Sides, last: Group, step: int) -> tuple[Group, ...]:
    """Return what differs after a group, and the word after that, where they are the same again."""
    for m, n in GAPS:
        if step > 0:
            gap = Group(last.i_stop, last.i_stop + m, last.j_stop, last.j_stop + n, same=False)
        else:
            gap = Group(last.i - m, last.i, last.j - n, last.j, same=False)
        i, j = (gap.i_stop, gap.j_stop) if step > 0 else (gap.i - 1, gap.j - 1)
        if sides.free(gap.i, gap.i_stop, gap.j, gap.j_stop) and sides.alike(i, j):
            again = (Group(i, i + 1, j, j + 1),)
            if _content(sides, again) or _next(sides, again[-1], step) or _ends(sides, again[-1], step):
                return (gap, *again)
    return ()


def _ends(sides: Sides, last: Group, step: int) -> bool:
    """Say whether beyond a word one of the two has no more that stands beside no like."""
    i, j = (last.i_stop, last.j_stop) if step > 0 else (last.i - 1, last.j - 1)
    return not (sides.free(i, i + 1, j, j) and sides.free(i, i, j, j + 1))


def _content(sides: Sides, groups: Sequence[Group]) -> int:
    """Return how many words of content are the same."""
    return sum(
        sides.names.has_content(sides.ours[i].key)
        for group in groups
        if group.same
        for i in range(group.i, group.i_stop)
    )


def _counts(block: Block, sides: Sides) -> bool:
    """Say whether words that stand elsewhere are more than chance: together, near enough, rare enough."""
    if sides.apart(block) > (NEAR if block.count == 1 else FAR) or not sides.crosses(block):
        return False
    if 2 * block.count <= max(len(block.ours), len(block.theirs)):
        return False
    pure = sides.pure_home(block) and sides.pure_away(block)
    if pure and block.whole and (block.count > 1 or _fills(block, sides)):
        return True
    words = {sides.ours[i].key for group in block.groups if group.same for i in range(group.i, group.i_stop)}
    if block.count == 1:
        (key,) = words
        return pure and sides.times[key] == 1
    rarity = sum(log(len(sides.ours) / max(sides.times[key] - 1, 1)) for key in words)
    return rarity >= CHANCE * log(max(len(sides.ours), 2))


def _fills(block: Block, sides: Sides) -> bool:
    """Say whether the second text has there nothing else that the first has not."""
    theirs = block.theirs
    return not beside(sides, theirs.start, -1) and not beside(sides, theirs[-1], 1)


def beside(sides: Sides, j: int, step: int) -> bool:
    """Say whether the second text has a word next to one where the first has none between."""
    if not 0 <= j + step < len(sides.theirs) or not sides.loose_theirs[j + step]:
        return False
    first, last = sorted((sides.theirs[j].column, sides.theirs[j + step].column))
    return not _any_in(sides.our_columns, Locus(first, last + 1))


def _shifted(sides: Sides, block: Block) -> Block:
    """Return words with the one before them, or after them, that stands on their other side at home."""
    ours, theirs = block.ours, block.theirs
    i, j, after, before = ours.start - 1, theirs.start - 1, ours.stop, theirs.stop
    if i >= 0 and j >= 0 and sides.free(after, after + 1, j, j + 1):
        key = sides.theirs[j].key
        if sides.ours[i].key == key == sides.ours[after].key and sides.stays(i) and sides.wanting(after):
            groups = (Group(i, i + 1, j, j + 1), *block.groups)
            return Block(groups, block.count + 1, frozenset({sides.ours[after].column}))
    if i >= 0 and after < len(sides.ours) and sides.free(i, i + 1, before, before + 1):
        key = sides.theirs[before].key
        if sides.ours[after].key == key == sides.ours[i].key and sides.stays(after) and sides.wanting(i):
            groups = (*block.groups, Group(after, after + 1, before, before + 1))
            return Block(groups, block.count + 1, frozenset({sides.ours[i].column}))
    return block
