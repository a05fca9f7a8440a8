"""Parts of divided words: a copy that lacks one leaves a word out, and has no other word."""

import pytest

from tests.making import found, substantives


@pytest.mark.parametrize(
    ("base", "divided", "third", "told"),
    [
        ("take alitel salt", "take a litel salt", "take litel salt", ("alitel", "litel", "omission")),
        (
            "medle it togedre wel",
            "medle it to gedre wel",
            "medle it gedre wel",
            ("togedre", "gedre", "omission"),
        ),
        ("do hem therto anon", "do hem þer to anon", "do hem ther anon", ("therto", "ther", "omission")),
        ("lay it ouerthwert", "lay it ouer thwert", "lay it thwert", ("ouerthwert", "thwert", "omission")),
        ("take litel salt", "take a litel salt", "take alitel salt", ("litel", "alitel", "addition")),
    ],
)
def test_a_part_of_a_divided_word_is_left_out_or_added(
    base: str, divided: str, third: str, told: tuple[str, str, str]
) -> None:
    said = substantives(found({"A": base, "B": divided, "C": third}))
    assert [(lemma, text, kind) for lemma, text, sigla, kind in said if sigla == "C"] == [told]


@pytest.mark.parametrize("third", ["take the litel salt", "take smal salt"])
def test_other_words_are_no_part(third: str) -> None:
    said = substantives(found({"A": "take alitel salt", "B": "take a litel salt", "C": third}))
    assert [kind for _, _, sigla, kind in said if sigla == "C"] == ["substitution"]
