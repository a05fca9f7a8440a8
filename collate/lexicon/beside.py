"""Two words beside one another: what each may be in, how they are named and how near they are out."""

import re
from dataclasses import dataclass
from functools import cache, lru_cache

from collate.lexicon.tables import table
from collate.lexicon.words import Headword, Lexicon, Sense, key_of, senses
from collate.model.form import Form, Judgement, Relation

_DOUBLED = re.compile(r"(.)\1+")
_ORDINARY = frozenset({"general", "function"})
"""The kinds of no trade."""


@dataclass(frozen=True, slots=True, eq=False)
class Read:
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
def read(words: Lexicon, form: Form) -> Read:
    """Return a form as it is read with a lexicon: in context where its headwords are narrowed."""
    whole = senses(form.folded, words) if form.language == "en" else ()
    kept = tuple(sense for sense in whole if sense.headword.identity in form.headwords) or whole
    heads = [sense.headword for sense in kept]
    return Read(
        key_of(form.folded),
        kept,
        whole,
        frozenset(head.identity for head in heads),
        frozenset(sense.headword.identity for sense in whole),
        any(not sense.rule for sense in whole),
        frozenset(meaning for head in heads for meaning in _meanings(head.gloss)),
        frozenset((head.word_class, head.kind) for head in heads),
    )


def different(ours: Read, theirs: Read, reason: str, authority: str) -> Judgement:
    """Judge two words to be different ones, on a ground."""
    return Judgement(Relation.DIFFERENT, kinship(ours, theirs), reason, authority)


def unlike(ours: Read, theirs: Read) -> str:
    """Name two unlike words by their nearest senses."""
    a, b = (sense.headword for sense in _nearest(ours, theirs))
    return f"unlike words: {glossed(a)} and {glossed(b)}"


def glossed(word: Headword) -> str:
    """Return a headword with what it means."""
    return f"{word.name} ‘{word.gloss}’"


def _nearest(ours: Read, theirs: Read) -> tuple[Sense, Sense]:
    """Return the senses by which two unlike words are named: near in class and kind, and likely.

    What stands for a noun is likelier a noun; but each sense passed over for it weighs as much as the
    step from one kind to another. Of equals the nearest pair is taken, of these the likeliest of the
    first form.
    """
    pairs = []
    for i, x in enumerate(ours.kept):
        for j, y in enumerate(theirs.kept):
            apart = _apartness(x.headword, y.headword)
            pairs.append((apart + _passed(ours, i) + _passed(theirs, j), apart, i, x, y))
    *_, a, b = min(pairs, key=lambda pair: pair[:3])
    return a, b


_STEP = 2


def _passed(found: Read, at: int) -> int:
    """Return what the likelier senses weigh that are passed over, a small word three times as much."""
    passed = found.kept[:at]
    return sum(3 * _STEP if sense.headword.kind == "function" else _STEP for sense in passed)


def _apartness(a: Headword, b: Headword) -> int:
    """Return how far two headwords are apart: of one class and one kind of the trade (0) to neither (6).

    Two words of one class are nearer if both are of the trade, or neither is.
    """
    trade = {a.kind not in _ORDINARY, b.kind not in _ORDINARY}
    if a.word_class != b.word_class:
        return 2 * _STEP + 1 if trade == {True} else 3 * _STEP
    if len(trade) == 2:
        return _STEP + 1
    return 0 if a.kind == b.kind and trade == {True} else _STEP


@cache
def _form_types() -> dict[tuple[str, str], tuple[str, str]]:
    rows = table("form_types", "sense", "native", "norse", "authority")
    return {pair_of(a, b): (sense, authority) for sense, a, b, authority in rows}


def form_type(ours: Read, theirs: Read) -> Judgement | None:
    """Judge two words that stand for one another by dialect, in the same part; None where they do not."""
    for a in ours.kept:
        for b in theirs.kept:
            row = _form_types().get(pair_of(a.headword.identity, b.headword.identity))
            if row and (a.features == b.features or not {*a.features}.isdisjoint(b.features)):
                reason = f"two words of one sense, ‘{row[0]}’: {a.headword.name} and {b.headword.name}"
                return Judgement(Relation.DIFFERENT, kinship(ours, theirs), reason, row[1], one_sense=True)
    return None


def kinship(ours: Read, theirs: Read) -> float:
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


def one_word_for_all(ours: Read, theirs: Read) -> Judgement | None:
    """Judge forms that differ in an end e or a doubled letter at most, as words of one name in two classes.

    Adjective and adverb of one name are one word (*thynne*, *thynn*), other classes if they share a meaning.
    """
    if bare(ours.key) != bare(theirs.key):
        return None
    for x in ours.kept:
        for y in theirs.kept:
            a, b = x.headword, y.headword
            if _stem(a) == _stem(b) and _kin(a, b):
                said = f"one word, {glossed(a)}, as {a.word_class} and as {b.word_class}"
                return Judgement(Relation.SPELLING, 0.95, said, a.authority)
    return None


def _kin(a: Headword, b: Headword) -> bool:
    if {a.word_class, b.word_class} == {"adjective", "adverb"}:
        return True
    return not _meanings(a.gloss).isdisjoint(_meanings(b.gloss))


@lru_cache(maxsize=131072)
def bare(key: str) -> str:
    """Return a key without end e, its doubled letters single."""
    return _DOUBLED.sub(r"\1", key).removesuffix("e")


def _stem(word: Headword) -> str:
    """Return the bare key of a headword, that of a verb without its -en."""
    key = key_of(word.name)
    return bare(key.removesuffix("n") if word.word_class == "verb" and key.endswith("en") else key)


def pair_of(a: str, b: str) -> tuple[str, str]:
    """Return two names in sorted order."""
    return (a, b) if a <= b else (b, a)
