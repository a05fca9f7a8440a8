"""Long items cut into stretches: what stands on either side of a cut is aligned alone.

Grams that stand once in the longest witness and once in another are chained (see `anchor`). A cut lies where
each other witness runs along with the longest for RUN words, or has clearly nothing. The cost of an item
then grows with its length, not with its square.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

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

PIECE = 2_000
"""The most words of a stretch, in any witness."""

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
    witnesses the first counts. Where nothing answers to anything for a long way, cuts are made by proportion:
    there is nothing to lose, and the cost stays bounded.
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
    found.append(stop)
    return (start, *(place for pair in pairwise(found) for place in _pieces(*pair)))


def _pieces(start: Places, stop: Places) -> Iterator[Places]:
    """Yield the places by which a stretch is cut into pieces of bounded length, its end the last."""
    count = max(1, -(-max(b - a for a, b in zip(start, stop, strict=True)) // PIECE))
    for number in range(1, count + 1):
        yield tuple(a + (b - a) * number // count for a, b in zip(start, stop, strict=True))


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
    runs = _grown(runs, longest, text)
    return _Other(
        tuple(pair[0] for pair, _ in runs),
        tuple(pair[1] for pair, _ in runs),
        tuple(length for _, length in runs),
    )


_Runs = list[tuple[Pair, int]]


def _grown(runs: _Runs, longest: Sequence[int], text: Sequence[int]) -> _Runs:
    """Let runs grow at both ends over equal words, towards one another; the later run first."""
    grown = list(runs)
    for at in range(len(grown) - 1, 0, -1):
        (here, there), length = grown[at]
        (before, before_there), done = grown[at - 1]
        while here > before + done and there > before_there + done and longest[here - 1] == text[there - 1]:
            here, there, length = here - 1, there - 1, length + 1
        grown[at] = ((here, there), length)
    for at in range(len(grown) - 1):
        (here, there), length = grown[at]
        after, after_there = grown[at + 1][0]
        while (
            here + length < after
            and there + length < after_there
            and longest[here + length] == text[there + length]
        ):
            length += 1
        grown[at] = ((here, there), length)
    return grown
