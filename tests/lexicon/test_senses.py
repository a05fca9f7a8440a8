"""A form in, what it may be out: derived forms, and forms of any length."""

import pytest

from collate.lexicon.judge import shipped_judge
from collate.lexicon.words import lexicon, senses
from collate.model.form import Form


@pytest.mark.parametrize("letter", ["y", "i", "x", "e", "a"])
def test_a_word_of_a_thousand_letters_is_only_a_word_nobody_knows(letter: str) -> None:
    long = letter * 1000
    assert senses(long, lexicon()) == ()
    assert not shipped_judge()(Form(long, long), Form("potte", "pot")).sure


def test_a_participle_has_one_prefix() -> None:
    (one,) = {sense.headword.name for sense in senses("yboyled", lexicon())}
    assert one == "boilen"
    assert senses("yyyboyled", lexicon()) == ()
