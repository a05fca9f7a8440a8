"""A concordance in, its order chart out: one A4 page of SVG, legible in black and white.

Each witness has a panel: on the left the items of the base from top to bottom, on the right its own, each
joined to the like one by a line. A thick line is an item that was moved; a cross one that is wanting, a bar
several that are wanting together, a full bar those that are likely to be lost with a leaf.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

from collate.model.concordance import BookOrder, Concordance, Loss

WIDTH, HEIGHT = 210.0, 297.0
MARGIN, TOP, FOOT = 12.0, 24.0, 16.0
SIGN = 2.6
"""The room for signs beside an axis, which no line enters."""

LABEL = 2.6
"""The height of a line of labels, in millimetres: with less room between items, some go unlabelled."""


@dataclass(frozen=True, slots=True)
class _Panel:
    """The room of one witness: its corner and size, and where its two axes stand."""

    x: float
    y: float
    width: float
    height: float

    @property
    def left(self) -> float:
        """Where the axis of the base stands."""
        return self.x + 0.24 * self.width

    @property
    def right(self) -> float:
        """Where the axis of the witness stands."""
        return self.x + 0.76 * self.width

    def at(self, number: int, count: int) -> float:
        """Return how far down an item stands, of so many."""
        return self.y + 7 + (number + 0.5) * (self.height - 9) / max(count, 1)


def svg(found: Concordance, title: str) -> Iterator[str]:
    """Yield the chart as an SVG document."""
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:g}mm" height="{HEIGHT:g}mm"'
        f' viewBox="0 0 {WIDTH:g} {HEIGHT:g}" font-family="serif" font-size="2.5" stroke-linecap="round">\n'
    )
    yield f"<title>{escape(title)}: the order of the items</title>\n"
    yield f'<rect width="{WIDTH:g}" height="{HEIGHT:g}" fill="white"/>\n'
    yield _text(MARGIN, 14, title, size=min(5.0, 360 / max(len(title), 1)))
    yield _text(MARGIN, 19, f"The order of each book, beside {found.base}", size=3.2)
    base = [match.key for match in found.items if match.member(found.base)]
    for order, panel in zip(found.orders, _panels(len(found.orders)), strict=True):
        yield from _drawn(found, order, base, panel)
    yield from _legend()
    yield "</svg>\n"


def _panels(count: int) -> Iterator[_Panel]:
    """Yield a room for each witness, in rows."""
    columns = next(side for side in range(1, count + 2) if side * side >= count)
    rows = -(-count // columns)
    width = (WIDTH - 2 * MARGIN) / columns
    height = (HEIGHT - TOP - FOOT) / max(rows, 1)
    for number in range(count):
        row, column = divmod(number, columns)
        yield _Panel(MARGIN + column * width, TOP + row * height, width, height - 3)


def _drawn(found: Concordance, order: BookOrder, base: Sequence[str], panel: _Panel) -> Iterator[str]:
    yield _text(panel.left, panel.y + 4, found.base, size=3.2, anchor="middle")
    yield _text(panel.right, panel.y + 4, order.siglum, size=3.2, anchor="middle")
    theirs = _places(found, order.siglum)
    rows = sorted(
        (place, name, f" ({number}/{len(places)})" if len(places) > 1 else "")
        for name, places in theirs.items()
        for number, place in enumerate(places, 1)
    )
    here = {name: panel.at(number, len(base)) for number, name in enumerate(base)}
    moved = {name for block in order.moved for name in block.items}
    labels = [(height, _short(name)) for name, height in here.items()]
    yield from _labels(panel.left - 1.5, labels, (panel.height - 9) / max(len(base), 1), "end")
    there = []
    for number, (_, name, part) in enumerate(rows):
        height = panel.at(number, len(rows))
        there.append((height, _short(name) + part))
        if name in here:
            ends = (panel.left + SIGN, panel.right - SIGN)
            yield _line(ends[0], here[name], ends[1], height, thick=name in moved)
        else:
            yield _text(panel.right - SIGN / 2, height + 0.8, "+", anchor="middle")
    yield from _labels(panel.right + 1.5, there, (panel.height - 9) / max(len(rows), 1), "start")
    for loss in order.losses:
        yield _loss(loss, here, panel)


def _places(found: Concordance, siglum: str) -> dict[str, tuple[int, ...]]:
    return {match.key: member.places for match in found.items if (member := match.member(siglum))}


def _labels(x: float, held: Sequence[tuple[float, str]], pitch: float, anchor: str) -> Iterator[str]:
    """Yield the names of items, all of them or as many as there is room for."""
    step = max(1, -int(-LABEL // pitch)) if pitch > 0 else 1
    for height, name in held[::step]:
        yield _text(x, height + 0.8, name, anchor=anchor)


def _short(name: str) -> str:
    return name if len(name) <= 10 else name[:9] + "…"


def _line(x: float, y: float, to_x: float, to_y: float, *, thick: bool) -> str:
    style = 'stroke="black" stroke-width="0.6"' if thick else 'stroke="#666" stroke-width="0.15"'
    return f'<line x1="{x:.2f}" y1="{y:.2f}" x2="{to_x:.2f}" y2="{to_y:.2f}" {style}/>\n'


def _loss(loss: Loss, here: Mapping[str, float], panel: _Panel) -> str:
    first, last, x = here[loss.items[0]], here[loss.items[-1]], panel.left + SIGN / 2
    said = f"<title>{escape(', '.join(loss.items))}: {escape(loss.kind)}, {escape(loss.reason)}</title>"
    if len(loss.items) == 1 and loss.lost == "no sign":
        return f"<g>{said}{_cross(x, first)}</g>\n"
    fill = "black" if loss.lost == "likely" else "white"
    height = max(last - first, 0.0) + 1.4
    return (
        f'<g>{said}<rect x="{x - 0.7:.2f}" y="{first - 0.7:.2f}" width="1.4" height="{height:.2f}"'
        f' fill="{fill}" stroke="black" stroke-width="0.2"/></g>\n'
    )


def _cross(x: float, y: float) -> str:
    d = f"M{x - 0.7:.2f} {y - 0.7:.2f}l1.4 1.4m0 -1.4l-1.4 1.4"
    return f'<path d="{d}" stroke="black" stroke-width="0.3" fill="none"/>'


def _legend() -> Iterator[str]:
    """Yield what each sign means."""
    y = HEIGHT - 8
    yield _line(MARGIN, y - 0.8, MARGIN + 8, y - 0.8, thick=False) + _text(MARGIN + 9.5, y, "in its place")
    yield _line(MARGIN + 30, y - 0.8, MARGIN + 38, y - 0.8, thick=True) + _text(MARGIN + 39.5, y, "moved")
    yield _cross(MARGIN + 56, y - 0.8) + _text(MARGIN + 58, y, "wanting")
    for x, fill, said in ((74, "white", "wanting together"), (102, "black", "likely lost with a leaf")):
        yield (
            f'<rect x="{MARGIN + x:g}" y="{y - 1.9:g}" width="1.4" height="2.2" fill="{fill}" stroke="black"'
            ' stroke-width="0.2"/>'
        )
        yield _text(MARGIN + x + 3, y, said)
    yield _text(MARGIN + 138, y, "+ only there")


def _text(x: float, y: float, words: str, *, size: float = 2.5, anchor: str = "start") -> str:
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{size:g}" text-anchor="{anchor}">{escape(words)}</text>\n'
    )
