"""A concordance in, its order chart out: one page of SVG, legible in black and white.

Each witness has a panel: on the left the items of the base from top to bottom, on the right its own, each
joined to the like one by a line. The page is A4 unless the books are too long for it: no label is left out.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from textwrap import wrap
from xml.sax.saxutils import escape

from collate.model.concordance import BookOrder, Certainty, Concordance, Loss, Wanting
from collate.reports.order_sheet import FOOT, LETTER, MARGIN, Panel, sheet

SIGN = 2.6
"""The room for signs beside an axis, which no line enters."""

LONGEST = 14
"""How many letters of a name are shown; the whole is told where a pointer rests on it."""

HATCH = (
    '<defs><pattern id="hatch" width="1" height="1" patternUnits="userSpaceOnUse"'
    ' patternTransform="rotate(45)"><rect width="1" height="1" fill="white"/>'
    '<rect width="0.5" height="1" fill="black"/></pattern></defs>\n'
)
_FILLS = {"likely": "black", "possible": "url(#hatch)", "no sign": "white"}


@dataclass(frozen=True, slots=True)
class _Book:
    """What a panel draws: the base's names, and (name, part, certainty) of each item of the witness."""

    order: BookOrder
    base: Sequence[str]
    rows: Sequence[tuple[str, str, Certainty]]

    @property
    def labels(self) -> list[str]:
        """The label of each item of the witness."""
        return [_short(name) + part for name, part, _ in self.rows]


def svg(found: Concordance, title: str) -> Iterator[str]:
    """Yield the chart as an SVG document."""
    base = [match.key for match in found.items if match.member(found.base)]
    books = [_Book(order, base, _rows(found, order.siglum)) for order in found.orders]
    heads = wrap(title, 74, max_lines=4, placeholder=" …")
    top = 18.0 + 6 * len(heads)
    longest = (
        max([len(_short(name)) for name in base], default=1),
        max([len(label) for book in books for label in book.labels], default=1),
    )
    laid = sheet([max(len(base), len(book.rows)) for book in books], longest, top)
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{laid.width:g}mm" height="{laid.height:g}mm"'
        f' viewBox="0 0 {laid.width:g} {laid.height:g}" font-family="serif" font-size="2.5"'
        ' stroke-linecap="butt">\n'
    )
    yield f"<title>{escape(title)}: the order of the items</title>\n"
    yield HATCH + f'<rect width="{laid.width:g}" height="{laid.height:g}" fill="white"/>\n'
    for number, line in enumerate(heads, 1):
        yield _text(MARGIN, 8 + 6 * number, line, size=5)
    yield _text(MARGIN, top - 5, f"The order of each book, beside {found.base}", size=3.2)
    for book, panel in zip(books, laid.panels, strict=True):
        yield from _drawn(found.base, book, panel)
    yield from _legend(laid.height - FOOT)
    yield "</svg>\n"


def _rows(found: Concordance, siglum: str) -> list[tuple[str, str, Certainty]]:
    """Return the items of a witness in its order, each with its number if it is a part of one."""
    placed = []
    for match in found.items:
        if member := match.member(siglum):
            count = len(member.places)
            for number, place in enumerate(member.places, 1):
                part = f" ({number}/{count})" if count > 1 else ""
                placed.append((place, match.key, part, member.certainty))
    return [(name, part, certainty) for _, name, part, certainty in sorted(placed)]


def _drawn(base: str, book: _Book, panel: Panel) -> Iterator[str]:
    room = (panel.stop - panel.start) / 2 - 1
    heads = ((base, panel.left, panel.start, "start"), (book.order.siglum, panel.right, panel.stop, "end"))
    for siglum, axis, edge, side in heads:
        x, anchor = (edge, side) if LETTER * len(siglum) > 2 * abs(edge - axis) else (axis, "middle")
        yield _head(siglum, (x, panel.y + 4), room, anchor)
    here = {name: panel.at(number, len(book.base)) for number, name in enumerate(book.base)}
    moved = {name for block in book.order.moved for name in block.items}
    for name, height in here.items():
        yield _label(panel.left - 1.5, height, name, _short(name), "end")
    there: dict[str, list[float]] = {}
    ends = (panel.left + SIGN, panel.right - SIGN)
    for number, ((name, _, certainty), label) in enumerate(zip(book.rows, book.labels, strict=True)):
        height = panel.at(number, len(book.rows))
        there.setdefault(name, []).append(height)
        yield _label(panel.right + 1.5, height, name, label, "start")
        if name in here:
            dashed = certainty is Certainty.UNCERTAIN
            yield _line(ends[0], here[name], ends[1], height, thick=name in moved, dashed=dashed)
        else:
            yield _text(panel.right - SIGN / 2, height + 0.8, "+", anchor="middle")
    for block in book.order.moved:
        if len(block.items) > 1:
            yield _brace(ends[0], [here[name] for name in block.items])
            yield _brace(ends[1], [there[name][0] for name in block.items])
    for loss in book.order.losses:
        yield _loss(loss, here, panel.left + SIGN / 2)
        if loss.kind is Wanting.LOST_LEAF and loss.after in there:
            below = (panel.at(1, len(book.rows)) - panel.at(0, len(book.rows))) / 2
            yield _double(panel.right - SIGN / 2, there[loss.after][-1] + below - 0.35)


def _brace(x: float, heights: Sequence[float]) -> str:
    """Return the stroke that ties the ends of the lines of a block together."""
    return (
        f'<line x1="{x:.2f}" y1="{min(heights) - 0.3:.2f}" x2="{x:.2f}" y2="{max(heights) + 0.3:.2f}"'
        ' stroke="black" stroke-width="0.9"/>\n'
    )


def _short(name: str) -> str:
    return name if len(name) <= LONGEST else name[: LONGEST - 1] + "…"


def _head(siglum: str, at: tuple[float, float], room: float, anchor: str) -> str:
    """Return a siglum over an axis, as large as there is room for; of one too long both ends are left."""
    most = int(room)
    said = siglum if len(siglum) <= most else f"{siglum[: most // 2]}…{siglum[-(most // 2 - 1) :]}"
    size = max(1.8, min(3.2, 1.7 * room / max(len(said), 1)))
    told = "" if said == siglum else f"<title>{escape(siglum)}</title>"
    return _text(*at, said, size=size, anchor=anchor, told=told)


def _label(x: float, y: float, name: str, label: str, anchor: str) -> str:
    told = f"<title>{escape(name)}</title>" if label.endswith("…") or "… (" in label else ""
    return _text(x, y + 0.8, label, anchor=anchor, told=told)


def _line(x: float, y: float, to_x: float, to_y: float, *, thick: bool, dashed: bool = False) -> str:
    style = 'stroke="black" stroke-width="0.6"' if thick else 'stroke="#555" stroke-width="0.18"'
    style += ' stroke-dasharray="1.2 0.8"' if dashed else ""
    return f'<line x1="{x:.2f}" y1="{y:.2f}" x2="{to_x:.2f}" y2="{to_y:.2f}" {style}/>\n'


def _loss(loss: Loss, here: Mapping[str, float], x: float) -> str:
    first, last = here[loss.items[0]], here[loss.items[-1]]
    said = f"<title>{escape(', '.join(loss.items))}: {escape(loss.kind)}, {escape(loss.reason)}</title>"
    if len(loss.items) == 1 and loss.lost == "no sign":
        return f"<g>{said}{_cross(x, first)}</g>\n"
    return f"<g>{said}{_bar(x - 0.7, first - 0.7, max(last - first, 0.0) + 1.4, _FILLS[loss.lost])}</g>\n"


def _bar(x: float, y: float, height: float, fill: str) -> str:
    return (
        f'<rect x="{x:.2f}" y="{y:.2f}" width="1.4" height="{height:.2f}" fill="{fill}" stroke="black"'
        ' stroke-width="0.2"/>'
    )


def _double(x: float, y: float) -> str:
    d = f"M{x - 1.1:.2f} {y:.2f}h2.2m-2.2 0.7h2.2"
    return f'<path d="{d}" stroke="black" stroke-width="0.3" fill="none"/>\n'


def _cross(x: float, y: float) -> str:
    d = f"M{x - 0.7:.2f} {y - 0.7:.2f}l1.4 1.4m0 -1.4l-1.4 1.4"
    return f'<path d="{d}" stroke="black" stroke-width="0.3" fill="none"/>'


def _legend(y: float) -> Iterator[str]:
    """Yield what each sign means, in two lines."""
    lines = [
        ("in its place", _line(0, 0, 8, 0, thick=False), 8.0),
        ("moved", _line(0, 0, 8, 0, thick=True), 8.0),
        (
            "moved as a block",
            _line(0, -0.7, 8, -0.7, thick=True)
            + _line(0, 0.7, 8, 0.7, thick=True)
            + _brace(0, (-0.7, 0.7))
            + _brace(8, (-0.7, 0.7)),
            8.0,
        ),
        ("uncertain match", _line(0, 0, 8, 0, thick=False, dashed=True), 8.0),
        ("only there", _text(0, 0.8, "+"), 1.5),
    ]
    signs = [
        ("wanting", _cross(0.7, 0), 1.4),
        ("wanting together", _bar(0, -1.1, 2.2, _FILLS["no sign"]), 1.4),
        ("may be lost", _bar(0, -1.1, 2.2, _FILLS["possible"]), 1.4),
        ("likely lost", _bar(0, -1.1, 2.2, _FILLS["likely"]), 1.4),
        ("a leaf is lost there, or may be", _double(1.1, -0.35), 2.2),
    ]
    for row, signed in enumerate((lines, signs)):
        x = MARGIN
        for said, drawn, width in signed:
            yield f'<g transform="translate({x:.2f} {y + 8 + 5 * row:.2f})">{drawn}</g>\n'
            yield _text(x + width + 1.5, y + 8.8 + 5 * row, said)
            x += width + 6 + LETTER * len(said)


def _text(x: float, y: float, words: str, *, size: float = 2.5, anchor: str = "start", told: str = "") -> str:
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{size:g}" text-anchor="{anchor}">'
        f"{told}{escape(words)}</text>\n"
    )
