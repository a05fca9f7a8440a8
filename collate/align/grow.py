"""The growing variant graph: witnesses set in one after another, then each taken out and set in anew.

The graph is held as its columns in order: `grid[c, w]` is the word of witness w in column c, or -1. A new
witness is first anchored on the columns' commonest words; only the stretches between anchors go through the
dynamic programme.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.anchor import NOTHING, Pair, anchors
from collate.align.order import order
from collate.align.path import Asked, Costs, Found
from collate.align.score import UNIT, Indices, Scores, Table
from collate.align.together import Steps
from collate.settings import Aligning

Grid = npt.NDArray[np.int32]

Stretch = tuple[Pair, Pair]
"""The first column and word of some, and those after the last."""

WHOLE = 2_500
"""Up to how many cells (columns by words) the dynamic programme runs whole, without anchors."""


LIKE = 0.5
"""What share of a match a word must be worth beside the others of its column, to be settled there."""

SETTLED = 1
"""How many words at each end of a run that agrees with the others are set in anew all the same."""


@dataclass(frozen=True, slots=True)
class Ease:
    """Where a witness is silent without omitting: two values for each place between its words.

    They are the shares of the usual cost at which the silence opens there (first row of `places`) and at
    which each word in it is passed over (second row): 1 at an ordinary place, less at a lacuna or a lost end.
    """

    places: Scores


@dataclass(frozen=True, slots=True)
class Guest:
    """A witness to be set in: its place in the table, and how many others have joined before it."""

    witness: int
    table: Table
    ease: Scores
    joined: int

    @property
    def words(self) -> Indices:
        """The numbers of its forms."""
        return self.table.words[self.witness]

    @property
    def match(self) -> int:
        """What a word is worth beside itself."""
        return round(self.table.aligning.match * UNIT)

    @property
    def open(self) -> int:
        """What it costs that one pair of words is parted by a gap."""
        return round(self.table.aligning.gap_open * UNIT)

    @property
    def extend(self) -> int:
        """What each pair in a gap costs."""
        return round(self.table.aligning.gap_extend * UNIT)


def grow(table: Table, eases: Sequence[Ease], aligning: Aligning) -> Steps[Grid]:
    """Grow the columns of all witnesses of a table, refined until nothing improves."""
    grid = np.empty((0, len(table.words)), dtype=np.int32)
    for joined, witness in enumerate(order(table)):
        grid = yield from set_in(grid, Guest(witness, table, eases[witness].places, max(joined, 1)))
    return (yield from refine(grid, table, eases, aligning))


def refine(grid: Grid, table: Table, eases: Sequence[Ease], aligning: Aligning) -> Steps[Grid]:
    """Take each witness out and set it in again, until none improves any more or the rounds are spent."""
    count = len(table.words)
    if count < 3:
        return grid
    firm = 0
    for turn in range(aligning.rounds * count):
        guest = Guest(turn % count, table, eases[turn % count].places, count - 1)
        again = yield from _set_anew(grid, guest)
        if again is not None and standing(again, guest) > standing(grid, guest):
            grid, firm = again, 1
        else:
            firm += 1
        if firm == count:
            break
    return grid


def _set_anew(grid: Grid, guest: Guest) -> Steps[Grid | None]:
    """Take a witness out and set it in again; return the columns if they are others than before."""
    others = grid >= 0
    others[:, guest.witness] = False
    present = others.sum(axis=1)
    held = present > 0
    columns = np.where(held, held.cumsum() - 1, -1).tolist()
    words = grid[:, guest.witness].tolist()
    rest = grid[held]
    rest[:, guest.witness] = -1
    fixed = _settled(zip(columns, words, *_likes(grid, guest, others, present), strict=True))
    firm = [*fixed, (len(rest), len(guest.words))]
    loose = list(_stretches(firm))
    if not loose:
        return None
    found = yield _asked(rest, guest, loose)
    again = _path(firm, iter(found))
    return None if again == (columns, words) else _joined(rest, guest, *again)


def _settled(pairs: Iterable[tuple[int, int, bool, bool]]) -> list[Pair]:
    """Return pairs (column without the witness, word) of a witness that are not to be moved again.

    They stand within runs where the witness has, word after word, what most others have, and those that
    stand between have little there; SETTLED from each end of the run. With each pair stands whether it is
    like the others, and whether it is firm.
    """
    found: list[Pair] = []
    run: list[Pair] = []
    for column, word, is_like, is_firm in pairs:
        if not is_firm:
            found.extend(run[SETTLED : len(run) - SETTLED])
            run = []
        elif is_like:
            run.append((column, word))
    found.extend(run[SETTLED : len(run) - SETTLED])
    return found


def _likes(
    grid: Grid, guest: Guest, others: npt.NDArray[np.bool_], present: Indices
) -> tuple[list[bool], list[bool]]:
    """Say of each column whether a witness has what most others have, and whether that or most have nothing.

    `others` says where another witness has a word, `present` how many have one in each column.
    """
    mine, most = grid[:, guest.witness] >= 0, present * 2 > guest.joined
    like = mine & most
    like[like] = _worths(grid[like], others[like], guest) >= present[like] * (LIKE * guest.match)
    return like.tolist(), (like | ~(most | mine)).tolist()


def set_in(grid: Grid, guest: Guest) -> Steps[Grid]:
    """Set a witness's words into the columns of the others."""
    fixed: Sequence[Pair] = ()
    if len(grid) * len(guest.words) > WHOLE:
        fixed = anchors(consensus(grid, guest.table), guest.table.identity[guest.words].tolist())
    firm = [*fixed, (len(grid), len(guest.words))]
    found: Sequence[Found] = ()
    if loose := list(_stretches(firm)):
        found = yield _asked(grid, guest, loose)
    return _joined(grid, guest, *_path(firm, iter(found)))


def _joined(grid: Grid, guest: Guest, homes: Sequence[int], words: Sequence[int]) -> Grid:
    """Return columns with a witness in them, given what stands together: -1 where one side has nothing."""
    columns = np.array(homes, dtype=np.intp)
    result = np.full((len(columns), grid.shape[1]), -1, dtype=np.int32)
    held = columns >= 0
    result[held] = grid[columns[held]]
    result[:, guest.witness] = words
    return result


def _stretches(firm: Sequence[Pair]) -> Iterator[Stretch]:
    """Yield where the stretches begin and end that have columns and words between two that are firm."""
    column, word = 0, 0
    for pair in firm:
        if column < pair[0] and word < pair[1]:
            yield (column, word), pair
        column, word = pair[0] + 1, pair[1] + 1


def _path(firm: Sequence[Pair], found: Iterator[Found]) -> tuple[list[int], list[int]]:
    """Return columns and words that stand together, -1 for a gap on either side; `firm` ends with the end."""
    columns: list[int] = []
    words: list[int] = []
    column, word = 0, 0
    for pair in firm:
        if column < pair[0] and word < pair[1]:
            for c, w in next(found).path:
                columns.append(c + column if c >= 0 else -1)
                words.append(w + word if w >= 0 else -1)
        elif (column, word) != pair:
            columns.extend((*range(column, pair[0]), *[-1] * (pair[1] - word)))
            words.extend((*[-1] * (pair[0] - column), *range(word, pair[1])))
        columns.append(pair[0])
        words.append(pair[1])
        column, word = pair[0] + 1, pair[1] + 1
    return columns[:-1], words[:-1]


def consensus(grid: Grid, table: Table) -> list[int]:
    """Return the identity that more than half of the words of each column have, or NOTHING."""
    if not len(grid):
        return []
    identities = np.full(grid.shape, -1, dtype=np.intp)
    rows, witnesses = np.nonzero(grid >= 0)
    identities[rows, witnesses] = table.identity[table.padded[witnesses, grid[rows, witnesses]]]
    present = (identities >= 0).sum(axis=1)
    ranked = np.sort(identities, axis=1)
    middle = ranked[np.arange(len(grid)), grid.shape[1] - present + present // 2]
    agreed = (identities == middle[:, np.newaxis]).sum(axis=1) * 2 > present
    found: list[int] = np.where(agreed, middle, NOTHING).tolist()
    return found


def _asked(grid: Grid, guest: Guest, loose: Sequence[Stretch]) -> list[Asked]:
    """Return the scores and costs of the columns and words of each stretch.

    Each witness that has joined and has nothing in a column counts as a gap beside a word set there.
    """
    forms = guest.table.padded[np.arange(grid.shape[1]), grid]
    present = (grid >= 0).sum(axis=1).astype(np.float64)
    opens, extends = present * guest.open, present * guest.extend
    lacks = ((guest.joined - present) * guest.extend)[:, np.newaxis]
    insert = float(guest.joined * guest.open), float(guest.joined * guest.extend)
    return [
        (
            guest.table.sums(forms[column:end], guest.words[word:stop]) + lacks[column:end],
            Costs(opens[column:end], extends[column:end], *insert, guest.ease[:, word : stop + 1]),
        )
        for (column, word), (end, stop) in loose
    ]


def standing(grid: Grid, guest: Guest) -> float:
    """Return the score of a witness as it stands in the grid, reckoned as the paths are."""
    mine = grid[:, guest.witness] >= 0
    others = grid >= 0
    others[:, guest.witness] = False
    present = others.sum(axis=1)
    paired, inserted = mine & (present > 0), mine & (present == 0)
    skipped = ~mine
    opens = np.concatenate((paired[1:] | (inserted[1:] != inserted[:-1]) | paired[:-1], [True]))
    inserts = inserted.sum() * guest.extend + (inserted & opens).sum() * guest.open
    opening, each = guest.ease[:, np.cumsum(mine) - mine]
    skips = present * (guest.extend * each + opens * guest.open * opening)
    lacking = guest.extend * (guest.joined - present[paired])
    total = (
        guest.joined * inserts
        + skips[skipped].sum()
        + lacking.sum()
        + _worths(grid[paired], others[paired], guest).sum()
    )
    return float(total)


def _worths(grid: Grid, others: npt.NDArray[np.bool_], guest: Guest) -> Scores:
    """Return for each column the summed score of a witness's word beside the others' words."""
    rows, witnesses = np.nonzero(others)
    theirs = guest.table.padded[witnesses, grid[rows, witnesses]]
    ours = guest.table.padded[guest.witness, grid[rows, guest.witness]]
    sums = np.bincount(rows, guest.table.pairs(theirs, ours), minlength=len(grid))
    return np.asarray(sums, dtype=np.float64)
