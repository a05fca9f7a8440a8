"""The apparatus as Markdown: the terminal's wording, every letter escaped, the base's text above it."""

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from collate.model.findings import Findings
from collate.reports import markdown, text
from collate.reports.escape import markdown as escaped
from collate.reports.markdown import italicised
from collate.reports.synopsis import pieces_of
from collate.settings import Printing
from tests.making import all_found

WORDS = ["take", "eyren", "an", "hem", "ther to", "ale", "iiij", ".", "[...]", "wat(er)", "h[e]m", "<of>", "a_b", "*c*",
         "p\\|at", "#x", "1.", "a\\`b", "x~y", "R&D"]  # fmt: skip
TEXTS = st.lists(st.sampled_from(WORDS), min_size=1, max_size=14).map(lambda words: "take " + " ".join(words))
TRADITIONS = st.lists(TEXTS, min_size=2, max_size=4).map(
    lambda texts: {"ABCD"[number]: text for number, text in enumerate(texts)}
)
WIDE = Printing(width=100_000)


def plain(marked: str) -> str:
    """Return what a reader of Markdown sees."""
    return re.sub(r"\\([\\`*_{}\[\]<>|~&#.)+=-])", r"\1", re.sub(r"(?<!\\)\*", "", marked))


def entries(page: str) -> list[str]:
    return [
        " ".join(plain(line[2:]).split())
        for line in page.split("\n### ", 1)[-1].split("\n")
        if line[:2] == "- "
    ]


def of_text(findings: Findings, printing: Printing) -> list[str]:
    lines = "".join(text.apparatus(findings, printing)).split("\n")
    return [" ".join(line.split()) for line in lines if "]" in line and line.startswith("   ")]


@settings(max_examples=40)
@given(TRADITIONS, st.booleans())
def test_the_entries_are_those_of_the_terminal(texts: dict[str, str], positive: bool) -> None:
    findings = all_found(texts)
    printing = Printing(width=100_000, positive=positive)
    assert entries("".join(markdown.apparatus(findings, printing))) == of_text(findings, printing)


@settings(max_examples=40)
@given(TRADITIONS)
def test_the_text_of_the_base_stands_above(texts: dict[str, str]) -> None:
    findings = all_found(texts)
    page = "".join(markdown.apparatus(findings, WIDE))
    (item,) = findings.items
    quoted = " ".join(plain(line.removeprefix("> ")) for line in page.split("\n") if line.startswith("> "))
    assert "".join(quoted.split()) == "".join("".join(pieces_of(item.collation.items[0].tokens)).split())


@given(st.text(alphabet="a*_[]<>|`\\~#&1.)-+=> \n"))
def test_no_letter_is_lost_and_none_is_mark_up(words: str) -> None:
    assert plain(escaped(words)) == words
    for line in escaped(words).split("\n"):
        assert re.search(r"(?<!\\)(?:\\\\)*[*_\[\]<>|`]", line) is None
        assert re.match(r"[-+=#>]|\d+[.)]", line) is None


def test_latin_words_of_the_editor_are_in_italics_and_sigla_are_plain() -> None:
    page = "".join(
        markdown.apparatus(all_found({"A": "take figes of ale", "B": "take of ale and salt"}), WIDE)
    )
    assert "- w. 2  figes\\] *om.* B\n" in page
    assert "- w. 4  ale\\] *add.* and salt B\n" in page
    assert italicised("a_b\x1b[3mom.\x1b[0m *") == "a\\_b*om.* \\*"


def test_lines_of_the_manuscript_are_numbered() -> None:
    page = "".join(
        markdown.apparatus(all_found({"A": "|f. 3r|take | figes |f. 3v|and | ale", "B": "take"}), WIDE)
    )
    assert "> *f. 3r l. 1* take  \n> *l. 2* figes  \n> *f. 3v l. 1* and  \n> *l. 2* ale\n" in page


def test_accidentals_are_left_away_and_lacking_items_named() -> None:
    findings = all_found({"A": "## 1 Tart\ntake fysch\n## 2 Pye\ntake ale", "B": "## 1 Tart\ntake fisshe"})
    page = "".join(markdown.apparatus(findings, Printing(accidentals=False)))
    assert "fisshe" not in page
    assert "## 1 Tart\n" in page
    assert "In A. Not in B." in page
    assert "None." in page
    assert "fisshe" in "".join(markdown.apparatus(findings, WIDE))
