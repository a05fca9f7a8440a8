"""The reasons that variants give: plain English, and true of the words."""

from collate.model.apparatus import VariantKind, Weight
from tests.making import found


def reasons(base: str, other: str) -> list[tuple[VariantKind, Weight, str]]:
    """Return the kind, weight and reason of every variant of a second copy."""
    entries = found({"A": base, "B": other}).entries
    return [(each.kind, each.weight, each.reason) for entry in entries for each in entry.variants]


def test_a_verb_without_a_subject_is_said_to_have_none() -> None:
    told = reasons("pare hem and carf hem and salt it", "pare hem and kerue hem and salt it")
    assert "carf is a preterite, its subject left out" in told[0][2]
    assert "subject;" not in told[0][2]
    assert "  " not in told[0][2]


def test_one_form_spelled_otherwise_is_in_no_other_mood() -> None:
    """What a clause makes of a verb is a guess where the copies have one form of it (common practice)."""
    texts = {
        "A": "gode must and bo boile it with smoke",
        "B": "gode good must & boile it with smoke",
        "C": "must and boyle it with smoke",
    }
    told = [(v.kind, v.reading.text) for entry in found(texts).entries for v in entry.variants]
    assert (VariantKind.SPELLING, "boyle") in told


def test_one_word_in_another_class_is_a_spelling() -> None:
    ((kind, weight, _),) = reasons("hewe hem and kerue hem thynn", "hewe hem and kerue hem thynne")
    assert (kind, weight) == (VariantKind.SPELLING, Weight.ACCIDENTAL)


def test_two_words_for_one_number_are_a_matter_of_numerals() -> None:
    ((kind, weight, _),) = reasons("take two eyren and bete hem", "take tweyne eyren and bete hem")
    assert (kind, weight) == (VariantKind.NUMERAL, Weight.ACCIDENTAL)


def test_the_article_written_as_a_number_is_a_matter_of_numerals() -> None:
    ((kind, weight, _),) = reasons("take a pynte of ale and boyle it", "take j pynte of ale and boyle it")
    assert (kind, weight) == (VariantKind.NUMERAL, Weight.ACCIDENTAL)
