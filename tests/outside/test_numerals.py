"""Numerals: roman ones against the package `roman` (PyPI, M. Pilgrim and others), and the medieval forms that
handbooks list (A. Cappelli, Lexicon abbreviaturarum; EETS OS 91 p. 94 for vj^xx; common practice)."""

import pytest

from collate.lexicon.numerals import read_numeral, roman_value
from tests.making import witness_text

roman = pytest.importorskip("roman", reason="install the extra `test` for the package roman")


def test_every_number_up_to_4999_as_the_library_writes_it() -> None:
    for number in range(1, 5000):
        assert roman_value(roman.toRoman(number).lower()) == number
        if number > 10 and number != 501:  # .di. is dimidium, a half
            assert read_numeral(f".{roman.toRoman(number).lower()}.").value == number  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("written", "value"),
    [
        ("iiij", 4), ("viiij", 9), ("xxiiij", 24), ("vj^xx", 120), ("vjˣˣ", 120), ("iiijˣˣ", 80), ("CLV", 155),
        ("M¹", 1000), ("Mˡ", 1000), (".xij.", 12), ("·iij·", 3), (".uiij.", 8), ("xx^o", 20), ("vj^c", 600),
        ("mccccxxij", 1422), ("12", 12), ("½", 0.5), ("1/2", 0.5), ("xvijth", 17), ("iiijxx", 80),
    ],
)  # fmt: skip
def test_medieval_forms(written: str, value: float) -> None:
    found = read_numeral(written)
    assert found is not None
    assert found.value == value


@pytest.mark.parametrize(
    "written", ["mild", "did", "mi", "di", "li", "I", "i", "vill", "lith", "iiiix", "civil", "d", "il"]
)
def test_words_of_roman_letters_are_no_numbers(written: str) -> None:
    assert read_numeral(written) is None


def test_numbers_stand_in_the_text() -> None:
    tokens = witness_text("take .iij. or iiij ȝolkes and vj^xx galons and 12 .c. egges").items[0].tokens
    assert [token.value for token in tokens if token.value is not None] == [3, 4, 120, 12, 100]
