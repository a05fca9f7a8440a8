"""What scribes did to their own text, as printed: both states of a place, struck words, notes, hands."""

import re
from collections.abc import Mapping

import pytest

from collate.model.witness import shown_aside
from collate.reports.latex import latex
from collate.reports.tei import tei
from collate.reports.text import apparatus
from collate.settings import Printing
from tests.making import ROOT
from tests.reports.tei_reading import opened, read_again, sample, told

WIDE = Printing(width=200)
BASE = "put sugre and salt"


def printed(texts: Mapping[str, str], base: str = "") -> list[str]:
    """Return the lines of the part on hands, without their places."""
    text = "".join(apparatus(opened(texts, base=base)[1], WIDE))
    _, _, part = text.partition("   Hands and corrections\n")
    return [line[16:] for line in part.split("\n") if line.strip()]


def shown() -> list[tuple[str, str]]:
    """Return the rows of the table of docs/transcribing.md: what is typed in B, and what is printed."""
    page = (ROOT / "docs" / "transcribing.md").read_text("utf-8")
    _, _, table = page.partition("| typed in B, where A has *put sugre and salt* |")
    rows = table.partition("\n\n")[0].split("\n")[2:]
    cells = [[cell.strip().strip("`") for cell in row.strip("| ").split(" | ")] for row in rows]
    return [(typed, said) for typed, said in cells]


@pytest.mark.parametrize(("typed", "said"), shown())
def test_the_table_of_the_documentation_is_what_is_printed(typed: str, said: str) -> None:
    assert printed({"A": BASE, "B": typed}) == [said]


def test_the_base_has_its_first_state_too() -> None:
    texts = {"A": "put [[hony]] `sugre´ and salt", "B": BASE}
    assert printed(texts) == ["sugre] hony A* (canc.), corr. sup. lin. Aᶜ"]
    assert printed(texts, base="B") == ["sugre] hony A* (canc.), corr. sup. lin. Aᶜ"]


def test_no_part_is_printed_where_nothing_was_done() -> None:
    assert "Hands" not in "".join(apparatus(opened({"A": BASE, "B": BASE})[1], WIDE))


def test_acts_of_several_witnesses_at_one_place_stand_in_one_entry() -> None:
    texts = {"A": BASE, "B": "put [[hony]] `sugre´ and salt", "C": "put `sugre´ and salt"}
    assert printed(texts) == [
        "sugre] hony B* (canc.), corr. sup. lin. Bᶜ; om. C*, corr. sup. lin. Cᶜ",
    ]


def test_a_witness_called_by_a_star_is_not_mistaken_for_a_first_state() -> None:
    texts = {"A": "put `sugre´ and salt", "A*": BASE}
    assert printed(texts) == ["sugre] om. Aᵃᶜ, corr. sup. lin. Aᶜ"]


def test_a_word_beside_the_lemma_is_named_where_the_copy_has_another() -> None:
    assert printed({"A": BASE, "B": "put [[now]] hony and salt"}) == ["sugre] hony prec. by now canc. B"]
    assert printed({"A": BASE, "B": "put sugre [[now]] wel and salt"}) == [
        "sugre] add. wel prec. by now canc. B"
    ]


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("put sugre hote @margin:2{nota} and salt", "sugre] nota marg. B²"),
        ("put hony @margin{gode for þe colde} and salt", "sugre] gode for þe colde marg. B"),
        ("wel now @margin{vacat} put sugre and salt", "put] vacat marg. B"),
        ("@margin{vacat} wel put sugre and salt", "put] vacat marg. B"),
    ],
)
def test_a_note_in_the_margin_is_told_without_the_words_of_the_text(typed: str, said: str) -> None:
    assert printed({"A": BASE, "B": typed}) == [said]


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("put i[[j]] vnces", "ij] ij B* (j canc.), i Bᶜ"),
        ("put ij[[j]] vnces", "ij] ijj B* (j canc.), corr. Bᶜ"),
        ("put ij[[j]][[k]] vnces", "ij] ijjk B* (jk canc.), corr. Bᶜ"),
        ("put ij vnces[[s]].", "vnces] vncess B* (s canc.), corr. Bᶜ"),
        ("put ij [[u]]vnces", "vnces] uvnces B* (u canc.), corr. Bᶜ"),
        ("put ij vnc[[e and]]es", "vnces] vnce andes B* (e and canc.), corr. Bᶜ"),
        ("put ij [[u]] vnces", "vnces] prec. by u canc. B"),
        ("put ij[[ u]] vnces", "vnces] prec. by u canc. B"),
        ("put ij [[u ]]vnces", "vnces] prec. by u canc. B"),
        ("put [[iij]]`ij´ vnces", "ij] iij B* (canc.), corr. sup. lin. Bᶜ"),
        ("put `ij´[[iij]] vnces", "ij] iij B* (canc.), corr. sup. lin. Bᶜ"),
    ],
)
def test_letters_struck_out_that_touch_a_word_are_letters_of_it(typed: str, said: str) -> None:
    assert printed({"A": "put ij vnces", "B": typed}) == [said]


@pytest.mark.parametrize(
    "typed",
    [
        "put ij[[j]] vnces", "put ij [[u]]vnces", "put ij [[u]] vnces", "put ij |f. 1r|[[u]]vnces",
        "put .ij.[[j]] and", "put @rubric{ij[[k]] vnces}", "put ij@hand{2}[[s]] vnces", "put [[w]]ꝑcely",
    ],
)  # fmt: skip
def test_letters_struck_out_at_the_edge_of_a_word_come_back_from_tei(typed: str) -> None:
    texts = {"A": "put ij vnces", "B": typed}
    cut, findings = opened(texts)
    assert told(read_again("".join(tei(findings)))) == told(cut)


@pytest.mark.parametrize(
    ("typed", "substantive", "said"),
    [
        ("put sugre [[and salt þerto]] and boyle", "and salt þerto", "and salt þerto] canc. B"),
        ("put sugre and [[salt þerto and]] boyle", "salt þerto and", "salt þerto and] canc. B"),
        ("put sugre [[⁊ salte þerto]] and boyle", "and salt þerto", "and salt þerto] canc. B"),
        ("put sugre [[& salt þer to]] and boyle", "and salt þerto", "and salt þerto] canc. B"),
        ("put [[sugre]] and salt þerto and boyle", "sugre", "sugre] canc. B"),
        ("put sugre and [[salt þerto]] wyn boyle", "", "wyn prec. by salt þerto canc. B"),
        ("put sugre [[salt]] boyle", "and salt þerto and", "salt] canc. B"),
        ("[[put]] sugre and salt þerto and boyle", "put", "put] canc. B"),
        ("put sugre and salt þerto and [[boyle]]", "boyle", "boyle] canc. B"),
        ("put sugre [[sugre]] and salt þerto and boyle", "", "and] prec. by sugre canc. B"),
        ("put sugre [[ale]] and boyle", "", "and] prec. by ale canc. B"),
    ],
)
def test_words_of_the_base_struck_out_in_a_copy_are_told_of_these(
    typed: str, substantive: str, said: str
) -> None:
    texts = {"A": "put sugre and salt þerto and boyle", "B": typed}
    (told_of,) = printed(texts)
    assert told_of.endswith(said)
    if substantive:
        assert f" {substantive}] om. B\n" in "".join(apparatus(opened(texts)[1], WIDE))


def test_which_of_two_equal_words_a_copy_has_is_told_by_what_it_struck_out() -> None:
    texts = {"A": "sugre and salt and wyn", "B": "sugre and salt and wyn", "C": "sugre [[and salt]] and wyn"}
    text = "".join(apparatus(opened(texts)[1], WIDE))
    assert " and salt] om. C\n" in text


def test_the_first_hand_does_not_lack_a_word_that_it_has_beside_those_written_in() -> None:
    assert printed({"A": BASE, "B": "put sugre `and wyn´ and salt"}) == [
        "and] and B*, and wyn and sup. lin. Bᶜ"
    ]
    assert printed({"A": BASE, "B": "put sugre and `wyn and´ salt"}) == ["and] add. wyn and sup. lin. Bᶜ"]


def test_what_is_struck_out_last_follows_the_last_word() -> None:
    assert printed({"A": BASE, "B": "put sugre and salt [[forth]]"}) == ["salt] foll. by forth canc. B"]


def test_marks_within_struck_words_do_not_part_them() -> None:
    said = printed({"A": BASE, "B": "put [[w(a)t(er)]] [[now]] `sugre´ and salt"})
    assert said == ["sugre] water now B* (canc.), corr. sup. lin. Bᶜ"]
    assert printed({"A": BASE, "B": "put [[w(a)t(er) h<o>ny]] sugre and salt"}) == [
        "sugre] prec. by water hony canc. B"
    ]


def test_a_hand_is_named_where_it_begins_and_where_the_first_comes_back() -> None:
    assert printed({"A": BASE, "B": "put @hand{2} sugre and @hand{1} salt"}) == [
        "sugre] from here B²",
        "salt] from here B¹",
    ]


def test_hands_may_have_names() -> None:
    assert printed({"A": BASE, "B": "put sugre @margin:b{nota} and salt"}) == ["sugre] nota marg. B (hand b)"]


def test_a_text_without_words_has_nothing_to_tell() -> None:
    assert printed({"A": "[[put]]", "B": BASE}) == []


def test_the_planted_corrections_of_the_sample_are_told_and_no_others() -> None:
    text = "".join(apparatus(sample()[1], WIDE))
    parts = re.findall(r"^   Hands and corrections\n((?:   .*\n)+?)(?=\n|\Z|   [A-Z])", text, re.MULTILINE)
    assert [line[3:] for part in parts for line in part.splitlines()] == [
        "f. 1v l. 8   and salt] om. A*, corr. sup. lin. Aᶜ",
        "f. 2r l. 13  lytel] om. B*, corr. sup. lin. Bᶜ",
        "f. 3r l. 24  fyre] caue quia crudum est marg. M²",
        "f. 4v l. 5   hede] prec. by honde canc. A",
        "f. 5r l. 21  God] probatum est marg. A²",
    ]


def test_latex_says_the_same_with_the_terms_in_italics() -> None:
    text = "".join(latex(opened({"A": BASE, "B": "put [[hony]] `sugre´ and salt"})[1], WIDE))
    assert r"sugre] hony B* \textit{(canc.)}, \textit{corr.} \textit{sup. lin.} Bᶜ\quad" in text


HEADED = "## 1 Pucyns en verdure\n"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("Pucyns `en´ verdure", ["en] om. B*, corr. sup. lin. Bᶜ"]),
        ("[[Chekyns]] `Pucyns´ en verdure", ["Pucyns] Chekyns B* (canc.), corr. sup. lin. Bᶜ"]),
        ("Pu[[k]]cyns en verdure", ["Pucyns] Pukcyns B* (k canc.), corr. Bᶜ"]),
        ("Pucyns en [[ver]] verdure", ["verdure] prec. by ver canc. B"]),
        ("Pucyns en verdure @margin:2{nota}", ["verdure] nota marg. B²"]),
        ("@hand{2}Pucyns en verdure@hand{1}", ["Pucyns] from here B²"]),
        (
            "Chek`y´ns en verdure",
            ["Pucyns en verdure] Chekns en verdure B*, Chekyns en verdure sup. lin. Bᶜ"],
        ),
    ],
)
def test_headings_are_searched(typed: str, said: list[str]) -> None:
    told = printed({"A": HEADED + BASE, "B": f"## 1 {typed}\n{BASE}"})
    assert [line for line in told if "from here B¹" not in line] == said


def test_a_heading_of_the_base_is_told_at_its_own_place_before_the_text() -> None:
    texts = {"A": f"## 1 Pucyns `en´ verdure\n{BASE} [[forth]]", "B": HEADED + BASE}
    text = "".join(apparatus(opened(texts)[1], WIDE))
    assert text.endswith(
        "   heading      en] om. A*, corr. sup. lin. Aᶜ\n   w. 4         salt] foll. by forth canc. A\n"
    )


def test_where_the_base_has_no_heading_the_whole_is_told() -> None:
    told = printed({"A": "## 1\n" + BASE, "B": f"## 1 Pucyns `en´ verdure\n{BASE}"})
    assert told == ["(none)] Pucyns verdure B*, Pucyns en verdure sup. lin. Bᶜ"]


def test_a_hand_that_began_in_the_heading_is_not_told_again() -> None:
    assert printed({"A": HEADED + BASE, "B": f"## 1 @hand{{2}}Pucyns en verdure\n{BASE}"}) == [
        "Pucyns] from here B²"
    ]


def test_letters_that_cannot_be_read_are_points_in_what_is_struck_out_or_noted() -> None:
    typed = "put [[w+++]] sugre @margin{no[...]a} and sa[[+]]lt"
    assert printed({"A": BASE, "B": typed}) == [
        "sugre] prec. by w… canc. B; no…a marg. B",
        "salt] sa…lt B* (… canc.), corr. Bᶜ",
    ]
    _, found = opened({"A": BASE, "B": typed})
    assert [shown_aside(aside) for aside in next(iter(found.items)).collation.items[1].asides] == [
        "w…",
        "no…a",
        "…",
    ]
