"""The growing variant graph: witnesses set in one after another, then each taken out and set in anew.

The graph is held as its columns in order: `grid[c, w]` is the word of witness w in column c, or -1.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.order import order
from collate.align.path import Costs, best_path
from collate.align.score import UNIT, Scores, Table
from collate.settings import Aligning

Grid = npt.NDArray[np.int32]


@dataclass(frozen=True, slots=True)
class Ease:
    """Where a witness is silent without omitting: one value for each place between its words.

    1 is an ordinary place; 0 one where words may be lacking at no cost (a lacuna, a lost end).
    """

    places: Scores


def grow(table: Table, eases: Sequence[Ease], aligning: Aligning) -> Grid:
    """Return the columns of all witnesses of a table, refined until nothing improves."""
    grid = np.empty((0, len(table.words)), dtype=np.int32)
    for witness in order(table):
        grid = set_in(grid, witness, table, eases[witness], aligning)[0]
    return refine(grid, table, eases, aligning)


def refine(grid: Grid, table: Table, eases: Sequence[Ease], aligning: Aligning) -> Grid:
    """Take each witness out and set it in again, until a round improves nothing or rounds are spent."""
    if len(table.words) < 3:
        return grid
    for _ in range(aligning.rounds):
        changed = False
        for witness in range(len(table.words)):
            without = take_out(grid, witness)
            again, score = set_in(without, witness, table, eases[witness], aligning)
            if score > standing(grid, without, witness, table, eases[witness], aligning):
                grid, changed = again, True
        if not changed:
            break
    return grid


def take_out(grid: Grid, witness: int) -> Grid:
    """Return the grid without a witness, columns that held nothing else removed."""
    rest = grid.copy()
    rest[:, witness] = -1
    return rest[(rest >= 0).any(axis=1)]


def set_in(grid: Grid, witness: int, table: Table, ease: Ease, aligning: Aligning) -> tuple[Grid, float]:
    """Set a witness's words into the columns of the others; return the new grid and its score."""
    words = table.words[witness]
    found = best_path(pairing(grid, witness, table, aligning), costs(grid, ease, aligning))
    result = np.full((len(found.path), grid.shape[1]), -1, dtype=np.int32)
    for at, (column, word) in enumerate(found.path):
        if column >= 0:
            result[at] = grid[column]
        result[at, witness] = word
    assert len(words) == sum(word >= 0 for _, word in found.path)
    return result, found.score


def pairing(grid: Grid, witness: int, table: Table, aligning: Aligning) -> Scores:
    """Return the score of each column beside each word: summed over the witnesses in the column.

    A witness with nothing in the column counts as a gap beside the word.
    """
    words = table.words[witness]
    counts = profile(grid, table)
    used = np.flatnonzero(counts.any(axis=0))
    score: Scores = counts[:, used] @ table.worth[np.ix_(used, words)]
    lacking = _joined(grid) - (grid >= 0).sum(axis=1)
    score += (lacking * round(aligning.gap_extend * UNIT))[:, np.newaxis]
    return score


def profile(grid: Grid, table: Table) -> Scores:
    """Return how often each form stands in each column."""
    counts = np.zeros((grid.shape[0], len(table.forms)))
    for witness, words in enumerate(table.words):
        rows = np.flatnonzero(grid[:, witness] >= 0)
        np.add.at(counts, (rows, words[grid[rows, witness]]), 1.0)
    return counts


def costs(grid: Grid, ease: Ease, aligning: Aligning) -> Costs:
    """Return what gaps cost beside these columns: passing over a column weighs by who is in it."""
    joined = max(_joined(grid), 1)
    present = (grid >= 0).sum(axis=1).astype(np.float64)
    return Costs(
        present * round(aligning.gap_open * UNIT),
        present * round(aligning.gap_extend * UNIT),
        float(joined * round(aligning.gap_open * UNIT)),
        float(joined * round(aligning.gap_extend * UNIT)),
        ease.places,
    )


def _joined(grid: Grid) -> int:
    """Return how many witnesses have words in the grid."""
    return int((grid >= 0).any(axis=0).sum())


def standing(grid: Grid, without: Grid, witness: int, table: Table, ease: Ease, aligning: Aligning) -> float:
    """Return the score of a witness as it stands in the grid, reckoned as `set_in` reckons."""
    scores = pairing(without, witness, table, aligning)
    cost = costs(without, ease, aligning)
    total, row, word, skipping, inserting = 0.0, 0, 0, False, False
    others = np.delete(grid, witness, axis=1)
    for at in range(grid.shape[0]):
        here, alone = grid[at, witness] >= 0, not (others[at] >= 0).any()
        if alone:
            total += cost.insert_extend + (0.0 if inserting else cost.insert_open)
            word, skipping, inserting = word + 1, False, True
        elif here:
            total += scores[row, word]
            row, word, skipping, inserting = row + 1, word + 1, False, False
        else:
            light = float(ease.places[word])
            total += (cost.skip_extend[row] + (0.0 if skipping else cost.skip_open[row])) * light
            row, skipping, inserting = row + 1, True, False
    return total
