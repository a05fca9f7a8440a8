"""How like two items are in what they say: words weighed by rarity, in the order in which both have them.

A word counts by its headword, or where the lexicon lacks it by the consonants of its normal form. Its weight
is its inverse item frequency (K. Sparck Jones, "A statistical interpretation of term specificity and its
application in retrieval", Journal of Documentation 28 (1972) 11-21): a word in every item says nothing.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import count
from math import log

from rapidfuzz.distance import LCSseq

from collate.align.anchor import anchors
from collate.model.bones import bones
from collate.model.witness import Item, Token, TokenKind, WitnessText

LONG = 4_000_000
"""The product of two lengths above which the words in common are looked for stretch by stretch."""

STRETCH = 1_500
"""How many words of either are looked at together, where both are long."""

FIRM = 2 / 3
"""The share of a stretch whose words in common are taken; the rest is looked at again with what follows."""

SCANT = 1.0
"""How many of the rarest words a fragment must have besides, since a few words are soon found anywhere."""

LEAST_WEIGHT = 0.1
"""What a word weighs that stands in every item."""


WORDS = (TokenKind.WORD, TokenKind.NUMERAL)
"""What counts as a word."""


@dataclass(frozen=True, slots=True)
class Corpus:
    """All items of all witnesses in one row, their words as numbers.

    `owner[i]` is the witness of item i and `place[i]` where it stands there; `sizes[w]` is how many items
    witness w has. `weights[w]` is what word w weighs, `totals[i]` what all words of item i weigh,
    `once[i]` what they weigh each taken once, `rarest` what the rarest word weighs. `open_ended[i]` says that
    it begins or ends in a gap.
    """

    items: tuple[Item, ...]
    owner: tuple[int, ...]
    place: tuple[int, ...]
    sizes: tuple[int, ...]
    words: tuple[tuple[int, ...], ...]
    sets: tuple[frozenset[int], ...]
    weights: tuple[float, ...]
    rarest: float
    totals: tuple[float, ...]
    once: tuple[float, ...]
    open_ended: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Likeness:
    """How like two items are, 0 to 1; `ours` and `theirs` are the places of the words in common in either."""

    value: float
    ours: tuple[int, ...]
    theirs: tuple[int, ...]


def corpus(texts: Sequence[WitnessText]) -> Corpus:
    """Weigh the words of every item of some witnesses, taken in the order given."""
    items = tuple(item for text in texts for item in text.items)
    numbers: dict[str, int] = defaultdict(count().__next__)
    words = tuple(
        tuple([numbers[identity(token)] for token in item.tokens if token.kind in WORDS]) for item in items
    )
    sets = tuple(map(frozenset, words))
    weights = _weights(sets, len(numbers), len(items) / max(len(texts), 1))
    weigh = weights.__getitem__
    return Corpus(
        items,
        tuple(number for number, text in enumerate(texts) for _ in text.items),
        tuple(place for text in texts for place in range(len(text.items))),
        tuple(len(text.items) for text in texts),
        words,
        sets,
        weights,
        max(weights, default=0.0),
        tuple(round(sum(map(weigh, held)), 9) for held in words),
        tuple(round(sum(map(weigh, sorted(held))), 9) for held in sets),
        tuple(_open_ended(item.tokens) for item in items),
    )


def identity(token: Token) -> str:
    """Return what a word is matched by: its likeliest headword, its number, or the bones of its spelling."""
    if token.headwords:
        return token.headwords[0]
    return bones(token.normal) if token.kind is TokenKind.WORD else f"={token.normal}"


def readings(token: Token) -> frozenset[str]:
    """Return all that a word may be: any of its headwords, or what it is matched by."""
    return frozenset(token.headwords or (identity(token),))


def _weights(words: Sequence[frozenset[int]], size: int, per_witness: float) -> tuple[float, ...]:
    """Return the weight of each word: the log of the items of a book over the items that have it."""
    often = [0] * size
    for held in words:
        for word in held:
            often[word] += 1
    share = per_witness / max(len(words), 1)
    return tuple(max(LEAST_WEIGHT, log((per_witness + 1) / (times * share + 0.5))) for times in often)


def _open_ended(tokens: Sequence[Token]) -> bool:
    return bool(tokens) and TokenKind.GAP in (tokens[0].kind, tokens[-1].kind)


def quick(book: Corpus, a: int, b: int) -> float:
    """Return how like the sets of words of two items are: a first look, order and repetition left aside."""
    weigh = book.weights.__getitem__
    shared = sum(map(weigh, book.sets[a] & book.sets[b]))
    least = min(book.once[a], book.once[b])
    return shared / least if least else 0.0


def compare(book: Corpus, a: int, b: int) -> float:
    """Say how like two items are."""
    ours, theirs = book.words[a], book.words[b]
    if len(ours) * len(theirs) > LONG:
        return compare_all(book, (a,), (b,)).value
    shared: list[int] = []
    for block in LCSseq.opcodes(ours, theirs).as_matching_blocks():
        shared.extend(ours[block.a : block.a + block.size])
    fragment = book.open_ended[a] or book.open_ended[b]
    return _value(book, shared, book.totals[a], book.totals[b], fragment=fragment)


def compare_all(book: Corpus, ours: Sequence[int], theirs: Sequence[int]) -> Likeness:
    """Say how like some items, one after the other, are to others."""
    mine = [word for number in ours for word in book.words[number]]
    yours = [word for number in theirs for word in book.words[number]]
    here, there = common(mine, yours)
    totals = [sum(book.totals[number] for number in numbers) for numbers in (ours, theirs)]
    fragment = any(book.open_ended[number] for number in (*ours, *theirs))
    return Likeness(_value(book, map(mine.__getitem__, here), *totals, fragment=fragment), here, there)


def _value(book: Corpus, shared: Iterable[int], ours: float, theirs: float, *, fragment: bool) -> float:
    """Return twice the weight of the words in common order, over the weight of all words of both.

    Of what begins or ends in a gap, only what is left is held against the other.
    """
    whole = 2 * (min(ours, theirs) + SCANT * book.rarest) if fragment else ours + theirs
    return round(min(2 * sum(map(book.weights.__getitem__, shared)) / whole, 1.0), 4) if whole else 0.0


def common(ours: Sequence[int], theirs: Sequence[int]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return where the words in common order stand in each of two rows: the longest common subsequence.

    Of rows too long for that, what a walk from stretch to stretch finds, or the words by which an alignment
    would be anchored, if those are more.
    """
    if len(ours) * len(theirs) <= LONG:
        return _subsequence(ours, theirs)
    pairs = max(_walked(ours, theirs), anchors(ours, theirs), key=len)
    return tuple(here for here, _ in pairs), tuple(there for _, there in pairs)


def _subsequence(ours: Sequence[int], theirs: Sequence[int]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    here: list[int] = []
    there: list[int] = []
    for block in LCSseq.opcodes(ours, theirs).as_matching_blocks():
        here.extend(range(block.a, block.a + block.size))
        there.extend(range(block.b, block.b + block.size))
    return tuple(here), tuple(there)


def _walked(ours: Sequence[int], theirs: Sequence[int]) -> list[tuple[int, int]]:
    """Return the words in common of stretches that follow one another, each from where the last was firm."""
    pairs: list[tuple[int, int]] = []
    a = b = 0
    firm = int(STRETCH * FIRM)
    while a < len(ours) and b < len(theirs):
        here, there = _subsequence(ours[a : a + STRETCH], theirs[b : b + STRETCH])
        found = list(zip(here, there, strict=True))
        last = a + STRETCH >= len(ours) and b + STRETCH >= len(theirs)
        kept = found if last else [(x, y) for x, y in found if x < firm and y < firm]
        pairs.extend((a + x, b + y) for x, y in kept)
        if last:
            break
        a, b = (pairs[-1][0] + 1, pairs[-1][1] + 1) if kept else (a + firm, b + firm)
    return pairs
