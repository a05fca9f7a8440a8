"""Anchors: words that stand once here and once there, chained, cut two sequences into short stretches.

Words unique to both sides are matched and the longest chain in common order is kept (B. Cohen's
patience method; the chain by M. L. Fredman, "On computing the length of longest increasing
subsequences", Discrete Mathematics 11 (1975) 29-35); runs of equal words about them are added, and the
stretches between are cut again, since a word may be unique in a stretch that is not in the whole.
"""

from bisect import bisect_left
from collections.abc import Sequence

NOTHING = -1
"""An identity that matches nothing, not even itself."""

DRIFT = 0
"""How far a lone anchor may leave the diagonal of its nearer end before it is no longer trusted."""

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
            if pairs and smaller and x_stop - x > 1 and y_stop - y > 1:
                stack.append((x + 1, x_stop, y + 1, y_stop))
    found.sort()
    return found


def _of_stretch(
    ours: Sequence[int], theirs: Sequence[int], a: int, a_stop: int, b: int, b_stop: int
) -> list[Pair]:
    """Return the anchors of one stretch: its equal ends, then the chain of unique words within."""
    head: list[Pair] = []
    while a < a_stop and b < b_stop and ours[a] == theirs[b] != NOTHING:
        head.append((a, b))
        a, b = a + 1, b + 1
    tail: list[Pair] = []
    while a < a_stop and b < b_stop and ours[a_stop - 1] == theirs[b_stop - 1] != NOTHING:
        a_stop, b_stop = a_stop - 1, b_stop - 1
        tail.append((a_stop, b_stop))
    chain = _chain(_unique(ours, theirs, a, a_stop, b, b_stop))
    grown = _grow(chain, ours, theirs, (a, b), (a_stop, b_stop))
    return [*head, *_trusted(grown, (a - 1, b - 1), (a_stop, b_stop)), *reversed(tail)]


def _unique(
    ours: Sequence[int], theirs: Sequence[int], a: int, a_stop: int, b: int, b_stop: int
) -> list[Pair]:
    """Return the pairs of words that stand once in each stretch, by their place here."""
    here: dict[int, int] = {}
    for at in range(a, a_stop):
        here[ours[at]] = -1 if ours[at] in here else at
    there: dict[int, int] = {}
    for at in range(b, b_stop):
        there[theirs[at]] = -1 if theirs[at] in there else at
    here.pop(NOTHING, None)
    return [(at, there[word]) for word, at in here.items() if at >= 0 and there.get(word, -1) >= 0]


def _chain(pairs: Sequence[Pair]) -> list[Pair]:
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
    chain: list[Pair] = []
    at = tops_at[-1] if tops_at else -1
    while at >= 0:
        chain.append(pairs[at])
        at = before[at]
    chain.reverse()
    return chain


def _grow(
    chain: Sequence[Pair], ours: Sequence[int], theirs: Sequence[int], start: Pair, stop: Pair
) -> list[list[Pair]]:
    """Return the chain as runs: each anchor with the equal words on either side of it."""
    runs: list[list[Pair]] = []
    low = start
    for number, (x, y) in enumerate(chain):
        if runs and x < low[0]:
            continue
        high = chain[number + 1] if number + 1 < len(chain) else stop
        run = [(x, y)]
        while (
            run[0][0] > low[0]
            and run[0][1] > low[1]
            and ours[run[0][0] - 1] == theirs[run[0][1] - 1] != NOTHING
        ):
            run.insert(0, (run[0][0] - 1, run[0][1] - 1))
        while (
            run[-1][0] + 1 < high[0]
            and run[-1][1] + 1 < high[1]
            and ours[run[-1][0] + 1] == theirs[run[-1][1] + 1] != NOTHING
        ):
            run.append((run[-1][0] + 1, run[-1][1] + 1))
        runs.append(run)
        low = (run[-1][0] + 1, run[-1][1] + 1)
    return runs


def _trusted(runs: Sequence[Sequence[Pair]], start: Pair, stop: Pair) -> list[Pair]:
    """Leave out lone anchors far from the diagonals of both the anchor before and the end."""
    kept: list[Pair] = []
    for run in runs:
        x, y = run[0]
        last = kept[-1] if kept else start
        drift = min(abs((x - last[0]) - (y - last[1])), abs((stop[0] - x) - (stop[1] - y)))
        if len(run) > 1 or drift <= DRIFT:
            kept.extend(run)
    return kept
