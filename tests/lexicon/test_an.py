"""*An* is the article or *and*: its neighbours tell."""

import pytest

from collate.lexicon.context import narrowed
from collate.lexicon.words import lexicon

AND, ARTICLE = "and (conjunction)", "a (determiner)"


@pytest.mark.parametrize(
    "text",
    ["take percely an myntes", "sugre an safroun", "god an trewe", "bete hem an salte hem", "clowys an mace"],
)
def test_between_two_like_words_it_may_be_and(text: str) -> None:
    words = text.split()
    assert AND in narrowed(words, words.index("an"), lexicon())


@pytest.mark.parametrize("text", ["whyte of an ey", "hit in an ouen", "hele it with an other dysch"])
def test_after_a_preposition_it_is_the_article(text: str) -> None:
    words = text.split()
    assert narrowed(words, words.index("an"), lexicon()) == (ARTICLE,)
