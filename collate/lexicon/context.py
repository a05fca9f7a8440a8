"""Homographs in their context: a word's neighbours narrow the headwords it may be."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from collate.lexicon.rule_words import rule_words
from collate.lexicon.tables import table
from collate.lexicon.words import Lexicon, lexicon, senses

_NEAR = 5
_REACH = {
    "before1": (-1, 0),
    "before3": (-3, 0),
    "after1": (1, 2),
    "after3": (1, 4),
    "near": (-_NEAR, _NEAR + 1),
}
"""How far from a word each place of the table reaches: [first, stop) of the words about it."""

STOP = ""
"""What stands in a sequence of words for punctuation: a clause may end there."""

Answer = tuple[str, str]
"""What is asked of the words about a word, and said of each: a kind, a class or a headword of that name."""

_THERE: frozenset[Answer] = frozenset({("place", "")})
"""The answer where a word stands at the beginning or end of a clause, and a cue asks that."""


@dataclass(frozen=True, slots=True)
class Cue:
    """One row: where, and what must stand there, for a headword to be meant."""

    where: str
    what: str
    text: str


@cache
def cues() -> dict[str, tuple[Cue, ...]]:
    """Return the cues of each headword's identity."""
    found: dict[str, list[Cue]] = {}
    for name, word_class, where, what, text, _ in table(
        "cues", "headword", "class", "where", "what", "cue", "authority"
    ):
        found.setdefault(f"{name} ({word_class})", []).append(Cue(where, what, text))
    return {identity: tuple(rows) for identity, rows in found.items()}


def narrowed(words: Sequence[str], at: int, words_of: Lexicon) -> tuple[str, ...]:
    """Return the identities a word may be, the likeliest first, given the words about it.

    `words` holds STOP for punctuation. A headword is kept if as many cues speak for it as for any
    other; where no cue speaks, all are kept: the word is open.
    """
    return all_narrowed(words, words_of)[at]


def all_narrowed(words: Sequence[str], words_of: Lexicon) -> list[tuple[str, ...]]:
    """Return the identities that each word may be, as `narrowed` does for one."""
    read = [_may_be(word, words_of) for word in words]
    return [_kept(read, at) if each.cues else each.identities for at, each in enumerate(read)]


def _kept(read: Sequence["_MayBe"], at: int) -> tuple[str, ...]:
    """Return the identities of a word for which as many cues speak as for any other."""
    answers = {where: _answers(read, at, where) for where in read[at].places}
    votes = [_votes(cues, answers) for cues in read[at].cues]
    best = max(votes)
    return tuple(
        identity for identity, count in zip(read[at].identities, votes, strict=True) if count == best
    )


def _votes(cues: Sequence[tuple[str, frozenset[Answer]]], answers: Mapping[str, frozenset[Answer]]) -> int:
    return sum([not named.isdisjoint(answers[where]) for where, named in cues])


def _answers(read: Sequence["_MayBe"], at: int, where: str) -> frozenset[Answer]:
    """Return all that the words at a place about a word answer to cues."""
    if where == "start":
        return _THERE if at == 0 or read[at - 1].opens else frozenset()
    if where == "end":
        return _THERE if at + 1 == len(read) or read[at + 1].stops else frozenset()
    first, stop = _REACH[where]
    near = [*read[max(0, at + first) : at], *read[at + 1 : max(0, at + stop)]]
    return frozenset().union(*[each.answers for each in near])


@dataclass(frozen=True, slots=True)
class _MayBe:
    """What a word may be: its identities, and its answers to cues (these, its kinds, its first classes).

    `cues` are those for each identity, none where there is nothing to tell apart, and `places` where they
    look; `opens` and `stops` say that a clause may begin after the word, or end before it.
    """

    identities: tuple[str, ...]
    answers: frozenset[Answer]
    cues: tuple[tuple[tuple[str, frozenset[Answer]], ...], ...]
    places: frozenset[str]
    opens: bool
    stops: bool


@lru_cache(maxsize=131072)
def _may_be(word: str, words_of: Lexicon) -> _MayBe:
    found = senses(word, words_of)
    identities = tuple(dict.fromkeys(sense.headword.identity for sense in found))
    kinds = {("kind", sense.headword.kind) for sense in found}
    classes = {("class", sense.headword.word_class) for sense in found[:3]}
    told = [cues().get(identity, ()) for identity in identities] if len(identities) > 1 else []
    return _MayBe(
        identities,
        frozenset({("word", identity) for identity in identities} | kinds | classes),
        tuple(tuple((row.where, _named(row)) for row in rows) for rows in told) if any(told) else (),
        frozenset(row.where for rows in told for row in rows),
        word == STOP or word.casefold() in rule_words("clause-opener"),
        word == STOP,
    )


@lru_cache(maxsize=4096)
def _named(cue: Cue) -> frozenset[Answer]:
    """Return the answers of which a cue asks one: for a word all that it may be."""
    if cue.where in ("start", "end"):
        return _THERE
    if cue.what != "word":
        return frozenset({(cue.what, cue.text)})
    return frozenset(("word", sense.headword.identity) for sense in senses(cue.text, lexicon()))
