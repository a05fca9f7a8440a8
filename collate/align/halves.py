"""Copies that skipped from like to like, each in another half: each is set under the half that it has.

Where one copy has *wyn and sugre and ale and sugre*, and two lack a half each, these are as like one another
as either is to the long one, and the alignment may set *ale and sugre* under *wyn and sugre*.
Words that stand beside unlike ones at one edge of a stretch where their copy is silent go over it, if they
are word for word the last (or first) of what another copy has there. Words that stand as well on either side
of their copy's silence go before it: an eye that goes from like to like loses what follows the first.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.grow import Grid
from collate.align.likes import Likes, padded

OTHERS = 2
"""How many copies whose words agree less thereafter are outweighed by one whose words agree more."""


_LOOK = 32
"""How many words back are looked up at a time."""


@dataclass(frozen=True, slots=True)
class _Block:
    """Words [first, stop) of a copy, the columns where they stand, and those to which they may go."""

    copy: int
    first: int
    stop: int
    here: tuple[int, ...]
    there: tuple[int, ...]


_Place = tuple[int, int]
"""A copy, and the word after the last of some of its words."""

_Find = Callable[[Grid, _Place, _Place, Likes], _Block | None]
_Test = Callable[[_Block, Sequence[int], Grid, Likes], bool]


def in_their_halves(grid: Grid, likes: Likes) -> Grid:
    """Return the columns with such words set under the half that they are (see above).

    Words go to the right over silence before they go to the left, the first copy's first; with them go those
    of every copy that has the same there. No more go than must, and they go only if the copies that then
    agree with more of them, a content word among these, are at least half as many as those that agree with
    fewer. At last as many words as can go before the silence after which they stand, if the copies that have
    them in both places are at least half as many as those that have them only where they stood.
    """
    if grid.shape[1] < 2 or not len(grid):
        return grid
    left = _turned_likes(likes)
    gone = _turned(_over(grid, likes, _better, _borne_out), likes)
    return _turned(_over(_over(gone, left, _better, _borne_out), left, _as_good, _as_well_borne_out), likes)


def _turned(grid: Grid, likes: Likes) -> Grid:
    """Return the columns from right to left, the words of each copy counted from its last."""
    sizes = np.array([len(text) for text in likes.forms], dtype=np.int32)
    return np.where(grid >= 0, sizes - 1 - grid, -1)[::-1]


def _turned_likes(likes: Likes) -> Likes:
    breaks = tuple(
        frozenset(len(text) - at for at in each) for text, each in zip(likes.forms, likes.breaks, strict=True)
    )
    classes = tuple(row[::-1] for row in likes.classes)
    return Likes(tuple(text[::-1] for text in likes.forms), classes, breaks, likes.judge, padded(classes))


def _over(grid: Grid, likes: Likes, find: _Find, test: _Test) -> Grid:
    """Return the columns with words gone to the right over the silence after them: found, and tested."""
    changed = grid.copy()
    past = np.maximum.accumulate(grid, axis=0)
    for copy in range(grid.shape[1]):
        for block in list(_blocks(changed, past, copy, likes, find)):
            group = _group(block, changed, likes)
            if test(block, group, changed, likes):
                for w in group:
                    words = changed[list(block.here), w]
                    changed[list(block.here), w] = -1
                    changed[list(block.there), w] = words
                past = np.maximum.accumulate(changed, axis=0)
    return changed[(changed >= 0).any(axis=1)]


def _blocks(grid: Grid, past: Grid, copy: int, likes: Likes, find: _Find) -> Iterator[_Block]:
    """Yield the words of a copy that are another's on the far side of a silence; each silence once.

    `past` holds for each column the last word of each copy up to it.
    """
    homes = np.flatnonzero(grid[:, copy] >= 0)
    bounds = np.append(homes, len(grid))
    stops = np.flatnonzero(np.diff(bounds) > 1) + 1
    if not len(stops):
        return
    last = past[bounds[stops] - 1]
    ahead = last > past[bounds[stops - 1]]
    classes = likes.table
    mine = likes.classes[copy][stops - 1]
    alike = ahead & (classes[np.arange(grid.shape[1]), last] == mine[:, np.newaxis])
    alike[:, copy] = False
    for row in np.flatnonzero(alike.any(axis=1)).tolist():
        stop = int(stops[row])
        if stop not in likes.breaks[copy]:
            for other in np.flatnonzero(alike[row]).tolist():
                if block := find(grid, (copy, stop), (other, int(last[row, other]) + 1), likes):
                    yield block
                    break


def _better(grid: Grid, ours: _Place, theirs: _Place, likes: Likes) -> _Block | None:
    """Return the fewest words up to one place that gain most if they stand beside another's up to another."""
    gain, best, size = 0, 0, 0
    for back, content, same in _back(grid, ours, theirs, likes):
        gain += not same
        if gain > best and content:
            best, size = gain, back
    return _going(grid, ours, theirs, size)


def _as_good(grid: Grid, ours: _Place, theirs: _Place, likes: Likes) -> _Block | None:
    """Return the most words up to one place that stand beside their like, and would up to another.

    None, if none of them is one of content.
    """
    size, with_content = 0, False
    for back, content, same in _back(grid, ours, theirs, likes):
        if not same:
            break
        size, with_content = back, with_content or content
    return _going(grid, ours, theirs, size if with_content else 0)


def _back(grid: Grid, ours: _Place, theirs: _Place, likes: Likes) -> Iterator[tuple[int, bool, bool]]:
    """Yield, going back from two places, how many words are the same in two copies.

    With each, whether the last is one of content, and whether it stands beside its like already.
    """
    (copy, stop), (other, end) = ours, theirs
    homes = np.flatnonzero(grid[:, copy] >= 0)[:stop]
    beside: list[int] = []
    for back in range(1, min(stop, end) + 1):
        if back > len(beside):
            nearer = homes[max(stop - back - _LOOK, 0) : stop - back + 1]
            beside.extend(grid[nearer[::-1], other].tolist())
        mine, there = (copy, stop - back), beside[back - 1]
        if there == end - back or (back > 1 and stop - back + 1 in likes.breaks[copy]):
            return
        if not likes.same(mine, (other, end - back)):
            return
        yield back, not likes.is_function(mine), there >= 0 and likes.same(mine, (other, there))


def _going(grid: Grid, ours: _Place, theirs: _Place, size: int) -> _Block | None:
    """Return so many words as a block, if there are any, and none goes over a word of its copy."""
    if not size:
        return None
    (copy, stop), (other, end) = ours, theirs
    homes = np.flatnonzero(grid[:, copy] >= 0)
    target = np.flatnonzero(grid[:, other] >= 0)[end - size : end].tolist()
    if stop > size and target[0] <= homes[stop - size - 1]:
        return None
    return _Block(copy, stop - size, stop, tuple(homes[stop - size : stop].tolist()), tuple(target))


def _group(block: _Block, grid: Grid, likes: Likes) -> list[int]:
    """Return the copies that have the words of a block where it stands, and are silent as its copy is."""
    homes, between = list(block.here), range(block.here[0], block.there[-1] + 1)
    silent = [c for c in between if c not in block.here]
    words = grid[homes]
    found = [block.copy]
    for w in range(grid.shape[1]):
        if w != block.copy and (words[:, w] >= 0).all() and (grid[silent, w] < 0).all():
            pairs = zip(words[:, w].tolist(), range(block.first, block.stop), strict=True)
            broken = any(at + 1 in likes.breaks[w] for at in words[:, w].tolist())
            if not broken and all(likes.same((w, at), (block.copy, mine)) for at, mine in pairs):
                found.append(w)
    return found


def _as_well_borne_out(block: _Block, group: Sequence[int], grid: Grid, likes: Likes) -> bool:
    """Say whether enough other copies have the words of a block both where it may go and where it is."""
    mine = likes.classes[block.copy][block.first : block.stop]
    before, after = (_agreeing(grid[list(place)], mine, likes) for place in (block.here, block.there))
    others = [w for w in range(grid.shape[1]) if w not in group]
    both = sum(int(before[w]) == int(after[w]) == len(mine) for w in others)
    fewer = sum(int(before[w]) > int(after[w]) for w in others)
    return both * OTHERS >= max(fewer, 1)


def _borne_out(block: _Block, group: Sequence[int], grid: Grid, likes: Likes) -> bool:
    """Say whether enough other copies agree with the words of a block better where they may go."""
    more = fewer = 0
    mine = likes.classes[block.copy][block.first : block.stop]
    before, after = (_agreeing(grid[list(place)], mine, likes) for place in (block.here, block.there))
    for w in range(grid.shape[1]):
        if w not in group:
            more += int(after[w] > before[w])
            fewer += int(after[w] < before[w])
    return more > 0 and more * OTHERS >= fewer


def _agreeing(rows: Grid, mine: npt.NDArray[np.int32], likes: Likes) -> npt.NDArray[np.intp]:
    """Return with how many of some words each copy agrees in some columns."""
    classes = likes.table[np.arange(rows.shape[1]), rows]
    agreed: npt.NDArray[np.intp] = (classes == mine[:, np.newaxis]).sum(axis=0)
    return agreed
