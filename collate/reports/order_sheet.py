"""The sheet of an order chart: how large it is, and where the panel of each witness stands on it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import log, sqrt

A4 = (210.0, 297.0)
"""The width and height of a sheet in millimetres, if nothing needs more room."""

MARGIN = 12.0
FOOT = 20.0
"""The room for the legend."""

HEAD = 7.0
"""The room above the items of a panel, for the sigla."""

PITCH = 2.8
"""The height of a line of labels: no two items stand nearer, so that each has its label."""

MOST_PITCH = 8.0
"""How far apart two items stand at most."""

LINES = 26.0
"""The least room for the lines between two axes; the most is three times as much."""

STEEP = 10
"""How many times as high as wide the lines' room is at most."""

LETTER = 1.35
"""About how wide a letter of a label is."""

GAP = 4.0
"""The room between two panels."""


@dataclass(frozen=True, slots=True)
class Panel:
    """The room of one witness: its edges, its two axes, its top, and how far apart its items stand."""

    start: float
    stop: float
    left: float
    right: float
    y: float
    pitch: float
    rows: int

    def at(self, number: int, count: int) -> float:
        """Return how far down an item stands, of so many: they are spread over all rows."""
        return self.y + HEAD + (number + 0.5) * self.rows * self.pitch / max(count, 1)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet and the panels on it."""

    width: float
    height: float
    panels: tuple[Panel, ...]


def sheet(rows: Sequence[int], labels: tuple[int, int], top: float) -> Sheet:
    """Return a sheet for panels of so many rows; `labels` are the letters of the longest label of a side.

    It is A4 if all have room there, else larger, of nearly that shape: as small as may be without any
    label left out.
    """
    left, right = (2 + LETTER * letters for letters in labels)
    longest = max(rows, default=0)
    lines = max(LINES, PITCH * longest / STEEP)
    least = left + lines + right + GAP
    height = HEAD + PITCH * longest + GAP

    def size(columns: int) -> tuple[float, float]:
        wide = 2 * MARGIN + columns * least
        tall = top + FOOT + -(-len(rows) // columns) * height
        return max(A4[0], wide), max(A4[1], tall)

    def cost(columns: int) -> tuple[float, float]:
        wide, tall = size(columns)
        shape = 1 + abs(log(tall / wide * A4[0] / A4[1]))
        return wide * tall * shape, abs(columns - sqrt(len(rows)))

    columns = min(range(1, max(len(rows), 1) + 1), key=cost)
    wide, tall = size(columns)
    return Sheet(wide, tall, tuple(_panels(rows, columns, (wide, tall), top, (left, right))))


def _panels(
    rows: Sequence[int],
    columns: int,
    size: tuple[float, float],
    top: float,
    labels: tuple[float, float],
) -> Iterator[Panel]:
    """Yield the panels in rows; those of a row have their items as far apart, as the longest allows."""
    width = (size[0] - 2 * MARGIN) / columns
    height = (size[1] - top - FOOT) / max(-(-len(rows) // columns), 1)
    between = min(width - sum(labels) - GAP, 3 * max(LINES, PITCH * max(*rows, 0, 0) / STEEP))
    pitch = min((height - HEAD - GAP) / max(*rows, 1, 1), MOST_PITCH)
    for number, count in enumerate(rows):
        row, column = divmod(number, columns)
        x = MARGIN + column * width
        left = x + labels[0]
        right = left + between
        yield Panel(x, right + labels[1], left, right, top + row * height, pitch, count)
