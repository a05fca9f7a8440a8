"""Findings in, the witnesses side by side as Markdown tables out."""

from collections.abc import Iterable, Iterator

from collate.model.apparatus import Weight
from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.reports.escape import markdown as escaped
from collate.reports.phrases import title
from collate.reports.synopsis import MOVED, Cell, Synopsis, places, sign, synopsis, systems, who, width
from collate.settings import Printing

LEGEND = (
    "– the witness has the place and no word there; \\[ \\] and \\[…\\] its text is lost there;"
    " \\|7v\\| a new folio; \\~1 words that stand elsewhere in another witness, at the other \\~1;"
    " **bold** differs from the base in substance, *italic* in spelling, pointing and the like only."
)

_ABOUT = {None: "", Weight.SUBSTANTIVE: "**", Weight.ACCIDENTAL: "*"}


def markdown(findings: Findings, printing: Printing) -> Iterator[str]:
    """Yield the synopsis item after item; each system is a table about as wide as the printing allows."""
    yield from assembled(findings.edition, (item(found, printing) for found in findings.items))


def item(found: ItemFindings, printing: Printing) -> str:
    """Return the tables of one item."""
    head = f"\n## {escaped(title(found))}\n\n{escaped(who(found))}\n"
    return head + "".join(_systems(synopsis(found), printing.width))


def assembled(edition: Edition, items: Iterable[str]) -> Iterator[str]:
    """Yield the page whose items are written already, each by `item`."""
    yield f"# {escaped(edition.title)}\n\n{LEGEND}\n"
    yield from items


def _systems(laid: Synopsis, room: int) -> Iterator[str]:
    left = max(width(siglum) for siglum in laid.sigla) + 4
    cells = [[_cell(cell) for cell in row] for row in laid.rows]
    widths = [max(width(row[c]) for row in cells) for c in range(len(laid.heads))]
    for columns in systems(widths, room - left, 3):
        yield "\n"
        yield _line(["", *(escaped(place) for place in places([laid.heads[c] for c in columns]))])
        yield "|" + "---|" * (len(columns) + 1) + "\n"
        for siglum, row in zip(laid.sigla, cells, strict=True):
            yield _line([escaped(siglum), *(row[c] for c in columns)])


def _line(cells: list[str]) -> str:
    return "| " + " | ".join(cells) + " |\n"


def _cell(cell: Cell) -> str:
    about = _ABOUT[cell.weight]
    stretches: list[tuple[str, str]] = []
    for piece in cell.pieces:
        if piece.page or not stretches:
            stretches.append((piece.page, piece.text))
        else:
            stretches[-1] = (stretches[-1][0], stretches[-1][1] + piece.text)
    words = " ".join(
        (f"\\|{escaped(page)}\\|" if page else "") + f"{about}{escaped(text.strip())}{about}"
        for page, text in stretches or [("", sign(cell))]
    )
    return words + "".join(f"\\{MOVED}{number}" for number in cell.moves)
