"""Words that a copy has twice running: the second time they are laid apart, after the first.

The alignment sets a copy's words beside those of others, and may set what one copy has twice beside what
another has added or doubled there. Here each doubling that the others do not have is taken out of their way:
what stands once stays in the columns that bear it out best, and the rest has columns of its own straight
after it, which only copies that double the same words there share.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.grow import Grid
from collate.align.likes import Likes, padded

LONGEST = 20
"""The most words that are seen to stand twice running."""


Places = npt.NDArray[np.int32]
"""The places of words in their copy."""


@dataclass(frozen=True, slots=True)
class Doubling:
    """Words [start, stop) of a copy that are the same again and again after `period` words."""

    copy: int
    start: int
    stop: int
    period: int

    @property
    def extra(self) -> int:
        """How many words too many they are."""
        return ((self.stop - self.start) // self.period - 1) * self.period

    @property
    def words(self) -> range:
        """The places of the words that stand, with the first counted as the text."""
        return range(self.start, self.stop - self.extra)

    @property
    def again(self) -> range:
        """The places of the words that are the doubling: the last."""
        return range(self.stop - self.extra, self.stop)


def taken_out(grid: Grid, likes: Likes) -> tuple[Grid, tuple[Doubling, ...]]:
    """Return the columns without the doublings (see above), and these.

    A doubling counts if at least as many of the other copies have its words once there as have about so many
    words as it; copies that double the same words say nothing, but where they do so, more must have them
    once. Of several places at which the words may be taken out, the one whose words stand with the fewest of
    their like; of equal ones the last.
    """
    found = doublings(likes)
    if not found:
        return grid, ()
    homes = [np.flatnonzero(grid[:, w] >= 0) for w in range(grid.shape[1])]
    begins = np.array([homes[each.copy][each.start] for each in found])
    ends = np.array([homes[each.copy][each.stop - 1] for each in found])
    told = tuple(
        each
        for at, each in enumerate(found)
        if _alone(
            each,
            [found[n] for n in np.flatnonzero((begins <= ends[at]) & (ends >= begins[at])).tolist()],
            grid,
            homes,
            likes,
        )
    )
    rest = grid.copy()
    for each in told:
        columns = homes[each.copy][each.start : each.stop]
        out = _where_out(each, grid, columns, likes)
        rest[columns, each.copy] = -1
        rest[np.delete(columns, slice(out, out + each.extra)), each.copy] = each.words
    return rest[(rest >= 0).any(axis=1)], told


def put_back(grid: Grid, told: Sequence[Doubling], likes: Likes) -> Grid:
    """Return the columns with doublings set into columns of their own, each after the words it doubles.

    Doublings of different words after one column stand in the order of the copies; those of words that
    others have there already share their columns.
    """
    added: dict[int, dict[tuple[int, ...], list[Doubling]]] = {}
    for each in sorted(told, key=lambda each: (each.copy, each.start)):
        last = int(np.flatnonzero(grid[:, each.copy] == each.words[-1])[0])
        words = tuple(likes.classes[each.copy][each.again.start : each.again.stop].tolist())
        added.setdefault(last, {}).setdefault(words, []).append(each)
    rest = grid.copy()
    rows: list[npt.NDArray[np.int32]] = []
    start = 0
    for column in sorted(added):
        rows.append(rest[start : column + 1])
        start = column + 1
        for words, group in added[column].items():
            if (there := _there(rest[start : start + len(words)], words, likes)) is None:
                there = np.full((len(words), grid.shape[1]), -1, dtype=np.int32)
                rows.append(there)
            for each in group:
                there[:, each.copy] = each.again
    return np.concatenate([*rows, rest[start:]])


def _there(rows: Grid, words: Sequence[int], likes: Likes) -> Grid | None:
    """Return columns, given by their rows, if the copies have in them just these words."""
    if len(rows) < len(words):
        return None
    classes = likes.table[np.arange(rows.shape[1]), rows]
    same = (classes == np.array(words, dtype=np.int32)[:, np.newaxis]) | (rows < 0)
    return rows if same.all() and (rows >= 0).any(axis=1).all() else None


def without(grid: Grid, told: Sequence[Doubling], likes: Likes) -> tuple[Grid, Likes, list[Places]]:
    """Return columns and words as if doublings did not stand in them, and which words are left."""
    left = [np.arange(len(text), dtype=np.int32) for text in likes.forms]
    for w in range(len(left)):
        again = [place for each in told if each.copy == w for place in each.again]
        left[w] = np.delete(left[w], again)
    renumbered = np.full(grid.shape, -1, dtype=np.int32)
    for w, places in enumerate(left):
        held = grid[:, w] >= 0
        renumbered[held, w] = np.searchsorted(places, grid[held, w])
    classes = tuple(row[places] for row, places in zip(likes.classes, left, strict=True))
    rest = Likes(
        tuple(
            tuple(text[at] for at in places.tolist()) for text, places in zip(likes.forms, left, strict=True)
        ),
        classes,
        tuple(
            frozenset(np.searchsorted(places, sorted(each)).tolist())
            for each, places in zip(likes.breaks, left, strict=True)
        ),
        likes.judge,
        padded(classes),
    )
    return renumbered, rest, left


def numbered(grid: Grid, left: Sequence[Places]) -> Grid:
    """Return columns with the words counted as they were, given which words are left."""
    found = grid.copy()
    for w, places in enumerate(left):
        held = grid[:, w] >= 0
        found[held, w] = places[grid[held, w]]
    return found


def doublings(likes: Likes) -> list[Doubling]:
    """Return what each copy has twice running, or oftener, with no gap in it; the shortest period first.

    No word is part of two.
    """
    found: list[Doubling] = []
    taken: list[set[int]] = [set() for _ in likes.forms]
    for copy, at, period in _begun(likes):
        if at not in taken[copy]:
            each = _drawn_out(copy, at, period, likes)
            if each and taken[copy].isdisjoint(range(each.start, each.stop)):
                found.append(each)
                taken[copy].update(range(each.start, each.stop))
    return found


def _begun(likes: Likes) -> Iterator[tuple[int, int, int]]:
    """Yield copy, place and period where the classes of some words are those of the words after them."""
    classes = likes.table
    for period in range(1, min(LONGEST, classes.shape[1] // 2) + 1):
        again = (classes[:, :-period] == classes[:, period:]) & (classes[:, :-period] >= 0)
        if period > 1:
            sums = np.cumsum(again, axis=1, dtype=np.int32)
            again = again[:, : -period + 1] & (sums[:, period - 1 :] - sums[:, : -period + 1] == period - 1)
        for copy, at in np.argwhere(again).tolist():
            yield copy, at, period


def _drawn_out(copy: int, at: int, period: int, likes: Likes) -> Doubling | None:
    """Return the doubling that begins at a place, as long as the words are the same; None if it is none."""
    stop = at + period
    while stop < len(likes.forms[copy]) and likes.same((copy, stop - period), (copy, stop)):
        stop += 1
    breaks = likes.breaks[copy]
    if breaks and (cut := min((b for b in breaks if at < b < stop), default=stop)):
        stop = cut
    return Doubling(copy, at, stop, period) if stop - at >= 2 * period else None


def _alone(
    each: Doubling,
    found: Sequence[Doubling],
    grid: Grid,
    homes: Sequence[npt.NDArray[np.intp]],
    likes: Likes,
) -> bool:
    """Say whether the other copies have the words once where one has them twice; `found` are those about it.

    A copy that has less than half of them once says nothing.
    """
    columns = homes[each.copy]
    first, stop = int(columns[each.start]), int(columns[each.stop - 1]) + 1
    held = (grid[first:stop] >= 0).sum(axis=0).tolist()
    alike = set[int]()
    for other in found:
        there = homes[other.copy][other.start : other.stop]
        shared = int(((there >= first) & (there < stop)).sum())
        if other.copy != each.copy and shared:
            held[other.copy] -= min(shared, other.extra)
            if _one(each, other, likes):
                alike.add(other.copy)
    size = each.stop - each.start
    least = size - each.extra
    others = [
        2 * held[w] for w in range(len(held)) if w != each.copy and w not in alike and 2 * held[w] >= least
    ]
    once = len([count for count in others if count <= 2 * size - each.extra])
    return once > 0 and once >= len(others) - once + bool(alike)


def _one(each: Doubling, other: Doubling, likes: Likes) -> bool:
    """Say whether two copies double the same words, wherever the doubling is held to begin."""
    ours, theirs = (
        sorted(likes.classes[d.copy][d.start : d.start + d.period].tolist()) for d in (each, other)
    )
    return ours == theirs


def _where_out(each: Doubling, grid: Grid, columns: npt.NDArray[np.intp], likes: Likes) -> int:
    """Return from which word of a doubling on its words are taken out of the columns."""
    classes = likes.table
    there = classes[np.arange(grid.shape[1]), grid[columns]]
    there[:, each.copy] = -1
    mine = likes.classes[each.copy][each.start : each.stop]
    borne_out = (there == mine[:, np.newaxis]).sum(axis=1)
    sums = np.concatenate(([0], np.cumsum(borne_out)))
    costs = sums[each.extra :] - sums[: -each.extra]
    return len(costs) - 1 - int(np.argmin(costs[::-1]))
