"""What an apparatus is for: from the base and the printed entries each witness can be made again."""

import re
from collections.abc import Iterator, Sequence

import pytest

from collate.lexicon.judge import shipped_judge
from collate.model.apparatus import Beside, VariantKind
from collate.model.division import divided, loosened
from collate.model.findings import ItemFindings
from collate.model.form import Judge, Relation, form_of
from collate.model.witness import Token, without_points
from tests.making import found, witness_text
from tests.scribes import Rates, tradition

Words = list[Token]

DIVISIONS = ((1, 2), (2, 1), (1, 3), (3, 1), (2, 2), (2, 3), (3, 2))


def words_of(text: str) -> Words:
    """Return the words of a reading as printed, its editorial signs left out."""
    plain = re.sub(r"[()<>\[\]{}]", "", text)
    return list(without_points(witness_text(f"## 1 X\n{plain}", "Z").items[0].tokens)) if plain else []


def swapped(words: Words, theirs: Sequence[Token], judge: Judge) -> Words:
    """Return words with two parts changed about, as *tr.* says; of several ways, the one the witness has."""
    count = len(words)
    ways = [
        words[second:] + words[first:second] + words[:first]
        for first in range(1, count)
        for second in range(first, count)
    ]
    held = [
        way for way in ways if any(same(way, theirs[at : at + count], judge) for at in range(len(theirs)))
    ]
    assert held, "tr. is said of a witness that has not these words"
    return held[0]


def rebuilt(item: ItemFindings, siglum: str, judge: Judge) -> Words:
    """Return the words of a witness, made from those of the base by the printed substantive entries alone."""
    collation, base = item.collation, item.collation.sigla.index(item.base)
    theirs = without_points(collation.items[collation.sigla.index(siglum)].tokens)
    cells = [list(without_points(collation.tokens(base, at, at + 1))) for at in range(len(collation.columns))]
    moved: list[tuple[Beside, Words]] = []
    told = [(entry, variant) for entry in item.substantive for variant in entry.variants]
    for last in (False, True):  # what differs within moved words, or beside them, comes before the moving
        for entry, variant in told:
            moving = variant.kind is VariantKind.TRANSPOSITION
            if siglum not in variant.reading.sigla or moving is not last:
                continue
            here = range(entry.locus.first, entry.locus.stop)
            words = [word for at in here for word in cells[at]]
            for at in here:
                cells[at] = []
            if variant.kind is not VariantKind.TRANSPOSITION or (variant.reading.text and not variant.beside):
                cells[here[0]] = words_of(variant.reading.text)
            elif variant.beside is None:
                cells[here[0]] = swapped(words, theirs, judge)
            else:
                moved.append((variant.beside, words))
    return list(laid_out(item, base, cells, moved))


def laid_out(
    item: ItemFindings, base: int, cells: Sequence[Words], moved: Sequence[tuple[Beside, Words]]
) -> Iterator[Token]:
    for column, cell in zip(item.collation.columns, cells, strict=True):
        span = column.spans[base]
        here = [(beside, words) for beside, words in moved if span.start <= beside.token < span.stop]
        for beside, words in here:
            yield from words if beside.before else ()
        yield from cell
        for beside, words in here:
            yield from () if beside.before else words


def same(one: Sequence[Token], other: Sequence[Token], judge: Judge) -> bool:
    """Say whether two runs are the same words, spelled, ended or divided otherwise at most.

    A reading stands out of its context here, so that *an* and *ane* may pass for two words: their letters tell.
    """
    ours, theirs = [form_of(word) for word in one], [form_of(word) for word in other]
    reached = {(0, 0)}
    for i in range(len(ours) + 1):
        for j in range(len(theirs) + 1):
            if (i, j) in reached and i < len(ours) and j < len(theirs):
                judged = judge(ours[i], theirs[j])
                alike = loosened(ours[i].folded) == loosened(theirs[j].folded) or judged.one_sense
                if alike or judged.relation is not Relation.DIFFERENT:
                    reached.add((i + 1, j + 1))
                for m, n in DIVISIONS:
                    if divided(ours[i : i + m], theirs[j : j + n], judge):
                        reached.add((i + m, j + n))
    return (len(ours), len(theirs)) in reached


@pytest.mark.parametrize("seed", range(24))
def test_each_witness_is_made_again_from_the_base_and_what_is_printed(seed: int) -> None:
    made, judge = tradition(5, 60, seed, Rates(move=0.3)), shipped_judge()
    item = found({siglum: made.text(siglum) for siglum in made.witnesses})
    for siglum in item.collation.sigla[1:]:
        theirs = without_points(item.collation.items[item.collation.sigla.index(siglum)].tokens)
        again = rebuilt(item, siglum, judge)
        assert same(again, theirs, judge), (
            " ".join(word.expanded for word in again),
            " ".join(word.expanded for word in theirs),
        )
