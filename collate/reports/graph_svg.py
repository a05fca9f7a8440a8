"""A variant graph in, a drawing as SVG out, black on white and wrapped in rows."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from collate.reports.escape import hypertext
from collate.reports.graph_blocks import blocks
from collate.reports.graph_layout import MARGIN, SMALL, Box, Line, lay_out, text_width

if TYPE_CHECKING:
    import networkx as nx

    Graph = nx.DiGraph[str]

ROOM = 1120.0
"""About how wide a drawing grows before it goes on in a new row."""

LONGEST = 90
"""The most letters of a title that are shown; the drawing's own title has them all."""

HALF = 11.0
"""Half the height of a box."""

_STYLE = (
    'text { font-family: Georgia, "Times New Roman", serif; fill: #000; }'
    " .word { font-size: 16px; } .sigla { font-size: 12px; font-style: italic; text-anchor: middle; }"
    " .title { font-size: 18px; font-weight: bold; } .way { fill: none; stroke: #000; stroke-width: 1; }"
    " .box { fill: #fff; stroke: #000; stroke-width: 1; } .gap { stroke-dasharray: 3 2; }"
    " .under { fill: #fff; }"
)


def svg(graph: "Graph", name: str) -> Iterator[str]:
    """Yield the drawing: the reading of most witnesses on the line above, the others under it."""
    drawing = lay_out(blocks(graph), ROOM)
    shown = name if len(name) <= LONGEST else name[: LONGEST - 1].rstrip() + "…"
    width = max(drawing.width, text_width(shown, 22) + 2 * MARGIN)
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.0f}" height="{drawing.height:.0f}" '
        f'viewBox="0 0 {width:.0f} {drawing.height:.0f}" role="img">\n'
    )
    yield f"<title>{hypertext(name)}</title>\n<style>{_STYLE}</style>\n"
    yield '<defs><marker id="head" viewBox="0 0 8 8" refX="8" refY="4" markerWidth="7" markerHeight="7" '
    yield 'orient="auto"><path d="M0 1L8 4L0 7z"/></marker></defs>\n'
    yield '<rect width="100%" height="100%" fill="#fff"/>\n'
    yield f'<text class="title" lang="enm" x="{MARGIN:g}" y="{MARGIN + 14:g}">{hypertext(shown)}</text>\n'
    yield from (_way(line) for line in drawing.lines)
    yield from (_label(line) for line in drawing.lines if line.label)
    yield from (_box(box) for box in drawing.boxes)
    yield "</svg>\n"


def _way(line: Line) -> str:
    half = (line.x0 + line.x1) / 2
    path = f"M{line.x0:.1f} {line.y0:.1f}"
    if line.y0 == line.y1:
        path += f"H{line.x1:.1f}"
    else:
        path += f"C{half:.1f} {line.y0:.1f} {half:.1f} {line.y1:.1f} {line.x1:.1f} {line.y1:.1f}"
    head = ' marker-end="url(#head)"' if line.arrow else ""
    return f'<path class="way" d="{path}"{head}/>\n'


def _label(line: Line) -> str:
    wide = text_width(line.label, SMALL) + 2
    under = (
        f'<rect class="under" x="{line.at_x - wide / 2:.1f}" y="{line.at_y - SMALL / 2 - 1:.1f}" '
        f'width="{wide:.1f}" height="{SMALL + 2:.1f}"/>'
    )
    text = hypertext(line.label)
    told = f"<title>{hypertext(line.sigla)}</title>" if line.sigla else ""
    return f'{under}<text class="sigla" x="{line.at_x:.1f}" y="{line.at_y + 4:.1f}">{told}{text}</text>\n'


def _box(box: Box) -> str:
    if box.slot.kind in ("start", "end"):
        middle = f'cx="{box.x + box.width / 2:.1f}" cy="{box.y:.1f}"'
        return f'<ellipse class="box" {middle} rx="{box.width / 2:.1f}" ry="{HALF:g}"/>{_words(box)}'
    kind = "box gap" if box.slot.kind == "gap" else "box"
    return (
        f'<rect class="{kind}" x="{box.x:.1f}" y="{box.y - HALF:.1f}" width="{box.width:.1f}" '
        f'height="{2 * HALF:g}" rx="4"/>{_words(box)}'
    )


def _words(box: Box) -> str:
    text = hypertext(box.slot.text)
    middle = f'x="{box.x + box.width / 2:.1f}" y="{box.y + 5:.1f}"'
    return f'<text class="word" lang="enm" text-anchor="middle" {middle}>{text}</text>\n'
