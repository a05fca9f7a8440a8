"""Measure whole books whose truth is known: `python -m tests.bench.books [SEEDS]`.

Pair F1: over all pairs of witnesses, the pairs of items that stand together in the concordance against those
that hold the same recipe.
"""

import sys
import time
from collections.abc import Sequence
from itertools import combinations

from collate import pipeline
from collate.align.concord import concord
from collate.lexicon.items import item_key
from collate.model.concordance import Concordance
from collate.model.source import Source
from collate.model.witness import WitnessText
from collate.settings import Settings
from tests.books import Book, Shape, answers, book


def cut(made: Book) -> tuple[WitnessText, ...]:
    """Read a book into words."""
    edition = pipeline.edition_of_files([f"{siglum}.txt" for siglum in made.copies])
    sources = [Source(w.file, made.text(w.siglum).encode()) for w in edition.witnesses]
    return pipeline.texts(edition, sources, Settings())[1]


def counts(made: Book, found: Concordance) -> tuple[int, int, int]:
    """Return how many pairs of items are right, how many were made, and how many should be."""
    heads = answers(made.copies)
    group = {
        (member.siglum, place): number
        for number, match in enumerate(found.items)
        for member in match.members
        for place in member.places
    }
    right = ours = wanted = 0
    for a, b in combinations(sorted(made.copies), 2):
        for x, first in enumerate(made.copies[a]):
            for y, second in enumerate(made.copies[b]):
                same = heads[first.holds[0]] == heads[second.holds[0]]
                together = group[a, x] == group[b, y]
                right, ours, wanted = right + (same and together), ours + together, wanted + same
    return right, ours, wanted


def f1(total: Sequence[int]) -> float:
    """Return the harmonic mean of precision and recall."""
    right, ours, wanted = total
    return 2 * right / (ours + wanted) if ours + wanted else 1.0


def measure(shape: Shape, seeds: range) -> tuple[float, float, float, float]:
    """Return precision, recall and F1 over several books, and the seconds of one concordance."""
    total, spent = [0, 0, 0], 0.0
    for seed in seeds:
        made = book(seed, shape)
        texts = cut(made)
        start = time.perf_counter()
        found = concord(texts, texts[0].siglum, item_key)
        spent += time.perf_counter() - start
        here = counts(made, found)
        total = [a + b for a, b in zip(total, here, strict=True)]
    return total[0] / total[1], total[0] / total[2], f1(total), spent / len(seeds)


SHAPES = {
    "60 items, 7 copies": Shape(),
    "the same, half of it twins": Shape(twins=20),
    "the same, careless scribes": Shape(losses=0.3),
    "20 items, 3 copies": Shape(items=20, copies=3, twins=4),
    "6 items, 2 copies": Shape(items=6, copies=2, twins=1, splits=1, joins=0, moves=1),
}

UNSEEN = 100
"""The first seed: those below were looked at while the matching was made."""

if __name__ == "__main__":
    runs = range(UNSEEN, UNSEEN + (int(sys.argv[1]) if len(sys.argv) > 1 else 5))
    for name, shape in SHAPES.items():
        precision, recall, score, seconds = measure(shape, runs)
        print(
            f"{name:30} precision {precision:.4f} recall {recall:.4f} F1 {score:.4f}  {seconds:.2f} s each, {len(runs)} books"
        )
