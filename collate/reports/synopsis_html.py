"""Findings in, the witnesses side by side as one HTML page out: no script, no other file."""

from collections.abc import Iterable, Iterator, Sequence

from collate.model.apparatus import Weight
from collate.model.collation import Presence
from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.reports.caution import CAUTION, is_recipe
from collate.reports.escape import hypertext as escaped
from collate.reports.phrases import title
from collate.reports.synopsis import Cell, Synopsis, places, sign, synopsis, systems, who, width
from collate.settings import Printing

ROOM = 46
"""How many letters a system holds where no width is asked for: a telephone held upright."""

STYLE = """
:root { color-scheme: light dark; --ink: #1b1b1b; --paper: #fffdf8; --line: #b9b2a3; --soft: #5d574b; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #ece6d8; --paper: #191714; --line: #5a5449; --soft: #b0a896; } }
body { color: var(--ink); background: var(--paper); font: 1rem/1.4 Georgia, "Times New Roman", serif;
  margin: 0 auto; padding: 1rem; max-width: 90rem; }
h1, h2 { font-weight: bold; line-height: 1.2; }
.systems { display: flex; flex-wrap: wrap; gap: 1rem 2rem; align-items: flex-start; }
.system { overflow-x: auto; max-width: 100%; }
table { border-collapse: collapse; }
caption { text-align: left; }
th, td { text-align: left; vertical-align: baseline; padding: 0.05rem 0.35rem; white-space: nowrap; }
thead th { font-weight: normal; font-size: 0.7rem; color: var(--soft); }
tbody th { border-right: 1px solid var(--line); }
tbody tr:last-child > * { border-bottom: 1px solid var(--line); }
b { font-weight: bold; text-decoration: underline; }
u { text-decoration: underline dotted; text-underline-offset: 0.2em; }
small { font-size: 0.7rem; color: var(--soft); }
.lost { border: 1px dashed var(--line); }
dl.legend { display: grid; grid-template-columns: auto 1fr; gap: 0.2rem 1rem; font-size: 0.9rem; }
dl.legend dd { margin: 0; }
@media (max-width: 40rem) { body { padding: 0.5rem; font-size: 0.85rem; }
  th, td { padding: 0.05rem 0.25rem; } }
@media print { body { max-width: none; padding: 0; color: #000; background: #fff; font-size: 10pt; }
  .system { overflow: visible; break-inside: avoid; } h2 { break-after: avoid; } }
"""

LEGEND = """<dl class="legend">
<dt>–</dt><dd>the witness has the place and no word there</dd>
<dt><span class="lost">[ ]</span> […]</dt><dd>the text of the witness is lost there</dd>
<dt>Not in …</dt><dd>the witness lacks the whole item: it has no row</dd>
<dt><b>bold</b></dt><dd>differs from the base in substance</dd>
<dt><u>dotted</u></dt><dd>differs from the base in spelling, pointing and the like only</dd>
<dt>word<sup>~1</sup></dt><dd>stands elsewhere in another witness, at the other ~1</dd>
<dt><small>|7v|</small></dt><dd>a new folio begins</dd>
</dl>
"""


def page(findings: Findings, printing: Printing | None = None) -> Iterator[str]:
    """Yield the page; systems hold ROOM letters unless a printing says how many."""
    every = tuple(findings.items)
    pages = (item(found, printing) for found in every)
    yield from assembled(findings.edition, pages, recipes=any(map(is_recipe, every)))


def item(found: ItemFindings, printing: Printing | None = None) -> str:
    """Return the part of the page that one item has."""
    return "".join(_item(found, printing.width if printing else ROOM))


def assembled(edition: Edition, items: Iterable[str], *, recipes: bool) -> Iterator[str]:
    """Yield the page whose items are written already, each by `item`.

    With `recipes` the caution stands at its end.
    """
    name = escaped(edition.title)
    yield '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    yield f"<title>{name}: synopsis</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<h1>{name}</h1>\n"
    yield LEGEND
    yield from items
    if recipes:
        yield f"<footer><p>{CAUTION}</p></footer>\n"
    yield "</body>\n</html>\n"


def _item(found: ItemFindings, room: int) -> Iterator[str]:
    name = escaped(title(found)).replace("  ", "\u2003", 1)
    heading = f'<span lang="enm">{name}</span>'
    yield f"<section>\n<h2>{heading}</h2>\n<p>{escaped(who(found))}</p>\n"
    yield '<div class="systems">\n'
    laid = synopsis(found)
    widths = [max(_width(row[c]) for row in laid.rows) for c in range(len(laid.heads))]
    for columns in systems(widths, room - max(map(width, laid.sigla)) - 2, 2):
        yield from _system(laid, columns)
    yield "</div>\n</section>\n"


def _system(laid: Synopsis, columns: Sequence[int]) -> Iterator[str]:
    yield '<div class="system" tabindex="0"><table>\n<thead><tr><td></td>'
    heads = [laid.heads[c] for c in columns]
    yield from _places(places(heads))
    yield "</tr></thead>\n<tbody>\n"
    for siglum, row in zip(laid.sigla, laid.rows, strict=True):
        yield f'<tr lang="enm"><th scope="row" lang="en">{escaped(siglum)}</th>'
        yield "".join(_cell(row[c]) for c in columns)
        yield "</tr>\n"
    yield "</tbody>\n</table></div>\n"


def _places(above: Sequence[str]) -> Iterator[str]:
    """Yield each place over the columns up to the next."""
    begins = [at for at, place in enumerate(above) if place or not at]
    for at, stop in zip(begins, [*begins[1:], len(above)], strict=True):
        yield f'<th scope="colgroup" colspan="{stop - at}">{escaped(above[at])}</th>'


def _cell(cell: Cell) -> str:
    words = "".join(
        (f"<small>|{escaped(piece.page)}|</small>" if piece.page else "") + _word(piece.text, cell.weight)
        for piece in cell.pieces
    )
    moves = "".join(f"<sup>~{number}</sup>" for number in cell.moves)
    lost = ' class="lost"' if cell.presence is Presence.LACUNOSE else ""
    note = f' title="{escaped(cell.note)}"' if cell.note else ""
    return f"<td{lost}{note}>{words or _word(sign(cell), cell.weight)}{moves}</td>"


def _word(text: str, weight: Weight | None) -> str:
    element = {Weight.SUBSTANTIVE: "b", Weight.ACCIDENTAL: "u", None: ""}[weight]
    return f"<{element}>{escaped(text)}</{element}>" if element else escaped(text)


def _width(cell: Cell) -> int:
    pages = sum(width(piece.page) + 2 for piece in cell.pieces if piece.page)
    return width(cell.words or sign(cell)) + pages + 2 * len(cell.moves)
