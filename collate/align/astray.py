"""Words within or beside a silence that keep it from being one skip of the eye: they are set apart, after it.

Where one copy has *do therto sugre and boyle it and do therto gynger*, and another *do therto fyne gynger*,
its eye went from *do therto* to *do therto*, and it added *fyne*. The alignment sees *fyne* beside *sugre*.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.grow import Grid
from collate.align.likes import Likes

MOST = 2
"""How many words may be set apart."""

LEAST = 3
"""How many words more than these a skip must lose."""

REPEATED = 2
"""How many words, at least, an eye must have taken for their like."""

ALIKE = 0.5
"""From which likeness on a word stays beside another."""


Places = npt.NDArray[np.intp]
"""Columns."""


@dataclass(frozen=True, slots=True)
class _Astray:
    """Words [first, stop) of a copy, and the columns [start, end) that then are silent in it."""

    copy: int
    first: int
    stop: int
    start: int
    end: int


def set_apart(grid: Grid, likes: Likes) -> Grid:
    """Return the columns with such words in columns of their own, just before the copy's next word.

    Each is beside words unlike it, or is a function word with silence on both sides; what the copy then lacks
    is, in at least half of the other copies that have anything there, a skip from two like words or more to
    their like. Copies that have the same words in the same columns, and go on together, go together.
    """
    if grid.shape[1] < 2 or not len(grid):
        return grid
    added: dict[int, list[Grid]] = {}
    rest = grid.copy()
    past = np.concatenate(
        (np.full((1, grid.shape[1]), -1, dtype=np.int32), np.maximum.accumulate(grid, axis=0))
    )
    for copy in range(grid.shape[1]):
        for each in _found(grid, past, copy, likes):
            columns = np.full((each.stop - each.first, grid.shape[1]), -1, dtype=np.int32)
            homes = np.flatnonzero(grid[:, copy] >= 0)
            places = homes[each.first : each.stop]
            for w in _together(each, grid, homes, likes):
                if (rest[places, w] >= 0).all():
                    columns[:, w] = rest[places, w]
                    rest[places, w] = -1
            if (columns >= 0).any():
                added.setdefault(each.end, []).append(columns)
    rows: list[Grid] = []
    start = 0
    for end in sorted(added):
        rows.extend((rest[start:end], *added[end]))
        start = end
    whole = np.concatenate([*rows, rest[start:]])
    return whole[(whole >= 0).any(axis=1)] if added else grid


def _found(grid: Grid, past: Grid, copy: int, likes: Likes) -> Iterator[_Astray]:
    """Yield the words of a copy to be set apart; of two that have a word in common the fewer words.

    `past` holds for each column the last word of each copy before it.
    """
    homes = np.flatnonzero(grid[:, copy] >= 0)
    taken: set[int] = set()
    for size in range(1, min(MOST, len(homes) - 2) + 1):
        rows = np.flatnonzero(homes[size + 1 :] - homes[: -size - 1] > size + LEAST)
        for row in rows[_begun(homes, rows, size, past, copy, likes)].tolist():
            first, stop = row + 1, row + 1 + size
            each = _Astray(copy, first, stop, int(homes[row]) + 1, int(homes[stop]))
            if taken.isdisjoint(range(first, stop)) and _is_skip(each, grid, past, homes, likes):
                yield each
                taken.update(range(first, stop))


def _begun(
    homes: Places, rows: Places, size: int, past: Grid, copy: int, likes: Likes
) -> npt.NDArray[np.bool_]:
    """Say after which of some words a skip may lie: some copy has the like of a word beside it."""
    mine, copies = likes.classes[copy], np.arange(past.shape[1])
    before, last = past[homes[rows] + 1], past[homes[rows + size + 1]]
    ends = likes.table[copies, last] == mine[rows][:, np.newaxis]
    begins = likes.table[copies, before + 1] == mine[rows + size + 1][:, np.newaxis]
    found = (ends | begins) & (last > before)
    found[:, copy] = False
    begun: npt.NDArray[np.bool_] = found.any(axis=1)
    return begun


def _is_skip(each: _Astray, grid: Grid, past: Grid, homes: Places, likes: Likes) -> bool:
    """Say whether some words keep a copy's silence from being a skip, and may be set apart."""
    broken = likes.breaks[each.copy].intersection(range(each.first, each.stop + 1))
    if broken or not _may_go(each, grid, homes, likes):
        return False
    with_them = {*_together(each, grid, homes, likes)}
    skipped = others = 0
    begins, stops = (past[each.start] + 1).tolist(), (past[each.end] + 1).tolist()
    for w, (first, stop) in enumerate(zip(begins, stops, strict=True)):
        if w not in with_them and first < stop:
            others += 1
            skipped += _from_like_to_like(each, (w, first, stop), likes)
    return skipped > 0 and 2 * skipped >= others


def _may_go(each: _Astray, grid: Grid, homes: Places, likes: Likes) -> bool:
    """Say whether the words have nothing of what they stand beside, or are function words amid silence."""
    amid = homes[each.first] > each.start and homes[each.stop - 1] + 1 < each.end
    for word in range(each.first, each.stop):
        ours = (each.copy, word)
        if amid and likes.is_function(ours):
            continue
        for w, there in enumerate(grid[homes[word]].tolist()):
            if there >= 0 and w != each.copy and not _unlike(ours, (w, there), likes):
                return False
    return True


def _unlike(ours: tuple[int, int], theirs: tuple[int, int], likes: Likes) -> bool:
    a, b = likes.forms[ours[0]][ours[1]], likes.forms[theirs[0]][theirs[1]]
    return a != b and likes.judge(a, b).likeness < ALIKE


def _from_like_to_like(each: _Astray, lost: tuple[int, int, int], likes: Likes) -> bool:
    """Say whether another's words [first, stop) end in what comes before, or begin with what comes after."""
    (other, first, stop), copy = lost, each.copy
    size, count = stop - first, len(likes.forms[copy])
    ends = begins = 0
    while ends < min(size, each.first) and likes.same(
        (copy, each.first - 1 - ends), (other, stop - 1 - ends)
    ):
        ends += 1
    while begins < min(size - ends, count - each.stop) and likes.same(
        (copy, each.stop + begins), (other, first + begins)
    ):
        begins += 1
    return REPEATED <= ends + begins < size and size >= each.stop - each.first + LEAST


def _together(each: _Astray, grid: Grid, homes: Places, likes: Likes) -> list[int]:
    """Return the copies that have some words in the same columns as a copy and go on together."""
    places = homes[each.first : each.stop]
    between = np.ones(each.end - int(places[0]), dtype=np.bool_)
    between[places - places[0]] = False
    has = grid[places[0] : each.end] >= 0
    may = (grid[each.end] >= 0) & (has != between[:, np.newaxis]).all(axis=0)
    found = []
    for w in may.nonzero()[0].tolist():
        pairs = zip(grid[places, w].tolist(), range(each.first, each.stop), strict=True)
        if all(likes.same((w, at), (each.copy, mine)) for at, mine in pairs):
            found.append(w)
    return found
