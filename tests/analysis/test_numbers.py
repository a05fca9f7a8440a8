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
