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
    table = _Table(
        np.full((rows + 1, columns + 1), -np.inf),
        np.zeros((rows + 1, columns + 1), dtype=np.uint8),
        np.zeros((rows + 1, columns + 1), dtype=np.bool_),
    )
    high = costs.insert_open + steps
    high[0] = table.base[0, 0] = 0.0
    table.source[0, 1:] = _INSERT
    skipping = np.full(columns + 1, -np.inf)
    for row in range(1, rows + 1):
        opened = high + costs.skip_open[row - 1] * costs.ease
        table.went_on[row] = skipping > opened
        skipping = np.maximum(opened, skipping) + costs.skip_extend[row - 1] * costs.ease
        paired = high[:-1] + scores[row - 1]
        base = table.base[row]
        base[0] = skipping[0]
        np.maximum(paired, skipping[1:], out=base[1:])
        reach = np.maximum.accumulate(base - steps)
        inserted = reach[:-1] + (costs.insert_open + steps[1:])
        high = np.maximum(base, np.concatenate(([-np.inf], inserted)))
        table.source[row, 1:] = _PAIR * (paired >= skipping[1:]) + _INSERT * (inserted > base[1:])
    return Found(_trace(table, steps), float(high[-1]))


_PAIR, _INSERT = np.uint8(1), np.uint8(2)


@dataclass(frozen=True, slots=True)
class _Table:
    """Per cell: the best score not by an insertion; how it was reached; whether a skip went on.

    `source` holds _PAIR where the best not by insertion pairs (else it skips), and _INSERT where
    an insertion is better still.
    """

    base: Scores
    source: npt.NDArray[np.uint8]
    went_on: npt.NDArray[np.bool_]


def _trace(table: _Table, steps: Scores) -> Path:
    row, column = table.base.shape[0] - 1, table.base.shape[1] - 1
    path: list[tuple[int, int]] = []
    skipping = False
    while row or column:
        source = table.source[row, column]
        if not skipping and source & _INSERT:
            reach = (table.base[row, :column] - steps[:column])[::-1]
            start = column - 1 - int(np.argmax(reach))
            path.extend((-1, at) for at in range(column - 1, start - 1, -1))
            column = start
            if not row:
                break
            source = table.source[row, column]
        if not skipping and source & _PAIR:
            row, column = row - 1, column - 1
            path.append((row, column))
        else:
            skipping = bool(table.went_on[row, column])
            row -= 1
            path.append((row, -1))
    return tuple(reversed(path))
