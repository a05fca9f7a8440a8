"""Holes joined to a word: what may have stood in one is not said to be omitted."""

import pytest

from tests.making import found, substantives


@pytest.mark.parametrize(
    ("torn", "told"),
    [
        ("skome […]ene and serue", [("it", "lacuna")]),
        ("skome [...]clene and serue", [("it", "lacuna")]),
        ("skome [.4.]ene and serue", [("it", "lacuna")]),
        ("skome [.2.]ene and serue", [("it", "omission")]),
        ("skome ++ene and serue", [("it", "omission")]),
        ("skome cl[...]e and serue", [("it", "omission")]),
        ("skome it[...] and serue", [("clene", "lacuna")]),
        ("sko[...] and serue", [("it clene", "lacuna")]),
        ("[...]ene and serue", [("skome it", "lacuna")]),
        ("skome it clene[...]", [("and serue", "lacuna")]),
    ],
)
def test_what_a_hole_may_have_held_is_not_omitted(torn: str, told: list[tuple[str, str]]) -> None:
    said = substantives(found({"A": "skome it clene and serue", "B": torn}))
    assert [(lemma, kind) for lemma, _, _, kind in said] == told


def test_the_ground_says_that_it_may_have_stood_in_the_hole() -> None:
    item = found({"A": "skome it clene and serue", "B": "skome […]ene and serue"})
    (variant,) = [v for entry in item.substantive for v in entry.variants]
    assert "may have stood in the hole" in variant.reason


def test_a_hole_of_some_letters_holds_the_nearest_words_only() -> None:
    whole = "boile it longe in a potte and skome it clene"
    said = substantives(found({"A": whole, "B": "boile it longe [.6.]ene"}))
    assert [(lemma, kind) for lemma, _, _, kind in said] == [
        ("in a potte and skome", "omission"),
        ("it", "lacuna"),
    ]


def test_the_hole_of_the_base_may_have_held_words_of_the_others() -> None:
    item = found({"A": "skome […]ene and serue", "B": "skome it clene and serue"})
    (variant,) = [v for entry in item.substantive for v in entry.variants]
    assert "the base's text is lost here" in variant.reason


def test_a_hole_that_held_another_word_too_leaves_its_own_word_the_same() -> None:
    said = substantives(found({"A": "skome it wel clene and serue", "B": "skome [.5.]clene and serue"}))
    assert [(lemma, kind) for lemma, _, _, kind in said] == [("it wel", "lacuna")]
