"""What docs/dates.md says of a date is what the command makes of it."""

import re

import pytest

from collate.lexicon.conversion import convert
from collate.lexicon.dates import SCHEMES, read_date
from collate.lexicon.edtf import read_edtf
from tests.making import ROOT

PAGE = (ROOT / "docs" / "dates.md").read_text("utf-8")


def rows(heading: str) -> list[list[str]]:
    """Return the cells of the tables that begin with a heading cell."""
    found: list[list[str]] = []
    for block in re.findall(r"(?:^\|.*\n)+", PAGE, re.MULTILINE):
        lines = [[cell.strip() for cell in line.strip("|\n").split("|")] for line in block.splitlines()]
        found += lines[2:] if lines[0][0] == heading else []
    assert found
    return found


@pytest.mark.parametrize("row", rows("you type"), ids=lambda row: str(row[0]))
def test_a_date_that_is_typed(row: list[str]) -> None:
    told = convert(row[0])
    shown = [f"{each.bounds.not_before} to {each.bounds.not_after}" for each in told.readings]
    shown = [re.sub(r"^(\S+) to \1$", r"\1", each) for each in shown]
    assert (" or ".join(shown) or "none") == row[1]
    assert bool(told.problem) is (not shown or "say" in row[2])


@pytest.mark.parametrize("row", rows("for s. xv"), ids=lambda row: str(row[0]))
def test_a_phrase_of_a_catalogue(row: list[str]) -> None:
    for scheme, years in zip(SCHEMES, row[1:], strict=True):
        found = read_date(row[0], scheme)
        assert found is not None
        assert f"{found.not_before}–{found.not_after}" == years


@pytest.mark.parametrize("row", rows("written"), ids=lambda row: str(row[0]))
def test_a_date_in_the_extended_format(row: list[str]) -> None:
    texts = re.findall(r"`([^`]+)`", row[0])
    for at, text in enumerate(texts):
        bounds = read_edtf(text)
        for day, cell in ((bounds.not_before, row[1]), (bounds.not_after, row[2])):
            wanted = cell.split(", ")
            assert (str(day) if day else "none") == wanted[min(at, len(wanted) - 1)]
