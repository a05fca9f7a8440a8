"""Moved words that stand beside other words are given columns of their own, so that each is told for itself.

An alignment may set a word that a copy moved beside one that the copy left out (*with gynger*, *smale*). Both
are seen where the moved words have no neighbour.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from collate.analysis.cells import Cell
from collate.analysis.elsewhere import Block, Sides
from collate.model.collation import Collation, Column, Locus, Presence, Span
from collate.model.witness import TokenKind

_Fresh = dict[int, list[list[int]]]
"""The new columns before each column, given as how many tokens each witness has in them."""


@dataclass(frozen=True, slots=True)
class Seat:
    """Words of a witness that get columns of their own before a column."""

    witness: int
    cells: tuple[Cell, ...]
    before: int


def seats(w: int, sides: Sides, block: Block) -> Iterator[Seat]:
    """Yield the words of a witness that must be seated elsewhere, that moved words stand alone."""
    if not sides.pure_away(block):
        cells = [sides.theirs[j] for j in block.theirs]
        head, tail = _free(sides, cells), _free(sides, cells[::-1])
        if head:
            yield from _seat(w, cells[head:], cells[head - 1].column + 1, cells[head - 1 : head])
        elif tail:
            yield from _seat(w, cells[:-tail], cells[-tail].column, cells[-tail:][:1])
        else:
            yield from _seat(w, cells, cells[0].column, ())
    if not sides.pure_home(block):
        home, _ = sides.columns(block)
        own = {sides.theirs[j].column for j in block.theirs}
        cells = [cell for cell in sides.theirs if home.first <= cell.column < home.stop]
        stays = any(cell.column in own or _answers(sides, cell) for cell in cells)
        if cells and not stays and len(cells) <= block.count:
            yield from _seat(w, cells, home.first, ())


def _answers(sides: Sides, cell: Cell) -> bool:
    """Say whether a word of content stands beside its like."""
    return cell.key == sides.here.get(cell.column) and sides.names.has_content(cell.key)


def _free(sides: Sides, cells: Sequence[Cell]) -> int:
    """Return how many of some words, from the first on, stand in one place where the base has none."""
    count = 0
    for cell in cells:
        if cell.column in sides.here or sides.place(cell.column) != sides.place(cells[0].column):
            break
        count += 1
    return count


def _seat(w: int, cells: Sequence[Cell], before: int, beside: Sequence[Cell]) -> Iterator[Seat]:
    """Yield words and their place, unless a point or a gap stands among them."""
    tokens = sorted(word.index for cell in (*cells, *beside) for word in cell.words)
    if tokens[-1] - tokens[0] + 1 == len(tokens):
        yield Seat(w, tuple(cells), before)


def reseated(collation: Collation, asked: Sequence[Seat]) -> Collation:
    """Return a collation with some words in columns of their own; the same before one column share these."""
    tracks: dict[tuple[int, tuple[str, ...]], list[Seat]] = {}
    held: set[tuple[int, int]] = set()
    for seat in asked:
        places = {(seat.witness, cell.column) for cell in seat.cells} | {(seat.witness, -1 - seat.before)}
        if held.isdisjoint(places):
            held |= places
            tracks.setdefault((seat.before, tuple(cell.key for cell in seat.cells)), []).append(seat)
    counts = [[span.stop - span.start for span in column.spans] for column in collation.columns]
    fresh: _Fresh = {}
    for (before, keys), several in sorted(tracks.items()):
        rows = [[0] * len(collation.sigla) for _ in keys]
        for seat in several:
            for row, cell in zip(rows, seat.cells, strict=True):
                row[seat.witness] = counts[cell.column][seat.witness]
                counts[cell.column][seat.witness] = 0
        fresh.setdefault(before, []).extend(rows)
    return _rebuilt(collation, counts, fresh)


def _rebuilt(collation: Collation, counts: Sequence[list[int]], fresh: _Fresh) -> Collation:
    """Return a collation with other counts of tokens in its columns, and new columns before some.

    A column of which nothing is left falls away.
    """
    starts = [0] * len(collation.sigla)
    columns: list[Column] = []
    spans: list[tuple[int, int]] = []
    changed: set[int] = set()
    new: list[Locus] = []
    for old, (column, row) in enumerate(zip(collation.columns, counts, strict=True)):
        for held in fresh.get(old, ()):
            new.append(Locus(len(columns), len(columns) + 1))
            columns.append(_column(collation, starts, held, column))
        if row != [span.stop - span.start for span in column.spans]:
            changed.add(old)
        first = len(columns)
        if any(row):
            columns.append(_column(collation, starts, row, column))
        spans.append((first, len(columns)))
    for held in fresh.get(len(counts), ()):
        new.append(Locus(len(columns), len(columns) + 1))
        columns.append(_column(collation, starts, held, collation.columns[-1]))
    places = [place for locus in collation.loci for place in _cut(locus, changed, fresh, spans)]
    parted = [Locus(spans[each.first][0], spans[each.stop - 1][1]) for each in collation.parted]
    held_parted = tuple(each for each in parted if each.stop - each.first > 1)
    return replace(collation, columns=tuple(columns), loci=tuple(sorted([*places, *new])), parted=held_parted)


def _column(collation: Collation, starts: list[int], row: Sequence[int], like: Column) -> Column:
    """Return a column of so many tokens of each witness; who has none there is lost if it was in another."""
    spans = []
    for w, count in enumerate(row):
        tokens = collation.items[w].tokens[starts[w] : starts[w] + count]
        if any(token.kind is not TokenKind.GAP for token in tokens):
            presence = Presence.PRESENT
        elif tokens:
            presence = Presence.LACUNOSE
        else:
            was = like.spans[w].presence
            presence = Presence.OMITTED if was is Presence.PRESENT else was
        spans.append(Span(starts[w], starts[w] + count, presence))
        starts[w] += count
    return Column(tuple(spans))


def _cut(locus: Locus, changed: set[int], fresh: _Fresh, spans: Sequence[tuple[int, int]]) -> Iterator[Locus]:
    """Yield a place with its new numbers: cut where columns were put in, and about those that changed."""
    first = locus.first
    for at in range(locus.first + 1, locus.stop + 1):
        if at == locus.stop or at in fresh or at in changed or at - 1 in changed:
            if spans[first][0] < spans[at - 1][1]:
                yield Locus(spans[first][0], spans[at - 1][1])
            first = at
