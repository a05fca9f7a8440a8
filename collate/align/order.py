"""In which order witnesses are set into the alignment: the likest first."""

from itertools import pairwise

import numpy as np

from collate.align.score import Scores, Table


def order(table: Table) -> tuple[int, ...]:
    """Return the indices of the witnesses in the order of their joining.

    The first is the one most like all others; each next is the one most like any that has joined.
    Ties go to the lower index.
    """
    likeness = alikeness(table)
    count = len(table.words)
    joined = [int(np.argmax(likeness.sum(axis=1)))]
    best = likeness[joined[0]].copy()
    while len(joined) < count:
        best[joined] = -1.0
        following = int(np.argmax(best))
        joined.append(following)
        best = np.maximum(best, likeness[following])
    return tuple(joined)


def alikeness(table: Table) -> Scores:
    """Return how alike each two witnesses are, 0 to 1: the share of neighbouring words in common.

    Words are told apart by identity. The share is rounded, so that it falls alike on every machine.
    """
    pairs = []
    for words in table.words:
        identities = table.identity[words].tolist()
        pairs.append({*pairwise(identities), *((one, -1) for one in identities)})
    count = len(pairs)
    alike: Scores = np.zeros((count, count))
    for a in range(count):
        for b in range(a + 1, count):
            shared = len(pairs[a] & pairs[b])
            alike[a, b] = alike[b, a] = round(2 * shared / max(len(pairs[a]) + len(pairs[b]), 1), 6)
    return alike
