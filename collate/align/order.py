"""In which order witnesses are set into the alignment: the likest first."""

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
    while len(joined) < count:
        rest = [index for index in range(count) if index not in joined]
        best = max(rest, key=lambda index: (likeness[index, joined].max(), -index))
        joined.append(best)
    return tuple(joined)


def alikeness(table: Table) -> Scores:
    """Return how alike each two witnesses are, 0 to 1: the shared weight of their forms.

    A form weighs the less the more witnesses have it; forms are brought together by likeness.
    """
    counts = np.array([np.bincount(words, minlength=len(table.forms)) for words in table.words], dtype=float)
    near = np.where(table.likeness >= 0.8, table.likeness, 0.0)
    spread = np.minimum(counts @ near, 1.0e9)
    weight = 1.0 / np.maximum((spread > 0).sum(axis=0), 1)
    profile = np.round(spread * np.sqrt(weight), 6)
    norm = np.sqrt((profile * profile).sum(axis=1))
    norm[norm == 0] = 1.0
    alike: Scores = np.round((profile @ profile.T) / np.outer(norm, norm), 6)
    np.fill_diagonal(alike, 0.0)
    return alike
