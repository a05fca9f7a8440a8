"""Numbers beside numbers and words: one number in two notations is an accidental, and nothing else is."""

from importlib.resources.abc import Traversable
from pathlib import Path

import pytest

from tests.making import found

CASES: Traversable = Path(__file__).parent.parent / "cases" / "numbers.tsv"
ROWS = [line.split("\t") for line in CASES.read_text("utf-8").splitlines()[1:]]


@pytest.mark.parametrize(("base", "other", "weight", "kind", "why"), ROWS)
def test_what_a_number_is_beside_another(base: str, other: str, weight: str, kind: str, why: str) -> None:
    variants = [
        (str(variant.weight), str(variant.kind))
        for entry in found({"A": base, "B": other}).entries
        for variant in entry.variants
        if variant.kind != "punctuation"
    ]
    assert variants == [(weight, kind)], why


@pytest.mark.parametrize(
    ("base", "others", "told"),
    [
        ("take vj eyren", ["take a dosen eyren"], [("vj", "a dosen", "two numbers, 6 and 12")]),
        ("take a dosen eyren", ["take vj eyren"], [("a dosen", "vj", "two numbers, 6 and 12")]),
        (
            "leie iij score leches",
            ["leie an hundred and ten leches", "leie many leches", "leie leches"],
            [
                ("iij score", "an hundred and ten", "two numbers, 60 and 110"),
                ("iij score", "many", "other words: many for iij score"),
                ("iij score", "", "no word stands here"),
            ],
        ),
        (
            "seth halfe a score wardones",
            ["seth x wardones", "seth foure and twenti wardones"],
            [("halfe a score", "foure and twenti", "two numbers, 10 and 24")],
        ),
        ("twenti and two leches", ["twenti and foure leches"], [("two", "foure", "two numbers, 2 and 4")]),
        (
            "leie thre hundred leches",
            ["leie a dosen and an half leches"],
            [("thre hundred", "a dosen and an half", "two numbers, 18 and 300")],
        ),
    ],
)
def test_a_number_in_several_words_is_one_place(
    base: str, others: list[str], told: list[tuple[str, str, str]]
) -> None:
    texts = {"A": base, **dict(zip("BCD", others, strict=False))}
    variants = [
        (entry.lemma.text, variant.reading.text, variant.reason)
        for entry in found(texts).substantive
        for variant in entry.variants
    ]
    assert variants == told


@pytest.mark.parametrize(
    ("words", "number"),
    [
        ("half a dosen", "vj"),
        ("an hundred and an half", "cl"),
        ("di dosen", "sixe"),
        ("ij dosen and half", "xxx"),
        ("thre and an half", "3½"),
    ],
)
def test_a_half_is_part_of_a_number(words: str, number: str) -> None:
    item = found({"A": f"take {words} eyren and boile", "B": f"take {number} eyren and boile"})
    assert [str(v.kind) for e in item.entries for v in e.variants] == ["numeral"]


@pytest.mark.parametrize(
    ("base", "other", "said"),
    [
        ("take c eyren", "take an hundred eyren", "a lone letter may be no number"),
        ("take c eyren", "take lx eyren", "a lone letter may be no number"),
        ("boile it .d. and serue", "boile it donc and serue", "the number 500, a label, or a word shortened"),
    ],
)
def test_a_lone_letter_is_a_number_only_with_a_doubt(base: str, other: str, said: str) -> None:
    reasons = [v.reason for entry in found({"A": base, "B": other}).entries for v in entry.variants]
    assert len(reasons) == 1
    assert said in reasons[0]
