"""Which items are worth comparing at all: those that share rare words, or rare neighbours, by an index.

Of a few items each is held against every other; of many none is. A list of the items is kept for each word
and for each two neighbouring words (a shingle: A. Z. Broder, "On the resemblance and containment of
documents", 1997); lists too long to tell anything are thrown away, and the rest vote, each by its rarity.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, combinations, pairwise

import numpy as np
import numpy.typing as npt

from collate.align.likeness import Corpus

Numbers = npt.NDArray[np.int64]
Weights = npt.NDArray[np.float64]

NEAREST = 4
"""How many items of each other witness are compared with an item."""

CROWD = 16
"""How many items of each witness may share a word before it is too common to vote."""

_BATCH = 256
"""How many items are looked up at a time, at most."""

_BALLOTS = 200_000
"""How many votes are counted at a time, at most, unless one item has more."""

TELLING = 0.6
"""The weight from which on a word counts as one of the neighbours."""

POOR = 4
"""How many telling words an item must have; of one that has fewer, all words count."""

SMALL = 64
"""Up to how many items in all every two are compared."""


@dataclass(frozen=True, slots=True)
class _Index:
    """The features of each item, and the items of each feature, as rows cut from one array."""

    features: Numbers
    item_starts: Numbers
    holders: Numbers
    feature_starts: Numbers
    votes: Weights

    def batches(self) -> Iterator[tuple[int, int]]:
        """Yield from which item to which votes are counted together."""
        sizes = np.diff(self.feature_starts)[self.features]
        ballots = np.concatenate(([0], np.cumsum(sizes)))[self.item_starts]
        start, count = 0, len(self.item_starts) - 1
        while start < count:
            full = int(np.searchsorted(ballots, ballots[start] + _BALLOTS, side="right")) - 1
            stop = min(max(full, start + 1), start + _BATCH, count)
            yield start, stop
            start = stop


def candidates(book: Corpus) -> tuple[tuple[int, int], ...]:
    """Return the pairs of items of different witnesses, the lower number first, that may be alike; sorted."""
    witnesses = max(book.owner, default=0) + 1
    if witnesses < 2:
        return ()
    if len(book.items) <= SMALL:
        return tuple(
            (a, b) for a, b in combinations(range(len(book.items)), 2) if book.owner[a] != book.owner[b]
        )
    count, owner = len(book.items), np.array(book.owner)
    index = _index(book, CROWD * (witnesses + 1))
    bounds = np.searchsorted(owner, np.arange(witnesses + 1)).tolist()
    found = [np.zeros(0, dtype=np.int64)]
    for start, stop in index.batches():
        votes = _votes(index, start, stop, count)
        for witness, (first, end) in enumerate(pairwise(bounds)):
            rows, columns = _best(votes[:, first:end])
            across = owner[start + rows] != witness
            a, b = start + rows[across], first + columns[across]
            found.append(np.minimum(a, b) * count + np.maximum(a, b))
    pairs = _once(np.concatenate(found))
    return tuple(zip((pairs // count).tolist(), (pairs % count).tolist(), strict=True))


def _best(votes: Weights) -> tuple[Numbers, Numbers]:
    """Return (rows, columns) of the highest votes of each row, the first of equals; none that are nothing.

    They are struck out of the votes.
    """
    every = np.arange(len(votes))
    rows, columns = [every[:0]], [every[:0]]
    for _ in range(min(NEAREST, votes.shape[1])):
        best = votes.argmax(axis=1)
        given = votes[every, best] > 0
        rows.append(every[given])
        columns.append(best[given])
        votes[every, best] = 0.0
    return np.concatenate(rows), np.concatenate(columns)


def _index(book: Corpus, crowd: int) -> _Index:
    """Index the features that more items than one have, and not too many."""
    features, holders = _features(book)
    starts = np.flatnonzero(np.diff(features, prepend=-1))
    often = np.diff(starts, append=len(features))
    told = (often > 1) & (often <= crowd)
    sizes, holders = often[told], holders[np.repeat(told, often)]
    by_item = np.argsort(holders, kind="stable")
    return _Index(
        np.repeat(np.arange(len(sizes)), sizes)[by_item],
        _starts(np.bincount(holders, minlength=len(book.items))),
        holders,
        _starts(sizes),
        np.log(1 + len(book.items) / sizes),
    )


def _starts(sizes: Numbers) -> Numbers:
    """Return where each of some rows of these sizes begins, and where the last ends."""
    return np.concatenate((np.zeros(1, dtype=np.int64), np.cumsum(sizes)))


def _features(book: Corpus) -> tuple[Numbers, Numbers]:
    """Return the words and the neighbouring words of all items, once each: (feature, item) as two rows.

    They are sorted by the feature, then by the item.
    """
    size, count = len(book.weights), len(book.items)
    words = np.fromiter(chain.from_iterable(book.words), np.int64)
    items = np.repeat(np.arange(count), np.fromiter(map(len, book.words), np.int64))
    if not len(words):
        return words, items
    telling = np.array(book.weights)[words] >= min(TELLING, max(book.weights) / 2)
    telling |= (np.bincount(items, telling, count) < POOR)[items]
    words, items = words[telling], items[telling]
    together = items[1:] == items[:-1]
    shingles = size + words[:-1][together] * size + words[1:][together]
    both = _once(np.concatenate((words, shingles)) * count + np.concatenate((items, items[1:][together])))
    return both // count, both % count


def _once(numbers: Numbers) -> Numbers:
    """Return numbers sorted, each once: to sort them costs less than what numpy has for it."""
    ordered = np.sort(numbers)
    return ordered[np.diff(ordered, prepend=-1) > 0]


def _votes(index: _Index, start: int, stop: int, count: int) -> Weights:
    """Return, for the items [start, stop), how strongly their words point to every item."""
    own = np.diff(index.item_starts[start : stop + 1])
    features = index.features[index.item_starts[start] : index.item_starts[stop]]
    sizes = index.feature_starts[features + 1] - index.feature_starts[features]
    before = np.cumsum(sizes) - sizes
    held = index.holders[np.repeat(index.feature_starts[features] - before, sizes) + np.arange(sizes.sum())]
    rows = np.repeat(np.repeat(np.arange(stop - start) * count, own), sizes)
    votes = np.bincount(rows + held, np.repeat(index.votes[features], sizes), (stop - start) * count)
    return votes.astype(np.float64).reshape(stop - start, count)
