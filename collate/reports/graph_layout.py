"""Blocks in, boxes and lines with their places out, in rows; labels never lie on one another."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from unicodedata import combining

from collate.reports.graph_blocks import Block, Slot
from collate.reports.phrases import joined

SIZE, SMALL = 16.0, 12.0
PITCH, ROW_GAP, MARGIN, PADDING = 34.0, 34.0, 24.0, 8.0
LONGEST_LABEL = 120.0
"""How wide the sigla of a way may be before they are shortened."""

WIDENINGS = 20
"""How often two blocks are set further apart to make room for labels."""

_NARROW, _WIDE = frozenset("fijlt.,:;'|!()[]/ ſı"), frozenset("mwMWæÆœŒ@%…—⁊¶~")


@dataclass(frozen=True, slots=True)
class Box:
    """A reading: the middle of its left edge, its width, its slot."""

    x: float
    y: float
    width: float
    slot: Slot


@dataclass(frozen=True, slots=True)
class Line:
    """A way from one point to another; `label` stands at (`at_x`, `at_y`), "" for none."""

    x0: float
    y0: float
    x1: float
    y1: float
    label: str = ""
    sigla: str = ""
    at_x: float = 0.0
    at_y: float = 0.0
    arrow: bool = False


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing of this width and height."""

    width: float
    height: float
    boxes: tuple[Box, ...]
    lines: tuple[Line, ...]


def text_width(text: str, size: float) -> float:
    """Return how wide a text is at most in a book face of this size."""
    ems = 0.0
    for letter in text:
        if combining(letter):
            continue
        wide = letter in _WIDE or ord(letter) > 0x2E80
        ems += 1.0 if wide else 0.36 if letter in _NARROW else 0.78 if letter.isupper() else 0.58
    return ems * size


def lay_out(blocks: Sequence[Block], room: float) -> Drawing:
    """Place the blocks in rows of about `room`; a line that goes on in the next row is cut at the margins."""
    ways = [_ways(a, b) for a, b in pairwise(blocks)]
    widths = [max(text_width(slot.text, SIZE) for slot in block.slots) + 2 * PADDING for block in blocks]
    boxes: list[Box] = []
    lines: list[Line] = []
    top, right = MARGIN + 40.0, 0.0
    for row in _rows(widths, [each.gap for each in ways], room - 2 * MARGIN):
        y, x = top + PITCH / 2, MARGIN
        for at in row:
            if at:
                lines.extend(_moved(ways[at - 1].lines, x, y))
                x += ways[at - 1].gap
            for number, slot in enumerate(blocks[at].slots):
                middle = y + number * PITCH
                lines.extend(_through(slot, x, widths[at], middle))
                if slot.kind != "pass":
                    boxes.append(Box(x, middle, text_width(slot.text, SIZE) + 2 * PADDING, slot))
            x += widths[at]
        if row[-1] + 1 < len(blocks):
            count = len(blocks[row[-1]].slots)
            lines.extend(Line(x, y + n * PITCH, x + 14, y + n * PITCH, arrow=True) for n in range(count))
            x += 14
        deepest = max(len(blocks[at].slots) for at in range(max(row[0] - 1, 0), row[-1] + 1))
        top += PITCH * deepest + ROW_GAP
        right = max(right, x)
    return Drawing(right + MARGIN, top - ROW_GAP + MARGIN, tuple(boxes), tuple(lines))


def _rows(widths: Sequence[float], gaps: Sequence[float], room: float) -> Iterator[range]:
    """Yield the blocks of each row; the gap before a row's first block belongs to the row."""
    start, used = 0, 0.0
    for at, wide in enumerate(widths):
        step = wide + (gaps[at - 1] if at else 0.0)
        if at > start and used + step > room:
            yield range(start, at)
            start, used = at, 0.0
        used += step
    yield range(start, len(widths))


def _through(slot: Slot, x: float, width: float, y: float) -> Iterator[Line]:
    """Yield the line past a block, or from the end of its reading on to the block's end."""
    begin = x if slot.kind == "pass" else x + text_width(slot.text, SIZE) + 2 * PADDING
    if slot.kind != "end" and begin < x + width:
        yield Line(begin, y, x + width, y)


@dataclass(frozen=True, slots=True)
class _Ways:
    """The lines between two blocks, as from (0, 0), and how far the blocks must stand apart for them."""

    gap: float
    lines: tuple[Line, ...]


def _ways(a: Block, b: Block) -> _Ways:
    """Return the ways of the witnesses from slot to slot, so far apart that no label lies on another."""
    everyone = sum(len(slot.sigla) for slot in a.slots)
    ends: list[Line] = []
    for i, before in enumerate(a.slots):
        for j, after in enumerate(b.slots):
            common = tuple(siglum for siglum in before.sigla if siglum in after.sigla)
            if common:
                told = "" if before.kind == after.kind == "pass" else _label(common, everyone)
                full = " ".join(common)
                ends.append(Line(0.0, i * PITCH, 0.0, j * PITCH, told, full, arrow=after.kind != "pass"))
    gap = max(text_width(end.label, SMALL) for end in ends) + 30.0
    for _ in range(WIDENINGS):
        lines = _all_labelled(ends, gap)
        if len(lines) == len(ends):
            return _Ways(gap, lines)
        gap *= 1.25
    return _Ways(gap, tuple(_at_half(end, gap) for end in ends))


def _label(sigla: Sequence[str], everyone: int) -> str:
    """Return the sigla of a way, shortened where they would be longer than the drawing bears."""
    if text_width(joined(sigla), SMALL) <= LONGEST_LABEL:
        return joined(sigla)
    return "all" if len(sigla) == everyone else f"{sigla[0]} … {sigla[-1]} ({len(sigla)})"


def _all_labelled(ends: Sequence[Line], gap: float) -> tuple[Line, ...]:
    """Return the lines over a gap, each with its label, up to the first that finds no place for it."""
    lines: list[Line] = []
    for end in ends:
        line = _labelled(replace(end, x1=gap), lines)
        if line is None:
            break
        lines.append(line)
    return tuple(lines)


def _at_half(end: Line, gap: float) -> Line:
    return replace(end, x1=gap, at_x=gap / 2, at_y=(end.y0 + end.y1) / 2)


_STEPS = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.2, 0.8, 0.14, 0.86)


def _labelled(line: Line, others: Sequence[Line]) -> Line | None:
    """Return a line with its label where none of the others' is, or None if there is no such place."""
    if not line.label:
        return line
    half = text_width(line.label, SMALL) / 2 + 2
    for t in _STEPS:
        x = line.x1 * (1.5 * t * (1 - t) + t**3)
        y = line.y0 + (line.y1 - line.y0) * (3 * t**2 - 2 * t**3)
        if half <= x <= line.x1 - half - 6 and not any(_collides(x, y, half, other) for other in others):
            return replace(line, at_x=x, at_y=y)
    return None


def _collides(x: float, y: float, half: float, other: Line) -> bool:
    theirs = text_width(other.label, SMALL) / 2 + 2
    return bool(other.label) and abs(y - other.at_y) < SMALL + 3 and abs(x - other.at_x) < half + theirs


def _moved(lines: Sequence[Line], x: float, y: float) -> Iterator[Line]:
    for line in lines:
        yield replace(
            line,
            x0=line.x0 + x,
            x1=line.x1 + x,
            y0=line.y0 + y,
            y1=line.y1 + y,
            at_x=line.at_x + x,
            at_y=line.at_y + y,
        )
