"""The verbs of two witnesses, sentence by sentence: where their tense shifts and where it does not."""

from pathlib import Path

import pytest
from _pytest.mark.structures import ParameterSet

from tests.making import found

CASES = Path(__file__).parent.parent / "cases"
HEADS = {"preface": "## preface\n", "recipe": "## 1 A recipe\n", "plain": ""}


def rows(name: str) -> list[tuple[str, ...]]:
    """Return the rows of a table of cases: place, two sentences, what is expected."""
    text = (CASES / name).read_text("utf-8")
    return [tuple(line.split("\t")) for line in text.rstrip("\n").split("\n")[1:]]


def shifted(place: str, a: str, b: str) -> str:
    """Return the shifts found between two sentences, as the tables write them."""
    item = found({"A": HEADS[place] + a + "\n", "B": HEADS[place] + b + "\n"})
    said = [f"{shift.from_tense}>{shift.to_tense} {shift.kind}" for shift in item.shifts]
    return "; ".join(said) or "none"


def cases(name: str) -> list[ParameterSet]:
    """Return the rows as parameters; a fifth field says why a row is still read wrongly."""
    marks = pytest.mark.xfail(strict=True, reason="a fault that is known")
    return [pytest.param(*row[:4], marks=marks if len(row) > 4 else ()) for row in rows(name)]


@pytest.mark.parametrize(("place", "a", "b", "expected"), [*cases("tense.tsv"), *cases("tense_unseen.tsv")])
def test_a_pair_of_sentences(place: str, a: str, b: str, expected: str) -> None:
    assert shifted(place, a, b) == expected
