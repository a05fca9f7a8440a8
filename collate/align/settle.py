"""From the columns of words to the columns of all tokens: punctuation and gaps find their place.

Punctuation never moves a word. A mark stands in a column of its own between two columns of words; a
gap (lost text) stands where the witness has no word, and makes the whole silent stretch lacunose, or as
much of it as the extent that it states may hold. A gap between two words that stand in neighbouring columns
has a column of its own.
"""

from collections import Counter
from collections.abc import Collection, Sequence
from statistics import median_low

from collate.align.divide import WORDS, Cell
from collate.align.gaps import extent_of, lost_in
from collate.align.holes import in_holes
from collate.align.points import rows_of
from collate.model.collation import Column, Presence, Span
from collate.model.extents import Extent, Unit
from collate.model.value import value
from collate.model.witness import Token, TokenKind, has_gap


@value
class _Between:
    """What a witness has between two of its words: `first` and `last` bound the slots it may go to."""

    first: int
    last: int
    before: tuple[int, ...]
    gap: tuple[int, ...]
    after: tuple[int, ...]


def settle(
    cells: Sequence[Sequence[Cell]],
    texts: Sequence[Sequence[Token]],
    lost: Collection[tuple[int, int]] = (),
) -> tuple[Column, ...]:
    """Return columns that tile all tokens of every witness.

    `cells[c][w]` says which tokens of witness w are the words of column c; `texts` hold all tokens; `lost`
    are the (witness, column) that a witness does not reach.
    Of several slots a mark may go to, it takes the first in which other witnesses must have one,
    else the first.
    """
    betweens = [_betweens([row[w] for row in cells], text) for w, text in enumerate(texts)]
    forced = Counter(b.first for between in betweens for b in between if b.first == b.last and _held(b))
    slots: list[list[tuple[int, ...]]] = [[() for _ in texts] for _ in range(len(cells) + 1)]
    gaps: dict[tuple[int, int], tuple[int, ...]] = {}
    silent = {*lost, *in_holes(cells, texts)}
    for w, between in enumerate(betweens):
        for b in between:
            _place(b, w, slots, forced)
            if b.gap and b.first < b.last:
                gone = _gone(b, cells, texts, extent_of([texts[w][at] for at in b.gap], texts[w]))
                gaps[w, gone.start] = b.gap
                silent.update((w, column) for column in gone)
    rows: list[list[tuple[int, ...]]] = []
    lacunose: list[frozenset[int]] = []
    for column in range(len(cells) + 1):
        here = rows_of(slots[column], texts)
        if column < len(cells):
            here.append(_word_row(cells[column], column, gaps))
        rows.extend(here)
        absent = frozenset(w for w in range(len(texts)) if (w, column) in silent)
        lacunose.extend([absent] * len(here))
    return _columns(rows, lacunose, texts)


def _word_row(
    row: Sequence[Cell], column: int, gaps: dict[tuple[int, int], tuple[int, ...]]
) -> list[tuple[int, ...]]:
    return [tuple(range(*cell)) if cell else gaps.get((w, column), ()) for w, cell in enumerate(row)]


def _gone(
    b: _Between, cells: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]], extent: Extent | None
) -> range:
    """Return the columns that are lost in a gap of so many letters or words, if its extent is stated."""
    unit = extent.unit if extent else Unit.WORD
    gone = lost_in([_size(row, texts, unit) for row in cells[b.first : b.last]], extent)
    return range(b.first + gone.start, b.first + gone.stop)


def _size(row: Sequence[Cell], texts: Sequence[Sequence[Token]], unit: Unit) -> int:
    """Return how many letters or words the copies have in a column, 0 where most have none."""
    sizes = [
        sum(len(token.expanded) if unit is Unit.LETTER else 1 for token in text[slice(*cell)]) if cell else 0
        for cell, text in zip(row, texts, strict=True)
    ]
    lacking = sizes.count(0) - 1
    return 0 if 2 * lacking >= len(sizes) else median_low([size for size in sizes if size])


def _held(between: _Between) -> bool:
    return bool(between.before or between.after)


def _betweens(column_words: Sequence[Cell], text: Sequence[Token]) -> list[_Between]:
    """Return what stands between the words of a witness, one entry for each place that holds anything."""
    homes = [column for column, cell in enumerate(column_words) if cell]
    bounds = [-1, *homes, len(column_words)]
    starts = [0, *(cell[1] for cell in column_words if cell)]
    stops = [*(cell[0] for cell in column_words if cell), len(text)]
    return [
        _split(bounds[place] + 1, bounds[place + 1], list(range(start, stop)), text)
        for place, (start, stop) in enumerate(zip(starts, stops, strict=True))
        if start < stop
    ]


def _split(first: int, last: int, indices: list[int], text: Sequence[Token]) -> _Between:
    gaps = [at for at, index in enumerate(indices) if text[index].kind is TokenKind.GAP]
    if not gaps:
        return _Between(first, last, tuple(indices), (), ())
    begin, end = gaps[0], gaps[-1] + 1
    return _Between(first, last, tuple(indices[:begin]), tuple(indices[begin:end]), tuple(indices[end:]))


def _place(
    b: _Between,
    w: int,
    slots: list[list[tuple[int, ...]]],
    forced: Counter[int],
) -> None:
    if not b.gap:
        slot = next((s for s in range(b.first, b.last + 1) if forced[s]), b.first)
        slots[slot][w] += b.before
    elif b.first == b.last:
        slots[b.first][w] += (*b.before, *b.gap, *b.after)
    else:
        slots[b.first][w] += b.before
        slots[b.last][w] += b.after


def _columns(
    rows: Sequence[Sequence[tuple[int, ...]]],
    lacunose: Sequence[frozenset[int]],
    texts: Sequence[Sequence[Token]],
) -> tuple[Column, ...]:
    every: list[list[Span]] = []
    for w, text in enumerate(texts):
        spans = []
        stop = 0
        gaps = has_gap(text)
        for row, lost in zip(rows, lacunose, strict=True):
            start, stop = stop, stop + len(row[w])
            if start == stop:
                presence = Presence.LACUNOSE if w in lost else Presence.OMITTED
            else:
                presence = _presence(text[start:stop]) if gaps else Presence.PRESENT
            spans.append(Span(start, stop, presence))
        every.append(spans)
    return tuple(map(Column, zip(*every, strict=True)))


def _presence(tokens: Sequence[Token]) -> Presence:
    """Return whether some tokens are there, or a gap alone."""
    kinds = {token.kind for token in tokens}
    return Presence.LACUNOSE if TokenKind.GAP in kinds and kinds.isdisjoint(WORDS) else Presence.PRESENT
