"""The best ways through tables of scores: dynamic programming with affine gaps, many tables at a time.

O. Gotoh, "An improved algorithm for matching biological sequences", Journal of Molecular Biology
162 (1982) 705-8. A row is one numpy step; the gap along the row is a running maximum. Most tables are small:
those of like size are laid one on another, so that a step serves them all.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from collate.align.score import Scores

BLOCK = 65_536
"""How many cells, about, are reckoned before it is noted how each was reached."""

DEEP = 16_384
"""How many cells of one row at most, in all tables that are laid together."""

STEP = 200
"""How many cells cost as much as the steps of one more row."""

Path = tuple[tuple[int, int], ...]
"""Pairs (row, column), in order; -1 on either side is a gap."""


class Costs(NamedTuple):
    """What gaps cost, all at most 0.

    `skip_open[i]` (for the last of a gap) and `skip_extend[i]` are for passing over row i; `insert_open`,
    `insert_extend` for a word of the columns that stands beside no row. `ease`, from 0 to 1, lightens the
    passing over of rows between columns j - 1 and j (a lacuna, a fragment's end): `ease[0, j]` the opening,
    `ease[1, j]` each row.
    All are whole numbers, so that sums are exact and ties fall alike on every machine.
    """

    skip_open: Scores
    skip_extend: Scores
    insert_open: float
    insert_extend: float
    ease: Scores


Asked = tuple[Scores, Costs]
"""A table of scores (rows by columns) and what gaps cost in it."""


class Found(NamedTuple):
    """The best path, and its score."""

    path: Path
    score: float


def best_path(scores: Scores, costs: Costs) -> Found:
    """Return the path of the highest score through `scores` (rows by columns).

    Of equal paths, seen from the start, the one that pairs is taken, then the one that passes over a row,
    then the one that inserts; of insertions the shortest. So of a word written twice the second is the
    doubling, and an eye that went from like to like lost what follows the first.
    """
    return best_paths([(scores, costs)])[0]


def best_paths(asked: Sequence[Asked]) -> list[Found]:
    """Return the best path through each table, in order, as `best_path` finds it."""
    found: dict[int, Found] = {}
    for pile in _piles(asked):
        tables = [asked[index] for index in pile.members]
        found.update(zip(pile.members, _through(tables, pile.rows, pile.columns), strict=True))
    return [found[index] for index in range(len(asked))]


@dataclass(slots=True)
class _Pile:
    """Tables laid one on another, by their numbers, and the size that holds them all."""

    rows: int
    columns: int
    members: list[int] = field(default_factory=list)


def _piles(asked: Sequence[Asked]) -> Iterator[_Pile]:
    """Lay tables together, the highest first, where empty cells cost less than the steps that are saved."""
    shapes = [scores.shape for scores, _ in asked]
    pile = _Pile(0, 0)
    for index in sorted(range(len(asked)), key=lambda index: shapes[index], reverse=True):
        rows, columns = shapes[index]
        wide = max(columns, pile.columns)
        empty = pile.rows * (wide - columns) + (pile.rows - rows) * columns
        empty += len(pile.members) * pile.rows * (wide - pile.columns)
        if pile.members and (empty > STEP * rows or (len(pile.members) + 1) * wide > DEEP):
            yield pile
            pile = _Pile(0, 0)
        pile.rows, pile.columns = max(pile.rows, rows), max(pile.columns, columns)
        pile.members.append(index)
    if pile.members:
        yield pile


@dataclass(frozen=True, slots=True)
class _Laid:
    """Tables laid one on another and read from their ends, where a gap opens with its last row.

    Arrays go by row, table and column; what is beyond a table's own size counts for nothing.
    """

    scores: Scores
    opens: Scores
    extends: Scores
    ease: Scores
    opening: Scores
    steps: Scores


def _laid(tables: Sequence[Asked], rows: int, columns: int) -> _Laid:
    count = len(tables)
    laid = _Laid(
        np.zeros((rows, count, columns)),
        np.zeros((rows, count, 1)),
        np.zeros((rows, count, 1)),
        np.zeros((2, count, columns + 1)),
        np.array([[costs.insert_open] for _, costs in tables]),
        np.array([[costs.insert_extend] for _, costs in tables]) * np.arange(columns + 1, dtype=np.float64),
    )
    for at, (scores, costs) in enumerate(tables):
        height, width = scores.shape
        laid.scores[:height, at, :width] = scores[::-1, ::-1]
        laid.opens[:height, at, 0] = costs.skip_open[::-1]
        laid.extends[:height, at, 0] = costs.skip_extend[::-1]
        laid.ease[:, at, : width + 1] = costs.ease[:, ::-1]
    return laid


@dataclass(frozen=True, slots=True)
class _Reached:
    """Per row, table and column: the best score, the best not by an insertion, and how each was reached.

    `pairs` holds where the best not by insertion pairs (else it skips), `inserts` where an insertion is
    better still, `went_on` where a skip goes on from one before.
    """

    high: Scores
    base: Scores
    pairs: npt.NDArray[np.bool_]
    inserts: npt.NDArray[np.bool_]
    went_on: npt.NDArray[np.bool_]


def _through(tables: Sequence[Asked], rows: int, columns: int) -> Iterator[Found]:
    """Yield the best path through each table of a pile."""
    laid = _laid(tables, rows, columns)
    shape = (rows + 1, len(tables), columns + 1)
    flags = [np.zeros(shape, dtype=np.bool_) for _ in range(3)]
    reached = _Reached(np.empty(shape), np.empty(shape), *flags)
    reached.high[0] = laid.opening + laid.steps
    reached.high[0, :, 0] = 0.0
    reached.base[0] = -np.inf
    reached.base[0, :, 0] = 0.0
    reached.inserts[0, :, 1:] = True
    skipping = np.full(shape[1:], -np.inf)
    size = max(BLOCK // (shape[1] * shape[2]), 1)
    for start in range(0, rows, size):
        skipping = _fill(reached, laid, start, min(start + size, rows), skipping)
    for at, (scores, _) in enumerate(tables):
        yield _found(reached, laid.steps[at], at, scores.shape)


def _fill(reached: _Reached, laid: _Laid, start: int, stop: int, skipping: Scores) -> Scores:
    """Fill some rows of the tables; return the best skips of the last.

    Nothing stands in the first column but skips: what pairs or inserts is minus infinity there.
    """
    shape = (stop - start, *laid.steps.shape)
    opens, extends = laid.opens[start:stop] * laid.ease[0], laid.extends[start:stop] * laid.ease[1]
    paired, inserted = np.full((2, *shape), -np.inf)
    skips = np.concatenate((skipping[np.newaxis], np.empty(shape)))
    base, high = reached.base[start + 1 : stop + 1], reached.high[start : stop + 1]
    reach, opening = np.empty(shape[1:]), laid.opening + laid.steps[:, 1:]
    rows = zip(
        *(laid.scores[start:stop], opens, extends, skips, skips[1:], high, high[1:]),
        *(paired, paired[:, :, 1:], base, inserted, inserted[:, :, 1:]),
        strict=False,
    )
    for score, opened, extend, last, skip, above, top, pair, pair_1, best, insert, insert_1 in rows:
        np.add(opened, above, out=opened)
        np.maximum(opened, last, out=skip)
        np.add(skip, extend, out=skip)
        np.add(above[:, :-1], score, out=pair_1)
        np.maximum(pair, skip, out=best)
        np.subtract(best, laid.steps, out=reach)
        np.maximum.accumulate(reach, axis=1, out=reach)
        np.add(reach[:, :-1], opening, out=insert_1)
        np.maximum(best, insert, out=top)
    np.greater(skips[:-1], opens, out=reached.went_on[start + 1 : stop + 1])
    np.greater_equal(paired, skips[1:], out=reached.pairs[start + 1 : stop + 1])
    np.greater(inserted, base, out=reached.inserts[start + 1 : stop + 1])
    last_of_all: Scores = skips[-1]
    return last_of_all


def _found(reached: _Reached, steps: Scores, at: int, shape: tuple[int, ...]) -> Found:
    """Follow the best path through one table back from its last cell, which is the first that was read."""
    row, column = shape
    (height, width), size = shape, shape[1] + 1
    score = float(reached.high[row, at, column])
    pairs, inserts, went_on = (
        flags[: height + 1, at, :size].tobytes()
        for flags in (reached.pairs, reached.inserts, reached.went_on)
    )
    path: list[tuple[int, int]] = []
    skipping = 0
    while row or column:
        cell = row * size + column
        if inserts[cell] and not skipping:
            reach = reached.base[row, at, :column] - steps[:column]
            start = column - 1 - int(np.argmax(reach[::-1]))
            path.extend((-1, width - 1 - word) for word in range(column - 1, start - 1, -1))
            column, cell = start, row * size + start
            if not row:
                break
        row -= 1
        if pairs[cell] and not skipping:
            column -= 1
            path.append((height - 1 - row, width - 1 - column))
        else:
            skipping = went_on[cell]
            path.append((height - 1 - row, -1))
    return Found(tuple(path), score)
