"""Words that one copy writes as one share a column only as far as every copy's words fit."""

import pytest

from collate.model.collation import Collation
from tests.making import all_found, collated, found, words

FIRE = {"A": "set it ouer the cole and", "B": "set it ouer that cole eke and", "C": "set it ouer thecole and"}


def columns(collation: Collation) -> dict[str, list[str]]:
    return {
        siglum: [words(collation, siglum, at) for at in range(len(collation.columns))]
        for siglum in collation.sigla
    }


def judged(texts: dict[str, str]) -> dict[str, list[str]]:
    (item,) = all_found(texts).items
    return columns(item.collation)


def test_a_third_copy_keeps_the_two_words_apart() -> None:
    table = judged(FIRE)
    assert table["A"] == ["set", "it", "ouer", "the", "cole", "", "and"]
    assert table["B"] == ["set", "it", "ouer", "that", "cole", "eke", "and"]
    assert table["C"] == ["set", "it", "ouer", "", "thecole", "", "and"]


def test_without_it_they_are_one_column() -> None:
    table = judged({siglum: FIRE[siglum] for siglum in "AC"})
    assert table["A"][3] == "the cole"
    assert table["C"][3] == "thecole"


def test_one_other_word_for_all_of_it_leaves_them_one_column() -> None:
    table = judged({"A": "do ther to salt", "B": "do therto salt", "C": "do anon salt"})
    assert [table[siglum][1] for siglum in "ABC"] == ["ther to", "therto", "anon"]


def test_words_of_the_same_copy_go_before_the_joined_one() -> None:
    table = judged({**FIRE, "C": "set it ouer with smal staf thecole and"})
    at = table["C"].index("thecole")
    assert [table[siglum][at - 1 : at + 1] for siglum in "ABC"] == [
        ["the", "cole"],
        ["that", "cole"],
        ["", "thecole"],
    ]


def test_two_divisions_that_overlap_are_both_told() -> None:
    table = judged(
        {"A": "stire it al to gidre wel", "B": "stire it alto gidre wel", "C": "stire it togidre wel"}
    )
    assert table["A"][2:5] == ["al", "to", "gidre"]
    assert (table["B"][2:5], table["C"][2:5]) == (["alto", "", "gidre"], ["", "", "togidre"])


def test_division_over_several_columns_is_one_entry() -> None:
    item = found(FIRE)
    told = [
        (entry.lemma.text, v.reading.text, str(v.kind)) for entry in item.accidental for v in entry.variants
    ]
    assert told == [("the cole", "thecole", "division")]
    assert all(
        v.kind == "division" for entry in item.entries for v in entry.variants if "C" in v.reading.sigla
    )


def test_a_column_that_neither_has_is_no_division() -> None:
    item = found({"A": "lat it of the panne", "B": "lat it of the hote panne", "C": "lat it of thepanne"})
    (added,) = [entry for entry in item.entries if not entry.lemma.text]
    assert added.lemma.sigla == ("A", "C")


def test_the_same_letters_in_two_and_three_words_are_division() -> None:
    item = found({"A": "seþe in an other panne", "B": "seþe in another panne", "C": "seþe ina nother panne"})
    assert item.substantive == ()


def test_words_for_others_are_named_in_the_reason() -> None:
    item = found({"A": "do ther to salt", "B": "do therto salt", "C": "do anon salt"})
    (variant,) = [v for entry in item.substantive for v in entry.variants]
    assert variant.reason == "other words: anon for ther to"


@pytest.mark.parametrize("order", ["ABC", "CBA", "BCA"])
def test_the_order_of_the_copies_changes_nothing(order: str) -> None:
    assert columns(collated({siglum: FIRE[siglum] for siglum in order})) == columns(collated(FIRE))
