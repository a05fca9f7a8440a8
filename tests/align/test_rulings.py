"""The editor's word on which items are one: it stands, and bad rulings are told field by field."""

from dataclasses import replace
from pathlib import Path

import pytest

from collate import pipeline
from collate.errors import InputError
from collate.model.concordance import Certainty, Concordance
from collate.model.source import Source
from collate.settings import Settings
from tests.making import run

A = """## 1 Tart
Take figes and resouns and grynde hem smal in a morter and bake hem in a cofyn.
## 2 Pyke
Nym þe pyke and sethe hym in wyn and in ale til he be ynogh and serue hym forth.
## 3 Gely
Take þe feet of swyn and wasche hem clene and sethe hem in vinegre.
"""
B = """## 1 Pyke
Nym þe pyke and seþe hym in wyne and in ale tyl he be ynow and serue hym forþ.
## 2 Tart
Tak fygys and resounys and grynd hem smale in a mortere and bake hem in a cofyn.
## 3 Gely
Tak þe fete of swyn and wasch hem clene.
## 3b
And seþe hem in vynegre.
"""
WITNESSES = (
    'title = "T"\n[[witness]]\nsiglum = "A"\nfile = "A.txt"\n[[witness]]\nsiglum = "B"\nfile = "B.txt"\n'
)


def ruled(*rulings: str) -> Concordance:
    text = WITNESSES + "".join(f'[[match]]\nreason = "I say so"\n{ruling}\n' for ruling in rulings)
    edition = pipeline.edition(Source("edition.toml", text.encode()))
    edition, texts = pipeline.texts(
        edition, [Source("A.txt", A.encode()), Source("B.txt", B.encode())], Settings()
    )
    return pipeline.concordance(edition, texts)


def rows(found: Concordance) -> set[tuple[str, ...]]:
    return {
        tuple(member.item.label if member else "-" for member in map(match.member, found.sigla))
        for match in found.items
    }


def test_without_rulings_the_words_decide() -> None:
    assert rows(ruled()) == {("1", "2"), ("2", "1"), ("3", "3+3b")}


def test_a_ruling_stands_against_the_words() -> None:
    found = ruled('items = { A = "1", B = "1" }')
    assert ("1", "1") in rows(found)
    assert ("2", "1") not in rows(found)
    member = next(match for match in found.items if match.key == "1").member("B")
    assert member is not None
    assert (member.certainty, member.reason) == (Certainty.FIXED, "the editor: I say so")


def test_items_ruled_apart_are_not_matched() -> None:
    assert {("2", "-"), ("-", "1")} <= rows(ruled('items = { A = "2", B = "1" }\napart = true'))


def test_parts_may_be_ruled_one_or_apart() -> None:
    found = ruled('items = { A = 2, B = ["1", "3b"] }')
    member = next(match for match in found.items if match.key == "2").member("B")
    assert member is not None
    assert sorted(member.places) == [0, 3]
    assert ("3", "3") in rows(found)
    assert ("3", "3") in rows(ruled('items = { A = "3", B = "3b" }\napart = true'))


def test_a_ruling_names_numbers_in_any_notation() -> None:
    assert ("1", "1") in rows(ruled('items = { A = "j", B = "i" }'))


def test_rulings_that_contradict_one_another() -> None:
    with pytest.raises(InputError, match="parts A 1 and B 1, which the match of line 10 makes one") as told:
        ruled('items = { A = "1", B = "1" }', 'items = { A = "1", B = "1" }\napart = true')
    assert told.value.place is not None
    assert told.value.place.line == 13


@pytest.mark.parametrize(
    ("match", "line", "said"),
    [
        ('items = { A = "9", B = "1" }\nreason = "x"', 9, "there is no item '9' in A"),
        ('items = { A = "1", X = "1" }\nreason = "x"', 9, "there is no witness 'X': the sigla are A, B"),
        ('items = { A = "1" }\nreason = "x"', 9, "an item of two witnesses or more"),
        ('items = "1"\nreason = "x"', 9, "an item of two witnesses or more"),
        ('reason = "x"', 8, "an item of two witnesses or more"),
        ('items = { A = "1", B = "1" }', 8, "reason is missing"),
        ('items = { A = "1", B = "1" }\nreason = ""', 10, "reason is empty"),
        ('items = { A = true, B = "1" }\nreason = "x"', 9, "A should be the number or name of an item"),
        ('items = { A = [], B = "1" }\nreason = "x"', 9, "A should be the number or name of an item"),
        ('items = { A = "1", B = "1" }\nreason = "x"\napart = "yes"', 11, "apart is true or false"),
        ('item = { A = "1", B = "1" }\nreason = "x"', 9, "did you mean 'items'?"),
    ],
)
def test_a_bad_ruling_is_told_with_its_line(tmp_path: Path, match: str, line: int, said: str) -> None:
    (tmp_path / "A.txt").write_text(A, "utf-8")
    (tmp_path / "B.txt").write_text(B, "utf-8")
    (tmp_path / "edition.toml").write_text(f"{WITNESSES}[[match]]\n{match}\n", "utf-8")
    for command in ("concordance", "apparatus"):
        result = run(command, str(tmp_path))
        assert result.returncode == 2
        assert result.stdout == ""
        assert said in result.stderr
        assert f"edition.toml:{line}" in result.stderr
        assert "Traceback" not in result.stderr


def test_a_ruling_on_a_witness_left_out_is_passed_over() -> None:
    text = WITNESSES + '[[match]]\nitems = { A = "1", B = "1" }\nreason = "x"\n'
    edition = pipeline.edition(Source("edition.toml", text.encode()))
    edition, texts = pipeline.texts(
        edition, [Source("A.txt", A.encode()), Source("B.txt", B.encode())], Settings()
    )
    assert len(pipeline.concordance(replace(edition, base="B"), texts[1:]).items) == 4


KINDS = (
    "Take figges and boyle hem in wyn and do therto sugre.",
    "Sethe eles in ale with percely and saue it wel.",
    "Frye peres in buttur and cast theron canel.",
    "Make a paste of flour and eyren and bake it longe.",
    "Stewe pork in hony with greynes of parys.",
)


def recipes(*rows: tuple[int, ...]) -> str:
    """Return a book: each of its items holds the recipes of one row."""
    items = (" ".join(KINDS[kind - 1] for kind in row) for row in rows)
    return "".join(f"## {at}\n{words}\n" for at, words in enumerate(items, 1))


@pytest.mark.parametrize(
    ("ruling", "theirs", "keys"),
    [
        ('A = ["1", "3"], B = "2"', ((2,), (1, 3), (5,), (4,)), ["1+3", "B:3", "2", "4"]),
        ('A = ["2", "4"], B = "1"', ((2, 4), (3,), (5,)), ["1", "2+4", "3", "B:3"]),
        ('A = ["1", "4"], B = "1"', ((1, 4), (2,), (5,)), ["1+4", "2", "B:3", "3"]),
    ],
)
def test_items_ruled_one_stand_where_the_first_of_them_does(
    ruling: str, theirs: tuple[tuple[int, ...], ...], keys: list[str]
) -> None:
    text = f'{WITNESSES}[[match]]\nreason = "I say so"\nitems = {{ {ruling} }}\n'
    edition = pipeline.edition(Source("edition.toml", text.encode()))
    sources = [
        Source("A.txt", recipes((1,), (2,), (3,), (4,)).encode()),
        Source("B.txt", recipes(*theirs).encode()),
    ]
    edition, texts = pipeline.texts(edition, sources, Settings())
    assert [match.key for match in pipeline.concordance(edition, texts).items] == keys


def test_two_rulings_do_not_make_two_items_of_a_book_one_unless_one_says_so() -> None:
    with pytest.raises(InputError) as told:
        ruled('items = { A = "1", B = "1" }', 'items = { A = "1", B = "2" }')
    assert str(told.value.message) == (
        "with the match of line 10 this match makes B 1 and B 2 one: if they are, name both in one match,"
        ' B = ["1", "2"]'
    )
    assert told.value.place is not None
    assert (told.value.place.line, told.value.place.column) == (13, 1)
    found = ruled('items = { A = "3", B = ["1", "2"] }', 'items = { A = "3", B = "2" }')
    assert ("3", "1+2") in rows(found)


def test_a_ruling_names_an_item_once() -> None:
    with pytest.raises(InputError, match="this match names B j twice: name it once"):
        ruled('items = { A = "1", B = ["1", "j"] }')


def test_a_ruling_apart_says_what_makes_its_items_one() -> None:
    with pytest.raises(
        InputError, match="this match parts A 1 and B 1, which the match of line 10 makes one"
    ):
        ruled('items = { A = "1", B = "1" }', 'items = { A = "1", B = "1" }\napart = true')


def test_a_name_with_a_blank_is_told_where_it_ends() -> None:
    with pytest.raises(InputError, match="a name ends at the first blank, so perhaps 'my'"):
        ruled('items = { A = "1", B = "my tart" }')


def test_a_misspelt_key_is_told_once() -> None:
    with pytest.raises(InputError) as told:
        ruled('item = { A = "1", B = "1" }')
    assert str(told.value.message).count("items") == 1
