"""Findings in, the witnesses side by side for the terminal out."""

from collections.abc import Iterable, Iterator, Sequence
from textwrap import wrap

from collate.model.apparatus import Weight
from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.reports.lines import BOLD, styled
from collate.reports.phrases import title
from collate.reports.synopsis import (
    MOVED,
    Cell,
    Head,
    Synopsis,
    places,
    sign,
    synopsis,
    systems,
    who,
    width,
)
from collate.settings import Printing

LEGEND = (
    "– the witness has the place and no word there; [ ] and […] its text is lost there; |7v| a new folio;"
    " ~1 words that stand elsewhere in another witness, at the other ~1. Below a system, * marks columns"
    " that differ in substance, · those that differ in spelling, pointing and the like only."
)

_BELOW = {None: " ", Weight.SUBSTANTIVE: "*", Weight.ACCIDENTAL: "·"}


def text(findings: Findings, printing: Printing) -> Iterator[str]:
    """Yield the synopsis item after item, in systems as wide as the printing allows."""
    items = (item(found, printing) for found in findings.items)
    yield from assembled(findings.edition, items, printing)


def item(found: ItemFindings, printing: Printing) -> str:
    """Return the systems of one item."""
    about = "".join(line + "\n" for line in _filled(who(found), printing.width))
    head = f"\n{styled(title(found), BOLD, printing)}\n"
    return head + about + "".join(_systems(synopsis(found), printing.width))


def assembled(edition: Edition, items: Iterable[str], printing: Printing) -> Iterator[str]:
    """Yield the synopsis whose items are written already, each by `item`."""
    yield styled(edition.title, BOLD, printing) + "\n\n"
    yield from (line + "\n" for line in _filled(LEGEND, printing.width))
    yield from items


def _systems(laid: Synopsis, room: int) -> Iterator[str]:
    left = max(width(siglum) for siglum in laid.sigla) + 2
    cells = [[_cell(cell) for cell in row] for row in laid.rows]
    widths = [max(width(row[c]) for row in cells) for c in range(len(laid.heads))]
    for columns in systems(widths, room - left, 1):
        yield "\n"
        heads = [laid.heads[c] for c in columns]
        yield (" " * left + _places(heads, [widths[c] for c in columns])).rstrip() + "\n"
        for siglum, row in zip(laid.sigla, cells, strict=True):
            line = " ".join(_filled_up(row[c], widths[c]) for c in columns)
            yield f"{_filled_up(siglum, left)}{line}".rstrip() + "\n"
        marks = " ".join(_filled_up(_BELOW[laid.heads[c].weight], widths[c]) for c in columns)
        if marks.strip():
            yield (" " * left + marks).rstrip() + "\n"


def _cell(cell: Cell) -> str:
    words = "".join((f"|{piece.page}|" if piece.page else "") + piece.text for piece in cell.pieces)
    return (words or sign(cell)) + "".join(f"{MOVED}{number}" for number in cell.moves)


def _places(heads: Sequence[Head], widths: Sequence[int]) -> str:
    """Return the line of places, each where there is room behind the one before."""
    starts = [sum(widths[:at]) + at for at in range(len(widths))]
    line = ""
    for place, start in zip(places(heads, starts), starts, strict=True):
        line = line.ljust(start) + place if place else line
    return line


def _filled_up(text: str, room: int) -> str:
    return text + " " * (room - width(text))


def _filled(text: str, room: int) -> Sequence[str]:
    return wrap(text, room, break_long_words=False, break_on_hyphens=False)
