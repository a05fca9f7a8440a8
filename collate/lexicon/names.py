"""Names of persons: a word of a passage in, whether and whose name it may be out."""

from functools import cache, lru_cache

from collate.lexicon.lives import kings
from collate.lexicon.patterns import Word, keys_of, latin_key
from collate.lexicon.rule_words import rule_endings
from collate.lexicon.tables import table
from collate.lexicon.words import key_of, lexicon, senses
from collate.model.evidence import Life


def stem(form: str) -> str:
    """Return a name without the ending of a Latin case, in letters that Latin does not tell apart."""
    key = latin_key(form)
    ending = next((case for case in rule_endings("latin-case") if key.endswith(case)), "")
    return key.removesuffix(ending)


def is_forename(word: Word) -> bool:
    """Say whether a word is known as a forename, or the lexicon has it as a name."""
    return bool(forenames(word.text)) or any(
        sense.headword.word_class == "name" for sense in senses(word.text, lexicon())
    )


@lru_cache(maxsize=4096)
def forenames(form: str) -> frozenset[str]:
    """Return the forenames that a form is, in English, Latin or French: William for *Willelmi*."""
    wanted = stem(form)
    return frozenset(name for name, stems in _forenames() if wanted in stems)


@cache
def _forenames() -> tuple[tuple[str, frozenset[str]], ...]:
    rows = table("forenames", "name", "words", "authority")
    return tuple((name, frozenset(stem(form) for form in words.split("|"))) for name, words, _ in rows)


def is_latin_place(word: Word) -> bool:
    """Say whether a word is a Latin adjective of a place: *Norwicensis*."""
    return word.foreign and key_of(word.text).endswith(rule_endings("latin-place"))


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
