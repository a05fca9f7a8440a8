"""Page marks: what is one, what is one mistyped, and what is a bar beside words."""

import pytest

from collate.errors import InputError
from tests.making import witness_text


@pytest.mark.parametrize(
    ("typed", "folio"),
    [("|f. 7r|", "7r"), ("|ff. 7 v b|", "7vb"), ("|f7|", "7"), ("| p. 123456 |", "p. 123456")],
)
def test_what_is_a_page_mark(typed: str, folio: str) -> None:
    assert witness_text(f"take {typed} ale").items[0].tokens[1].place.folio == folio


@pytest.mark.parametrize(
    "typed",
    [
        "|f. 7rc|",
        "|f. 7r-8v|",
        "|F. 7r|",
        "|folio 7|",
        "|fol. 7 verso|",
        "|p. [3]|",
        "|f. ij|",
        "|f. 7v and",
        "|f. 0000007r|",
        "|f.¹|",
        "|l. 1234567|",
        "|line 4|",
    ],
)
def test_what_is_one_mistyped(typed: str) -> None:
    with pytest.raises(InputError, match=r"page mark") as told:
        witness_text(f"take\nfiges {typed} ale")
    assert told.value.place
    assert (told.value.place.line, told.value.place.column) == (2, 7)


@pytest.mark.parametrize(
    "typed",
    [
        "| f. iij figes | ale",
        "| l. ij | ale",
        "| lib. 3 | ale",
        "| pears 3 | ale",
        "| figes and 3 | ale",
        "| p. of myce | ale",
        "| ff |",
        "| p 3 egges |",
        "| l. 3 egges",
        r"\|f. ij| ale",
    ],
)
def test_what_is_a_bar_beside_words(typed: str) -> None:
    assert [
        token.place.folio for token in witness_text(f"take {typed}").items[0].tokens if token.place.folio
    ] == []
