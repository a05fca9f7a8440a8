"""What an editor would strike out of an apparatus: one deed told twice, silence told, a guess as a fact."""

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


def test_a_loss_beside_no_word_of_the_base_is_not_told() -> None:
    assert "def." not in printed({"A": "serue it forth .", "B": "serue it forth [...]\n[...]"})


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
