"""The best way through a table of scores: dynamic programming with affine gaps, a row at a time.

O. Gotoh, "An improved algorithm for matching biological sequences", Journal of Molecular Biology
162 (1982) 705-8. A row is one numpy step: the gap along the row is a running maximum.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.score import Scores

Path = tuple[tuple[int, int], ...]
"""Pairs (row, column), in order; -1 on either side is a gap."""


@dataclass(frozen=True, slots=True)
class Costs:
    """What gaps cost, all at most 0.

    `skip_open[i]` and `skip_extend[i]` are for passing over row i; `insert_open`,
    `insert_extend` for a word of the columns that stands beside no row. `ease[j]`, from 0 to 1,
    lightens the passing over of rows between columns j - 1 and j (a lacuna, a fragment's end).
    All are whole numbers, so that sums are exact and ties fall alike on every machine.
    """

    skip_open: Scores
    skip_extend: Scores
    insert_open: float
    insert_extend: float
    ease: Scores


@dataclass(frozen=True, slots=True)
class Found:
    """The best path, and its score."""

    path: Path
    score: float


def best_path(scores: Scores, costs: Costs) -> Found:
    """Return the path of the highest score through `scores` (rows by columns).

    Of equal paths, seen from the end, the one that pairs is taken, then the one that passes over
    a row, then the one that inserts; of insertions the shortest.
    """
    rows, columns = scores.shape
    steps = np.arange(columns + 1, dtype=np.float64) * costs.insert_extend
    opening = costs.insert_open + steps[1:]
    opens, extends = np.outer(costs.skip_open, costs.ease), np.outer(costs.skip_extend, costs.ease)
    table = _table(rows, columns)
    high = np.concatenate(([0.0], opening))
    table.base[0, 0] = 0.0
    table.inserts[0] = True
    skipping = np.full(columns + 1, -np.inf)
    reach = np.empty(columns + 1)
    for row in range(rows):
        opened, base = opens[row], table.base[row + 1]
        opened += high
        np.greater(skipping, opened, out=table.went_on[row + 1])
        np.maximum(opened, skipping, out=skipping)
        skipping += extends[row]
        paired = high[:-1] + scores[row]
        base[0] = skipping[0]
        np.maximum(paired, skipping[1:], out=base[1:])
        np.greater_equal(paired, skipping[1:], out=table.pairs[row + 1])
        np.subtract(base, steps, out=reach)
        np.maximum.accumulate(reach, out=reach)
        inserted = reach[:-1] + opening
        np.greater(inserted, base[1:], out=table.inserts[row + 1])
        high[0] = base[0]
        np.maximum(base[1:], inserted, out=high[1:])
    return Found(_trace(table, steps), float(high[-1]))


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
