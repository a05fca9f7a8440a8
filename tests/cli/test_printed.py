"""`synopsis`, `graph` and the formats of `apparatus` at the command line."""

from itertools import permutations
from pathlib import Path

import pytest

from tests.making import run

A = "## 1 Tart\nTake figes and ale.\n## 2 Pye\nTake motoun and hewe it smal with ale\n"
B = "## 1 Tart\nTake dates and ale.\n## 2 Pye\nTake beef and hewe it with ale\n## 3 Sauce\nTake wyn\n"
C = "## 1 Tart\nTake dates and ale.\n## 2 Pye\nTake beef and hewe it smal with ale\n"
FORMS = [
    *(("apparatus", form) for form in ("text", "json", "markdown", "csv")),
    *(("synopsis", form) for form in ("text", "markdown", "csv", "html")),
]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for siglum, words in (("A", A), ("B", B), ("C", C)):
        (tmp_path / f"{siglum}.txt").write_text(words, "utf-8")
    blocks = "".join(f'[[witness]]\nsiglum = "{s}"\nfile = "{s}.txt"\n' for s in "ABC")
    (tmp_path / "edition.toml").write_text(f'title = "T"\nbase = "A"\n{blocks}', "utf-8")
    return tmp_path


@pytest.mark.parametrize(("command", "form"), FORMS)
def test_the_order_of_the_arguments_changes_nothing(folder: Path, command: str, form: str) -> None:
    printed = {
        run(command, *files, "--format", form, cwd=folder).stdout
        for files in list(permutations(["A.txt", "B.txt", "C.txt"]))[::2]
    }
    assert len(printed) == 1
    assert "figes" in printed.pop()


def test_items_come_in_the_order_of_the_edition(folder: Path) -> None:
    assert (
        run("synopsis", ".", "2", "1", cwd=folder).stdout == run("synopsis", ".", "1", "2", cwd=folder).stdout
    )


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["synopsis", ".", "77"], "the items are 1, 2, 3"),
        (["synopsis", ".", "--format", "svg"], "svg"),
        (["synopsis", ".", "--width", "3"], "--width"),
        (["synopsis", "A.txt"], "two witnesses"),
        (["graph", ".", "77"], "the items are 1, 2, 3"),
        (["graph", "."], "name one of 1, 2, 3"),
        (["graph", ".", "1", "2"], "name one of 1, 2"),
        (["graph", ".", "1", "--format", "png"], "png"),
        (["apparatus", ".", "--format", "html"], "html"),
        (["apparatus", ".", "--width", "wide"], "--width"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_bad_input_is_told(folder: Path, arguments: list[str], said: str) -> None:
    done = run(*arguments, cwd=folder)
    assert done.returncode == 2
    assert done.stdout == ""
    assert len(done.stderr.strip().split("\n")) == 1
    assert said in done.stderr


@pytest.mark.parametrize(
    "arguments",
    [["synopsis", ".", "3"], ["graph", ".", "3"], ["graph", ".", "3", "--format", "svg"],
     ["apparatus", ".", "3", "--format", "markdown"], ["apparatus", ".", "3", "--format", "csv"]],
    ids=" ".join,
)  # fmt: skip
def test_an_item_that_the_base_lacks_stands_on_another(folder: Path, arguments: list[str]) -> None:
    done = run(*arguments, cwd=folder)
    assert done.returncode == 0, done.stderr
    if arguments[0] == "synopsis":
        assert "Not in A, C: the item is lacking there. Places are those of B." in done.stdout
    assert done.stdout


def test_the_base_by_majority_is_a_witness_and_the_output_says_why(folder: Path) -> None:
    done = run("apparatus", ".", "2", "--base", "majority", cwd=folder)
    said = "the base: it reads with most witnesses at 3 of 3 places, and none does oftener"
    assert f"C {said}" in " ".join(done.stdout.split())
    assert "smal] om. B" in done.stdout
    data = run("apparatus", ".", "--base", "majority", "--format", "json", "--jobs", "2", cwd=folder).stdout
    assert '"base": "C"' in data
    assert '"base_reason": "it reads with most' in data
    assert "base_reason" not in run("apparatus", ".", "--format", "json", cwd=folder).stdout


def test_a_width_is_kept(folder: Path) -> None:
    for command in ("apparatus", "synopsis"):
        lines = run(command, ".", "--width", "40", cwd=folder).stdout.split("\n")
        assert max(len(line) for line in lines) <= 40


def test_csv_reaches_a_file_with_its_own_line_ends(folder: Path) -> None:
    run("apparatus", ".", "--format", "csv", "-o", "out.csv", cwd=folder)
    data = (folder / "out.csv").read_bytes()
    assert data.count(b"\r\n") == data.count(b"\n") > 3
    assert b"\r" not in data.replace(b"\r\n", b"")
