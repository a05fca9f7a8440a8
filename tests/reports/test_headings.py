"""Headings that differ are told; where recipes are printed to be read, a caution stands."""

import re
from pathlib import Path

import pytest

from tests.making import run

A = "## 1 Pucyns in grene\nTake pucyns and sethe hem.\n"
B = "## 1 Chekyns in grene\nTake pucyns and sethe hem.\n"
C = "## 1\nTake pucyns and sethe hem.\n"


def edition(folder: Path) -> None:
    for name, text in (("A", A), ("B", B), ("C", C)):
        (folder / f"{name}.txt").write_text(text, "utf-8")


@pytest.mark.parametrize("form", ["text", "markdown"])
def test_headings_that_differ_are_told(form: str, tmp_path: Path) -> None:
    edition(tmp_path)
    said = run("apparatus", "A.txt", "B.txt", "C.txt", "--format", form, cwd=tmp_path).stdout
    assert "Pucyns in grene] Chekyns in grene B; none C" in said.replace("\\]", "]")


@pytest.mark.parametrize(
    ("command", "form"), [("apparatus", "markdown"), ("apparatus", "latex"), ("synopsis", "html")]
)
def test_a_caution_stands_where_recipes_are_printed(command: str, form: str, tmp_path: Path) -> None:
    edition(tmp_path)
    said = run(command, "A.txt", "B.txt", "--format", form, cwd=tmp_path).stdout
    assert "ask your local food-safety authority" in " ".join(said.split())


@pytest.mark.parametrize(
    ("command", "form"),
    [("apparatus", f) for f in ("text", "markdown", "latex")]
    + [("synopsis", f) for f in ("text", "markdown", "html")],
)
def test_two_items_of_one_number_are_printed_under_two_names(command: str, form: str, tmp_path: Path) -> None:
    a = "Bray almaundes with floures.\n## 1 Salt\nTake a pounde of saffroun.\n## 2 Pepir\nStewe peres in honye.\n"
    b = "Nym þe pyke and sle hym.\n## 1 Salte\nTak a pounde of safroun.\n## 2 Eyren\nCast smale feþes abrode.\n"
    (tmp_path / "A.txt").write_text(a, "utf-8")
    (tmp_path / "B.txt").write_text(b, "utf-8")
    said = run(command, "A.txt", "B.txt", "--format", form, cwd=tmp_path).stdout
    names = re.findall(r"\bB:2\b|\bB:opening\b", said)
    assert set(names) == {"B:2", "B:opening"}
