"""How much of their words items have in common, order left aside: many pairs at once, before any is compared.

What two items have in common in one order is never more than what they have in common in any order. So a pair
that has too little of that need not be compared word by word.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain

import numpy as np
import numpy.typing as npt

from collate.align.likeness import SCANT, Corpus

Numbers = npt.NDArray[np.int64]
Weights = npt.NDArray[np.float64]

ROUNDING = 1e-9
"""By how much a sum may differ from the same sum in another order."""


CELLS = 1_000_000
"""How many words of items are held against others at a time, at most."""


@dataclass(frozen=True, slots=True)
class Overlaps:
    """What each of some pairs has in common: how like the sets of words are, how like they can be in order.

    Either is right to within ROUNDING.
    """

    sets: tuple[float, ...]
    most: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class _Bags:
    """The words of each item without repetition, and how often it has each: rows cut from one array.

    The other fields are those of the corpus.
    """

    words: Numbers
    times: Numbers
    starts: Numbers
    weights: Weights
    totals: Weights
    once: Weights
    open_ended: npt.NDArray[np.bool_]
    rarest: float

    def places(self, items: Numbers) -> tuple[Numbers, Numbers]:
        """Return where the words of some items stand, and of which of those items each is."""
        sizes = self.starts[items + 1] - self.starts[items]
        rows = np.repeat(np.arange(len(items)), sizes)
        before = np.cumsum(sizes) - sizes
        return (self.starts[items] - before)[rows] + np.arange(len(rows)), rows

    def wholes(self, ours: Numbers, theirs: Numbers) -> Weights:
        """Return what twice the weight of the words in common is held against, as `compare` does."""
        mine, yours = self.totals[ours], self.totals[theirs]
        left = 2 * (np.minimum(mine, yours) + SCANT * self.rarest)
        whole: Weights = np.where(self.open_ended[ours] | self.open_ended[theirs], left, mine + yours)
        return whole

    def held(self, items: Numbers) -> Numbers:
        """Return how often each of some items has each word there is."""
        at, rows = self.places(items)
        held = np.zeros((len(items), len(self.weights)), dtype=np.int64)
        held[rows, self.words[at]] = self.times[at]
        return held


def overlaps(book: Corpus, pairs: Sequence[tuple[int, int]]) -> Overlaps:
    """Return what each of some pairs has in common; the pairs are sorted."""
    bags = _bags(book)
    sets: list[float] = []
    most: list[float] = []
    step = max(CELLS // max(len(book.weights), 1), 1)
    for start in range(0, len(pairs), step):
        ours, theirs = np.array(pairs[start : start + step]).T
        once, often = _together(bags, ours, theirs)
        sets.extend(_share(once, np.minimum(bags.once[ours], bags.once[theirs])))
        most.extend(_share(2 * often, bags.wholes(ours, theirs)))
    return Overlaps(tuple(sets), tuple(most))


def _together(bags: _Bags, ours: Numbers, theirs: Numbers) -> tuple[Weights, Weights]:
    """Return what the words weigh that two items of each pair have in common: each once, and all."""
    items, which = np.unique(ours, return_inverse=True)
    at, rows = bags.places(theirs)
    words = bags.words[at]
    here = bags.held(items)[which[rows], words]
    weights = np.where(here > 0, bags.weights[words], 0.0)
    once = np.bincount(rows, weights, len(ours))
    often = np.bincount(rows, weights * np.minimum(here, bags.times[at]), len(ours))
    return once.astype(np.float64), often.astype(np.float64)


def _share(part: Weights, whole: Weights) -> list[float]:
    share: list[float] = np.divide(part, whole, out=np.zeros(len(part)), where=whole > 0).tolist()
    return share


def _bags(book: Corpus) -> _Bags:
    count, size = len(book.items), max(len(book.weights), 1)
    words = np.fromiter(chain.from_iterable(book.words), np.int64)
    owners = np.repeat(np.arange(count), np.fromiter(map(len, book.words), np.int64))
    codes, times = np.unique(owners * size + words, return_counts=True)
    return _Bags(
        codes % size,
        times,
        np.searchsorted(codes, np.arange(count + 1) * size),
        np.array(book.weights),
        np.array(book.totals),
        np.array(book.once),
        np.array(book.open_ended),
        book.rarest,
    )
