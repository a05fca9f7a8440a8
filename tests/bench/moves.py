"""Measure the finding of moved phrases: `python -m tests.bench.moves` (precision and recall, two words or more).

They are those of the analysis, with the first witness as the base.
"""

from collate.analysis.moves import moves as moved
from collate.lexicon.judge import shipped_judge
from collate.settings import Aligning
from tests.bench.alignment import aligned
from tests.scribes import Rates, tradition


def moves(witnesses: int, length: int, seeds: range) -> tuple[int, int, int, int]:
    """Return (true ones found, all found, true ones seen, all true): by phrase and witness."""
    judge = shipped_judge()
    right = ours = seen = wanted = 0
    for seed in seeds:
        made = tradition(witnesses, length, seed, Rates(move=0.35))
        collation = aligned(made, judge, Aligning())
        found = moved(collation, collation.sigla[0], judge).transpositions
        true = {
            siglum: [set(move) for move in made.moves[siglum] if _stands(made, siglum, move)]
            for siglum in made.witnesses
        }
        apart = {frozenset(move) for moves in true.values() for move in moves}
        for each in found:
            words = made.witnesses[each.siglum][each.start : each.stop]
            if len(words) < 2:
                continue
            ours += 1
            places = {place for word in words for place in word.places}
            right += any(len(places & move) * 2 >= len(places) for move in apart)
        for move in apart:
            holders = [siglum for siglum, moves in true.items() if set(move) in moves]
            if len(holders) == len(made.witnesses):
                continue
            wanted += 1
            seen += any(
                {p for word in made.witnesses[t.siglum][t.start : t.stop] for p in word.places} & move
                for t in found
            )
    return right, ours, seen, wanted


def _stands(made: object, siglum: str, move: tuple[int, ...]) -> bool:
    from tests.scribes import Tradition

    assert isinstance(made, Tradition)
    here = {place for word in made.witnesses[siglum] for place in word.places}
    return len(here & set(move)) >= 2


if __name__ == "__main__":
    for witnesses, length, seeds in ((5, 80, 60), (9, 300, 60), (20, 150, 8)):
        right, ours, seen, wanted = moves(witnesses, length, range(seeds))
        print(
            f"{witnesses} x {length}: precision {right / max(ours, 1):.3f} of {ours}, recall {seen / max(wanted, 1):.3f} of {wanted}"
        )
