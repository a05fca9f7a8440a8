"""Long items cut into stretches: what stands on either side of a cut is aligned alone.

Grams that stand once in the longest witness and once in another are chained (see `anchor`). A cut lies where
each other witness runs along with the longest for RUN words, or has clearly nothing. The cost of an item
then grows with its length, not with its square.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from collate.align.anchor import Pair, chain, grams, unique

GRAM = 3
"""How many neighbouring words are looked for together."""

RUN = 6
"""Over how many words two witnesses must run along for a cut in the middle of them."""

SLIP = 3
"""How many unlike words may stand in a run, where both witnesses go on in step."""

LONG = 500
"""The number of words from which an item is cut."""

STRETCH = 150
"""The fewest words of a stretch, in the longest witness."""

CLEAR = 20
"""How far from a void's ends a cut in it must be, besides twice the words that stand somewhere in it."""

Places = tuple[int, ...]
"""One place for each witness."""


@dataclass(frozen=True, slots=True)
class _Other:
    """A witness beside the longest: where words that answer to one another begin and how many run on."""

    here: tuple[int, ...]
    there: tuple[int, ...]
    length: tuple[int, ...]

    def place(self, at: int) -> int | None:
        """Return the place that answers to the longest witness's place `at`, or None if it is not sure."""
        run = bisect_right(self.here, at) - 1
        into = at - self.here[run]
        if into <= self.length[run] - RUN // 2 and into >= RUN // 2:
            return self.there[run] + into
        if into < self.length[run]:
            return None
        here, there = self.here[run] + self.length[run], self.there[run] + self.length[run]
        between = self.there[run + 1] - there
        margin = CLEAR + 2 * between
        first, last = here == 0, run + 2 == len(self.here)
        if (at - here < margin and not first) or (self.here[run + 1] - at < margin and not last):
            return None
        return there if first else there + between


def cuts(texts: Sequence[Sequence[int]]) -> tuple[Places, ...]:
    """Return the places at which to cut witnesses, given as the identities of their words.

    The first is the start of all, the last their ends. An item that is not long is not cut. Of two longest
    witnesses the first counts.
    """
    start, stop = tuple(0 for _ in texts), tuple(len(text) for text in texts)
    if len(texts) < 2 or max(stop) < LONG:
        return start, stop
    longest = stop.index(max(stop))
    others = [_other(texts[longest], text) for text in texts]
    found = [start]
    at = STRETCH
    while at <= max(stop) - STRETCH:
        places = [other.place(at) for other in others]
        sure = tuple(place for place in places if place is not None)
        if len(sure) == len(texts):
            found.append(sure)
            at += STRETCH
        else:
            at += 1
    return (*found, stop)


def _other(longest: Sequence[int], text: Sequence[int]) -> _Other:
    """Chain the grams of two texts and join them to runs; an empty run stands at either end."""
    if longest is text:
        return _Other((0, len(text)), (0, len(text)), (len(text), 0))
    rising = chain(unique(grams(longest, 0, len(longest), GRAM), grams(text, 0, len(text), GRAM)))
    runs: list[tuple[Pair, int]] = [((0, 0), 0)]
    for here, there in rising:
        (first, other), length = runs[-1]
        if here - first == there - other and here <= first + length + SLIP:
            runs[-1] = ((first, other), here + GRAM - first)
        elif here >= first + length and there >= other + length:
            runs.append(((here, there), GRAM))
    runs.append(((len(longest), len(text)), 0))
    return _Other(
        tuple(pair[0] for pair, _ in runs),
        tuple(pair[1] for pair, _ in runs),
        tuple(length for _, length in runs),
    )
