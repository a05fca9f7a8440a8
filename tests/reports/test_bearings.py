"""What bears on date is marked in the printed apparatus."""

from pathlib import Path

from tests.making import run

A = """## preface
This book made Rauf Brenle, cook of the lord of Wexmoor, whom God kepe.
"""
B = """## preface
This book made Rauf Brenle, cook of the lord of Wexmoor, on whos soule God haue mercy.
"""


def test_the_apparatus_names_the_places_that_bear_on_date(tmp_path: Path) -> None:
    folder = tmp_path
    (folder / "A.txt").write_text(A, "utf-8")
    (folder / "B.txt").write_text(B, "utf-8")
    for form in ("text", "markdown"):
        said = run("apparatus", "A.txt", "B.txt", "--format", form, cwd=folder).stdout
        _, _, marked = said.partition("Bears on date")
        assert "whom God kepe’ A: wished well as a living person" in marked
        assert "on whos soule God haue mercy’ B: prayed for as one dead" in marked


def test_nothing_is_marked_where_nothing_bears_on_date(tmp_path: Path) -> None:
    folder = tmp_path
    (folder / "A.txt").write_text("## preface\nTake good hede of this book.\n", "utf-8")
    (folder / "B.txt").write_text("## preface\nTake good kepe of this boke.\n", "utf-8")
    assert "Bears on date" not in run("apparatus", "A.txt", "B.txt", cwd=folder).stdout


def test_words_of_one_sort_that_differ_are_told_apart(tmp_path: Path) -> None:
    for siglum, year in (("A", "mccccxx"), ("B", "mccccxxx"), ("C", "mccccxx")):
        words = f"In the yere of oure lord {year} this boke was made.\n"
        (tmp_path / f"{siglum}.txt").write_text(f"## preface\n{words}", "utf-8")
    said = run("apparatus", "A.txt", "B.txt", "C.txt", cwd=tmp_path).stdout
    assert "‘the yere of oure lord mccccxx’ AC: what is told is dated" in said
    assert "‘the yere of oure lord mccccxxx’ B: what is told is dated" in said
