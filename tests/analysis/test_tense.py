"""The verbs of two witnesses, sentence by sentence: where their tense shifts and where it does not."""

from pathlib import Path

import pytest

from tests.making import found, run

CASES = Path(__file__).parent.parent / "cases"
TABLES = (
    "tense.tsv",
    "tense_unseen.tsv",
    "tense_third.tsv",
    "tense_fourth.tsv",
    "tense_fifth.tsv",
    "tense_sixth.tsv",
    "tense_seventh.tsv",
    "tense_eighth.tsv",
    "tense_ninth.tsv",
    "tense_tenth.tsv",
    "tense_eleventh.tsv",
    "tense_twelfth.tsv",
    "tense_thirteenth.tsv",
    "tense_fourteenth.tsv",
    "tense_fifteenth.tsv",
    "tense_sixteenth.tsv",
    "tense_seventeenth.tsv",
    "tense_eighteenth.tsv",
    "tense_nineteenth.tsv",
    "tense_twentieth.tsv",
    "tense_twenty_first.tsv",
    "tense_twenty_second.tsv",
    "tense_twenty_third.tsv",
    "tense_twenty_fourth.tsv",
    "tense_twenty_fifth.tsv",
    "tense_twenty_sixth.tsv",
    "tense_twenty_seventh.tsv",
    "tense_twenty_eighth.tsv",
    "tense_twenty_ninth.tsv",
)
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


@pytest.mark.parametrize(("place", "a", "b", "expected"), [row for name in TABLES for row in rows(name)])
def test_a_pair_of_sentences(place: str, a: str, b: str, expected: str) -> None:
    assert shifted(place, a, b) == expected


def test_the_printed_apparatus_lists_the_shifts_of_an_item(tmp_path: Path) -> None:
    for siglum, verb in (("A", "is"), ("B", "was"), ("C", "ys")):
        text = f"## preface\nSymond Harcastel þat {verb} abbot of Eldernesse\n"
        (tmp_path / f"{siglum}.txt").write_text(text, "utf-8")
    printed = run("apparatus", "A.txt", "B.txt", "C.txt", cwd=tmp_path).stdout.split("\n")
    assert "   w. 4         is AC] was B (present : preterite; state)" in printed
