"""How two forms relate, and on what ground: the judge that the alignment and the apparatus ask."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache

from collate.lexicon.distance import distance
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
        if (b.folded, b.headwords, b.language) < (a.folded, a.headwords, a.language):
            a, b = b, a
        return _judged(self, a, b)

    def keys(self, form: Form) -> tuple[str, ...]:
        """Return a form's keys: its one headword or else its normal form, then all it may be and mean."""
        return _keys(self, form)

    def listed(self, form: Form) -> bool:
        """Say whether a table knows the form."""
        return form.value is not None or any(not sense.rule for sense in _senses(self, form))


@lru_cache(maxsize=262144)
def _keys(judge: Judge, form: Form) -> tuple[str, ...]:
    if form.kind is TokenKind.NUMERAL:
        return (f"={form.value:g}",)
    found = _senses(judge, form)
    identities = tuple(dict.fromkeys(sense.headword.identity for sense in found))
    value = _value(judge, form)
    number = () if value is None else (f"={value:g}",)
    meanings = dict.fromkeys(f"'{part}" for sense in found for part in _meanings(sense.headword.gloss))
    normal = f"~{form.normal}"
    if len(identities) == 1:
        return (*identities, *number, normal, *meanings)
    ruled = tuple(f"!{key}" for pair in judge.same for key in pair) if judge.same else ()
    return (normal, *identities, *number, *meanings, *ruled)


@cache
def shipped_judge() -> Judge:
    """Return the judge with the lexicon as shipped."""
    return Judge(lexicon())


@lru_cache(maxsize=1_000_000)
def _judged(judge: Judge, a: Form, b: Form) -> Judgement:
    if TokenKind.NUMERAL in (a.kind, b.kind):
        return _numbers(judge, a, b)
    if (judge.same or judge.apart) and (ruling := _ruling(judge, a, b)):
        return ruling
    ours, theirs = _in_context(judge, a, b)
    if a.folded == b.folded:
        return _homographs(ours, theirs)
    listed = _apart().get(_pair(key_of(a.folded), key_of(b.folded)))
    shared = _shared(ours, theirs)
    if listed and (listed[1] == "form" or (ours and theirs and not shared)):
        return _different(ours, theirs, f"listed as apart: {listed[0]}", listed[2])
    if shared:
        return _of_headword(shared, a, b)
    if a.normal == b.normal:
        named = dict.fromkeys((*grounds(a.folded, judge.words.rules), *grounds(b.folded, judge.words.rules)))
        return Judgement(
            Relation.SPELLING,
            0.95,
            f"the same normal form by {', '.join(named)}",
            "the table of spelling rules",
        )
    if ours and theirs:
        return _different(ours, theirs, _unlike(ours, theirs), ours[0].headword.authority)
    return _by_letters(judge, a, b, ours, theirs)


def _pair(a: str, b: str) -> tuple[str, str]:
    return (a, b) if a <= b else (b, a)


def _ruling(judge: Judge, a: Form, b: Form) -> Judgement | None:
    pair = _pair(key_of(a.folded), key_of(b.folded))
    if pair in judge.apart:
        reason = f"the edition's words.tsv: {judge.apart[pair]}"
        return Judgement(Relation.DIFFERENT, 0.0, reason, "the editor")
    if pair in judge.same:
        reason = f"the edition's words.tsv: {judge.same[pair]}"
        return Judgement(Relation.SPELLING, 0.97, reason, "the editor")
    return None


@cache
def _apart() -> dict[tuple[str, str], tuple[str, str, str]]:
    columns = ("form", "other", "senses", "decided_by", "authority")
    return {
        _pair(key_of(form), key_of(other)): (said, decided, authority)
        for form, other, said, decided, authority in table("apart", *columns)
        if key_of(form) != key_of(other)
    }


def _senses(judge: Judge, form: Form) -> tuple[Sense, ...]:
    """Return a form's senses, narrowed to the headwords its token kept."""
    if form.language != "en":
        return ()
    found = senses(form.folded, judge.words)
    if not form.headwords or len(found) == 1:
        return found
    kept = tuple(sense for sense in found if sense.headword.identity in form.headwords)
    return kept or found


def _in_context(judge: Judge, a: Form, b: Form) -> tuple[tuple[Sense, ...], tuple[Sense, ...]]:
    """Return the senses of both as their contexts narrowed them.

    Where that leaves them nothing in common, but one of them is still open, the contexts are not
    heard: two words are not parted by half a ground.
    """
    ours, theirs = _senses(judge, a), _senses(judge, b)
    if ours and theirs and not _shared(ours, theirs) and not (_settled(ours) and _settled(theirs)):
        whole = _senses(judge, replace(a, headwords=())), _senses(judge, replace(b, headwords=()))
        return whole if _shared(*whole) else (ours, theirs)
    return ours, theirs


def _settled(found: Sequence[Sense]) -> bool:
    return len({sense.headword.identity for sense in found}) == 1


def _numbers(judge: Judge, a: Form, b: Form) -> Judgement:
    values = [_value(judge, form) for form in (a, b)]
    if None in values:
        return Judgement(Relation.DIFFERENT, 0.2, "a number beside a word", "common practice")
    if values[0] == values[1]:
        return Judgement(Relation.SPELLING, 0.97, f"one number, {values[0]:g}", "common practice")
    reason = f"two numbers, {values[0]:g} and {values[1]:g}"
    return Judgement(Relation.DIFFERENT, 0.5, reason, "common practice")


def _value(judge: Judge, form: Form) -> float | None:
    if form.value is not None:
        return form.value
    for sense in _senses(judge, form):
        for feature in sense.features:
            if feature.startswith("value="):
                over, _, under = feature.removeprefix("value=").partition("/")
                return int(over) / int(under or 1)
    return None


def _shared(ours: Sequence[Sense], theirs: Sequence[Sense]) -> tuple[tuple[Sense, Sense], ...]:
    if not ours or not theirs:
        return ()
    return tuple((x, y) for x in ours for y in theirs if x.headword is y.headword or x.headword == y.headword)


def _homographs(ours: Sequence[Sense], theirs: Sequence[Sense]) -> Judgement:
    """Judge the same letters: one word, unless what is known of each has nothing in common."""
    if ours and theirs and not _shared(ours, theirs):
        return Judgement(
            Relation.DIFFERENT, 0.45, f"one spelling, {_unlike(ours, theirs)}", ours[0].headword.authority
        )
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
    """Say whether two forms of one part end in other consonants of inflection."""
    ours, theirs = (_ENDING.search(key_of(form.folded)) for form in (a, b))
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


def _different(ours: Sequence[Sense], theirs: Sequence[Sense], reason: str, authority: str) -> Judgement:
    return Judgement(Relation.DIFFERENT, _kinship(ours, theirs), reason, authority)


def _unlike(ours: Sequence[Sense], theirs: Sequence[Sense]) -> str:
    a, b = ours[0].headword, theirs[0].headword
    return f"unlike words: {a.name}, {a.gloss}, and {b.name}, {b.gloss}"


def _kinship(ours: Sequence[Sense], theirs: Sequence[Sense]) -> float:
    """Return how near two different words are for the alignment: meaning, kind, class."""
    best = 0.0
    for x in ours:
        for y in theirs:
            a, b = x.headword, y.headword
            if _meanings(a.gloss) & _meanings(b.gloss):
                return 0.5
            if a.word_class == b.word_class:
                best = max(best, 0.35 if a.kind == b.kind and a.kind not in ("general", "function") else 0.25)
    return best


@lru_cache(maxsize=16384)
def _meanings(gloss: str) -> frozenset[str]:
    return frozenset(part.strip() for part in gloss.replace(",", ";").split(";")) - {""}


def _by_letters(judge: Judge, a: Form, b: Form, ours: Sequence[Sense], theirs: Sequence[Sense]) -> Judgement:
    """Judge where the lexicon lacks a form: by the distance of the spellings, never for sure."""
    found = distance(key_of(a.folded), key_of(b.folded), SPELLED)
    if found.cost <= SPELLED:
        reason = f"probably one word: {', '.join(found.moves)} ({found.cost:g})"
        return Judgement(
            Relation.SPELLING, 0.93 - found.cost / 3, reason, "the table of alternations", sure=False
        )
    unknown = " and ".join(form.folded for form, known in ((a, ours), (b, theirs)) if not known)
    reason = f"{unknown or a.folded} not in the lexicon, and the letters are far apart"
    return Judgement(Relation.DIFFERENT, 0.0, reason, "the table of alternations", sure=False)
