"""The best way through a table of scores: dynamic programming with affine gaps, a row at a time.

O. Gotoh, "An improved algorithm for matching biological sequences", Journal of Molecular Biology
162 (1982) 705-8. A row is one numpy step: the gap along the row is a running maximum.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.score import Scores
from collate.align.small import SMALL, Gaps, small_path

BLOCK = 256
"""How many rows are reckoned before it is noted how each cell was reached."""

Path = tuple[tuple[int, int], ...]
"""Pairs (row, column), in order; -1 on either side is a gap."""


@dataclass(frozen=True, slots=True)
class Costs:
    """What gaps cost, all at most 0.

    `skip_open[i]` (for the last of a gap) and `skip_extend[i]` are for passing over row i; `insert_open`,
    `insert_extend` for a word of the columns that stands beside no row. `ease[j]`, from 0 to 1,
    lightens the passing over of rows between columns j - 1 and j (a lacuna, a fragment's end).
    All are whole numbers, so that sums are exact and ties fall alike on every machine.
    """

    skip_open: Scores
    skip_extend: Scores
    insert_open: float
    insert_extend: float
    ease: Scores

    def turned(self) -> "Costs":
        """Return the costs of the same table read from its end; a gap then opens with its last row."""
        return Costs(
            self.skip_open[::-1],
            self.skip_extend[::-1],
            self.insert_open,
            self.insert_extend,
            self.ease[::-1],
        )


@dataclass(frozen=True, slots=True)
class Found:
    """The best path, and its score."""

    path: Path
    score: float


def best_path(scores: Scores, costs: Costs) -> Found:
    """Return the path of the highest score through `scores` (rows by columns).

    Of equal paths, seen from the start, the one that pairs is taken, then the one that passes over a row,
    then the one that inserts; of insertions the shortest. So of a word written twice the second is the
    doubling, and an eye that went from like to like lost what follows the first.
    """
    rows, columns = scores.shape
    found = _from_the_end(scores[::-1, ::-1], costs.turned())
    path = tuple(
        (rows - 1 - row if row >= 0 else -1, columns - 1 - column if column >= 0 else -1)
        for row, column in found.path[::-1]
    )
    return Found(path, found.score)


def _from_the_end(scores: Scores, costs: Costs) -> Found:
    """Return the best path; of equal ones that which pairs latest."""
    rows, columns = scores.shape
    if 0 < rows * columns <= SMALL:
        gaps = Gaps(
            costs.skip_open.tolist(),
            costs.skip_extend.tolist(),
            costs.insert_open,
            costs.insert_extend,
            costs.ease.tolist(),
        )
        return Found(*small_path(scores.tolist(), gaps))
    steps = np.arange(columns + 1, dtype=np.float64) * costs.insert_extend
    table = _table(rows, columns)
    high = np.concatenate(([0.0], costs.insert_open + steps[1:]))
    table.base[0, 0] = 0.0
    table.inserts[0] = True
    skipping = np.full(columns + 1, -np.inf)
    for start in range(0, rows, BLOCK):
        stop = min(start + BLOCK, rows)
        skipping = _fill(table, scores, costs, (start, stop), (steps, high, skipping))
    return Found(_trace(table, steps), float(high[-1]))


def _fill(
    table: "_Table",
    scores: Scores,
    costs: Costs,
    block: tuple[int, int],
    before: tuple[Scores, Scores, Scores],
) -> Scores:
    """Fill some rows of the table; change `high`, the best of the row before, and return its best skips.

    Nothing stands in the first column but skips: what pairs or inserts is minus infinity there.
    """
    (start, stop), (steps, high, skipping) = block, before
    height, width = stop - start, len(steps)
    opens = np.outer(costs.skip_open[start:stop], costs.ease)
    extends = np.outer(costs.skip_extend[start:stop], costs.ease)
    paired, inserted = np.full((2, height, width), -np.inf)
    skips = np.empty((height + 1, width))
    skips[0] = skipping
    base = table.base[start + 1 : stop + 1]
    reach, opening = np.empty(width), costs.insert_open + steps[1:]
    rows = zip(
        *(scores[start:stop], opens, extends, skips, skips[1:]),
        *(paired, paired[:, 1:], base, inserted, inserted[:, 1:]),
        strict=False,
    )
    for score, opened, extend, last, skip, pair, pair_1, best, insert, insert_1 in rows:
        np.add(opened, high, out=opened)
        np.maximum(opened, last, out=skip)
        np.add(skip, extend, out=skip)
        np.add(high[:-1], score, out=pair_1)
        np.maximum(pair, skip, out=best)
        np.subtract(best, steps, out=reach)
        np.maximum.accumulate(reach, out=reach)
        np.add(reach[:-1], opening, out=insert_1)
        np.maximum(best, insert, out=high)
    np.greater(skips[:-1], opens, out=table.went_on[start + 1 : stop + 1])
    np.greater_equal(paired[:, 1:], skips[1:, 1:], out=table.pairs[start + 1 : stop + 1])
    np.greater(inserted[:, 1:], base[:, 1:], out=table.inserts[start + 1 : stop + 1])
    last_of_all: Scores = skips[-1]
    return last_of_all


Flags = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class _Table:
    """Per cell: the best score not by an insertion; how it was reached; whether a skip went on.

    `pairs` (less the first column) holds where the best not by insertion pairs (else it skips), `inserts`
    where an insertion is better still.
    """

    base: Scores
    pairs: Flags
    inserts: Flags
    went_on: Flags


def _table(rows: int, columns: int) -> _Table:
    return _Table(
        np.full((rows + 1, columns + 1), -np.inf),
        np.zeros((rows + 1, columns), dtype=np.bool_),
        np.zeros((rows + 1, columns), dtype=np.bool_),
        np.zeros((rows + 1, columns + 1), dtype=np.bool_),
    )


def _trace(table: _Table, steps: Scores) -> Path:
    row, column = table.base.shape[0] - 1, table.base.shape[1] - 1
    path: list[tuple[int, int]] = []
    skipping = False
    while row or column:
        if not skipping and column and table.inserts[row, column - 1]:
            reach = (table.base[row, :column] - steps[:column])[::-1]
            start = column - 1 - int(np.argmax(reach))
            path.extend((-1, at) for at in range(column - 1, start - 1, -1))
            column = start
            if not row:
                break
        if not skipping and column and table.pairs[row, column - 1]:
            row, column = row - 1, column - 1
            path.append((row, column))
        else:
            skipping = bool(table.went_on[row, column])
            row -= 1
            path.append((row, -1))
    return tuple(reversed(path))
