"""What a gap in a copy may hold: how lightly words are passed over there, and which are lost."""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate

import numpy as np

from collate.align.divide import Unit
from collate.align.grow import Ease
from collate.model.extents import extents
from collate.model.witness import Token, TokenKind

SHARE = 31 / 32
"""The share of the usual cost of each word that is passed over at a gap (a binary fraction: sums are exact).

However a copy is set in, about as many words are passed over in all. So it costs little to bridge a long loss
at its place, and were silence much cheaper there than elsewhere, the words that survive after it would be
carried to the end of an item that is otherwise left out.
"""


def ease(parts: Sequence[Unit], text: Sequence[Token], end: tuple[float, float]) -> Ease:
    """Return how lightly words are passed over between the units of a copy, the last of all after them.

    At a gap silence opens at no cost, and each word costs SHARE; `end` lightens either end of the text.
    """
    starts = [0, *(unit.stop for unit in parts)]
    stops = [*(unit.start for unit in parts), len(text)]
    places = np.ones((2, len(starts)))
    places[:, [0, -1]] = np.minimum(places[:, [0, -1]], end)
    for place, (start, stop) in enumerate(zip(starts, stops, strict=True)):
        if any(token.kind is TokenKind.GAP for token in text[start:stop]):
            places[:, place] = np.minimum(places[:, place], (0.0, SHARE))
    return Ease(places)


def letters_lost(gaps: Sequence[Token]) -> int | None:
    """Return how many letters gaps say are lost, together; None where one does not say."""
    found = [extent for gap in gaps for extent in extents(gap.written)]
    said = [extent for extent in found if extent is not None]
    return sum(said) if said and len(said) == len(found) else None


def lost_in(sizes: Sequence[int], letters: int | None) -> range:
    """Return which of the columns beside a gap are lost, given how many letters the others have in each.

    All are, if nothing is said of the extent, or about so many letters stand there: half as many more are
    allowed for. Else it is the run of columns nearest to the extent: what is wanting beside it is omitted. Of
    runs equally near the first is taken, and of those that begin together the shortest.
    """
    if letters is None or sum(sizes) <= letters + letters // 2 + 1:
        return range(len(sizes))
    sums = [0, *accumulate(sizes)]
    runs: list[range] = []
    for start in range(len(sizes)):
        reach = bisect_left(sums, sums[start] + letters, start + 1)
        runs.extend(range(start, stop) for stop in (reach - 1, reach) if start < stop < len(sums))
    return min(runs, key=lambda run: (abs(sums[run.stop] - sums[run.start] - letters), run.start, run.stop))
