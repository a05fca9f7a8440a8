"""The fast path against a slow and plain one that tries every way."""

from functools import cache

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from collate.align.path import Asked, Costs, best_path, best_paths


def plain_best(scores: list[list[int]], skip: list[tuple[int, int]], insert: tuple[int, int]) -> float:
    rows, columns = len(scores), len(scores[0]) if scores else 0

    @cache
    def best(row: int, column: int, last: str) -> float:
        if row == rows and column == columns:
            return 0.0
        ways = []
        if row < rows and column < columns:
            ways.append(scores[row][column] + best(row + 1, column + 1, "pair"))
        if row < rows:
            opening = 0 if last == "skip" else skip[row][0]
            ways.append(opening + skip[row][1] + best(row + 1, column, "skip"))
        if column < columns:
            opening = 0 if last == "insert" else insert[0]
            ways.append(opening + insert[1] + best(row, column + 1, "insert"))
        return max(ways)

    return best(0, 0, "start")


GAP = st.tuples(st.integers(-9, 0), st.integers(-9, 0))


@given(st.data(), st.integers(1, 5), st.integers(1, 5), GAP)
def test_the_best_path_is_the_best(
    data: st.DataObject, rows: int, columns: int, insert: tuple[int, int]
) -> None:
    line = st.lists(st.integers(-9, 9), min_size=columns, max_size=columns)
    scores = data.draw(st.lists(line, min_size=rows, max_size=rows))
    skip = data.draw(st.lists(GAP, min_size=rows, max_size=rows))
    costs = Costs(
        np.array([opening for opening, _ in skip], dtype=float),
        np.array([each for _, each in skip], dtype=float),
        float(insert[0]),
        float(insert[1]),
        np.ones((2, columns + 1)),
    )
    found = best_path(np.array(scores, dtype=float), costs)
    from_the_end = [line[::-1] for line in scores[::-1]]
    assert found.score == plain_best(from_the_end, skip[::-1], insert)
    assert [row for row, _ in found.path if row >= 0] == list(range(rows))
    assert [column for _, column in found.path if column >= 0] == list(range(columns))
    assert score_of(found.path, scores, skip, insert) == found.score


def score_of(
    path: tuple[tuple[int, int], ...],
    scores: list[list[int]],
    skip: list[tuple[int, int]],
    insert: tuple[int, int],
) -> float:
    """Return what a path is worth: a gap opens with its last row, as the path is read from its end."""
    total, last = 0, "end"
    for row, column in reversed(path):
        if row >= 0 and column >= 0:
            total, last = total + scores[row][column], "pair"
        elif row >= 0:
            total += skip[row][1] + (0 if last == "skip" else skip[row][0])
            last = "skip"
        else:
            total += insert[1] + (0 if last == "insert" else insert[0])
            last = "insert"
    return total


def test_of_equal_pairs_the_first_is_taken() -> None:
    costs = Costs(np.array([-1.0]), np.array([-1.0]), -1.0, -1.0, np.ones((2, 3)))
    assert best_path(np.array([[5.0, 5.0]]), costs).path == ((0, 0), (-1, 1))


def test_ties_pair_before_they_skip() -> None:
    costs = Costs(np.array([-1.0]), np.array([-1.0]), -1.0, -1.0, np.ones((2, 2)))
    assert best_path(np.array([[-4.0]]), costs).path == ((0, 0),)
    assert best_path(np.array([[-5.0]]), costs).path in (((0, -1), (-1, 0)), ((-1, 0), (0, -1)))


@given(st.data())
def test_tables_that_are_laid_together_give_the_paths_they_give_alone(data: st.DataObject) -> None:
    asked = [data.draw(tables()) for _ in range(data.draw(st.integers(1, 9)))]
    assert best_paths(asked) == [best_path(scores, costs) for scores, costs in asked]


@st.composite
def tables(draw: st.DrawFn) -> Asked:
    rows, columns = draw(st.integers(0, 9)), draw(st.integers(0, 9))
    gaps = st.lists(st.integers(-3, 0), min_size=rows, max_size=rows)
    few = st.lists(st.integers(-3, 3), min_size=rows * columns, max_size=rows * columns)
    share = st.sampled_from((0.0, 0.25, 1.0))
    ease = st.lists(share, min_size=columns + 1, max_size=columns + 1)
    insert, extend = draw(st.integers(-3, 0)), draw(st.integers(-3, 0))
    costs = Costs(
        np.array(draw(gaps), dtype=float),
        np.array(draw(gaps), dtype=float),
        float(insert),
        float(extend),
        np.array([draw(ease), draw(ease)]),
    )
    return np.array(draw(few), dtype=float).reshape(rows, columns), costs
