"""Which items are worth comparing at all: those that share rare words, or rare neighbours, by an index.

No item is held against every other. A list of the items is kept for each word and for each two neighbouring
words (a shingle: A. Z. Broder, "On the resemblance and containment of documents", 1997); lists too long to
tell anything are thrown away, and the rest vote, each by its rarity.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.likeness import Corpus

Numbers = npt.NDArray[np.int64]

NEAREST = 4
"""How many items of each other witness are compared with an item."""

CROWD = 16
"""How many items of each witness may share a word before it is too common to vote."""

_BATCH = 256
"""How many items are looked up at a time."""


@dataclass(frozen=True, slots=True)
class _Index:
    """The features of each item, and the items of each feature, as rows cut from one array."""

    features: Numbers
    item_starts: Numbers
    holders: Numbers
    feature_starts: Numbers
    votes: npt.NDArray[np.float64]


def candidates(book: Corpus) -> tuple[tuple[int, int], ...]:
    """Return the pairs of items of different witnesses, the lower number first, that may be alike."""
    witnesses = max(book.owner, default=0) + 1
    if witnesses < 2:
        return ()
    index = _index(book, CROWD * (witnesses + 1))
    bounds = np.searchsorted(np.array(book.owner), np.arange(witnesses + 1))
    pairs: set[tuple[int, int]] = set()
    for start in range(0, len(book.items), _BATCH):
        votes = _votes(index, start, min(start + _BATCH, len(book.items)), len(book.items))
        for witness in range(witnesses):
            first, stop = int(bounds[witness]), int(bounds[witness + 1])
            for row, other in _best(votes[:, first:stop]):
                if book.owner[start + row] != witness:
                    a, b = sorted((start + row, first + other))
                    pairs.add((a, b))
    return tuple(sorted(pairs))


def _best(votes: npt.NDArray[np.float64]) -> Iterator[tuple[int, int]]:
    """Yield (row, column) of the highest votes of each row that are more than nothing."""
    count = min(NEAREST, votes.shape[1])
    if not count:
        return
    ranked = np.argsort(-votes, axis=1, kind="stable")[:, :count]
    for row, columns in enumerate(ranked.tolist()):
        for column in columns:
            if votes[row, column] > 0:
                yield row, column


def _index(book: Corpus, crowd: int) -> _Index:
    features, holders = _features(book)
    _, at, often = np.unique(features, return_inverse=True, return_counts=True)
    keep = (often[at] > 1) & (often[at] <= crowd)
    _, at = np.unique(features[keep], return_inverse=True)
    holders = holders[keep]
    count = int(at.max()) + 1 if len(at) else 0
    sizes = np.bincount(at, minlength=count)
    by_feature = np.argsort(at, kind="stable")
    by_item = np.argsort(holders, kind="stable")
    return _Index(
        at[by_item].astype(np.int64),
        np.searchsorted(holders[by_item], np.arange(len(book.items) + 1)).astype(np.int64),
        holders[by_feature],
        np.concatenate(([0], np.cumsum(sizes))).astype(np.int64),
        np.log(1 + len(book.items) / np.maximum(sizes, 1)),
    )


def _features(book: Corpus) -> tuple[Numbers, Numbers]:
    """Return the words and the neighbouring words of all items, once each: (feature, item) as two rows."""
    size, count = len(book.weights), len(book.items)
    words = np.array([word for held in book.words for word in held], dtype=np.int64)
    items = np.repeat(np.arange(count, dtype=np.int64), [len(held) for held in book.words])
    if not len(words):
        return words, items
    telling = np.array(book.weights)[words] >= min(TELLING, max(book.weights) / 2)
    words, items = words[telling], items[telling]
    together = items[1:] == items[:-1]
    shingles = size + words[:-1][together] * size + words[1:][together]
    both = np.concatenate((words, shingles)) * count + np.concatenate((items, items[1:][together]))
    once = np.unique(both)
    return once // count, once % count


TELLING = 0.6
"""The weight from which on a word counts as one of the neighbours."""


def _votes(index: _Index, start: int, stop: int, count: int) -> npt.NDArray[np.float64]:
    """Return, for the items [start, stop), how strongly their words point to every item."""
    found = np.zeros((stop - start, count))
    for item in range(start, stop):
        features = index.features[index.item_starts[item] : index.item_starts[item + 1]].tolist()
        if features:
            rows = [index.holders[index.feature_starts[f] : index.feature_starts[f + 1]] for f in features]
            weights = np.repeat(index.votes[features], [len(row) for row in rows])
            found[item - start] = np.bincount(np.concatenate(rows), weights, minlength=count)
    return found
