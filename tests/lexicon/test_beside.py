"""Two words beside one another: which senses name them, and when two headwords are one word or number."""

import pytest

from collate.lexicon.judge import shipped_judge
from collate.lexicon.spelling import normalise
from collate.lexicon.words import lexicon, senses
from collate.model.form import Form, Judgement, Relation
from collate.model.witness import TokenKind


def form(word: str, *headwords: str) -> Form:
    """Return a form as a token has it; in context where headwords are named."""
    return Form(word, normalise(word, lexicon().rules), headwords=headwords)


def judged(one: str, other: str) -> Judgement:
    """Judge two words at large."""
    return shipped_judge()(form(one), form(other))


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("salt", "salt (noun)"),
        ("wyn", "wyn (noun)"),
        ("rys", "rys (noun)"),
        ("pese", "pese (noun)"),
        ("white", "whyt (adjective)"),
        ("clere", "cler (adjective)"),
        ("rede", "reed (adjective)"),
        ("hennes", "hen (noun)"),
        ("erthe", "erthe (noun)"),
        ("leye", "leggen (verb)"),
        ("hewe", "hewen (verb)"),
        ("ther", "ther (adverb)"),
    ],
)
def test_the_first_sense_is_the_one_a_cook_expects(word: str, expected: str) -> None:
    assert senses(word, lexicon())[0].headword.identity == expected


@pytest.mark.parametrize(
    ("one", "other", "named"),
    [
        ("salt", "sugre", ("salt ‘salt’", "sugre ‘sugar’")),
        ("wyn", "water", ("wyn ‘wine’",)),
        ("hennes", "capouns", ("hen ‘hen’",)),
        ("rede", "grene", ("reed ‘red’",)),
        ("rede", "wryte", ("reden ‘read",)),
        ("salt", "pepre", ("salt ‘salt’",)),
        ("salt", "take", ("salten ‘salt’",)),
        ("god", "oure", ("our ‘our’",)),
    ],
)
def test_unlike_words_are_named_by_senses_of_one_class(one: str, other: str, named: tuple[str, ...]) -> None:
    found = judged(one, other)
    assert found.relation is Relation.DIFFERENT
    assert all(each in found.reason for each in named), found.reason


@pytest.mark.parametrize(
    ("one", "other"), [("two", "tweyne"), ("twey", "two"), ("twelve", "dosen"), ("two", "tweie")]
)
def test_two_words_for_one_number_are_no_other_words(one: str, other: str) -> None:
    found = judged(one, other)
    assert found.relation is Relation.SPELLING
    assert "one number" in found.reason


def test_an_ordinal_is_no_cardinal_and_numbers_are_told_by_value() -> None:
    assert judged("two", "secounde").relation is Relation.DIFFERENT
    assert judged("eighte", "sixe").reason == "two numbers, 6 and 8"


def test_a_numeral_one_is_the_article() -> None:
    one = Form(".j.", "1", TokenKind.NUMERAL, value=1)
    two = Form(".ij.", "2", TokenKind.NUMERAL, value=2)
    assert shipped_judge()(one, form("a")).relation is Relation.SPELLING
    assert shipped_judge()(two, form("a")).relation is Relation.DIFFERENT


def test_adverb_and_adjective_of_one_name_are_one_word() -> None:
    adverb = form("thynne", "thinne (adverb)")
    assert shipped_judge()(adverb, form("thynn", "thinne (adjective)")).relation is Relation.SPELLING
    assert judged("met", "note").relation is Relation.DIFFERENT


def test_a_noun_ends_in_its_own_letters() -> None:
    assert judged("rys", "ryce").relation is Relation.SPELLING


def test_parts_are_named_in_plain_words() -> None:
    assert judged("hewe", "heweth").reason.endswith(
        "hewe (infinitive, imperative, present or past participle) and "
        "heweth (imperative plural, present third person or present plural)"
    )
