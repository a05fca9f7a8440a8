"""False starts: what a scribe began and wrote again in full is told with its likely cause."""

import pytest

from tests.making import found


def causes(base: str, other: str) -> list[tuple[str, str, str]]:
    return [
        (str(variant.kind), variant.reading.text, variant.cause)
        for entry in found({"A": base, "B": other}).substantive
        for variant in entry.variants
    ]


@pytest.mark.parametrize(
    ("base", "other", "told"),
    [
        ("in morter grynde it", "in mor morter grynde it", ("addition", "mor", "false start")),
        ("and sethe it in wyn", "and sto sethe it in wyn", ("addition", "sto", "")),
        ("in a morter grynde it", "in a mo morter grynde it", ("addition", "mo", "false start")),
        ("do þerto su sugre", "do þerto sugre", ("omission", "", "false start")),
        ("take the almaundes", "take the al the almaundes", ("addition", "al the", "false start")),
        ("in a morter grynde it", "in mort morter grynde it", ("substitution", "mort", "false start")),
        ("put it to the pot", "put it in to the pot", ("addition", "in", "")),
        ("take almaundes", "take al almaundes", ("addition", "al", "")),
        ("take good herbes", "take her herbes", ("substitution", "her", "")),
        ("take herbes", "take her herbes", ("addition", "her", "")),
        ("serue forth hoot", "serue for forth hoot", ("addition", "for", "")),
        ("boile hem wel", "boile hem wel wel", ("dittography", "wel", "")),
        ("take x leches", "take x xij leches", ("addition", "xij", "")),
    ],
)
def test_what_begins_the_next_word_may_be_a_false_start(
    base: str, other: str, told: tuple[str, str, str]
) -> None:
    assert causes(base, other) == [told]


@pytest.mark.parametrize(
    ("text", "begun"),
    [
        ("in a [[mor]] morter grynde it", "morter"),
        ("[[in a mor]] in a morter grynde it", "morter"),
        ("in a [[bras]] morter grynde it", ""),
        ("in a morter [[gry]] grynde it", "grynde"),
        ("in a morter [[and g]] grynde it", ""),
    ],
)
def test_words_struck_out_may_be_a_false_start(text: str, begun: str) -> None:
    (done,) = found({"A": "in a morter grynde it", "B": text}).corrections
    assert done.begun == begun
