"""Homographs in their context: a word's neighbours narrow the headwords it may be."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

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

_OPENERS = frozenset({"and", "than", "then", "or", "ac", "but"})


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
    found = _may_be(words[at], words_of).identities
    told = cues()
    if len(found) < 2 or not any(identity in told for identity in found):
        return found
    votes = {identity: _votes(told.get(identity, ()), words, at, words_of) for identity in found}
    best = max(votes.values())
    return tuple(identity for identity in found if votes[identity] == best)


def _votes(rows: Sequence[Cue], words: Sequence[str], at: int, words_of: Lexicon) -> int:
    return sum(_speaks(row, words, at, words_of) for row in rows)


def _speaks(row: Cue, words: Sequence[str], at: int, words_of: Lexicon) -> bool:
    if row.where == "start":
        return at == 0 or words[at - 1] == STOP or words[at - 1].casefold() in _OPENERS
    if row.where == "end":
        return at + 1 == len(words) or words[at + 1] == STOP
    first, stop = _REACH[row.where]
    named = _named(row.what, row.text)
    for k in range(max(0, at + first), min(len(words), at + stop)):
        if k != at and words[k] != STOP and not named.isdisjoint(_may_be(words[k], words_of).answers):
            return True
    return False


@dataclass(frozen=True, slots=True)
class _MayBe:
    """What a word may be: its identities; and its answers to cues (these, its kinds, its first classes)."""

    identities: tuple[str, ...]
    answers: frozenset[tuple[str, str]]


@lru_cache(maxsize=131072)
def _may_be(word: str, words_of: Lexicon) -> _MayBe:
    found = senses(word, words_of)
    identities = tuple(dict.fromkeys(sense.headword.identity for sense in found))
    kinds = {("kind", sense.headword.kind) for sense in found}
    classes = {("class", sense.headword.word_class) for sense in found[:2]}
    return _MayBe(identities, frozenset({("word", identity) for identity in identities} | kinds | classes))


@lru_cache(maxsize=4096)
def _named(what: str, text: str) -> frozenset[tuple[str, str]]:
    """Return the answers of which a cue asks one: for a word all that it may be."""
    if what != "word":
        return frozenset({(what, text)})
    return frozenset(("word", sense.headword.identity) for sense in senses(text, lexicon()))
