"""How two forms relate, and on what ground: the judge that the alignment and the apparatus ask."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache

from collate.lexicon.date_numbers import value_of_word
from collate.lexicon.distance import distance
from collate.lexicon.number_words import number_of
from collate.lexicon.numerals import figures
from collate.lexicon.spelling import grounds
from collate.lexicon.tables import table
from collate.lexicon.words import Lexicon, Sense, key_of, lexicon, senses
from collate.model.form import Form, Judgement, Relation
from collate.model.witness import TokenKind

SPELLED = 0.6
"""The greatest distance at which two forms the lexicon lacks are taken for one word."""

AS_RULED = "as ruled"
"""The part that an editor's words.tsv gives a form: it agrees with every part of the headword."""

_PRESENT = frozenset({"present", "present-3s", "present-plural"})
_PRETERITE = frozenset({"preterite", "preterite-plural"})
_COMMANDS = frozenset({"imperative", "imperative-plural"})
_SAME_TO_US = (frozenset({"positive", "inflected"}),)
_ENDING = re.compile(r"(th|s|ng|nd|n|d)?e?$")


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
        return form.value is not None or _read(self, form).listed

    def is_function(self, form: Form) -> bool:
        """Say whether a form can only be a function word (an article, a preposition, and, it)."""
        read = _read(self, form)
        return bool(read.kept) and all(kind == "function" for _, kind in read.kinds)

    def names(self, form: Form) -> bool:
        """Say whether a table has the form, or one of its normal form, as it stands."""
        forms = self.words.forms
        return key_of(form.folded) in forms or form.normal in forms or f"={form.normal}" in forms

    def number(self, forms: tuple[Form, ...]) -> float | None:
        """Return the value of the one number that some words write (two hundred, iiij skore), or None."""
        return _value(self, forms[0]) if len(forms) == 1 else number_of(forms)


@dataclass(frozen=True, slots=True, eq=False)
class _Read:
    """A form as the judge reads it: its senses in context (`kept`) and at large (`whole`), and their sums."""

    key: str
    kept: tuple[Sense, ...]
    whole: tuple[Sense, ...]
    identities: frozenset[str]
    at_large: frozenset[str]
    listed: bool
    meanings: frozenset[str]
    kinds: frozenset[tuple[str, str]]


@lru_cache(maxsize=262144)
def _read(judge: Judge, form: Form) -> _Read:
    whole = senses(form.folded, judge.words) if form.language == "en" else ()
    kept = tuple(sense for sense in whole if sense.headword.identity in form.headwords) or whole
    heads = [sense.headword for sense in kept]
    return _Read(
        key_of(form.folded),
        kept,
        whole,
        frozenset(head.identity for head in heads),
        frozenset(sense.headword.identity for sense in whole),
        any(not sense.rule for sense in whole),
        frozenset(meaning for head in heads for meaning in _meanings(head.gloss)),
        frozenset((head.word_class, head.kind) for head in heads),
    )


@lru_cache(maxsize=262144)
def _keys(judge: Judge, form: Form) -> tuple[str, ...]:
    if form.kind is TokenKind.NUMERAL and form.value is not None:
        return (f"={figures(form.value)}",)
    read = _read(judge, form)
    identities = tuple(dict.fromkeys(sense.headword.identity for sense in read.kept))
    value = _value(judge, form)
    number = () if value is None else (f"={figures(value)}",)
    meanings = tuple(f"'{meaning}" for meaning in sorted(read.meanings))
    normal = f"~{form.normal}"
    ruled = tuple(f"!{a} {b}" for a, b in judge.same if read.key in (a, b))
    if len(identities) == 1:
        return (*identities, *number, normal, *meanings, *ruled)
    return (normal, *identities, *number, *meanings, *ruled)


@cache
def shipped_judge() -> Judge:
    """Return the judge with the lexicon as shipped."""
    return Judge(lexicon())


@lru_cache(maxsize=1_000_000)
def _judged(judge: Judge, a: Form, b: Form) -> Judgement:
    if TokenKind.NUMERAL in (a.kind, b.kind):
        return _numbers(judge, a, b)
    ours, theirs = _read(judge, a), _read(judge, b)
    pair = _pair(ours.key, theirs.key)
    if pair in judge.apart or pair in judge.same:
        return _ruling(judge, pair)
    shared = _shared(ours, theirs)
    if a.folded == b.folded:
        return _homographs(ours, theirs, shared)
    listed = _apart().get(pair)
    if listed and (listed[1] == "form" or (ours.listed and theirs.listed and not shared)):
        return _different(ours, theirs, f"listed as apart: {listed[0]}", listed[2])
    if shared:
        return _of_headword(shared, a, b)
    if a.normal == b.normal:
        named = dict.fromkeys((*grounds(a.folded, judge.words.rules), *grounds(b.folded, judge.words.rules)))
        reason = f"the same normal form by {', '.join(named)}"
        return Judgement(Relation.SPELLING, 0.95, reason, "the table of spelling rules")
    if ours.listed and theirs.listed:
        return _form_type(ours, theirs) or _different(
            ours, theirs, _unlike(ours, theirs), ours.kept[0].headword.authority
        )
    return _by_letters(a, b, ours, theirs)


def _pair(a: str, b: str) -> tuple[str, str]:
    return (a, b) if a <= b else (b, a)


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
        _pair(key_of(form), key_of(other)): (said, decided, authority)
        for form, other, said, decided, authority in table("apart", *columns)
        if key_of(form) != key_of(other)
    }


def _shared(ours: _Read, theirs: _Read) -> tuple[tuple[Sense, Sense], ...]:
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
    values = [_value(judge, form) for form in (a, b)]
    if None in values:
        return Judgement(Relation.DIFFERENT, 0.2, "a number beside a word", "common practice")
    if values[0] == values[1]:
        return Judgement(Relation.SPELLING, 0.97, f"one number, {values[0]:.15g}", "common practice")
    reason = f"two numbers, {values[0]:.15g} and {values[1]:.15g}"
    return Judgement(Relation.DIFFERENT, 0.5, reason, "common practice")


def _figures_alone(form: Form) -> str:
    """Return the letters of a number without its points, j as i."""
    return form.folded.strip(".·").replace("j", "i")


@lru_cache(maxsize=262144)
def _value(judge: Judge, form: Form) -> float | None:
    """Return the value of a numeral, or of a word that is a number and no more (not *bothe*, not *twyes*)."""
    if form.value is not None:
        return form.value
    read = _read(judge, form)
    for sense in read.kept:
        for feature in sense.features if sense.headword.word_class == "numeral" else ():
            if feature.startswith("value="):
                over, _, under = feature.removeprefix("value=").partition("/")
                return int(over) / int(under or 1)
    return None if read.whole else value_of_word(form.folded, form.language)


def _homographs(ours: _Read, theirs: _Read, shared: Sequence[tuple[Sense, Sense]]) -> Judgement:
    """Judge the same letters: one word, unless what is known of each has nothing in common."""
    if ours.kept and theirs.kept and not shared:
        reason = f"one spelling, {_unlike(ours, theirs)}"
        return Judgement(Relation.DIFFERENT, 0.45, reason, ours.kept[0].headword.authority)
    return Judgement(Relation.SAME, 1.0, "the same letters", "common practice")


def _of_headword(shared: Sequence[tuple[Sense, Sense]], a: Form, b: Form) -> Judgement:
    """Judge forms of one headword by their parts: the nearest relation that any shared sense allows."""
    relations = [(_parts(x.features, y.features), x) for x, y in shared]
    nearest = min(relations, key=lambda found: _NEARNESS.index(found[0]))
    relation, sense = nearest
    word = sense.headword
    reason = f"both are {word.name}, {word.gloss}"
    slight = relation is Relation.SPELLING and word.word_class in ("verb", "noun") and _endings_differ(a, b)
    if slight:
        reason += ": the same part with another ending"
        relation = Relation.INFLECTION
    elif relation is not Relation.SPELLING:
        reason += f": {_said(a, shared, 0)} and {_said(b, shared, 1)}"
    return Judgement(relation, _LIKENESS[relation], reason, word.authority, slight=slight)


def _endings_differ(a: Form, b: Form) -> bool:
    """Say whether two forms of one part end in other consonants of inflection; a shortening has no ending."""
    keys = [key_of(form.folded) for form in (a, b)]
    if min(map(len, keys)) < 3 and (keys[0][:1] != keys[1][:1] or abs(len(keys[0]) - len(keys[1])) > 2):
        return False
    ours, theirs = map(_ENDING.search, keys)
    return (ours and ours[1]) != (theirs and theirs[1])


_NEARNESS = (Relation.SPELLING, Relation.INFLECTION, Relation.MOOD, Relation.TENSE)
_LIKENESS = {Relation.SPELLING: 0.97, Relation.INFLECTION: 0.92, Relation.MOOD: 0.88, Relation.TENSE: 0.86}


def _said(form: Form, shared: Sequence[tuple[Sense, Sense]], side: int) -> str:
    features = dict.fromkeys(f for pair in shared for f in pair[side].features)
    return f"{form.folded} {' or '.join(features)}"


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


def _different(ours: _Read, theirs: _Read, reason: str, authority: str) -> Judgement:
    return Judgement(Relation.DIFFERENT, _kinship(ours, theirs), reason, authority)


def _unlike(ours: _Read, theirs: _Read) -> str:
    a, b = (sense.headword for sense in _nearest(ours, theirs))
    return f"unlike words: {a.name}, {a.gloss}, and {b.name}, {b.gloss}"


def _nearest(ours: _Read, theirs: _Read) -> tuple[Sense, Sense]:
    """Return the senses by which two unlike words are named: the nearest in class and kind.

    What stands for a noun is likelier a noun. Of pairs as near those of the trade go before general
    ones, then the likeliest senses, then those of the first form.
    """
    pairs = [
        (_apartness(x, y), i + j, i, x, y) for i, x in enumerate(ours.kept) for j, y in enumerate(theirs.kept)
    ]
    *_, a, b = min(pairs, key=lambda pair: pair[:3])
    return a, b


def _apartness(a: Sense, b: Sense) -> int:
    """Return how far two senses are apart in class and kind, 0 to 3: one of both, of class, of kind, of none."""
    one, other = a.headword, b.headword
    if one.word_class != other.word_class:
        return 2 if one.kind == other.kind else 3
    return 0 if one.kind == other.kind else 1


@cache
def _form_types() -> dict[tuple[str, str], tuple[str, str]]:
    rows = table("form_types", "sense", "native", "norse", "authority")
    return {_pair(a, b): (sense, authority) for sense, a, b, authority in rows}


def _form_type(ours: _Read, theirs: _Read) -> Judgement | None:
    """Judge two words that stand for one another by dialect, in the same part; None where they do not."""
    for a in ours.kept:
        for b in theirs.kept:
            row = _form_types().get(_pair(a.headword.identity, b.headword.identity))
            if row and (a.features == b.features or not {*a.features}.isdisjoint(b.features)):
                reason = f"two words of one sense, ‘{row[0]}’: {a.headword.name} and {b.headword.name}"
                return Judgement(Relation.DIFFERENT, _kinship(ours, theirs), reason, row[1], one_sense=True)
    return None


def _kinship(ours: _Read, theirs: _Read) -> float:
    """Return how near two different words are for the alignment: meaning, kind, class."""
    if not ours.meanings.isdisjoint(theirs.meanings):
        return 0.5
    alike = ours.kinds & theirs.kinds
    if any(kind not in ("general", "function") for _, kind in alike):
        return 0.35
    return 0.25 if alike else 0.0


@lru_cache(maxsize=16384)
def _meanings(gloss: str) -> frozenset[str]:
    return frozenset(part.strip() for part in gloss.replace(" or ", ";").replace(",", ";").split(";")) - {""}


def _by_letters(a: Form, b: Form, ours: _Read, theirs: _Read) -> Judgement:
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


def _with_article(one: _Read, other: _Read) -> bool:
    """Say whether an unlisted form is a listed one with *a* before it (apounde), or after it (ina).

    A verb may have a- before it (aboile), and no article stands after a word of content.
    """
    if one.listed or not other.listed or len(one.key) != len(other.key) + 1:
        return False
    classes = {sense.headword.word_class for sense in other.kept}
    if one.key == f"a{other.key}":
        return classes <= {"noun", "adjective", "numeral", "determiner", "adverb"}
    return one.key == f"{other.key}a" and all(kind == "function" for _, kind in other.kinds)
