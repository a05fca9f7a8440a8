"""Measure the alignment on traditions whose truth is known: `python -m tests.bench.alignment`.

Pair F1: over all pairs of witnesses, the pairs of words that stand in one column against those that stand
for one place of the first text; words that were moved are left out.
"""

import sys
import time
from itertools import combinations

from collate.align.collate import collate
from collate.align.together import finished
from collate.lexicon.judge import shipped_judge
from collate.model.collation import Collation
from collate.model.form import Judge
from collate.settings import Aligning
from tests.making import witness_text
from tests.scribes import Tradition, tradition

SIZES = ((5, 80), (9, 80), (9, 300), (20, 150))
TARGETS = (0.985, 0.98, 0.98, 0.97)


def aligned(made: Tradition, judge: Judge, aligning: Aligning) -> Collation:
    """Collate a tradition."""
    members = [(siglum, witness_text(made.text(siglum), siglum).items[0]) for siglum in made.witnesses]
    assert all(len(item.tokens) == len(made.witnesses[siglum]) for siglum, item in members)
    return finished(collate("1", members, judge, aligning))


def counts(made: Tradition, collation: Collation) -> tuple[int, int, int]:
    """Return how many pairs of words are right, how many were made, and how many should be.

    Where a column spans the halves of a divided word in both witnesses, first stands for first and second for
    second: that a whole word elsewhere brings them into one column makes no other pair. Where the halves have
    columns of their own for the sake of a third copy, the whole word need stand beside one of them only.
    """
    column_of = [
        {
            at: number
            for number, column in enumerate(collation.columns)
            for at in range(column.spans[w].start, column.spans[w].stop)
        }
        for w in range(len(collation.sigla))
    ]
    right = ours = wanted = 0
    for a, b in combinations(range(len(collation.sigla)), 2):
        first, second = made.witnesses[collation.sigla[a]], made.witnesses[collation.sigla[b]]
        at_column: dict[int, set[int]] = {}
        at_place: dict[int, set[int]] = {}
        for at, word in enumerate(second):
            if not word.moved:
                at_column.setdefault(column_of[b][at], set()).add(at)
                for place in word.places:
                    at_place.setdefault(place, set()).add(at)
        columns_at: dict[int, set[int]] = {}
        for at, word in enumerate(first):
            for place in () if word.moved else word.places:
                columns_at.setdefault(place, set()).add(column_of[a][at])
        for at, word in enumerate(first):
            if not word.moved:
                beside = at_column.get(column_of[a][at], set())
                true = {other for place in word.places for other in at_place.get(place, ())}
                if beside & true:
                    beside = beside & true
                    true = beside if len(word.places) > 1 else true
                elif any(
                    column_of[b][whole] in columns_at.get(place, ())
                    for whole in true
                    for place in second[whole].places
                ):
                    true = set()
                right, ours, wanted = right + len(beside & true), ours + len(beside), wanted + len(true)
    return right, ours, wanted


def f1(total: tuple[int, int, int]) -> float:
    """Return the harmonic mean of precision and recall."""
    right, ours, wanted = total
    return 2 * right / (ours + wanted)


def measure(witnesses: int, length: int, seeds: range, aligning: Aligning) -> tuple[float, float]:
    """Return the F1 over several traditions, and the seconds of one collation."""
    judge = shipped_judge()
    total = [0, 0, 0]
    spent = 0.0
    for seed in seeds:
        made = tradition(witnesses, length, seed)
        start = time.perf_counter()
        collation = aligned(made, judge, aligning)
        spent += time.perf_counter() - start
        for index, count in enumerate(counts(made, collation)):
            total[index] += count
    return f1((total[0], total[1], total[2])), spent / len(seeds)


if __name__ == "__main__":
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 6
    for (witnesses, length), target in zip(SIZES, TARGETS, strict=True):
        score, seconds = measure(witnesses, length, range(runs), Aligning())
        print(
            f"{witnesses:3} x {length:4}: F1 {score:.4f} (wanted {target}), {seconds:.2f} s each, {runs} traditions"
        )
