"""One reading where witnesses have one text; what is said where the base has none, or has lost it."""

import pytest

from collate.model.apparatus import Variant, VariantKind, Weight
from tests.making import found

FULL = "Take figes and raisyns and grynde hem wel and serue."
LOST = "Take figes and [...] hem wel and serue."
SHORT = "Take figes and hem wel and serue."


def at_the_gap(texts: dict[str, str], base: str) -> dict[str, Variant]:
    """Return by siglum what stands against the base at the only place of variation."""
    (entry,) = found(texts, base).entries
    return {siglum: variant for variant in entry.variants for siglum in variant.reading.sigla}


def test_words_against_a_lost_base_are_told_as_such() -> None:
    said = at_the_gap({"A": LOST, "B": FULL, "C": SHORT}, "A")
    assert said["B"].kind is VariantKind.ADDITION
    assert "lost" in said["B"].reason
    assert said["C"].kind is VariantKind.OMISSION
    assert "lost" in said["C"].reason


def test_a_lost_base_is_told_once_and_not_among_the_accidentals() -> None:
    item = found({"A": LOST, "B": FULL, "C": SHORT}, "A")
    assert not item.accidental
    (entry,) = item.substantive
    assert [variant.reading.text for variant in entry.variants] == ["raisyns and grynde", ""]


TWO_SKIPS = {
    "A": "Seþ the bonys of þe pyke and hewe hit smal of þe pyke and serue forth.",
    "B": "Seþ the bonys of þe pyke and serue forth.",
    "C": "Seþ the bonys of the pike and hewe hit smal of the pike and serue forth.",
    "D": "Seþ the bonys of þe pyke and hewe hit smal and serue forth.",
}


def test_what_the_base_skipped_is_one_reading_whatever_the_spelling_of_the_like_words() -> None:
    item = found(TWO_SKIPS, "B")
    variants = [variant for entry in item.entries for variant in entry.variants]
    (words,) = [variant for variant in variants if "hewe" in variant.reading.text]
    assert words.reading.sigla == ("A", "C", "D")
    assert words.kind is VariantKind.ADDITION
    assert "the base may have skipped" in words.reason


@pytest.mark.parametrize("base", ["A", "B", "C", "D"])
def test_no_reading_without_words_is_a_difference_of_points(base: str) -> None:
    texts = {
        "A": "Take of þe pyke and hewe hem smal and drawe of þe pyke and sethe hit wel.",
        "B": "Take of þe pyke and sethe hit wel.",
        "C": "Take and sethe hit wel.",
        "D": "Take of þe pyke and hewe hem [...] of þe pyke and sethe hit wel.",
    }
    for entry in found(texts, base).entries:
        for variant in entry.variants:
            if not variant.reading.text and not entry.lemma.normal:
                assert variant.weight is Weight.SUBSTANTIVE
                assert variant.kind is not VariantKind.PUNCTUATION
