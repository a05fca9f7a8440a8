"""How two forms relate, and on what ground: the judge that the alignment and the apparatus ask."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache
from itertools import islice

from collate.lexicon.beside import (
    Read,
    bare,
    different,
    form_type,
    glossed,
    one_word_for_all,
    pair_of,
    read,
    unlike,
)
from collate.lexicon.date_numbers import value_of_word
from collate.lexicon.distance import distance
from collate.lexicon.number_words import number_of
from collate.lexicon.numerals import figures
from collate.lexicon.rule_words import rule_endings, rule_words
from collate.lexicon.spelling import grounds
from collate.lexicon.tables import table
from collate.lexicon.words import Lexicon, Sense, key_of, lexicon
from collate.model.form import Form, Judgement, Relation
from collate.model.witness import TokenKind

SPELLED = 0.6
"""The greatest distance at which two forms the lexicon lacks are taken for one word."""

AS_RULED = "as ruled"
"""The part that an editor's words.tsv gives a form: it agrees with every part of the headword."""

_PARTS_OF_NUMBERS = ("number-scale", "number-article", "lone-numeral")

ARTICLE = "a (determiner)"
"""The identity of the article, which may be written as a number."""

_PRESENT = frozenset({"present", "present-3s", "present-plural"})
_PRETERITE = frozenset({"preterite", "preterite-plural"})
_COMMANDS = frozenset({"imperative", "imperative-plural"})
_SAME_TO_US = (frozenset({"positive", "inflected"}),)


@dataclass(frozen=True, slots=True, eq=False)
class Judge:
    """A judge with its lexicon and a user's own rulings; call it with two forms.

    `same` and `apart` hold pairs of keys in sorted order, each with the user's reason.
    """

    words: Lexicon
    same: dict[tuple[str, str], str] = field(default_factory=dict)
    apart: dict[tuple[str, str], str] = field(default_factory=dict)

    def __call__(self, a: Form, b: Form) -> Judgement:
        """Judge two forms; the order makes no difference."""
        if b.folded < a.folded or (
            b.folded == a.folded and (b.headwords, b.language) < (a.headwords, a.language)
        ):
            a, b = b, a
        return _judged(self, a, b)

    def keys(self, form: Form) -> tuple[str, ...]:
        """Return a form's keys: its one headword or else its normal form, then all it may be and mean."""
        return _keys(self, form)

    def listed(self, form: Form) -> bool:
        """Say whether a table knows the form."""
        return form.value is not None or read(self.words, form).listed

    def plainly_two(self, a: Form, b: Form) -> bool:
        """Say whether two forms are soon seen to be no one word; False where they need to be judged.

        So it is of two listed words of no common headword, if they are not nearly spelled alike.
        """
        if a.folded == b.folded or a.normal == b.normal or TokenKind.NUMERAL in (a.kind, b.kind):
            return False
        ours, theirs = read(self.words, a), read(self.words, b)
        if not (ours.listed and theirs.listed and ours.at_large.isdisjoint(theirs.at_large)):
            return False
        if self.same and pair_of(ours.key, theirs.key) in self.same:
            return False
        near = ours.key[:1] == theirs.key[:1] and bare(ours.key) == bare(theirs.key)
        return not near and (_value(self, a) is None or _value(self, b) is None)

    def is_function(self, form: Form) -> bool:
        """Say whether a form can only be a function word (an article, a preposition, and, it)."""
        found = read(self.words, form)
        return bool(found.kept) and all(kind == "function" for _, kind in found.kinds)

    def names(self, form: Form) -> bool:
        """Say whether a table has the form, or one of its normal form, as it stands."""
        forms = self.words.forms
        return key_of(form.folded) in forms or form.normal in forms or f"={form.normal}" in forms

    def number(self, forms: tuple[Form, ...]) -> float | None:
        """Return the value of the one number that some words write (two hundred, iiij skore), or None."""
        return _value(self, forms[0]) if len(forms) == 1 else number_of(forms)

    def counts(self, form: Form) -> bool:
        """Say whether a form is a number, or may be part of one that is written in several words (ij c)."""
        return _counts(self, form)


@lru_cache(maxsize=262144)
def _keys(judge: Judge, form: Form) -> tuple[str, ...]:
    if form.kind is TokenKind.NUMERAL and form.value is not None:
        return (f"={figures(form.value)}",)
    found = read(judge.words, form)
    identities = tuple(dict.fromkeys(sense.headword.identity for sense in found.kept))
    value = _value(judge, form)
    number = () if value is None else (f"={figures(value)}",)
    meanings = tuple(f"'{meaning}" for meaning in sorted(found.meanings))
    normal = f"~{form.normal}"
    ruled = tuple(f"!{a} {b}" for a, b in judge.same if found.key in (a, b))
    if len(identities) == 1:
        return (*identities, *number, normal, *meanings, *ruled)
    return (normal, *identities, *number, *meanings, *ruled)


@lru_cache(maxsize=65536)
def _counts(judge: Judge, form: Form) -> bool:
    part = any(form.folded in rule_words(use) for use in _PARTS_OF_NUMBERS)
    return part or _value(judge, form) is not None


@cache
def shipped_judge() -> Judge:
    """Return the judge with the lexicon as shipped."""
    return Judge(lexicon())


@lru_cache(maxsize=1_000_000)
def _judged(judge: Judge, a: Form, b: Form) -> Judgement:
    if TokenKind.NUMERAL in (a.kind, b.kind):
        return _numbers(judge, a, b)
    ours, theirs = read(judge.words, a), read(judge.words, b)
    pair = pair_of(ours.key, theirs.key)
    if pair in judge.apart or pair in judge.same:
        return _ruling(judge, pair)
    shared = _shared(ours, theirs)
    if a.folded == b.folded:
        return _homographs(ours, theirs, shared)
    listed = _apart().get(pair)
    if listed and (listed[1] == "form" or (ours.listed and theirs.listed and not shared)):
        return different(ours, theirs, f"listed as apart: {listed[0]}", listed[2])
    if shared:
        return _of_headword(shared, a, b)
    if a.normal == b.normal:
        named = dict.fromkeys((*grounds(a.folded, judge.words.rules), *grounds(b.folded, judge.words.rules)))
        reason = f"the same normal form by {', '.join(named)}"
        return Judgement(Relation.SPELLING, 0.95, reason, "the table of spelling rules")
    if ours.listed and theirs.listed:
        return _of_two_headwords(judge, (a, b), ours, theirs)
    return _by_letters(a, b, ours, theirs)


def _ruling(judge: Judge, pair: tuple[str, str]) -> Judgement:
    if pair in judge.apart:
        reason = f"the edition's words.tsv: {judge.apart[pair]}"
        return Judgement(Relation.DIFFERENT, 0.0, reason, "the editor")
    reason = f"the edition's words.tsv: {judge.same[pair]}"
    return Judgement(Relation.SPELLING, 0.97, reason, "the editor")


@cache
def _apart() -> dict[tuple[str, str], tuple[str, str, str]]:
    columns = ("form", "other", "senses", "decided_by", "authority")
    return {
        pair_of(key_of(form), key_of(other)): (said, decided, authority)
        for form, other, said, decided, authority in table("apart", *columns)
        if key_of(form) != key_of(other)
    }


def _shared(ours: Read, theirs: Read) -> tuple[tuple[Sense, Sense], ...]:
    """Return the pairs of senses of one headword, in context or, failing that, at large.

    Where the contexts leave nothing in common, but one of the two is still open, they are not heard: two
    words are not parted by half a ground.
    """
    if not ours.identities.isdisjoint(theirs.identities):
        return _pairs(ours.kept, theirs.kept)
    if ours.at_large.isdisjoint(theirs.at_large):
        return ()
    if len(ours.identities) == 1 and len(theirs.identities) == 1:
        return ()
    return _pairs(ours.whole, theirs.whole)


def _pairs(ours: Sequence[Sense], theirs: Sequence[Sense]) -> tuple[tuple[Sense, Sense], ...]:
    return tuple((x, y) for x in ours for y in theirs if x.headword.identity == y.headword.identity)


def _numbers(judge: Judge, a: Form, b: Form) -> Judgement:
    if a.kind is not b.kind and _figures_alone(a) == _figures_alone(b):
        return Judgement(Relation.SPELLING, 0.97, "the same letters, as a number here", "common practice")
    if _one_and_article(judge, a, b) or _one_and_article(judge, b, a):
        return Judgement(Relation.SPELLING, 0.9, "one, as a number and as the article", "common practice")
    values = [_value(judge, form) for form in (a, b)]
    if None in values:
        return Judgement(Relation.DIFFERENT, 0.2, "a number beside a word", "common practice")
    if values[0] == values[1]:
        return Judgement(Relation.SPELLING, 0.97, f"one number, {values[0]:.15g}", "common practice")
    return Judgement(Relation.DIFFERENT, 0.5, _two_numbers(*values), "common practice")


def _two_numbers(*values: float | None) -> str:
    return "two numbers, {:.15g} and {:.15g}".format(*sorted(value or 0 for value in values))


def _one_and_article(judge: Judge, number: Form, word: Form) -> bool:
    """Say whether a numeral is one, and a word beside it the article: *j pynte*, *a pynte*."""
    return (
        number.kind is TokenKind.NUMERAL
        and number.value == 1
        and ARTICLE in read(judge.words, word).identities
    )


def _figures_alone(form: Form) -> str:
    """Return the letters of a number without its points, j as i."""
    return form.folded.strip(".·").replace("j", "i")


@lru_cache(maxsize=262144)
def _value(judge: Judge, form: Form) -> float | None:
    """Return the value of a numeral, or of a word that is a number and no more (not *bothe*, not *twyes*)."""
    if form.value is not None:
        return form.value
    found = read(judge.words, form)
    for sense in found.kept:
        for feature in sense.features if sense.headword.word_class == "numeral" else ():
            if feature.startswith("value="):
                over, _, under = feature.removeprefix("value=").partition("/")
                return int(over) / int(under or 1)
    return None if found.whole else value_of_word(form.folded, form.language)


def _of_two_headwords(judge: Judge, forms: tuple[Form, Form], ours: Read, theirs: Read) -> Judgement:
    """Judge two forms that tables have and that share no headword: one sense, number or word, or two."""
    return (
        form_type(ours, theirs)
        or _of_number_words(judge, *forms, ours, theirs)
        or one_word_for_all(ours, theirs)
        or different(ours, theirs, unlike(ours, theirs), ours.kept[0].headword.authority)
    )


def _of_number_words(judge: Judge, a: Form, b: Form, ours: Read, theirs: Read) -> Judgement | None:
    """Judge two number words: *two* and *tweyne* are one number; an ordinal is no cardinal."""
    values = _value(judge, a), _value(judge, b)
    if None in values or _ordinal(ours) != _ordinal(theirs):
        return None
    if values[0] != values[1]:
        return different(ours, theirs, _two_numbers(*values), "common practice")
    return Judgement(
        Relation.SPELLING, 0.95, f"one number, {values[0]:.15g}, in two words", "common practice"
    )


def _ordinal(found: Read) -> bool:
    """Say whether the first number that a word may be is an ordinal."""
    numbers = (sense for sense in found.kept if sense.headword.word_class == "numeral")
    return any("ordinal" in sense.features for sense in islice(numbers, 1))


def _homographs(ours: Read, theirs: Read, shared: Sequence[tuple[Sense, Sense]]) -> Judgement:
    """Judge the same letters: one word, unless what is known of each has nothing in common."""
    if ours.kept and theirs.kept and not shared and not one_word_for_all(ours, theirs):
        reason = f"one spelling, {unlike(ours, theirs)}"
        return Judgement(Relation.DIFFERENT, 0.45, reason, ours.kept[0].headword.authority)
    return Judgement(Relation.SAME, 1.0, "the same letters", "common practice")


def _of_headword(shared: Sequence[tuple[Sense, Sense]], a: Form, b: Form) -> Judgement:
    """Judge forms of one headword by their parts: the nearest relation that any shared sense allows."""
    relations = [(_parts(x.features, y.features), x, y) for x, y in shared]
    relation, x, y = min(relations, key=lambda found: _NEARNESS.index(found[0]))
    word = x.headword
    reason = f"both are {glossed(word)}"
    slight = relation is Relation.SPELLING and _inflected(x, y) and _endings_differ(a, b)
    if slight:
        reason += ": the same part with another ending"
        relation = Relation.INFLECTION
    elif relation is not Relation.SPELLING:
        reason += f": {_said(a, shared, 0)} and {_said(b, shared, 1)}"
    return Judgement(relation, _LIKENESS[relation], reason, word.authority, slight=slight)


def _inflected(x: Sense, y: Sense) -> bool:
    """Say whether ends of forms of one part may be inflections: of verbs, of nouns not both singular."""
    if x.headword.word_class == "noun":
        return "singular" not in x.features or "singular" not in y.features
    return x.headword.word_class == "verb"


def _endings_differ(a: Form, b: Form) -> bool:
    """Say whether two forms of one part end in other consonants of inflection; a shortening has no ending."""
    keys = [key_of(form.folded) for form in (a, b)]
    if min(map(len, keys)) < 3 and (keys[0][:1] != keys[1][:1] or abs(len(keys[0]) - len(keys[1])) > 2):
        return False
    ours, theirs = map(_consonant, keys)
    return ours != theirs


def _consonant(key: str) -> str:
    """Return the consonants of inflection in which a key ends, before a final -e or without; "" if none."""
    bare = key.removesuffix("e")
    return next((ending for ending in rule_endings("inflection-consonant") if bare.endswith(ending)), "")


_NEARNESS = (Relation.SPELLING, Relation.INFLECTION, Relation.MOOD, Relation.TENSE)
_LIKENESS = {Relation.SPELLING: 0.97, Relation.INFLECTION: 0.92, Relation.MOOD: 0.88, Relation.TENSE: 0.86}


def _said(form: Form, shared: Sequence[tuple[Sense, Sense]], side: int) -> str:
    features = dict.fromkeys(f for pair in shared for f in pair[side].features)
    said = [_PART_SAID.get(f, f.replace("-", " ")) for f in features if f != "-" and "=" not in f]
    if not said:
        return form.folded
    *parts, last = said
    return f"{form.folded} ({', '.join(parts)} or {last})" if parts else f"{form.folded} ({last})"


_PART_SAID = {"present-3s": "present third person", "inflected": "inflected form"}


def _parts(ours: Sequence[str], theirs: Sequence[str]) -> Relation:
    """Return how two sets of parts of one headword relate."""
    a, b = frozenset(ours), frozenset(theirs)
    if AS_RULED in a | b:
        return Relation.SPELLING
    if a & b or any(a & alike and b & alike for alike in _SAME_TO_US):
        return Relation.SPELLING
    if (a & _PRESENT and b & _PRETERITE) or (a & _PRETERITE and b & _PRESENT):
        return Relation.TENSE
    if _moods(a, b) or _moods(b, a):
        return Relation.MOOD
    return Relation.INFLECTION


def _moods(a: frozenset[str], b: frozenset[str]) -> bool:
    """Say whether one is a command or a wish and the other plainly states."""
    wishes = _COMMANDS | {"subjunctive"}
    return bool(a & wishes) and bool(b & (_PRESENT | _PRETERITE)) and not b & wishes


def _by_letters(a: Form, b: Form, ours: Read, theirs: Read) -> Judgement:
    """Judge where the lexicon lacks a form: by the distance of the spellings, never for sure."""
    if _with_article(ours, theirs) or _with_article(theirs, ours):
        reason = "an article is written with the one, or none stands there"
        return Judgement(Relation.DIFFERENT, _ARTICLE, reason, "common practice", sure=False)
    found = distance(ours.key, theirs.key, SPELLED)
    if found.cost <= SPELLED:
        reason = f"probably one word: {', '.join(found.moves)} ({found.cost:g})"
        return Judgement(
            Relation.SPELLING, 0.93 - found.cost / 3, reason, "the table of alternations", sure=False
        )
    unknown = b.folded if ours.listed else a.folded if theirs.listed else f"{a.folded} and {b.folded}"
    reason = f"{unknown} not in the lexicon, and the letters are far apart"
    return Judgement(Relation.DIFFERENT, 0.0, reason, "the table of alternations", sure=False)


_ARTICLE = 0.6
"""How like a word is to itself with an article written before it."""


def _with_article(one: Read, other: Read) -> bool:
    """Say whether an unlisted form is a listed one with *a* before it (apounde), or after it (ina).

    A verb may have a- before it (aboile), and no article stands after a word of content.
    """
    if one.listed or not other.listed or len(one.key) != len(other.key) + 1:
        return False
    classes = {sense.headword.word_class for sense in other.kept}
    if one.key == f"a{other.key}":
        return classes <= {"noun", "adjective", "numeral", "determiner", "adverb"}
    return one.key == f"{other.key}a" and all(kind == "function" for _, kind in other.kinds)
