"""Measure the alignment of copies with gaps whose truth is known: `python -m tests.bench.gaps [RUNS]`.

From one copy of a tradition 1 to 60 words are taken out, at its head, in its middle or at its end, and a gap
is set there, with or without its extent in letters. Some copies also leave out all but a few of the words
after the gap. Told are, of that copy beside the others: pair F1 of the words within NEAR of the gap; and the
F1 of the columns that are called lost, against those in which most others have a word that is lost.
"""

import random
import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace

from collate.align.collate import collate
from collate.align.together import finished
from collate.lexicon.judge import shipped_judge
from collate.model.collation import Collation, Presence
from collate.model.form import Judge
from collate.settings import Aligning
from tests.bench.alignment import counts, f1
from tests.making import witness_text
from tests.scribes import Tradition, Word, tradition

NEAR = 12
DAMAGED = "W01"


@dataclass(frozen=True)
class Damage:
    """What is lost of a copy: [start, stop) of its words, and of those after it all but `left`."""

    start: int
    stop: int
    left: int | None
    stated: bool

    def done(self, words: tuple[Word, ...]) -> tuple[Word, ...]:
        """Return the words of the damaged copy, a gap among them."""
        letters = sum(len(word.written) for word in words[self.start : self.stop])
        gap = Word((), "gap", "gap", f"[.{letters}.]" if self.stated else "[...]")
        after = words[self.stop :]
        return (*words[: self.start], gap, *(after if self.left is None else after[: self.left]))


def damages(length: int, chance: random.Random) -> Iterator[tuple[str, Damage]]:
    """Yield losses of a copy of so many words, and what kind each is."""
    for words in (1, 2, 4, 8, 15, 30, 60):
        if words > length - 20:
            continue
        stated = chance.random() < 0.5
        size = "1-4" if words < 5 else "8-60"
        at = chance.randrange(8, length - words - 8)
        yield f"middle {size}", Damage(at, at + words, None, stated)
        yield f"short {size}", Damage(at, at + words, chance.randint(2, 8), stated)
        yield "head", Damage(0, words, None, stated)
        yield "short head", Damage(0, words, chance.randint(3, 12), stated)
        yield "tail", Damage(length - words, length, None, stated)


def damaged(made: Tradition, damage: Damage) -> Tradition:
    """Return the tradition with one copy damaged."""
    return replace(made, witnesses={**made.witnesses, DAMAGED: damage.done(made.witnesses[DAMAGED])})


def near(made: Tradition, damage: Damage) -> Tradition:
    """Return the tradition with all words of the damaged copy that are far from the gap left unjudged."""
    words = tuple(
        word if abs(at - damage.start) <= NEAR else replace(word, moved=True)
        for at, word in enumerate(made.witnesses[DAMAGED])
    )
    return replace(made, witnesses={**made.witnesses, DAMAGED: words})


def beside(made: Tradition, collation: Collation) -> tuple[int, int, int]:
    """Return the counts of the pairs of the damaged copy alone."""
    whole = counts(made, collation)
    apart = tuple(replace(word, moved=True) for word in made.witnesses[DAMAGED])
    rest = counts(replace(made, witnesses={**made.witnesses, DAMAGED: apart}), collation)
    return whole[0] - rest[0], whole[1] - rest[1], whole[2] - rest[2]


def lost(made: Tradition, gone: frozenset[int], collation: Collation) -> tuple[int, int, int]:
    """Return how many columns are rightly called lost, how many are called so, and how many should be."""
    w, total = collation.sigla.index(DAMAGED), [0, 0, 0]
    for column in collation.columns:
        words = [
            made.witnesses[siglum][at]
            for siglum, span in zip(collation.sigla, column.spans, strict=True)
            if siglum != DAMAGED
            for at in range(span.start, span.stop)
        ]
        if not words:
            continue
        told = column.spans[w].presence is Presence.LACUNOSE
        true = 2 * sum(not gone.isdisjoint(word.places) for word in words) > len(words)
        total = [total[0] + (told and true), total[1] + told, total[2] + true]
    return total[0], total[1], total[2]


def measure(judge: Judge, witnesses: int, length: int, runs: int) -> dict[str, list[list[int]]]:
    """Return the counts of pairs and of lost columns for each kind of loss."""
    totals: dict[str, list[list[int]]] = {}
    for seed in range(runs):
        made = tradition(witnesses, length, seed)
        words = made.witnesses[DAMAGED]
        for kind, damage in damages(len(words), random.Random(seed)):
            torn = damaged(made, damage)
            members = [
                (siglum, witness_text(torn.text(siglum), siglum).items[0]) for siglum in torn.witnesses
            ]
            assert all(len(item.tokens) == len(torn.witnesses[siglum]) for siglum, item in members)
            found = finished(collate("1", members, judge, Aligning()))
            gone = frozenset(place for word in words[damage.start : damage.stop] for place in word.places)
            for total, some in zip(
                totals.setdefault(kind, [[0, 0, 0], [0, 0, 0]]),
                (beside(near(torn, damage), found), lost(torn, gone, found)),
                strict=True,
            ):
                total[:] = [a + b for a, b in zip(total, some, strict=True)]
    return totals


def told(total: list[int]) -> float:
    """Return the F1 of some counts."""
    return f1((total[0], total[1], total[2]))


if __name__ == "__main__":
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 12
    for size in ((2, 80), (5, 80), (9, 120)):
        for sort, (pairs, columns) in sorted(measure(shipped_judge(), *size, times).items()):
            print(
                f"{size[0]} x {size[1]:3} {sort:12}: near pairs {told(pairs):.4f}, lost {told(columns):.4f}"
            )
