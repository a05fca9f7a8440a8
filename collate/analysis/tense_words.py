"""Tokens in, words out: what each may be in a clause, before its neighbours are asked."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from collate.lexicon.spelling import normalise, rules_in_force
from collate.lexicon.verbs import ClauseWord, clause_words, verb_classes, verb_forms
from collate.lexicon.words import Headword, Lexicon, Sense, key_of, senses
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


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a clause.

    `at` is its token; `closed` what it may be among the small words; `verbs` its senses as a verb;
    `parts` are what it may be of those verbs, `uses` the classes of verbs they belong to,
    `classes` those of all its senses.
    `breaks` says that a point stands before it, `opens` that a sentence begins with it. `role` and
    `details` are set once its neighbours have been asked.
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

    def in_role(self, role: Role, details: frozenset[str]) -> "Word":
        """Return the word with its role (faster than `replace`, which every word of a text would pay)."""
        return Word(
            self.at,
            self.text,
            self.key,
            self.senses,
            self.kept,
            self.verbs,
            self.closed,
            self.breaks,
            self.opens,
            self.surely,
            role,
            details,
            self.parts,
            self.uses,
            self.classes,
        )

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
        return not self.senses or self.is_class("noun", "name", "adjective", "numeral")

    def closed_as(self, role: Role) -> ClauseWord | None:
        """Return the small word of a role that the word may be."""
        for word in self.closed:
            if word.role == role:
                return word
        return None

    def named(self, *headwords: str) -> bool:
        """Say whether the word, as a verb, may be of one of these headwords."""
        return any(sense.headword.name in headwords for sense in self.verbs)

    def only_named(self, headword: str) -> bool:
        """Say whether the word, as a verb, is of this headword and no other."""
        return bool(self.verbs) and all(sense.headword.name == headword for sense in self.verbs)


_THOU = ("thou", "thow", "thu")
ENCLITIC = ("stow", "stou", "rtow", "rtou", "ltow", "ltou")
"""Endings of keys of verbs that have *þou* written on: *wepestow*, *artow*, *wiltow*."""
_TITLED = ("dame", "dan", "daun", "sir", "sire", "maister", "master", "frere", "seint", "saint")
"""Keys of titles after which a word with a capital is a name: *Dame Auice*."""
_TITLES = ("office", "person")
_CLASS_ROLES = {
    "preposition": Role.PREPOSITION,
    "conjunction": Role.SUBORDINATOR,
    "determiner": Role.DETERMINER,
    "particle": Role.ADVERB,
    "adverb": Role.ADVERB,
    "interjection": Role.ADVERB,
}


@dataclass(frozen=True, slots=True)
class _Reading:
    """What a form may be wherever it stands: its senses, its senses as a verb, its small words."""

    key: str
    senses: tuple[Sense, ...]
    verbs: tuple[Sense, ...]
    closed: tuple[ClauseWord, ...]
    parts: frozenset[str]
    uses: frozenset[str]
    classes: frozenset[str]


LONGEST = 400
"""How many words a sentence has at most: where nothing shows its end, no more are looked through."""

_NO_HINT = Hint(frozenset(), surely=False)


def read_words(tokens: Sequence[Token], lexicon: Lexicon, hints: Hints) -> tuple[Word, ...]:
    """Return the words among tokens, each with all that it may be."""
    found: list[Word] = []
    opened, breaks = 0, True
    pointed = any(token.kind is TokenKind.PUNCTUATION for token in tokens)
    for number, token in enumerate(tokens):
        if token.kind is TokenKind.WORD or (token.kind is TokenKind.NUMERAL and token.value is not None):
            hint = hints.get(number, _NO_HINT)
            reading = _reading_of(token, lexicon, hint, breaks=breaks, before=found[-1] if found else None)
            opens = not found or _opens(token.expanded, reading, found[-1], breaks=breaks, pointed=pointed)
            if opens or len(found) - opened == LONGEST:
                opens, opened = True, len(found)
            found.append(_word(token, number, reading, hint, breaks=breaks, opens=opens))
            breaks = False
        else:
            breaks = True
    return tuple(found)


def _reading_of(token: Token, lexicon: Lexicon, hint: Hint, *, breaks: bool, before: Word | None) -> _Reading:
    """Return what a token may be; an unknown form in -st after *þou* is a verb."""
    numeral = token.kind is TokenKind.NUMERAL and token.expanded.casefold() not in ("i", "y")
    foreign = numeral or token.language != "en"
    capital = token.expanded[:1].isupper()
    guess = not foreign and not (capital and before is not None)
    reading = _reading(
        token.expanded, lexicon, hint.verbs, foreign=foreign, name=capital and not breaks, guess=guess
    )
    named = before is not None and not breaks and (before.key in _TITLED or before.is_class("name"))
    if capital and named and all(sense.headword.word_class == "verb" for sense in reading.senses):
        return _Reading(reading.key, (), (), (), frozenset(), frozenset(), frozenset())
    if not reading.verbs and before is not None and before.key in _THOU and reading.key.endswith("st"):
        return _with_verbs(reading, _unlisted(reading.key))
    return reading


def _opens(text: str, reading: _Reading, before: Word, *, breaks: bool, pointed: bool) -> bool:
    """Say whether a word begins a sentence: a capital after a point, or of a command."""
    if not text[:1].isupper() or any(sense.headword.word_class == "name" for sense in reading.senses):
        return False
    if before.key in ("i", "ich"):
        return False
    title = any(s.headword.kind in _TITLES for s in before.senses)
    return breaks or (not pointed and not title and "imperative" in reading.parts)


def _word(token: Token, at: int, reading: _Reading, hint: Hint, *, breaks: bool, opens: bool) -> Word:
    return Word(
        at,
        token.expanded,
        reading.key,
        reading.senses,
        _kept(token, reading),
        reading.verbs,
        reading.closed,
        breaks,
        opens,
        surely=hint.surely and bool(reading.verbs),
        parts=reading.parts,
        uses=reading.uses,
        classes=reading.classes,
    )


@lru_cache(maxsize=16384)
def further_verbs(key: str, lexicon: Lexicon) -> tuple[Sense, ...]:
    """Return the verbs that a form may be though it is listed as another word: *delis*, *strawes*, *vel*."""
    if key[:1] in _VOICED:
        other = senses(_VOICED[key[0]] + key[1:], lexicon)
        return tuple(sense for sense in other if sense.headword.word_class == "verb")
    if len(key) < 5 or not key.endswith(("es", "is", "eth", "ith")):
        return ()
    stem = key[:-2] if key[-1] == "s" else key[:-3]
    found = {
        sense.headword: replace(sense, features=("present-3s", "present-plural"), rule="-es")
        for form in (stem, f"{stem}e", f"{stem}en")
        for sense in senses(form, lexicon)
        if sense.headword.word_class == "verb" and "infinitive" in sense.features
    }
    return tuple(found.values())


def _kept(token: Token, reading: _Reading) -> frozenset[str]:
    """Return the headwords that context has left a token: all, where it says nothing of its senses."""
    kept = frozenset(token.headwords)
    if kept and reading.key[:1] not in _VOICED:
        return kept
    own = frozenset(sense.headword.identity for sense in reading.senses)
    return kept if kept and not kept.isdisjoint(own) else own or kept


@lru_cache(maxsize=16384)
def _reading(
    text: str, lexicon: Lexicon, hinted: frozenset[str], *, foreign: bool, name: bool, guess: bool
) -> _Reading:
    """Return what a form may be; a `name` has no derived senses; an unknown one may be guessed."""
    key = key_of(text)
    found = () if foreign else voiced(key, senses(text.casefold(), lexicon), lexicon)
    if name and found and all(sense.rule for sense in found):
        found = ()
    if not found and not foreign and key.endswith("est"):
        found = _addressed(key, lexicon)
    if not found and not foreign and key.endswith(ENCLITIC):
        found = tuple(s for s in senses(key[: -len("ow")], lexicon) if s.headword.word_class == "verb")
    if key[-2:] in ("in", "un") and all(sense.rule for sense in found) and not foreign:
        found = senses(f"{key[:-2]}en", lexicon) or found
    verbs = tuple(sense for sense in found if sense.headword.word_class == "verb")
    if hinted:
        several = (*verbs, *further_verbs(key, lexicon))
        verbs = tuple(s for s in several if s.headword.identity in hinted) or verbs
    if not found and guess:
        verbs = _unlisted(key)
    verbs = tuple(_late(_second(sense, key, lexicon), key, lexicon) for sense in verbs)
    if key in verb_forms("present"):
        verbs = tuple(replace(s, features=tuple(f for f in s.features if f not in _PAST)) for s in verbs)
    classes = frozenset(sense.headword.word_class for sense in found)
    bare = _Reading(key, found, (), _closed(found), frozenset(), frozenset(), classes)
    return _with_verbs(bare, verbs) if verbs else bare


_VOICED = {"u": "f", "z": "s"}
"""The letters with which southern copies write f and s at the head of a word: *uor*, *zelle*."""


def voiced(key: str, found: tuple[Sense, ...], lexicon: Lexicon) -> tuple[Sense, ...]:
    """Return the senses of a form that no table has with f or s for the v or z at its head: *zuete*."""
    if key[:1] not in _VOICED or any(not sense.rule for sense in found):
        return found
    if key[0] == "u" and key[1:2] not in "aeioulr":
        return found
    other = senses(_VOICED[key[0]] + key[1:], lexicon)
    return other if other and (not found or any(not sense.rule for sense in other)) else found


def _with_verbs(reading: _Reading, verbs: tuple[Sense, ...]) -> _Reading:
    """Return a reading with its senses as a verb, and what they make it."""
    parts = frozenset(feature for sense in verbs for feature in sense.features)
    told = verb_classes()
    uses = frozenset(kind for sense in verbs for kind in told.get(sense.headword.name, ()))
    return replace(reading, verbs=verbs, parts=parts, uses=uses)


LATE_PARTICIPLE = "late-participle"
"""The part of a weak preterite with a final -e that late copies write for the participle: *was kepte*."""


_PAST = ("preterite", "preterite-plural")
_STRONG = frozenset({"past-participle", "preterite-plural"})


def _late(sense: Sense, key: str, lexicon: Lexicon) -> Sense:
    """Add to a form in -e what it may be beside: the participle of a weak verb, or a plural that lost its -n.

    A strong form in -en is an infinitive too where the form in -e is one: *forsaken*. A preterite is also
    a participle where the form without -e is one; a participle also a preterite plural where the form
    with -n is one (*songe*, *songen*).
    """
    if key[-2:] in ("in", "un"):
        sense = _as_in_en(sense, key, lexicon)
    if key[-2:] in ("en", "in") and _STRONG.issuperset(sense.features):
        shorter = [s for s in senses(f"{key[:-2]}e", lexicon) if s.headword == sense.headword]
        past = any("preterite" in s.features for s in shorter)
        base = not past and any("infinitive" in s.features for s in shorter)
        return replace(sense, features=(*sense.features, "infinitive", "present-plural")) if base else sense
    if sense.features == ("past-participle",) and key[-1:] == "e":
        whole = senses(f"{key}n", lexicon)
        many = any(s.headword == sense.headword and "preterite-plural" in s.features for s in whole)
        return replace(sense, features=("preterite-plural", *sense.features)) if many else sense
    if "preterite" not in sense.features or "past-participle" in sense.features or key[-1:] != "e":
        return sense
    bare = senses(key[:-1], lexicon)
    same = any(s.headword == sense.headword and "past-participle" in s.features for s in bare)
    return replace(sense, features=(*sense.features, LATE_PARTICIPLE)) if same else sense


def _as_in_en(sense: Sense, key: str, lexicon: Lexicon) -> Sense:
    """Read a form in -yn or -un as the strong form that it may be in -en too: *rysyn*, *risen*."""
    same = [s for s in senses(f"{key[:-2]}en", lexicon) if s.headword == sense.headword]
    more = sorted(part for part in _STRONG if any(part in s.features for s in same))
    return replace(sense, features=tuple(dict.fromkeys((*sense.features, *more))))


def _second(sense: Sense, key: str, lexicon: Lexicon) -> Sense:
    """Read a form in -st as the second person of a weak preterite where it is one: *redde*, *reddest*."""
    if sense.features != ("present",) or not sense.rule or key[-3:] != "est":
        return sense
    same = [s for s in senses(key[:-2], lexicon) if s.headword == sense.headword]
    past = any("preterite" in s.features for s in same)
    present = any(f in s.features for s in same for f in ("present", "infinitive"))
    return replace(sense, features=("preterite",)) if past and not present else sense


def _addressed(key: str, lexicon: Lexicon) -> tuple[Sense, ...]:
    """Read an unknown form in -st as the second person of a preterite: *wepte*, *weptest*."""
    return tuple(
        replace(sense, features=("preterite",), rule="-st")
        for sense in senses(key[:-2], lexicon)
        if sense.headword.word_class == "verb" and "preterite" in sense.features
    )


def _closed(found: Sequence[Sense]) -> tuple[ClauseWord, ...]:
    """Return the small words that senses may be, each by the table or else by its class."""
    told = clause_words()
    closed: dict[str, ClauseWord] = {}
    for sense in found:
        head = sense.headword
        word = told.get(head.identity)
        if word is None and head.word_class in _CLASS_ROLES:
            details = frozenset({"plain"}) if head.word_class == "conjunction" else frozenset[str]()
            word = ClauseWord(_CLASS_ROLES[head.word_class], details)
        if word is not None:
            closed.setdefault(f"{head.identity}", word)
    return tuple(closed.values())


_UNLISTED = (
    (re.compile("(?<=...)(eth|ith)e?$"), ("imperative-plural", "present-3s", "present-plural")),
    (re.compile("(?<=..)(edest|idest|edist|dest|dist)$"), ("preterite",)),
    (re.compile("(?<=..)(est|ist)$"), ("present",)),
    (re.compile("(?<=...)(ede|ide|eden|iden)$"), ("preterite", "preterite-plural")),
    (re.compile("(?<=...)(ed|id|ud|et|it)$"), ("preterite", "past-participle")),
    (re.compile("(?<=...)(es|is)$"), ("present-3s", "present-plural")),
    (re.compile("(?<=...)(ing|inge|and|ande)$"), ("present-participle",)),
    (re.compile("(?<=..)(en|in)$"), ("infinitive", "present-plural", "past-participle")),
    (re.compile("(?<=.[aeiou])(pte|fte|lte|kte|ghte|tte|dde)$"), ("infinitive", "present", "preterite")),
    (re.compile("(?<=..)e?$"), ("infinitive", "imperative", "present")),
)
"""Endings that an unknown word may have as a verb, longest first."""


def _unlisted(key: str) -> tuple[Sense, ...]:
    """Read an unknown word as a verb, by its ending; its headword is the stem after a tilde."""
    for ending, features in _UNLISTED:
        if found := ending.search(key):
            stem = key[: found.start()]
            if stem[-2:-1] == stem[-1:] and stem[-1:] not in "aeiou":
                stem = stem[:-1]
            head = Headword(f"~{normalise(stem, rules_in_force())}", "verb", "general", "", "the ending")
            return (Sense(head, features, f"-{found.group()}"),)
    return ()
