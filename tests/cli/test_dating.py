"""The command `collate dating`: its forms, what it says of bad dates, and files without an edition."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from tests.dossiers import PERSONS
from tests.making import ROOT, SHARED, run

SAMPLE = str(ROOT / "samples" / "eldernesse")
EDITION = """title = "T"
[[witness]]
siglum = "A"
file = "A.txt"
[[witness]]
siglum = "B"
file = "B.txt"
"""
PREFACE = "## preface\nIn þe xvj yere of kyng Richard þe secunde Symond Harcastel, {}, bad it write.\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "A.txt").write_text(PREFACE.format("whom God kepe"), "utf-8")
    (tmp_path / "B.txt").write_text(PREFACE.format("on whos soule God haue mercy"), "utf-8")
    (tmp_path / "edition.toml").write_text(EDITION + PERSONS, "utf-8")
    return tmp_path


BAD = [
    ('died = "1418-03-02"', 'died = "1390"', ("edition.toml:15", "death before the office")),
    ('from = "1391"', 'from = "1391..1400"', ("edition.toml:13", "EDTF")),
    ('died = "1418-03-02"', 'died = "1418-02-30"', ("edition.toml:15", "February 1418")),
    ('died = "1418-03-02"', 'died = "2 March 1418"', ("edition.toml:15", "1418-03-02")),
    ('title = "T"', 'title = "T"\ndate-scheme = "thirds"', ("edition.toml:2", "quarters")),
]


@pytest.mark.parametrize(("old", "new", "told"), BAD)
def test_bad_dates_are_told_with_their_line_and_what_would_be_right(
    folder: Path, old: str, new: str, told: tuple[str, ...]
) -> None:
    path = folder / "edition.toml"
    path.write_text(path.read_text("utf-8").replace(old, new, 1), "utf-8")
    result = run("dating", ".", cwd=folder)
    assert result.returncode == 2
    assert result.stdout == ""
    assert result.stderr.count("\n") == 1
    for part in told:
        assert part in result.stderr


@pytest.mark.parametrize(
    ("clause", "told"),
    [
        ("In þe xxx yere of kyng Richard þe secunde", "23"),
        ("On þe xxxj day of Nouembre þe yere of oure lord m cccc xx", "30"),
        ("þe xx day of May þe first yere of kyng Iohn", "27 May 1199"),
    ],
)
def test_a_date_that_cannot_be_dates_nothing_and_is_told(folder: Path, clause: str, told: str) -> None:
    (folder / "A.txt").write_text(f"## preface\n{clause} þis boke was ordeyned.\n", "utf-8")
    result = run("dating", ".", "--format", "json", cwd=folder)
    assert result.returncode == 0
    dates = [e for e in json.loads(result.stdout)["witnesses"][0]["evidence"] if e["kind"].endswith("-date")]
    assert any(told in each["reason"] for each in dates), dates
    assert all(each["not_before"] is None and each["not_after"] is None for each in dates)


def test_the_sample_keeps_the_contract() -> None:
    tool = SHARED / "tools" / "check_contract.py"
    if not tool.exists():
        pytest.skip("the tool that holds the JSON against the contract is not here")
    space: dict[str, object] = {"__name__": "check_contract"}
    exec(compile(tool.read_text("utf-8"), str(tool), "exec"), space)
    check, faults = space["check_dating"], space["faults"]
    assert callable(check)
    check(json.loads(run("dating", SAMPLE, "--format", "json").stdout))
    assert faults == []


def test_bare_files_are_dated(folder: Path) -> None:
    result = run("dating", "A.txt", "B.txt", "--format", "json", cwd=folder)
    assert result.returncode == 0
    made = json.loads(result.stdout)
    assert [each["copy"]["not_before"] for each in made["witnesses"]] == ["1392-06-22", "1392-06-22"]
    assert any(reading["text"] for each in made["differences"] for reading in each["readings"])
    assert "unidentified" in run("dating", "A.txt", "B.txt", cwd=folder).stdout


def test_the_words_for_certainty_are_the_closed_list() -> None:
    said = run("dating", SAMPLE).stdout.casefold()
    for word in ("original text", "older copy", "earliest", "presumably", "undoubtedly", "must have been"):
        assert word not in said


def test_the_timeline_is_a_picture_with_words() -> None:
    root = ET.fromstring(run("dating", SAMPLE, "--format", "svg").stdout)
    text = " ".join("".join(each.itertext()) for each in root.iter("{http://www.w3.org/2000/svg}text"))
    for label in ("Richard II", "Symond Harcastel", "Hugh Sallowby", "A", "M", "wording", "copy"):
        assert label in text


def test_markdown_has_a_table_for_each_copy() -> None:
    said = run("dating", SAMPLE, "--format", "markdown").stdout
    assert said.startswith("# ")
    assert said.count("\n## ") >= 6
    rows = [line for line in said.splitlines() if line.startswith("|")]
    heads = [line.count("|") - line.count("\\|") for line in rows]
    assert len(rows) > 20
    assert min(heads) >= 3


def test_the_sample_comes_to_what_was_planted_in_it() -> None:
    made = json.loads(run("dating", SAMPLE, "--format", "json").stdout)
    spans = {
        each["siglum"]: tuple(
            f"{each[layer]['not_before'] or ''}/{each[layer]['not_after'] or ''}"
            for layer in ("wording", "copy")
        )
        for each in made["witnesses"]
    }
    assert spans == {
        "A": ("1392-06-22/1418-03-02", "1400-01-01/1425-12-31"),
        "B": ("1418-03-02/1450-12-31", "1425-01-01/1450-12-31"),
        "C": ("1386-01-01/1475-12-31", "1425-01-01/1475-12-31"),
        "D": ("/1475-12-31", "1450-01-01/1475-12-31"),
        "L": ("1418-01-01/1525-12-31", "1500-01-01/1525-12-31"),
        "M": ("1392-06-22/1418-03-02", "1429-09-01/1430-08-31"),
    }
    assert not any(each["conflicts"] for each in made["witnesses"])
    assert "extant" in next(each["not_extant"] for each in made["witnesses"] if each["siglum"] == "D")
    assert "Nothing in this orders the books" in made["prose"]
