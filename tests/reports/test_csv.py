"""The apparatus as CSV: a row for each variant reading, as RFC 4180 has it."""

import csv
import io
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from collate.model.findings import Findings
from collate.reports.table import rows
from collate.reports.table_of_variants import FIELDS, assembled, item
from tests.making import all_found, run
from tests.scribes import tradition


def read(findings: Findings, *, accidentals: bool = True) -> list[dict[str, str]]:
    page = "".join(assembled(item(found, accidentals=accidentals) for found in findings.items))
    return list(csv.DictReader(io.StringIO(page, newline="")))


@given(
    st.lists(st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\0")), min_size=2, max_size=4))
)
def test_what_is_written_is_read_back(table_of: list[list[str]]) -> None:
    page = "".join(rows(table_of))
    read_back = [[freed(field) for field in row] for row in csv.reader(io.StringIO(page, newline=""))]
    assert read_back == table_of
    assert page.count("\r\n") >= len(table_of)


def freed(field: str) -> str:
    """Take the guard from a field, as docs/formats.md has it."""
    return re.sub(r"^'('*[=+\-@\t\r\n＝＋－＠])", r"\1", field)


@pytest.mark.parametrize("written", ["=SUM(A1)", "+1", "@x", "-2", "'=x", "\t=x", "\n=x", "＝x"])
def test_no_field_is_a_formula(written: str) -> None:
    (row,) = csv.reader(io.StringIO("".join(rows([["a", written]])), newline=""))
    assert row == ["a", f"'{written}"]
    assert freed(row[1]) == written


def test_neither_a_word_nor_a_siglum_nor_a_heading_is_a_formula(tmp_path: Path) -> None:
    (tmp_path / "=1+1.txt").write_text("## 1 =SUM(A1)\ntake +1 and -2 ale\n", "utf-8")
    (tmp_path / "@x.txt").write_text("## 1 -2\ntake =SUM(A1) and @ x ale\n", "utf-8")
    for command in ("apparatus", "synopsis", "concordance"):
        page = run(command, "=1+1.txt", "@x.txt", "--format", "csv", cwd=tmp_path).stdout
        fields = [field for row in csv.reader(io.StringIO(page)) for field in row]
        assert fields, command
        assert [field for field in fields if field[:1] in tuple("=+-@")] == [], command


@settings(max_examples=8)
@given(st.integers(0, 10_000))
def test_every_variant_has_its_row(seed: int) -> None:
    made = tradition(4, 60, seed)
    findings = all_found({siglum: made.text(siglum) for siglum in made.witnesses})
    (item,) = findings.items
    wanted = sorted(
        (" ".join(variant.reading.sigla), str(variant.kind), variant.reason)
        for weight, entries in (("substantive", item.substantive), ("accidental", item.accidental))
        for entry in entries
        for variant in entry.variants
        if variant.weight == weight
    )
    found = read(findings)
    assert sorted((row["sigla"], row["kind"], row["reason"]) for row in found) == wanted
    assert [int(row["first column"]) for row in found] == sorted(int(row["first column"]) for row in found)
    assert {row["weight"] for row in read(findings, accidentals=False)} <= {"substantive"}


def test_a_row_says_where_what_and_who() -> None:
    findings = all_found(
        {"A": "|f. 3r|\ntake figes, and ale", "B": "take and ale", "C": 'take dates, and "ale'}
    )
    found = read(findings)
    assert tuple(found[0]) == FIELDS
    om, sub = (next(row for row in found if row["kind"] == kind) for kind in ("omission", "substitution"))
    assert (om["item"], om["base"], om["folio"], om["line"], om["place"]) == (
        "1",
        "A",
        "3r",
        "",
        "f. 3r w. 2",
    )
    assert (om["lemma"], om["reading"], om["sigla"]) == ("figes", "", "B")
    assert om["lemma as printed"] == "figes]"
    assert (sub["reading"], sub["sigla"], sub["weight"]) == ("dates", "C", "substantive")
    assert om["entry"] == sub["entry"]
    assert any('"' in row["reading"] for row in found)


def test_moved_words_say_after_which_word_they_stand() -> None:
    long = "boyle it in a pot with ale and salt til it be ynogh"
    findings = all_found({"A": f"take grene herbes {long}", "B": f"take {long} grene herbes"})
    moved = [row for row in read(findings) if row["kind"] == "transposition"]
    assert [(row["reading"], row["after"]) for row in moved] == [("", "ynogh")]


def test_nothing_varies() -> None:
    assert read(all_found({"A": "take ale", "B": "take ale"})) == []
