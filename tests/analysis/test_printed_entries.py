"""What an editor would strike out of an apparatus: one deed told twice, silence told, a guess as a fact."""

import re

import pytest

from collate.model.apparatus import VariantKind
from collate.reports.text import item as page
from collate.settings import Printing
from tests.making import all_found, found, substantives


def printed(texts: dict[str, str]) -> str:
    findings = all_found(texts)
    return "".join(page(item, findings.edition, Printing()) for item in findings.items)


def test_and_between_inverted_words_is_not_told_apart() -> None:
    """Common practice: an inverted pair is one variant."""
    item = found(
        {
            "A": "cast þeron sugre and salt and serue it forth",
            "B": "cast þeron salt and sugre and serue it forth",
            "C": "cast þeron sugre and salt and put þerto safron and serue it forth",
        }
    )
    kinds = [kind for _, _, sigla, kind in substantives(item) if "B" in sigla]
    assert kinds == ["transposition"]


def test_an_added_number_goes_with_the_words_added_about_it() -> None:
    page = printed(
        {
            "A": "lete it worche .iij. dayes whan it is clere",
            "B": "lete it worche .iij. dayes and couere whan it is clere",
            "C": "lete it worche .iij. dayes and thre nyghtis whan it is clere",
            "D": "lete it worche .iij. dayes and 3 nyghtes whan it is clere",
        }
    )
    assert "and thre nyghtis CD" in page
    assert " 3 " not in page


SKIN = "boyle it wel and serue it"
AND = "and serue it"


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ([SKIN, f"boyle it wel [...] {AND}"], ["wel] foll. by lac. B"]),
        ([SKIN, f"boyle it wel [.3.] {AND}"], ["wel] foll. by lac. B"]),
        ([SKIN, f"boyle it wel / [...] . [...] {AND}"], ["wel] foll. by lac. B"]),
        ([SKIN, f"[...] {SKIN}", f"{SKIN} [...]\n[...]"], ["boyle] prec. by lac. B", "it] foll. by lac. C"]),
        (
            [SKIN, f"boyle it wel [...] {AND}", "boyle it [...] serue it"],
            ["wel and] def. C", "wel] foll. by lac. B"],
        ),
        ([SKIN, "boyle it [...] serue it", "boyle it [...]\n[...] serue it"], ["wel and] def. BC"]),
        ([SKIN, "boyle it [...] . [...] serue it"], ["wel and] def. B"]),
        (
            [SKIN, f"boyle it hote wel {AND}", "boyle it [...] serue it"],
            ["wel and] def. C", "it] add. hote B"],
        ),
        (
            [f"boyle it {AND}", f"boyle it hote {AND}", f"boyle it [...] {AND}", f"boyle it [...] {AND}"],
            ["it] add. hote B; foll. by lac. CD"],
        ),
        (
            [SKIN, f"boyle it wel [...] {AND}", "boyle it serue it"],
            ["wel and] om. C", "wel] foll. by lac. B"],
        ),
    ],
)
def test_a_loss_is_told_of_the_words_lost_or_of_the_word_beside_it(texts: list[str], said: list[str]) -> None:
    """Common practice: a reader must learn where a copy is damaged, and of no word that it lost one it has."""
    assert substantive_lines(dict(zip("ABCD", texts, strict=False))) == said


def substantive_lines(texts: dict[str, str]) -> list[str]:
    part = printed(texts).split("   Substantive\n")[1].split("   Accidental")[0]
    return [re.sub(r"^(?:w\. \d+ +)?", "", line.strip()) for line in part.strip().splitlines()]


@pytest.mark.parametrize(
    ("one", "other", "fits"),
    [
        ("thikke", "t[.5.]", True),
        ("potte", "p[...]", True),
        ("in", "i[.1.]", True),
        ("in", "[.1.]n", True),
        ("fi[.3.]", "[...]ges", True),
        ("fygys", "f[..][.2.]s", True),
        ("vergeous", "ver+++s", True),
        ("xij", "x[.2.]", True),
        ("to", "t[.5.]", False),
        ("thikke", "t[.1.]", False),
        ("fi[.3.]", "po[...]ges", False),
        ("in", "[.1.]t", False),
    ],
)
def test_a_word_that_lacks_letters_is_another_word_only_if_those_left_do_not_fit(
    one: str, other: str, fits: bool
) -> None:
    item = found({"A": f"take a {one} of frute", "B": f"take a {other} of frute"})
    assert [kind for *_, kind in substantives(item)] == ([] if fits else ["substitution"])


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ([". / . / :", "/ . :"], ["‘.’¹] om. B", "‘/’²] om. B"]),
        (["Take . / . : ale", "Take / . : ale"], ["‘.’¹] om. B"]),
        (["Take . / ale", "Take / ale"], ["‘.’] om. B"]),
        (["Take . ale", "Take / ale"], ["‘.’] ‘/’ B"]),
        (["Take / ale", "Take . / ale", "Take / : ale"], ["Take] add. ‘.’ B", "Take] add. ‘:’ C"]),
    ],
)
def test_like_points_stand_side_by_side_and_equal_ones_are_numbered(
    texts: list[str], said: list[str]
) -> None:
    page = printed(dict(zip("ABC", texts, strict=False))).split("   Accidental\n")[1]
    assert [re.sub(r"^w\. \d+ +", "", line.strip()) for line in page.strip().splitlines()] == said


def test_a_word_that_lacks_letters_is_no_other_word() -> None:
    (row,) = (
        variant
        for entry in found({"A": "do vergeous þerto", "B": "do ver+++s þerto"}).accidental
        for variant in entry.variants
    )
    assert (row.kind, row.reading.text) == (VariantKind.SPELLING, "ver…s")
    (other,) = substantives(found({"A": "do vergeous þerto", "B": "do vyn+++e þerto"}))
    assert other[3] == "substitution"


def test_doubled_words_are_named() -> None:
    assert "lat hit B (dittography)" in printed({"A": "lat hit boyle", "B": "lat hit lat hit boyle"})


def test_equal_points_of_one_line_are_numbered_and_words_with_a_number_are_not() -> None:
    page = printed({"A": "take ale . and hem . and hem .", "B": "take ale and them . and hem ."})
    assert "hem]" in page
    assert "hem¹" not in page
    lined = printed({"A": "|l. 1| take ale . and hem . and wyn", "B": "take ale and hem . and wyn"})
    assert "‘.’¹] om. B" in lined
