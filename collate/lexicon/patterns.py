"""Patterns of words that may be spelled in any way: a pattern and the words of a passage in, matches out.

A pattern is a row of elements between blanks. An element is one word or several between bars, each
either letters (`late`, of any spelling that has the same key or normal form) or `~headword`, any form
of a headword; `~headword+feature` only such a part of it. `@slot` is a row of the slots' table, or
`@office` a word of the offices' table, `@cap` a word with a capital. A `?` after an element makes it
optional; `<3>` passes over up to three words; `la:comes` is `comes` where it is no English word.
Punctuation is never counted.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from collate.lexicon.languages import ENGLISH
from collate.lexicon.spelling import fold, normalise, rules_in_force
from collate.lexicon.tables import table
from collate.lexicon.words import key_of, lexicon, senses
from collate.model.witness import Token, TokenKind


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a passage as patterns see it; `at` is its place among the passage's tokens.

    `foreign` says that it is, or may be, no English word.
    """

    at: int
    text: str
    keys: frozenset[str]
    capital: bool
    foreign: bool = False


@dataclass(frozen=True, slots=True)
class Element:
    """One element: any word with one of these keys, or a gap of up to `gap` words."""

    keys: frozenset[str] = frozenset()
    optional: bool = False
    gap: int = 0


@dataclass(frozen=True, slots=True)
class Match:
    """Words [start, stop) of the passage that answer a pattern."""

    start: int
    stop: int


CAPITAL = "@cap"
LATIN = "la"

_FOREIGN = "la:"


def words_of(tokens: Sequence[Token]) -> tuple[Word, ...]:
    """Return the words and numerals of a passage."""
    kinds = (TokenKind.WORD, TokenKind.NUMERAL)
    return tuple(_word(token, at) for at, token in enumerate(tokens) if token.kind in kinds)


def _word(token: Token, at: int) -> Word:
    written = word_of(_skeleton(token.written))
    word = word_of(token.expanded, at, foreign=token.language != ENGLISH)
    own = frozenset(f"~{name.rpartition(' (')[0]}" for name in token.headwords)
    return replace(word, keys=word.keys | written.keys | own)


def word_of(form: str, at: int = 0, *, foreign: bool = False) -> Word:
    """Return a form as patterns see it; one the lexicon lacks may be of any language."""
    capital = form[:1].isupper()
    foreign = foreign or not senses(form, lexicon())
    more = {latin_key(form)} if foreign else set()
    return Word(at, form, _keys(form) | more | ({CAPITAL} if capital else set()), capital, foreign)


def _skeleton(written: str) -> str:
    """Return a word as written, without the editor's marks about it."""
    return re.sub(r"\|[^|]*\||@\w+(?::\w+)?|[\[\](){}<>`´¬\s]", "", written) or written


@lru_cache(maxsize=65536)
def _keys(form: str) -> frozenset[str]:
    """Return what a form may be matched by: its letters, its headwords, the parts of these."""
    found = {key_of(form), normalise(form, rules_in_force())}
    for sense in senses(form, lexicon()):
        found.add(f"~{sense.headword.name}")
        found.update(f"~{sense.headword.name}+{part}" for part in _parts(sense.features))
    return frozenset(found - {""})


def _parts(features: Sequence[str]) -> Iterator[str]:
    """Yield the parts a form may be; every person and number of a tense is that tense."""
    for feature in features:
        yield feature
        tense, _, person = feature.partition("-")
        if person in ("3s", "plural", "2s") and tense in ("present", "preterite"):
            yield tense


@lru_cache(maxsize=65536)
def latin_key(form: str) -> str:
    """Return a Latin form with the alternations of medieval spelling taken away."""
    key = fold(form)
    for pattern, replacement in _latin_rules():
        key = pattern.sub(replacement, key)
    return f"{_FOREIGN}{key}"


@cache
def _latin_rules() -> tuple[tuple[re.Pattern[str], str], ...]:
    rows = table("latin_rules", "pattern", "replacement", "says", "authority")
    return tuple((re.compile(pattern), replacement) for pattern, replacement, _, _ in rows)


@cache
def slots() -> dict[str, frozenset[str]]:
    """Return the keys of each slot that a pattern may name."""
    found = {slot: keys_of(words) for slot, words, _ in table("formula_slots", "slot", "words", "authority")}
    rows = table("offices", "office", "kind", "words", "authority")
    offices = (keys_of(words) for _, kind, words, _ in rows if kind not in ("title", "saint"))
    found["office"] = frozenset().union(*offices)
    return found


def keys_of(words: str) -> frozenset[str]:
    """Return the keys of the words of a table's cell."""
    return frozenset().union(*(_literal(word, LATIN) for word in re.split(r"[ |]", words)))


def _literal(word: str, language: str = ENGLISH) -> frozenset[str]:
    """Return the keys of one word of a pattern: a form's letters, or a headword."""
    if word.startswith("~"):
        return frozenset({word})
    if word.startswith(_FOREIGN):
        return frozenset({latin_key(word.removeprefix(_FOREIGN))})
    letters = {key_of(word), normalise(word, rules_in_force())}
    return frozenset(letters if language == ENGLISH else {*letters, latin_key(word)})


@lru_cache(maxsize=4096)
def compiled(pattern: str, language: str) -> tuple[Element, ...]:
    """Return the elements of a pattern; words that are not English are matched more loosely."""
    return tuple(_element(part, language) for part in pattern.split(" "))


def _element(part: str, language: str) -> Element:
    if gap := re.fullmatch(r"<(\d+)>", part):
        return Element(gap=int(gap[1]))
    bare = part.removesuffix("?")
    keys: set[str] = set()
    for word in bare.split("|"):
        slot = word.removeprefix("@")
        if word == CAPITAL:
            keys.add(CAPITAL)
        else:
            keys |= slots()[slot] if word.startswith("@") else _literal(word, language)
    return Element(frozenset(keys), part.endswith("?"))


def matches(pattern: str, language: str, words: Sequence[Word]) -> Iterator[Match]:
    """Yield the matches of a pattern, the shortest from each word on."""
    elements = compiled(pattern, language)
    for start in range(len(words)):
        if not elements[0].optional and not elements[0].gap and not (elements[0].keys & words[start].keys):
            continue
        stop = _stop(elements, words, start)
        if stop is not None and stop > start:
            yield Match(start, stop)


def _stop(elements: Sequence[Element], words: Sequence[Word], at: int) -> int | None:
    """Return where a match from `at` ends, or None if there is none."""
    if not elements:
        return at
    first, rest = elements[0], elements[1:]
    if first.gap:
        ends = range(at, min(at + first.gap, len(words)) + 1)
        return next((stop for end in ends if (stop := _stop(rest, words, end)) is not None), None)
    if at < len(words) and first.keys & words[at].keys:
        found = _stop(rest, words, at + 1)
        if found is not None:
            return found
    return _stop(rest, words, at) if first.optional else None


def is_slot(word: Word, slot: str) -> bool:
    """Say whether a word is one of a slot's."""
    return bool(slots()[slot] & word.keys)
