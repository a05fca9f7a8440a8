"""Findings of one item in, the rows and columns of its synopsis out; the formats print them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from unicodedata import combining, east_asian_width

from collate.model.apparatus import Entry, Weight
from collate.model.collation import Collation, Presence, Span, columns_of
from collate.model.findings import ItemFindings
from collate.model.witness import Token, TokenKind, citation, folio, shown
from collate.reports.lemma import place

OMITTED, LOST, MOVED = "–", "[ ]", "~"
"""The signs for a word left out, for text that is lost, and before the number of a transposition."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A word in a cell, with the blank behind it if the copy has one; `page` is the folio it begins."""

    text: str
    page: str = ""


@dataclass(frozen=True, slots=True)
class Cell:
    """What a witness has in a column: `pieces`, or none, and `presence` says why.

    `weight` and `note` say what it is beside the base (None, "" where it reads as the base; no weight
    where the text is lost, for nothing can be said), `moves` are the numbers of the transpositions it
    belongs to, `place` is where its first word stands.
    """

    presence: Presence
    pieces: tuple[Piece, ...]
    weight: Weight | None = None
    note: str = ""
    moves: tuple[int, ...] = ()
    place: str = ""

    @property
    def words(self) -> str:
        """The words alone, "" where there are none."""
        return "".join(piece.text for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class Head:
    """A column: its number from 1, its place in the base, its gravest difference.

    `begins` says that a line of the base begins here.
    """

    number: int
    place: str
    weight: Weight | None
    begins: bool = False


@dataclass(frozen=True, slots=True)
class Synopsis:
    """An item laid out: a head for each column, a row of cells for each witness of `sigla`."""

    found: ItemFindings
    sigla: tuple[str, ...]
    heads: tuple[Head, ...]
    rows: tuple[tuple[Cell, ...], ...]


def synopsis(found: ItemFindings) -> Synopsis:
    """Lay out one item, one visual column for each column of the alignment."""
    collation = found.collation
    at = {c: entry for entry in found.entries for c in range(entry.locus.first, entry.locus.stop)}
    moved = _moves(collation)
    rows = tuple(_row(found, w, at, moved) for w in range(len(collation.sigla)))
    return Synopsis(found, collation.sigla, tuple(_heads(found, rows)), rows)


def _row(
    found: ItemFindings, w: int, at: Mapping[int, Entry], moved: Mapping[tuple[int, int], tuple[int, ...]]
) -> tuple[Cell, ...]:
    collation = found.collation
    ours = collation.sigla.index(found.base)
    tokens = collation.items[w].tokens
    cells = []
    for number, column in enumerate(collation.columns):
        span = column.spans[w]
        here = tokens[span.start : span.stop]
        differs = pieces_of(here) != pieces_of(collation.tokens(ours, number, number + 1))
        weight, note = _difference(at.get(number), collation.sigla[w]) if differs else (None, "")
        weight = None if span.presence is Presence.LACUNOSE else weight
        where = citation(here[0]) if here else ""
        pieces = tuple(_pieces(tokens, span))
        cells.append(Cell(span.presence, pieces, weight, note, moved.get((w, number), ()), where))
    return tuple(cells)


def pieces_of(tokens: Sequence[Token]) -> tuple[str, ...]:
    """Return words as they are shown; a gap by the sign for text that is lost."""
    return tuple("[…]" if token.kind is TokenKind.GAP else shown(token) for token in tokens)


def _pieces(tokens: Sequence[Token], span: Span) -> Iterator[Piece]:
    here = tokens[span.start : span.stop]
    for index, text in zip(range(span.start, span.stop), pieces_of(here), strict=True):
        token = tokens[index]
        blank = " " if index + 1 < span.stop and any(c.isspace() for c in token.trail) else ""
        turned = index == 0 or tokens[index - 1].place.folio != token.place.folio
        yield Piece(text + blank, folio(token.place).removeprefix("f. ") if turned else "")


def _difference(entry: Entry | None, siglum: str) -> tuple[Weight | None, str]:
    for variant in entry.variants if entry else ():
        if siglum in variant.reading.sigla:
            return variant.weight, f"{variant.kind}: {variant.reason}"
    return None, ""


def _heads(found: ItemFindings, rows: Sequence[Sequence[Cell]]) -> Iterator[Head]:
    collation = found.collation
    w = collation.sigla.index(found.base)
    tokens = collation.items[w].tokens
    said = ""
    for number, column in enumerate(collation.columns):
        held = range(column.spans[w].start, column.spans[w].stop)
        first = next((at for at in held if tokens[at].kind is not TokenKind.PUNCTUATION), None)
        where = place(tokens, first) if first is not None else ""
        lined = first is not None and tokens[first].place.ms_line is not None
        weights = {row[number].weight for row in rows} - {None}
        gravest = max(weights, key=lambda weight: weight is Weight.SUBSTANTIVE, default=None)
        yield Head(number + 1, where or said, gravest, begins=lined and where != said)
        said = where or said


def _moves(collation: Collation) -> Mapping[tuple[int, int], tuple[int, ...]]:
    """Return the numbers of the transpositions by (witness, column), from 1 in order of their homes."""
    found: dict[tuple[int, int, int, int], set[int]] = {}
    for moved in collation.transpositions:
        w = collation.sigla.index(moved.siglum)
        away = columns_of(collation.columns, w, moved.start, moved.stop)
        found.setdefault((moved.home, moved.home_stop, away.first, away.stop), set()).add(w)
    numbers: dict[tuple[int, int], tuple[int, ...]] = {}
    for number, ((home, home_stop, away_from, away_stop), witnesses) in enumerate(sorted(found.items()), 1):
        for w in range(len(collation.sigla)):
            ends = [range(home, home_stop), range(away_from, away_stop)]
            theirs, empty = reversed(ends) if w in witnesses else ends
            if not any(_has_word(collation, w, column) for column in theirs):
                continue
            marked = [c for c in theirs if _has_word(collation, w, c)]
            marked += [c for c in empty if collation.columns[c].spans[w].presence is Presence.OMITTED]
            for column in marked:
                numbers[w, column] = (*numbers.get((w, column), ()), number)
    return numbers


def _has_word(collation: Collation, w: int, column: int) -> bool:
    tokens = collation.tokens(w, column, column + 1)
    return any(token.kind in (TokenKind.WORD, TokenKind.NUMERAL) for token in tokens)


def places(heads: Sequence[Head], starts: Sequence[int] | None = None) -> tuple[str, ...]:
    """Return what stands above the columns of a system: the first one's place, and where a line begins.

    A folio is named once as long as it is the same. With `starts`, where each column begins, a place is
    left out if there is no room for it behind the one before.
    """
    found: list[str] = []
    said, end = "", -1
    for number, head in enumerate(heads):
        page, line, at = head.place.rpartition("l. ")
        text = head.place if page != said or not page else line + at
        wanted = head.begins or not number
        if not wanted or (starts is not None and starts[number] <= end):
            found.append("")
            continue
        found.append(text)
        said = page
        end = starts[number] + len(text) if starts is not None else end
    return tuple(found)


def sign(cell: Cell) -> str:
    """Return the words of a cell, or the sign for having none."""
    if cell.pieces:
        return cell.words
    return OMITTED if cell.presence is Presence.OMITTED else LOST


def width(text: str) -> int:
    """Return how many columns of a terminal a text takes: combining marks none, wide letters two."""
    return sum(
        0 if combining(c) or c in "\u200b\u200c\u200d\ufeff" else 2 if east_asian_width(c) in "WF" else 1
        for c in text
    )


def systems(widths: Sequence[int], room: int, between: int) -> Iterator[range]:
    """Yield the columns of each system: as many as `room` holds, with `between` after each; at least one."""
    start, used = 0, 0
    for column, wide in enumerate(widths):
        if column > start and used + wide > room:
            yield range(start, column)
            start, used = column, 0
        used += wide + between
    if start < len(widths):
        yield range(start, len(widths))


def who(found: ItemFindings) -> str:
    """Say who has the item, who lacks it, and whose places are named."""
    lacking = f" Not in {', '.join(found.absent)}: the item is lacking there." if found.absent else ""
    return f"In {', '.join(found.collation.sigla)}.{lacking} Places are those of {found.base}."
