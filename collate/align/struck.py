"""Columns of words in, the same out where a witness struck words out: it lacks words just there.

Where A has "sugre and salt and wyn" and B "sugre [[and salt]] and wyn", either "and" of A may stand beside
that of B. What B struck out says which.
"""

from collections.abc import Iterator, Sequence
from itertools import takewhile

from collate.align.divide import Cell
from collate.model.transcript import Mark
from collate.model.witness import Item


def beside_struck(cells: Sequence[Sequence[Cell]], items: Sequence[Item]) -> list[list[Cell]]:
    """Return columns in which words stand on that side of a gap on which nothing is struck out.

    Words go over a gap only where they come to stand beside the same words as before, and it is as long as
    what is struck out, or a word more or less: so no alignment becomes worse.
    """
    columns = [list(row) for row in cells]
    for w, item in enumerate(items):
        for at, length in _struck(item):
            _move(columns, items, w, at, length)
    return columns


def _struck(item: Item) -> Iterator[tuple[int, int]]:
    """Yield where words are struck out between the words of an item, and how many."""
    for aside in item.asides:
        if aside.mark is Mark.DELETED and aside.letter is None:
            yield aside.at, len(aside.text.split())


def _move(columns: list[list[Cell]], items: Sequence[Item], w: int, at: int, length: int) -> None:
    """Bring a gap of about `length` columns near token `at` of a witness to it, if it may go there."""
    held = [(column, cell) for column, row in enumerate(columns) if (cell := row[w])]
    before = [column for column, cell in held if cell[0] < at]
    after = [column for column, cell in held if cell[0] >= at]
    first, stop = before[-1] + 1 if before else 0, after[0] if after else len(columns)
    if first != stop:
        return  # the gap is here already, as it is or in part
    for block, step in (_run(after, 1), 1), (_run(before[::-1], -1), -1):
        gap = _gap(columns, w, block, step)
        if gap and abs(gap - length) <= 1 and _is_alike(columns, items, w, block, step * gap):
            for column in sorted(block, reverse=step > 0):
                columns[column + step * gap][w], columns[column][w] = columns[column][w], None
            return


def _run(columns: Sequence[int], step: int) -> list[int]:
    """Return the first columns of some that stand side by side."""
    run = list(columns[:1])
    for column in columns[1:]:
        if column != run[-1] + step:
            break
        run.append(column)
    return run


def _gap(columns: Sequence[Sequence[Cell]], w: int, block: Sequence[int], step: int) -> int:
    """Return how many columns without a word of a witness follow a block of its words, going by `step`."""
    stop = len(columns) if step > 0 else -1
    beyond = range(block[-1] + step, stop, step) if block else ()
    return len(list(takewhile(lambda column: columns[column][w] is None, beyond)))


def _is_alike(
    columns: Sequence[Sequence[Cell]], items: Sequence[Item], w: int, block: Sequence[int], way: int
) -> bool:
    """Say whether the words of a block stand beside the same words where they are and `way` columns off."""
    return all(
        _beside(columns[column], items, w) == _beside(columns[column + way], items, w) for column in block
    )


def _beside(row: Sequence[Cell], items: Sequence[Item], w: int) -> frozenset[str]:
    """Return the words that the other witnesses have in a column."""
    return frozenset(
        " ".join(token.normal for token in items[at].tokens[slice(*cell)])
        for at, cell in enumerate(row)
        if cell and at != w
    )
