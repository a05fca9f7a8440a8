"""What a dish is called: the nouns of its heading and the first noun of its text, held against another's.

Two dishes in nearly the same words are told apart by their names: *Tart of peres* is not *Tart of appels*,
and what begins *Take gees* is not what begins *Take spynache*.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from rapidfuzz.distance import Indel
from rapidfuzz.process import extractOne

from collate.align.divide import is_word
from collate.align.likeness import Corpus, readings
from collate.model.bones import bones
from collate.model.form import Judge, Relation, form_of
from collate.model.witness import Item, Token, TokenKind

NOUN = " (noun)"
"""How the identity of a noun ends."""

SHORT = 3
"""How many letters an unlisted word must have to be taken for a noun."""

ONE_NAME = 0.7
"""The likeness of letters from which on two spellings may be one name."""


@dataclass(frozen=True, slots=True)
class _Words:
    """Words by all they may be: their headwords, and the consonants and normal forms of those in no table."""

    readings: frozenset[str]
    bones: frozenset[str]
    normals: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Named:
    """An item's names, of its heading and of its text, and its words: all, and those in no table."""

    heading: tuple[Token, ...]
    first: tuple[Token, ...]
    words: _Words
    unlisted: _Words


@dataclass(frozen=True, slots=True)
class Naming:
    """The names of the items of a corpus, each looked up when it is first asked for."""

    book: Corpus
    judge: Judge | None = None
    held: dict[int, _Named] = field(default_factory=dict)

    def apart(self, a: int, b: int) -> tuple[str, str] | None:
        """Return a name of either item, as it is written, that the other has nowhere; None if there are none.

        The first nouns of the texts are set side by side, then those of the headings, if these have a
        noun in common (*Tart of peres*, *Tart of appels*): of headings quite unlike nothing can be said, nor
        where that noun is what a text begins with (*Oystres in sewe*, *Oystres in broth*).
        """
        ours, theirs = self._of(a), self._of(b)
        pairs = [(ours.first, theirs.first)]
        shared = _readings(ours.heading) & _readings(theirs.heading)
        if shared and shared.isdisjoint(_readings((*ours.first, *theirs.first))):
            pairs.append((ours.heading, theirs.heading))
        for mine, yours in pairs:
            here = next(_lacking(mine, theirs), None)
            there = next(_lacking(yours, ours), None) if here else None
            if here and there and not self._one_sense(here, there):
                return here.expanded, there.expanded
        return None

    def _one_sense(self, here: Token, there: Token) -> bool:
        """Say whether two names are one, or stand for one another by dialect (*eyren*, *egges*)."""
        if self.judge is None:
            return False
        found = self.judge(form_of(here), form_of(there))
        return found.one_sense or found.relation is not Relation.DIFFERENT

    def _of(self, number: int) -> _Named:
        found = self.held.get(number)
        if found is None:
            found = self.held[number] = _named(self.book.items[number])
        return found


def _named(item: Item) -> _Named:
    words = [token for token in (*item.heading_tokens, *item.tokens) if is_word(token)]
    first = next((token for token in item.tokens if _is_noun(token)), None)
    return _Named(
        tuple(token for token in item.heading_tokens if _is_noun(token)),
        (first,) if first else (),
        _words(words),
        _words([token for token in words if not token.headwords]),
    )


def _is_noun(token: Token) -> bool:
    """Say whether a word is a noun, or in no table: a name that no table has may well be one."""
    if token.headwords:
        return token.headwords[0].endswith(NOUN)
    return token.kind is TokenKind.WORD and len(token.normal) >= SHORT


def _readings(names: Sequence[Token]) -> frozenset[str]:
    """Return all that some names may be."""
    return frozenset().union(*map(readings, names))


def _words(tokens: Sequence[Token]) -> _Words:
    return _Words(
        frozenset(head for token in tokens for head in token.headwords),
        frozenset(bones(token.normal) for token in tokens),
        tuple(dict.fromkeys(token.normal for token in tokens)),
    )


def _lacking(names: Sequence[Token], other: _Named) -> Iterator[Token]:
    """Yield the names that an item has nowhere: by headword, or by its letters where one is in no table."""
    for token in names:
        if not other.words.readings.isdisjoint(token.headwords):
            continue
        words = other.unlisted if token.headwords else other.words
        if bones(token.normal) in words.bones:
            continue
        scorer = Indel.normalized_similarity
        if extractOne(token.normal, words.normals, scorer=scorer, score_cutoff=ONE_NAME) is None:
            yield token
