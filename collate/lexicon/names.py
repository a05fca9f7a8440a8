"""Names of persons: a word of a passage in, whether and whose name it may be out."""

import re
from functools import cache

from collate.lexicon.lives import kings
from collate.lexicon.patterns import Word, keys_of, latin_key
from collate.lexicon.tables import table
from collate.lexicon.words import lexicon, senses
from collate.model.evidence import Life

_CASES = re.compile(r"(?:us|um|em|is|i|o|e|a|am|es|ys)$")


def stem(form: str) -> str:
    """Return a name without the ending of a Latin case, in letters that Latin does not tell apart."""
    return _CASES.sub("", latin_key(form))


def is_forename(word: Word) -> bool:
    """Say whether the lexicon has a word as a name."""
    return any(sense.headword.word_class == "name" for sense in senses(word.text, lexicon()))


def is_story_name(word: Word) -> bool:
    """Say whether a word names somebody of story."""
    return bool(word.keys & _story()) and word.capital


@cache
def _story() -> frozenset[str]:
    rows = table("story_names", "names", "authority")
    return frozenset().union(*(keys_of(names) for names, _ in rows))


def king_name(word: Word) -> tuple[Life, ...]:
    """Return the kings of England who bore a name; () if none did."""
    return next((lives for keys, lives in _king_names() if keys & word.keys), ())


@cache
def _king_names() -> tuple[tuple[frozenset[str], tuple[Life, ...]], ...]:
    rows = table("king_forenames", "name", "words", "authority")
    return tuple(
        (keys_of(words), tuple(life for life in kings().values() if life.name.split()[0] == name))
        for name, words, _ in rows
    )
