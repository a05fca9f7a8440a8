"""A form in, what it may be in a clause out, wherever it stands: its senses, its verbs, its small words."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from collate.lexicon.rule_words import letter_pairs, rule_endings, rule_words
from collate.lexicon.spelling import normalise, rules_in_force
from collate.lexicon.verbs import ClauseWord, clause_words, unlisted_endings, verb_classes, verb_forms
from collate.lexicon.words import Headword, Lexicon, Sense, key_of, senses

_CLASS_ROLES = {
    "preposition": "preposition",
    "conjunction": "subordinator",
    "determiner": "determiner",
    "particle": "adverb",
    "adverb": "adverb",
    "interjection": "adverb",
}
"""The role of a small word by its class, where the table of clause words is silent."""

Stands = Literal["foreign", "name", "capital", "plain"]
"""How a form stands: in another language; with a capital that no point asks for, or one does; as any word."""


@dataclass(frozen=True, slots=True, eq=False)
class FormReading:
    """What a form may be wherever it stands: its senses, its senses as a verb, its small words.

    `parts` are what it may be of those verbs, `uses` the classes of verbs they belong to, `classes`
    those of all its senses; `names` and `verb_names` are the names of the headwords of both.
    """

    key: str
    senses: tuple[Sense, ...] = ()
    verbs: tuple[Sense, ...] = ()
    closed: tuple[ClauseWord, ...] = ()
    parts: frozenset[str] = frozenset()
    uses: frozenset[str] = frozenset()
    classes: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()
    verb_names: frozenset[str] = frozenset()


NO_READING = FormReading("")
"""What no form may be."""


@lru_cache(maxsize=16384)
def reading_of_form(text: str, lexicon: Lexicon, hinted: frozenset[str], stands: Stands) -> FormReading:
    """Return what a form may be; a name has no derived senses; an unknown one may be guessed if plain."""
    key, foreign = key_of(text), stands == "foreign"
    found = () if foreign else voiced(key, senses(text.casefold(), lexicon), lexicon)
    if stands == "name" and found and all(sense.rule for sense in found):
        found = ()
    if not found and not foreign and key.endswith("est"):
        found = _addressed(key, lexicon)
    if not found and not foreign and key.endswith(rule_endings("enclitic-thou")):
        found = tuple(s for s in senses(key[: -len("ow")], lexicon) if s.headword.word_class == "verb")
    if key.endswith(rule_endings("for-en")) and all(sense.rule for sense in found) and not foreign:
        found = senses(f"{key[:-2]}en", lexicon) or found
    verbs = tuple(sense for sense in found if sense.headword.word_class == "verb")
    if hinted:
        several = (*verbs, *further_verbs(key, lexicon))
        verbs = tuple(s for s in several if s.headword.identity in hinted) or verbs
    if not found and stands == "plain":
        verbs = unlisted(key)
    verbs = tuple(_late(_second(sense, key, lexicon), key, lexicon) for sense in verbs)
    if key in verb_forms("present"):
        verbs = tuple(replace(s, features=tuple(f for f in s.features if f not in _PAST)) for s in verbs)
    classes = frozenset(sense.headword.word_class for sense in found)
    names = frozenset(sense.headword.name for sense in found)
    bare = FormReading(key, found, closed=_closed(found), classes=classes, names=names)
    return with_verbs(bare, verbs) if verbs else bare


def voiced(key: str, found: tuple[Sense, ...], lexicon: Lexicon) -> tuple[Sense, ...]:
    """Return the senses of a form that no table has with f or s for the v or z at its head: *zuete*."""
    initial = letter_pairs("voiced").get(key[:1])
    if initial is None or any(not sense.rule for sense in found):
        return found
    if key[0] == "u" and key[1:2] not in "aeioulr":
        return found
    other = senses(initial + key[1:], lexicon)
    return other if other and (not found or any(not sense.rule for sense in other)) else found


def with_verbs(reading: FormReading, verbs: tuple[Sense, ...]) -> FormReading:
    """Return a reading with its senses as a verb, and what they make it."""
    parts = frozenset(feature for sense in verbs for feature in sense.features)
    told = verb_classes()
    uses = frozenset(kind for sense in verbs for kind in told.get(sense.headword.name, ()))
    names = frozenset(sense.headword.name for sense in verbs)
    return replace(reading, verbs=verbs, parts=parts, uses=uses, verb_names=names)


@lru_cache(maxsize=4096)
def nameless(key: str) -> FormReading:
    """Return the reading of a form of which nothing is known, whatever the tables say of it."""
    return FormReading(key)


@lru_cache(maxsize=4096)
def after_thou(reading: FormReading) -> FormReading:
    """Return the reading of an unknown form in -st after *þou*: a verb, by its ending."""
    return with_verbs(reading, unlisted(reading.key))


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
    if key.endswith(rule_endings("for-en")):
        sense = _as_in_en(sense, key, lexicon)
    if key.endswith(rule_endings("strong-en")) and _STRONG.issuperset(sense.features):
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


def unlisted(key: str) -> tuple[Sense, ...]:
    """Read an unknown word as a verb, by its ending; its headword is the stem after a tilde."""
    for ending, features in unlisted_endings():
        if found := ending.search(key):
            stem = key[: found.start()]
            if stem[-2:-1] == stem[-1:] and stem[-1:] not in "aeiou":
                stem = stem[:-1]
            head = Headword(f"~{normalise(stem, rules_in_force())}", "verb", "general", "", "the ending")
            return (Sense(head, features, f"-{found.group()}"),)
    return ()


@lru_cache(maxsize=16384)
def further_verbs(key: str, lexicon: Lexicon) -> tuple[Sense, ...]:
    """Return the verbs that a form may be though it is listed as another word: *delis*, *strawes*, *vel*."""
    if initial := letter_pairs("voiced").get(key[:1]):
        other = senses(initial + key[1:], lexicon)
        return tuple(sense for sense in other if sense.headword.word_class == "verb")
    if len(key) < 5 or not key.endswith(rule_endings("present-third")):
        return ()
    stem = key[:-2] if key[-1] == "s" else key[:-3]
    found = {
        sense.headword: replace(sense, features=("present-3s", "present-plural"), rule="-es")
        for form in (stem, f"{stem}e", f"{stem}en")
        for sense in senses(form, lexicon)
        if sense.headword.word_class == "verb" and "infinitive" in sense.features
    }
    return tuple(found.values())


@lru_cache(maxsize=16384)
def number_of(form: FormReading, *, capital: bool) -> frozenset[str]:
    """Return the number of a noun, a name or a numeral, or of what may be one."""
    names = [s for s in form.senses if s.headword.word_class == "name"]
    nouns = names or [s for s in form.senses if s.headword.word_class == "noun"]
    parts = {f for s in nouns if s.headword == nouns[0].headword for f in s.features}
    if "plural" in parts and "singular" not in parts:
        return frozenset({"plural"})
    if "singular" in parts:
        return frozenset({"singular"})
    if "numeral" in form.classes:
        return frozenset({"singular"} if form.key in rule_words("one") else {"plural"})
    ends = form.key.endswith(rule_endings("noun-plural")) and not capital
    return frozenset({"plural"} if ends else {"singular"})
