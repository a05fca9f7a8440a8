"""How much of their words items have in common, order left aside: many pairs at once, before any is compared.

What two items have in common in one order is never more than what they have in common in any order. So a pair
that has too little of that need not be compared word by word.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, groupby
from operator import itemgetter

import numpy as np
import numpy.typing as npt

from collate.align.likeness import SCANT, Corpus

Numbers = npt.NDArray[np.int64]
Weights = npt.NDArray[np.float64]

ROUNDING = 1e-9
"""By how much a sum may differ from the same sum in another order."""


@dataclass(frozen=True, slots=True)
class Overlap:
    """What two items have in common: how like their sets of words are, and how like they can be in order.

    Either is right to within ROUNDING.
    """

    sets: float
    most: float


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

    def wholes(self, one: int, others: Numbers) -> Weights:
        """Return what twice the weight of the words in common is held against, as `compare` does."""
        ours, theirs = self.totals[one], self.totals[others]
        left = 2 * (np.minimum(ours, theirs) + SCANT * self.rarest)
        whole: Weights = np.where(self.open_ended[one] | self.open_ended[others], left, ours + theirs)
        return whole


def overlaps(book: Corpus, pairs: Sequence[tuple[int, int]]) -> Iterator[Overlap]:
    """Yield what each of some pairs has in common; the pairs are sorted."""
    bags = _bags(book)
    have = np.zeros(len(book.weights), dtype=np.int64)
    for one, held in groupby(pairs, itemgetter(0)):
        own = slice(bags.starts[one], bags.starts[one + 1])
        have[bags.words[own]] = bags.times[own]
        shares = _of_one(bags, have, one, np.array([other for _, other in held]))
        yield from map(Overlap, *shares)
        have[bags.words[own]] = 0


def _of_one(bags: _Bags, have: Numbers, one: int, others: Numbers) -> tuple[list[float], list[float]]:
    """Return what one item, the words of which we `have`, has in common with each of some others."""
    at, rows = bags.places(others)
    words = bags.words[at]
    here = have[words]
    weights = np.where(here > 0, bags.weights[words], 0.0)
    once = np.bincount(rows, weights, len(others)).astype(np.float64)
    often = np.bincount(rows, weights * np.minimum(here, bags.times[at]), len(others)).astype(np.float64)
    least = np.minimum(bags.once[one], bags.once[others])
    return _share(once, least), _share(2 * often, bags.wholes(one, others))


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
