"""Holes joined to a word: what else may have stood in the letters that a word lacks at its beginning or end.

Of *skome it clene* a copy has *skome […]ene*: its hole may have held *it* as well. Where the mark states how
many letters are lost, those that the word itself lacks are taken off first.
"""

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from statistics import median_low

from collate.align.divide import Cell
from collate.model.extents import BRACKETED, Extent, Unit, extents
from collate.model.witness import Token, TokenKind, has_gap


def in_holes(cells: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]]) -> Iterator[tuple[int, int]]:
    """Yield the (witness, column) that a hole at the edge of the word before or after may have held."""
    for w, text in enumerate(texts):
        if not any("[" in token.written and token.kind is TokenKind.WORD for token in text):
            continue
        homes = [column for column, row in enumerate(cells) if row[w]]
        for before, after in pairwise([-1, *homes, len(cells)]):
            if after - before > 1:
                yield from ((w, column) for column in _held(cells, texts, w, before, after))


def _held(
    cells: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]], w: int, before: int, after: int
) -> set[int]:
    """Return the columns between two that the words of a copy in these may have held in their holes."""
    text = texts[w]
    left = cells[before][w] if before >= 0 else None
    right = cells[after][w] if after < len(cells) else None
    between = text[left[1] if left else 0 : right[0] if right else len(text)]
    if has_gap(between):
        return set()
    columns = range(before + 1, after)
    sizes = [letters_in(cells[column], texts) for column in columns]
    found: set[int] = set()
    if left and (mark := _edge(text[left[1] - 1], last=True)):
        room = _room(mark, text[left[1] - 1], cells[before], texts, w)
        found.update(columns[n] for n in _nearest(sizes, room))
    if right and (mark := _edge(text[right[0]], last=False)):
        room = _room(mark, text[right[0]], cells[after], texts, w)
        count = len(sizes)
        found.update(columns[count - 1 - n] for n in _nearest(sizes[::-1], room))
    return found


def _edge(token: Token, *, last: bool) -> str:
    """Return the mark of a hole at the end of a word, or at its beginning; "" where there is none."""
    marks = [*BRACKETED.finditer(token.written)]
    if last:
        return marks[-1].group() if marks and marks[-1].end() == len(token.written) else ""
    return marks[0].group() if marks and marks[0].start() == 0 else ""


def _room(
    mark: str, token: Token, row: Sequence[Cell], texts: Sequence[Sequence[Token]], w: int
) -> Extent | None:
    """Return what a hole may hold besides the letters of its own word, None where that is not stated."""
    (extent,) = extents(mark)
    if extent is None or extent.unit is not Unit.LETTER:
        return None
    others = [cell if v != w else None for v, cell in enumerate(row)]
    own = letters_in(others, texts) - sum(character != "…" for character in token.expanded)
    return Extent(max(extent.count - max(own, 0), 0))


def _nearest(sizes: Sequence[int], room: Extent | None) -> range:
    """Return which of the columns next to a hole it may have held, from the nearest on.

    They are so many that their letters come nearest to its room; of two numbers as near, the greater.
    """
    if room is None:
        return range(len(sizes))
    sums = [0, *accumulate(sizes)]
    return range(min(range(len(sums)), key=lambda count: (abs(sums[count] - room.count), -count)))


def letters_in(row: Sequence[Cell], texts: Sequence[Sequence[Token]]) -> int:
    """Return how many letters the copies that have words in a column have there as a rule."""
    sizes = [
        sum(len(token.expanded) for token in text[slice(*cell)])
        for cell, text in zip(row, texts, strict=True)
        if cell
    ]
    return median_low(sizes) if sizes else 0
