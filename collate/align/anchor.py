"""Anchors: words that stand once here and once there, chained, cut two sequences into short stretches.

Words unique to both sides are matched and the longest chain in common order is kept (B. Cohen's
patience method; the chain by M. L. Fredman, "On computing the length of longest increasing
subsequences", Discrete Mathematics 11 (1975) 29-35); the stretches between are cut again, since a word
may be unique in a stretch that is not in the whole. A word that is repeated on either side is never an
anchor: which of the two it answers to is for the whole stretch to say.
"""

from bisect import bisect_left
from collections.abc import Sequence

NOTHING = -1
"""An identity that matches nothing, not even itself."""

STEADY = 2
"""How many words after its first a run needs for each place by which it leaves the diagonal."""

SURE = 6
"""A run of more words than this is trusted anywhere: a phrase so long is hardly ever moved."""

SMALL = 400
"""A stretch of no more cells (words by words) than this is not cut again: it is aligned as it is."""

LONGEST = 3
"""How many words together may be an anchor where fewer will not do."""

Pair = tuple[int, int]


def anchors(ours: Sequence[int], theirs: Sequence[int]) -> list[Pair]:
    """Return pairs (index here, index there) of equal identities, both rising, by which to cut."""
    found: list[Pair] = []
    stack = [(0, len(ours), 0, len(theirs))]
    while stack:
        a, a_stop, b, b_stop = stack.pop()
        pairs = _of_stretch(ours, theirs, a, a_stop, b, b_stop)
        found.extend(pairs)
        for (x, y), (x_stop, y_stop) in zip(
            [(a - 1, b - 1), *pairs], [*pairs, (a_stop, b_stop)], strict=True
        ):
            smaller = (x_stop - x, y_stop - y) != (a_stop - a + 1, b_stop - b + 1)
            if pairs and smaller and (x_stop - x - 1) * (y_stop - y - 1) > SMALL:
                stack.append((x + 1, x_stop, y + 1, y_stop))
    found.sort()
    return found


def _of_stretch(
    ours: Sequence[int], theirs: Sequence[int], a: int, a_stop: int, b: int, b_stop: int
) -> list[Pair]:
    """Return the anchors of one stretch: the chain of its unique words, as far as they are trusted.

    Where no word will do, two words together are looked for, then three.
    """
    for length in range(1, LONGEST + 1):
        found = chain(unique(grams(ours, a, a_stop, length), grams(theirs, b, b_stop, length)))
        pairs = [(x + a, y + b) for x, y in _words(found, length)]
        if trusted := _trusted(_runs(pairs), (a - 1, b - 1), (a_stop, b_stop)):
            return trusted
    return []


Gram = tuple[int, ...]


def grams(text: Sequence[int], start: int, stop: int, length: int) -> list[Gram]:
    """Return the runs of `length` words of a stretch, by their first word; () where one has no identity."""
    found = list(zip(*(text[start + at : stop] for at in range(length)), strict=False))
    return [() if NOTHING in gram else gram for gram in found]


def unique(ours: Sequence[Gram], theirs: Sequence[Gram]) -> list[Pair]:
    """Return the pairs of grams that stand once here and once there, by their place here."""
    here = _once(ours)
    there = _once(theirs)
    return [(at, there[gram]) for gram, at in here.items() if gram in there]


def _once(grams: Sequence[Gram]) -> dict[Gram, int]:
    last = {gram: at for at, gram in enumerate(grams)}
    first = dict(zip(reversed(grams), range(len(grams) - 1, -1, -1), strict=True))
    last.pop((), None)
    return {gram: at for gram, at in last.items() if first[gram] == at}


def _words(found: Sequence[Pair], length: int) -> list[Pair]:
    """Return the pairs of words of pairs of grams, each once and all rising."""
    pairs: list[Pair] = []
    for x, y in found:
        for at in range(length):
            if not pairs or (x + at > pairs[-1][0] and y + at > pairs[-1][1]):
                pairs.append((x + at, y + at))
    return pairs


def chain(pairs: Sequence[Pair]) -> list[Pair]:
    """Return the longest chain that rises on both sides; `pairs` rise on the first. Ties: the lowest."""
    tops: list[int] = []
    tops_at: list[int] = []
    before: list[int] = []
    for at, (_, y) in enumerate(pairs):
        pile = bisect_left(tops, y)
        if pile == len(tops):
            tops.append(y)
            tops_at.append(at)
        else:
            tops[pile], tops_at[pile] = y, at
        before.append(tops_at[pile - 1] if pile else -1)
    found: list[Pair] = []
    at = tops_at[-1] if tops_at else -1
    while at >= 0:
        found.append(pairs[at])
        at = before[at]
    found.reverse()
    return found


def _runs(chain: Sequence[Pair]) -> list[list[Pair]]:
    """Cut a chain into runs of neighbours on both sides."""
    runs: list[list[Pair]] = []
    for x, y in chain:
        if runs and runs[-1][-1] == (x - 1, y - 1):
            runs[-1].append((x, y))
        else:
            runs.append([(x, y)])
    return runs


def _trusted(runs: Sequence[Sequence[Pair]], start: Pair, stop: Pair) -> list[Pair]:
    """Return the pairs of the runs that may be cut at.

    A word alone is never trusted: it may be another word of the same spelling, or one that was moved. A
    longer run is, the longer the farther it leaves the diagonals of the anchor before and of the end.
    """
    kept: list[Pair] = []
    for run in runs:
        x, y = run[0]
        last = kept[-1] if kept else start
        drift = min(abs((x - last[0]) - (y - last[1])), abs((stop[0] - x) - (stop[1] - y)))
        if len(run) > SURE or len(run) > max(1, STEADY * drift):
            kept.extend(run)
    return kept
