"""Tokens in, words out: what each may be in a clause, before its neighbours are asked."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from collate.analysis.tense_forms import (
    NO_READING,
    FormReading,
    Stands,
    after_thou,
    nameless,
    reading_of_form,
)
from collate.lexicon.rule_words import letter_pairs, rule_words
from collate.lexicon.verbs import ClauseWord
from collate.lexicon.words import Lexicon, Sense
from collate.model.witness import Token, TokenKind


class Role(StrEnum):
    """What a word does in its clause."""

    SUBJECT = "subject"
    OBJECT = "object"
    RELATIVE = "relative"
    DETERMINER = "determiner"
    PREPOSITION = "preposition"
    COORDINATOR = "coordinator"
    SUBORDINATOR = "subordinator"
    OPENER = "opener"
    ADVERB = "adverb"
    TO = "to"
    NOUN = "noun"
    ADJECTIVE = "adjective"
    VERB = "verb"
    PREFIX = "prefix"


@dataclass(frozen=True, slots=True)
class Hint:
    """What the other witnesses tell of a token: the verbs it may be, and whether it is surely one."""

    verbs: frozenset[str]
    surely: bool


Hints = Mapping[int, Hint]
"""For some tokens, by their place, what the other witnesses tell."""


@dataclass(slots=True, eq=False)
class Word:
    """A word of a clause; nothing is written into it but its role, once (a frozen one is too dear to make).

    `at` is its token; `closed` what it may be among the small words; `verbs` its senses as a verb;
    `parts` are what it may be of those verbs, `uses` the classes of verbs they belong to,
    `classes` those of all its senses; `names` and `verb_names` name the headwords of both.
    `start` is the place among the words of the first of its sentence; `form` all that the form may be.
    `breaks` says that a point stands before it, `opens` that a sentence begins with it, `capital` that
    it has one. `role` and `details` are set once its neighbours have been asked.
    """

    at: int
    text: str
    key: str
    senses: tuple[Sense, ...]
    kept: frozenset[str]
    verbs: tuple[Sense, ...]
    closed: tuple[ClauseWord, ...]
    breaks: bool
    opens: bool
    surely: bool = False
    role: Role = Role.NOUN
    details: frozenset[str] = frozenset()
    parts: frozenset[str] = frozenset()
    uses: frozenset[str] = frozenset()
    classes: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()
    verb_names: frozenset[str] = frozenset()
    start: int = 0
    form: FormReading = NO_READING
    capital: bool = False

    def may(self, *features: str) -> bool:
        """Say whether the word, as a verb, may be any of these parts."""
        return not self.parts.isdisjoint(features)

    def only(self, *features: str) -> bool:
        """Say whether the word is a verb, and none of its parts is another than these."""
        return bool(self.parts) and self.parts.issubset(features)

    def is_class(self, *classes: str) -> bool:
        """Say whether a sense of the word is of one of these classes."""
        return not self.classes.isdisjoint(classes)

    def nominal(self) -> bool:
        """Say whether the word may be a noun, a name, an adjective or a number, or is unknown."""
        return not self.senses or not self.classes.isdisjoint(_NOMINAL)

    def closed_as(self, role: Role) -> ClauseWord | None:
        """Return the small word of a role that the word may be."""
        for word in self.closed:
            if word.role == role:
                return word
        return None

    def named(self, *headwords: str) -> bool:
        """Say whether the word, as a verb, may be of one of these headwords."""
        return not self.verb_names.isdisjoint(headwords)

    def only_named(self, headword: str) -> bool:
        """Say whether the word, as a verb, is of this headword and no other."""
        return len(self.verb_names) == 1 and headword in self.verb_names


_NOMINAL = frozenset({"noun", "name", "adjective", "numeral"})
_TITLES = ("office", "person")

LONGEST = 400
"""How many words a sentence has at most: where nothing shows its end, no more are looked through."""

_NO_HINT = Hint(frozenset(), surely=False)


def read_words(tokens: Sequence[Token], lexicon: Lexicon, hints: Hints) -> tuple[Word, ...]:
    """Return the words among tokens, each with all that it may be."""
    found: list[Word] = []
    opened, breaks = 0, True
    before: Word | None = None
    pointed = any(token.kind is TokenKind.PUNCTUATION for token in tokens)
    for number, token in enumerate(tokens):
        if token.kind is not TokenKind.WORD and (token.kind is not TokenKind.NUMERAL or token.value is None):
            breaks = True
            continue
        hint = hints.get(number, _NO_HINT)
        capital = token.expanded[:1].isupper()
        reading = _reading_of(token, lexicon, hint, before, breaks=breaks, capital=capital)
        opens = before is None or (capital and _opens(reading, before, breaks=breaks, pointed=pointed))
        if opens or len(found) - opened == LONGEST:
            opens, opened = True, len(found)
        before = _word(token, number, reading, hint, opened, breaks=breaks, opens=opens, capital=capital)
        found.append(before)
        breaks = False
    return tuple(found)


def _reading_of(
    token: Token, lexicon: Lexicon, hint: Hint, before: Word | None, *, breaks: bool, capital: bool
) -> FormReading:
    """Return what a token may be: a name after *Dame*; a verb, if unknown and in -st, after *þou*."""
    stands = _stands(token, breaks=breaks, capital=capital and before is not None)
    reading = reading_of_form(token.expanded, lexicon, hint.verbs, stands)
    if before is None:
        return reading
    named = capital and not breaks and (before.key in rule_words("title") or "name" in before.classes)
    if named and reading.classes <= _ONLY_VERB:
        return nameless(reading.key)
    if not reading.verbs and reading.key.endswith("st") and before.key in rule_words("thou"):
        return after_thou(reading)
    return reading


_ONLY_VERB = frozenset({"verb"})


def _stands(token: Token, *, breaks: bool, capital: bool) -> Stands:
    """Say how a form stands; a `capital` counts only past the first word."""
    if token.language != "en":
        return "foreign"
    if token.kind is TokenKind.NUMERAL and token.expanded.casefold() not in rule_words("i-as-numeral"):
        return "foreign"
    if not capital:
        return "plain"
    return "capital" if breaks else "name"


def _opens(reading: FormReading, before: Word, *, breaks: bool, pointed: bool) -> bool:
    """Say whether a word with a capital begins a sentence: after a point, or as a command."""
    if "name" in reading.classes or before.key in rule_words("i"):
        return False
    title = any(s.headword.kind in _TITLES for s in before.senses)
    return breaks or (not pointed and not title and "imperative" in reading.parts)


def _word(
    token: Token,
    at: int,
    reading: FormReading,
    hint: Hint,
    start: int,
    *,
    breaks: bool,
    opens: bool,
    capital: bool,
) -> Word:
    return Word(
        at,
        token.expanded,
        reading.key,
        reading.senses,
        _kept(token.headwords, reading),
        reading.verbs,
        reading.closed,
        breaks,
        opens,
        hint.surely and bool(reading.verbs),
        Role.NOUN,
        _NO_DETAILS,
        reading.parts,
        reading.uses,
        reading.classes,
        reading.names,
        reading.verb_names,
        start,
        reading,
        capital,
    )


_NO_DETAILS = frozenset[str]()


@lru_cache(maxsize=16384)
def _kept(headwords: tuple[str, ...], reading: FormReading) -> frozenset[str]:
    """Return the headwords that context has left a token: all, where it says nothing of its senses."""
    kept = frozenset(headwords)
    if kept and reading.key[:1] not in letter_pairs("voiced"):
        return kept
    own = frozenset(sense.headword.identity for sense in reading.senses)
    return kept if kept and not kept.isdisjoint(own) else own or kept
