"""`collate concordance` as a user gets it, and items named in the other commands."""

import csv
import io
import json
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from tests.making import ROOT, SHARED, run

SAMPLE = str(ROOT / "samples" / "eldernesse")
CHECK = SHARED / "tools" / "check_contract.py"


def test_json_has_the_places_and_orders() -> None:
    data = json.loads(run("concordance", SAMPLE, "--format", "json").stdout)
    twelve = next(item for item in data["items"] if item["item"] == "12")
    assert twelve["places"] == {"A": "12", "B": "12+12b", "C": None, "D": None, "L": "12", "M": "12"}
    assert twelve["order"] == {"A": 13, "B": 13, "C": None, "D": None, "L": 11, "M": 12}
    assert sorted(twelve["likeness"]) == ["B", "L", "M"]
    assert twelve["parts"] == {"B": [13, 14]}
    assert set(twelve["certainty"]) == {"A", "B", "L", "M"}


@pytest.mark.skipif(not CHECK.exists(), reason="the contract is not at hand")
def test_json_keeps_the_contract(tmp_path: Path) -> None:
    command = tmp_path / "collate"
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m collate "$@"\n', "utf-8")
    command.chmod(0o755)
    result = subprocess.run(
        [sys.executable, str(CHECK), str(command), SAMPLE],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert result.returncode == 0, result.stdout + result.stderr


def test_csv_has_a_row_for_every_item_and_six_columns_for_every_witness() -> None:
    rows = list(csv.DictReader(io.StringIO(run("concordance", SAMPLE, "--format", "csv").stdout)))
    assert [row["item"] for row in rows] == ["preface", *map(str, range(1, 21)), "explicit"]
    assert len(rows[0]) == 2 + 6 * 6
    assert (rows[12]["B"], rows[12]["B_order"], rows[12]["B_folio"]) == ("12+12b", "13", "13v")
    assert (rows[12]["C"], rows[12]["C_likeness"]) == ("", "")


def test_markdown_is_one_table_and_the_remarks() -> None:
    lines = run("concordance", SAMPLE, "--format", "markdown").stdout.split("\n")
    table = [line for line in lines if line.startswith("|")]
    assert len(table) == 24
    assert len({line.replace("\\|", "").count("|") for line in table}) == 1
    assert "## In parts" in lines


def test_the_chart_is_svg_with_a_line_for_every_match() -> None:
    result = run("concordance", SAMPLE, "--format", "svg")
    root = ET.fromstring(result.stdout)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    lines = root.findall("{http://www.w3.org/2000/svg}line")
    found = json.loads(run("concordance", SAMPLE, "--format", "json").stdout)
    matched = sum(
        len(item["parts"].get(siglum, [0]))
        for item in found["items"]
        for siglum in item["places"]
        if siglum != "A" and item["places"]["A"] is not None and item["places"][siglum] is not None
    )
    assert len(lines) >= matched


def test_the_chart_tells_the_parts_of_an_item_apart(tmp_path: Path) -> None:
    halves = (
        "take figes and boyle hem in ale with clowes",
        "hewe porke smal and do therto salt and saffroun",
    )
    other = "nym mylk of almaundes and rys and sugre and make it stondyng"
    (tmp_path / "A.txt").write_text(f"## 1 a\n{' '.join(halves)}\n## 2 b\n{other}\n", "utf-8")
    (tmp_path / "B.txt").write_text(f"## 1\n{halves[0]}\n## 2\n{other}\n## 3\n{halves[1]}\n", "utf-8")
    match = '[[match]]\nitems = { A = "1", B = ["1", "3"] }\nreason = "parted"\n'
    blocks = "".join(f'[[witness]]\nsiglum = "{s}"\nfile = "{s}.txt"\n' for s in "AB")
    (tmp_path / "edition.toml").write_text(f'title = "T"\n{blocks}{match}', "utf-8")
    page = ET.fromstring(run("concordance", ".", "--format", "svg", cwd=tmp_path).stdout)
    shown = [each.text for each in page.iter("{http://www.w3.org/2000/svg}text")]
    assert shown[4:9] == ["1", "2", "1 (1/2)", "2", "1 (2/2)"]


def labels(*names: str) -> list[tuple[str, dict[str, str]]]:
    found = json.loads(run("apparatus", SAMPLE, *names, "--format", "json").stdout)
    return [(item["item"], item["labels"]) for item in found["items"]]


def test_an_item_is_named_as_the_base_or_as_one_witness_has_it() -> None:
    twelve = [("12", {"A": "12", "B": "12+12b", "L": "12", "M": "12"})]
    assert labels("12") == labels("xij") == labels("A:xij") == labels("B:12b") == labels("B:12+12b") == twelve


def test_the_witness_own_number_is_not_the_editions(tmp_path: Path) -> None:
    first, second = "Take figes and ale and grynde hem smal.", "Nym þe pyke and sethe hym in wyn."
    (tmp_path / "A.txt").write_text(f"## 1\n{first}\n## 2\n{second}\n", "utf-8")
    (tmp_path / "B.txt").write_text(f"## j\n{second}\n## ij\n{first}\n", "utf-8")
    paths = [str(tmp_path / "A.txt"), str(tmp_path / "B.txt"), "--format", "json"]
    for name, there in (("1", "ij"), ("B:1", "j"), ("B:ij", "ij")):
        (item,) = json.loads(run("apparatus", *paths, "--item", name).stdout)["items"]
        assert item["labels"]["B"] == there


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("77", "there is no item '77': the items are preface, 1, 2"),
        ("B:11", "there is no item '11' in B: it has preface, 1, 2, 4, 3"),
        ("X:1", "there is no witness 'X', so no item 'X:1'"),
        ("A:", "there is no item 'A:'"),
    ],
)
def test_an_item_that_is_not_there(name: str, said: str) -> None:
    result = run("apparatus", SAMPLE, name)
    assert result.returncode == 2
    assert said in result.stderr
    assert result.stdout == ""


def test_two_bare_files_of_one_item(tmp_path: Path) -> None:
    (tmp_path / "A.txt").write_text("Take figes and ale.", "utf-8")
    (tmp_path / "B.txt").write_text("Nym watur clene", "utf-8")
    result = run("apparatus", str(tmp_path / "A.txt"), str(tmp_path / "B.txt"), "--format", "json")
    (item,) = json.loads(result.stdout)["items"]
    assert item["present"] == ["A", "B"]


def test_one_witness_is_refused() -> None:
    result = run("concordance", str(Path(SAMPLE) / "A.txt"))
    assert result.returncode == 2
    assert "two witnesses" in result.stderr
