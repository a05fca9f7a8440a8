"""The apparatus as CSV: a row for each variant reading, as RFC 4180 has it."""

import csv
import io

from hypothesis import given, settings
from hypothesis import strategies as st

from collate.model.findings import Findings
from collate.reports.table import rows
from collate.reports.table_of_variants import FIELDS
from collate.reports.table_of_variants import csv as table
from tests.making import all_found
from tests.scribes import tradition


def read(findings: Findings, *, accidentals: bool = True) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO("".join(table(findings, accidentals=accidentals)), newline="")))


@given(
    st.lists(st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\0")), min_size=2, max_size=4))
)
def test_what_is_written_is_read_back(table_of: list[list[str]]) -> None:
    page = "".join(rows(table_of))
    assert list(csv.reader(io.StringIO(page, newline=""))) == table_of
    assert page.count("\r\n") >= len(table_of)


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
