"""The best way through a small table of scores: what `path` finds, reckoned cell by cell.

Most stretches between two places that stand firm are of a few words, for which the steps of numpy cost more
than the cells.
"""

from collections.abc import Sequence
from dataclasses import dataclass

SMALL = 64
"""Up to how many cells a table is small."""

NEVER = float("-inf")

Row = Sequence[float]


@dataclass(frozen=True, slots=True)
class Gaps:
    """What gaps cost, as `path` has it: to skip a row (open, go on), to insert (open, go on), the ease."""

    skip_open: Row
    skip_extend: Row
    insert_open: float
    insert_extend: float
    ease: Row


@dataclass(frozen=True, slots=True)
class _Line:
    """How each cell of a row was reached: `pairs` and `went_on` as in `path`, `begins` of an insertion or -1.

    An insertion that is better than what is reached without one begins at that column.
    """

    pairs: list[bool]
    went_on: list[bool]
    begins: list[int]


def small_path(scores: Sequence[Row], gaps: Gaps) -> tuple[tuple[tuple[int, int], ...], float]:
    """Return the path through `scores` (rows by columns, neither none), and its score.

    The rows and columns are gone through in the order given; of equal paths that which pairs latest is taken.
    """
    width = len(gaps.ease)
    high = [0.0] + [gaps.insert_open + gaps.insert_extend * at for at in range(1, width)]
    skipping = [NEVER] * width
    lines = [_Line([], [], [-1, *([0] * (width - 1))])]
    for score, opened, extended in zip(scores, gaps.skip_open, gaps.skip_extend, strict=True):
        line, high, skipping = _line(score, (opened, extended), gaps, high, skipping)
        lines.append(line)
    return _trace(lines, width - 1), high[-1]


def _line(
    score: Row, skip: tuple[float, float], gaps: Gaps, high: Row, skipping: Row
) -> tuple[_Line, list[float], list[float]]:
    """Return a row of the table, its best scores and its best skips, from those of the row before."""
    opened, extended = skip
    pairs, went_on, begins, best, skips = [False], [], [-1], [], []
    start, reach, inserts = 0, NEVER, NEVER
    step = gaps.insert_extend
    for at, (above, last, ease) in enumerate(zip(high, skipping, gaps.ease, strict=True)):
        opens = opened * ease + above
        went_on.append(last > opens)
        value = (last if last > opens else opens) + extended * ease
        skips.append(value)
        if at:
            paired = high[at - 1] + score[at - 1]
            pairs.append(paired >= value)
            value = max(paired, value)
            inserts = reach + gaps.insert_open + step * at
            begins.append(start if inserts > value else -1)
        if value - step * at >= reach:
            reach, start = value - step * at, at
        best.append(max(value, inserts))
    return _Line(pairs, went_on, begins), best, skips


def _trace(lines: Sequence[_Line], column: int) -> tuple[tuple[int, int], ...]:
    row, skipping = len(lines) - 1, False
    path: list[tuple[int, int]] = []
    while row or column:
        line = lines[row]
        begin = line.begins[column]
        if begin >= 0 and not skipping:
            path.extend((-1, at) for at in range(column - 1, begin - 1, -1))
            column = begin
            if not row:
                break
        row -= 1
        if not skipping and line.pairs[column]:
            column -= 1
            path.append((row, column))
        else:
            skipping = line.went_on[column]
            path.append((row, -1))
    path.reverse()
    return tuple(path)
