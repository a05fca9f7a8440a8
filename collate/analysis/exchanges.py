"""Words that one witness has in another order than the base: looked for in the columns of the two alone.

Where two witnesses differ over some columns, and yet have the very same words there, each as often, the
words changed places. What other witnesses have in these columns does not matter. A copy may have exchanged
two parts, what stands between them staying; or have all in another order, which is then shown as it stands.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass

from collate.analysis.cells import LOST, Cell, Cells, Keys, cells_of, is_content
from collate.model.collation import Collation, Locus
from collate.model.division import one_wording
from collate.model.form import Judge
from collate.model.witness import Token, TokenKind

SHORT = 7
"""Of at most how many words of the base it is said that they have changed places."""

LONG = 16
"""The same, where function words stand between the parts: *X and Y*."""

NEAR = 4
"""Of at most how many, where one of the parts is nothing but function words or numbers."""

FEW = 8
"""How many words, at most, are printed as they stand because their order is another."""

MOST = 24
"""Over how many columns in which two witnesses differ an exchange is looked for."""


@dataclass(frozen=True, slots=True)
class Exchange:
    """Words of the base that a witness has in another order.

    `ours` and `theirs` are the words of the two; `mover` those of the witness that are said to have moved,
    and `home` the columns where the base has them. `window` are the columns of all, `parts` those of the two
    parts of the base's words that were exchanged; where there are none, the order must be shown.
    """

    ours: tuple[Cell, ...]
    theirs: tuple[Cell, ...]
    mover: tuple[Cell, ...]
    home: Locus
    window: Locus
    parts: tuple[Locus, ...]


def exchanges(collation: Collation, keys: Keys, pair: tuple[int, int], judge: Judge) -> Iterator[Exchange]:
    """Yield the words that the second of two witnesses has in another order than the first, in order.

    Of windows that begin at one place the shortest is taken; of windows that overlap the first.
    """
    differing = _differing(keys, pair)
    both = {ours for _, ours, _ in differing}.intersection(theirs for *_, theirs in differing) - {LOST}
    both.add("")
    at = 0
    while at < len(differing) and len(both) > 1:
        stop = _balanced(differing, at, both)
        found = (
            _told(collation, keys, pair, Locus(differing[at][0], differing[stop - 1][0] + 1), judge)
            if stop
            else ()
        )
        yield from found
        at = stop if found else at + 1


_Difference = tuple[int, str, str]
"""A column in which two witnesses differ, and the keys of both."""


def _differing(keys: Keys, pair: tuple[int, int]) -> list[_Difference]:
    a, b = pair
    return [(column, row[a], row[b]) for column, row in keys.rows.items() if row[a] != row[b]]


def _balanced(differing: Sequence[_Difference], at: int, both: Set[str]) -> int:
    """Return where the words of both, from a difference on, are the same for the first time; 0 if nowhere.

    `both` are the keys that each of the two has somewhere.
    """
    balance: dict[str, int] = defaultdict(int)
    for stop in range(at, min(at + MOST, len(differing))):
        _, ours, theirs = differing[stop]
        if ours not in both or theirs not in both:
            return 0
        for key, by in ((ours, 1), (theirs, -1)):
            if key:
                balance[key] += by
                if not balance[key]:
                    del balance[key]
        if not balance:
            return stop + 1
    return 0


def _told(
    collation: Collation, keys: Keys, pair: tuple[int, int], window: Locus, judge: Judge
) -> tuple[Exchange, ...]:
    """Return the exchanges that explain all that differs in some columns; nothing if they do not."""
    ours, theirs = (cells_of(collation, w, window, keys) for w in pair)
    if len(ours) != len(theirs) or any(cell.key == LOST for cell in (*ours, *theirs)):
        return ()
    found = []
    for start, stop in _parts(ours, theirs):
        each = _exchange(ours[start:stop], theirs[start:stop], window, judge)
        if each is None:
            return ()
        found.append(each)
    return tuple(found)


def _parts(ours: Sequence[Cell], theirs: Sequence[Cell]) -> Iterator[tuple[int, int]]:
    """Yield the shortest stretches of two runs of the same words in which these stand in another order."""
    balance: dict[str, int] = defaultdict(int)
    start = 0
    for at, (one, other) in enumerate(zip(ours, theirs, strict=True)):
        balance[one.key] += 1
        balance[other.key] -= 1
        if not any(balance.values()):
            if at > start:
                yield start, at + 1
            start = at + 1


def _exchange(
    ours: tuple[Cell, ...], theirs: tuple[Cell, ...], window: Locus, judge: Judge
) -> Exchange | None:
    """Return how some words became others; None where that is not told in few words.

    Of several ways to exchange two parts the one with the shortest first part is taken.
    """
    count = sum(len(cell.words) for cell in ours)
    moved: tuple[Cells, Locus] | None = None
    for first in range(1, len(ours)) if count <= LONG else ():
        for second in range(first, len(ours)):
            if _exchanged(ours, theirs, (first, second)):
                x, y = ours[:first], ours[second:]
                if not _most(x, ours[first:second], y, judge):
                    return None
                mover, home = _mover(ours, theirs, (x, theirs[-first:]), (y, theirs[: len(y)]))
                if _says(ours, theirs, (first, second), judge):
                    parts = (_columns(x), _columns(y))
                    return Exchange(ours, theirs, mover, _columns(home), window, parts)
                moved = moved or (mover, _columns(home))
    changed = [one for one, other in zip(ours, theirs, strict=True) if one.key != other.key]
    if count > FEW or sum(is_content(cell, judge) for cell in changed) < 2:
        return None
    mover, home_columns = moved or (theirs, _columns(ours))
    return Exchange(ours, theirs, mover, home_columns, window, ())


def _mover(
    ours: Sequence[Cell], theirs: Sequence[Cell], x: tuple[Cells, Cells], y: tuple[Cells, Cells]
) -> tuple[Cells, Cells]:
    """Return the words of the part that moved, theirs and ours.

    It is that of which at either end one of the two has nothing, then the shorter, then the first.
    """
    held = {cell.column for cell in ours} & {cell.column for cell in theirs}

    def shared(part: tuple[Cells, Cells]) -> int:
        return sum(cell.column in held for side in part for cell in side)

    home, mover = min((x, y), key=lambda part: (shared(part), len(part[0])))
    return mover, home


def _exchanged(ours: Sequence[Cell], theirs: Sequence[Cell], cut: tuple[int, int]) -> bool:
    """Say whether some words are by their keys others with the parts before and after two cuts exchanged."""
    exchanged = (*ours[cut[1] :], *ours[cut[0] : cut[1]], *ours[: cut[0]])
    return all(one.key == other.key for one, other in zip(exchanged, theirs, strict=True))


def _says(ours: Sequence[Cell], theirs: Sequence[Cell], cut: tuple[int, int], judge: Judge) -> bool:
    """Say whether it is told of some words that their parts before and after two cuts were exchanged.

    It is not where a word of content stands between: of three parts the order has to be shown.
    """
    first, second = cut
    x, between, y = ours[:first], ours[first:second], ours[second:]
    if any(is_content(cell, judge) for cell in between):
        return False
    exchanged = (*y, *between, *x)
    return len(ours) <= _most(x, between, y, judge) and one_wording(_words(exchanged), _words(theirs), judge)


def _most(x: Sequence[Cell], between: Sequence[Cell], y: Sequence[Cell], judge: Judge) -> int:
    """Return how many words it may be of which it is told that their parts were exchanged.

    Of function words only two neighbours are: *it is*, *is it*; of numbers none, and *and* is not moved.
    """
    one, other, middle = (any(is_content(cell, judge) for cell in part) for part in (x, y, between))
    if not (one or other):
        return 2 if all(word.kind is TokenKind.WORD for word in _words((*x, *y))) else 0
    if not (one and other):
        return 0 if all(_links(cell) for cell in (y if one else x)) else NEAR
    return LONG if between and not middle else SHORT


def _links(cell: Cell) -> bool:
    """Say whether a cell is nothing but a conjunction."""
    return all(name.endswith("(conjunction)") for word in cell.words for name in word.headwords or ("",))


def _columns(cells: Sequence[Cell]) -> Locus:
    return Locus(cells[0].column, cells[-1].column + 1)


def _words(cells: Sequence[Cell]) -> list[Token]:
    return [word for cell in cells for word in cell.words]
