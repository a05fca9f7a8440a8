"""Words divided in two ways are one text; a word that one copy lacks is not thereby a matter of division."""

from collections.abc import Iterable
from pathlib import Path

import pytest

from collate.model.apparatus import Entry, Weight
from tests.making import found

CASES = Path(__file__).parent.parent / "cases" / "division.tsv"
ROWS = [line.split("\t") for line in CASES.read_text("utf-8").splitlines()[1:]]


def said(entries: Iterable[Entry], weight: Weight) -> list[str]:
    return [
        f"{siglum}:{variant.reading.text}"
        for entry in entries
        for variant in entry.variants
        for siglum in variant.reading.sigla
        if variant.weight is weight
    ]


@pytest.mark.parametrize(("copies", "substantive", "accidental"), ROWS)
def test_what_is_division_and_what_is_not(copies: str, substantive: str, accidental: str) -> None:
    item = found(dict(zip("ABCDE", copies.split(" | "), strict=False)))
    assert " ".join(said(item.substantive, Weight.SUBSTANTIVE)) == substantive
    assert " ".join(said(item.accidental, Weight.ACCIDENTAL)) == accidental


@pytest.mark.parametrize("base", "ABC")
def test_an_article_that_one_copy_lacks_weighs_from_whichever_copy_one_looks(base: str) -> None:
    item = found({"A": "boyle in a potte", "B": "boyle ina potte", "C": "boyle in potte"}, base)
    without = {"C"} if base in "AB" else {"A", "B"}
    heard = said(item.substantive, Weight.SUBSTANTIVE)
    assert {each[0] for each in heard} == without


def test_a_long_run_beside_a_lost_place_is_no_substitution_for_one_division_in_it() -> None:
    text = "than sette þe peres {} in a depe dysch and poure þe sirop aboue al hote and lete hem stonde al nyght so"
    copies = {"A": text.format("vpright"), "B": text.format("vp ryȝt"), "C": "than sette þe peres [...]"}
    item = found(copies)
    kinds = {v.kind for entry in item.entries for v in entry.variants if "B" in v.reading.sigla}
    assert kinds == {"division"}
