"""The synopsis: every word once and in order, omission and absence unlike, whatever the format."""

import csv
import io
import re
from collections.abc import Callable, Iterable
from html.parser import HTMLParser

import lxml.etree
import lxml.html
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from collate.model.collation import Presence
from collate.model.findings import Findings
from collate.reports import synopsis_csv, synopsis_html, synopsis_markdown, synopsis_text
from collate.reports.synopsis import pieces_of, places, synopsis, systems, width
from collate.settings import Printing
from tests.making import all_found, found
from tests.scribes import tradition

WORDS = ["take", "eyren", "an", "hem", "ther to", "therto", "smal", "|f. 7v|", "ale", "iiij", ".", "¶", "[...]",
         "wat(er)", "p\\|at", "*b*", "<i>", "a&b", "ꝑtie", "c̄", "h[e]m"]  # fmt: skip
TEXTS = st.lists(st.sampled_from(WORDS), min_size=1, max_size=14).map(lambda words: "take " + " ".join(words))
TRADITIONS = st.lists(TEXTS, min_size=2, max_size=4).map(
    lambda texts: {"ABCD"[number]: text for number, text in enumerate(texts)}
)
PAGE = re.compile(r"\|[0-9]+[rv]\|")
MOVE = re.compile(r"~\d+")


def wanted(findings: Findings) -> dict[str, list[str]]:
    """Return the words of each witness, item after item."""
    words: dict[str, list[str]] = {}
    for item in findings.items:
        for siglum, text in zip(item.collation.sigla, item.collation.items, strict=True):
            shown = (piece.split() for piece in pieces_of(text.tokens))
            words.setdefault(siglum, []).extend(word for piece in shown for word in piece)
    return words


def letters(words: Iterable[str]) -> str:
    """Return words as one string, without the signs for page, move, omission and loss."""
    joined = " ".join(words).replace("[ ]", "")
    return re.sub(r"\s|–", "", MOVE.sub("", PAGE.sub("", joined)))


def of_text(findings: Findings) -> dict[str, str]:
    read: dict[str, list[str]] = {}
    for line in "".join(synopsis_text.text(findings, Printing(width=40))).split("\n"):
        siglum, _, rest = line.partition("  ")
        if siglum in [w.siglum for w in findings.edition.witnesses]:
            read.setdefault(siglum, []).append(rest)
    return {siglum: letters(lines) for siglum, lines in read.items()}


def of_csv(findings: Findings) -> dict[str, str]:
    read: dict[str, list[str]] = {}
    for row in csv.DictReader(io.StringIO("".join(synopsis_csv.csv(findings)), newline="")):
        for witness in findings.edition.witnesses:
            if row[f"{witness.siglum} state"] != "absent":
                read.setdefault(witness.siglum, []).append(row[witness.siglum])
    return {siglum: letters(words) for siglum, words in read.items()}


def of_html(findings: Findings) -> dict[str, str]:
    read: dict[str, list[str]] = {}
    page = lxml.html.document_fromstring("".join(synopsis_html.page(findings)))
    for row in page.iterfind(".//tbody/tr"):
        head = row.find("th")
        assert head is not None
        assert head.get("scope") == "row"
        cells = [str(cell.xpath("string()")) for cell in row.findall("td")]
        read.setdefault(str(head.xpath("string()")), []).extend(cells)
    return {siglum: letters(cells) for siglum, cells in read.items()}


def of_markdown(findings: Findings) -> dict[str, str]:
    read: dict[str, list[str]] = {}
    for line in "".join(synopsis_markdown.markdown(findings, Printing(width=60))).split("\n"):
        cells = [cell.strip() for cell in re.split(r"(?<!\\)\|", line)[1:-1]]
        if cells and cells[0] and not cells[0].startswith("---"):
            plain = [re.sub(r"\\(.)", r"\1", re.sub(r"(?<!\\)\*", "", cell)) for cell in cells[1:]]
            read.setdefault(cells[0], []).extend(plain)
    return {siglum: letters(cells) for siglum, cells in read.items()}


@pytest.mark.parametrize("read", [of_text, of_csv, of_html, of_markdown])
@settings(max_examples=25)
@given(TRADITIONS)
def test_every_word_stands_there_once_and_in_order(
    read: Callable[[Findings], dict[str, str]], texts: dict[str, str]
) -> None:
    findings = all_found(texts)
    assert read(findings) == {siglum: letters(words) for siglum, words in wanted(findings).items()}


def test_every_word_of_careless_scribes_stands_there_once() -> None:
    made = tradition(5, 120, 7)
    findings = all_found({siglum: made.text(siglum) for siglum in made.witnesses})
    for read in (of_text, of_csv, of_html, of_markdown):
        assert read(findings) == {siglum: letters(words) for siglum, words in wanted(findings).items()}


@given(TRADITIONS, st.integers(20, 120))
def test_no_line_is_wider_than_asked_unless_one_word_is(texts: dict[str, str], wide: int) -> None:
    for line in "".join(synopsis_text.text(all_found(texts), Printing(width=wide))).split("\n"):
        assert width(line) <= wide or len(line.split()) <= 4


def test_systems_hold_all_columns_in_order() -> None:
    assert [list(part) for part in systems([3, 3, 3, 30, 1], 7, 1)] == [[0, 1], [2], [3], [4]]
    assert list(systems([], 7, 1)) == []


def test_combining_marks_take_no_room() -> None:
    assert [width(text) for text in ("p̄", "ꝑ", "yọlkes", "a")] == [1, 1, 6, 1]
    lines = "".join(synopsis_text.text(all_found({"A": "c̄a take", "B": "ca take"}), Printing())).split("\n")
    rows = [line for line in lines if line.startswith(("A  ", "B  "))]
    assert [width(row[: row.index("take")]) for row in rows] == [width(rows[1][: rows[1].index("take")])] * 2


def test_omission_loss_and_a_lacking_item_look_different() -> None:
    findings = all_found(
        {
            "A": "## 1\ntake figes and dates of ale\n## 2\nboyle it",
            "B": "## 1\ntake figes of ale\n## 2\nboyle it",
            "C": "## 1\ntake [...] ale\n## 2\nboyle it",
            "D": "## 2\nboyle it",
        }
    )
    first = findings.items.__iter__().__next__()
    laid = synopsis(first)
    assert [cell.presence for cell in laid.rows[1]].count(Presence.OMITTED) == 2
    assert [cell.presence for cell in laid.rows[2]].count(Presence.LACUNOSE) == 4
    for report in (
        synopsis_text.text(findings, Printing()),
        synopsis_markdown.markdown(findings, Printing()),
        synopsis_html.page(findings),
    ):
        page = "".join(report).replace("\\", "")
        assert "Not in D: the item is lacking there." in " ".join(page.split())
        assert page.count("–") > 2
        assert page.count("[ ]") > 2
    rows = list(csv.DictReader(io.StringIO("".join(synopsis_csv.csv(findings)), newline="")))
    assert {row["D state"] for row in rows if row["item"] == "1"} == {"absent"}
    assert {row["C state"] for row in rows} == {"present", "lacunose"}
    assert {row["B state"] for row in rows} == {"present", "omitted"}


def test_moved_words_bear_one_number_at_both_ends() -> None:
    item = found(
        {"A": "take grene herbes and whyte salt with ale", "B": "take whyte salt and grene herbes with ale"}
    )
    assert item.collation.transpositions
    laid = synopsis(item)
    for row in laid.rows:
        words = [cell.words for cell in row if cell.moves == (1,) and cell.words]
        empty = [cell for cell in row if cell.moves == (1,) and not cell.words]
        assert len(words) == len(empty) == 2
    texts = ["".join(cell.words + " " for cell in row if cell.moves and cell.words) for row in laid.rows]
    assert texts[0] == texts[1]


def test_places_are_those_of_the_apparatus_and_new_folios_are_shown() -> None:
    findings = all_found({"A": "|f. 3r|\ntake figes\n|f. 3v|\nand ale", "B": "take dates and ale"})
    page = "".join(synopsis_text.text(findings, Printing()))
    assert "f. 3r w. 1\n" in page
    assert "|3r|take" in page
    assert "|3v|and" in page


def test_the_page_needs_nothing_from_elsewhere_and_names_its_language() -> None:
    page = "".join(synopsis_html.page(all_found({"A": "take <b>ale", "B": 'take "ale'})))
    tags: list[str] = []

    class Tags(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            tags.append(tag)

    Tags().feed(page)
    assert not {"script", "link", "img", "iframe"} & set(tags)
    assert "http" not in page
    assert "@import" not in page
    assert 'lang="enm"' in page
    assert "prefers-color-scheme" in page
    assert "@media print" in page
    lxml.etree.fromstring(page.replace("<!DOCTYPE html>\n", "").replace('<meta charset="utf-8">', "").replace(
        'initial-scale=1">', 'initial-scale=1"/>'))  # fmt: skip


def test_a_line_that_begins_names_its_folio_if_that_is_new() -> None:
    texts = {"A": "|f. 3r|take|figes and dates|and good ale and wyn |f. 3v| on | lytel", "B": "take"}
    heads = synopsis(found(texts)).heads
    assert [place for place in places(heads) if place] == ["f. 3r l. 1", "l. 2", "l. 3", "f. 3v l. 1", "l. 2"]
    starts = [0, 5, 11, 15, 21, 25, 30, 34, 38, 42, 44]
    crowded = places(heads, starts)
    assert [place for place in crowded if place] == ["f. 3r l. 1", "l. 3", "f. 3v l. 1"]
