"""What a gap in a copy may hold: how lightly words are passed over there, and which are lost."""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate
from statistics import median_low

import numpy as np

from collate.align.divide import WORDS
from collate.align.divide import Unit as Aligned
from collate.align.grow import Ease
from collate.model.extents import Extent, Unit, extents
from collate.model.witness import Token, has_gap

SHARE = 31 / 32
"""The share of the usual cost of each word that is passed over at a gap (a binary fraction: sums are exact).

However a copy is set in, about as many words are passed over in all. So it costs little to bridge a long loss
at its place, and were silence much cheaper there than elsewhere, the words that survive after it would be
carried to the end of an item that is otherwise left out.
"""


def ease(parts: Sequence[Aligned], text: Sequence[Token], end: tuple[float, float]) -> Ease:
    """Return how lightly words are passed over between the units of a copy, the last of all after them.

    At a gap silence opens at no cost, and each word costs SHARE; `end` lightens either end of the text.
    """
    starts = [0, *(unit.stop for unit in parts)]
    stops = [*(unit.start for unit in parts), len(text)]
    places = np.ones((2, len(starts)))
    places[:, [0, -1]] = np.minimum(places[:, [0, -1]], end)
    for place, (start, stop) in enumerate(zip(starts, stops, strict=True)):
        if has_gap(text[start:stop]):
            places[:, place] = np.minimum(places[:, place], (0.0, SHARE))
    return Ease(places)


def extent_of(gaps: Sequence[Token], text: Sequence[Token]) -> Extent | None:
    """Return how many letters or words gaps of a copy say are lost, together; None where one does not say.

    Lines are counted as so many of the copy's usual words, if its lines are known; letters beside words say
    nothing together.
    """
    said = [_in_words(extent, text) for gap in gaps for extent in extents(gap.written)]
    stated = [extent for extent in said if extent is not None]
    units = {extent.unit for extent in stated}
    if len(units) != 1 or len(stated) < len(said):
        return None
    return Extent(sum(extent.count for extent in stated), units.pop())


_LINES = 3
"""The fewest whole lines of a copy by which the words of a usual one are known."""


def _in_words(extent: Extent | None, text: Sequence[Token]) -> Extent | None:
    """Return an extent, lines as words where it is known how many stand in one."""
    if extent is None or extent.unit is not Unit.LINE:
        return extent
    usual = _words_in_line(text)
    return None if usual is None else Extent(extent.count * usual, Unit.WORD)


def _words_in_line(text: Sequence[Token]) -> int | None:
    """Return how many words a line of a copy has as a rule, by those that are whole."""
    lines: list[list[Token]] = []
    for token in text:
        here = (token.place.folio, token.place.ms_line)
        if lines and here == (lines[-1][0].place.folio, lines[-1][0].place.ms_line):
            lines[-1].append(token)
        else:
            lines.append([token])
    whole = [
        sum(token.kind in WORDS for token in line)
        for line in lines[1:-1]
        if line[0].place.ms_line is not None and not has_gap(line)
    ]
    return max(1, median_low(whole)) if len(whole) >= _LINES else None


def lost_in(sizes: Sequence[int], extent: Extent | None) -> range:
    """Return which of the columns beside a gap are lost, given what the others have in each.

    `sizes` are the letters or the words of the columns.

    All are, if nothing is said of the extent, or about so many letters stand there: half as many more are
    allowed for. Else it is the run of columns nearest to the extent: what is wanting beside it is omitted. Of
    runs equally near the first is taken, and of those that begin together the shortest.
    """
    if extent is None or sum(sizes) <= extent.count + extent.count // 2 + (extent.unit is Unit.LETTER):
        return range(len(sizes))
    sums = [0, *accumulate(sizes)]
    runs: list[range] = []
    for start in range(len(sizes)):
        reach = bisect_left(sums, sums[start] + extent.count, start + 1)
        runs.extend(range(start, stop) for stop in (reach - 1, reach) if start < stop < len(sums))
    return min(
        runs, key=lambda run: (abs(sums[run.stop] - sums[run.start] - extent.count), run.start, run.stop)
    )
