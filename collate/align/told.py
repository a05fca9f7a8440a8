"""Pairs of items that are looked at or matched whatever they say: by kind, by heading, by label."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from collate.align.divide import is_word
from collate.align.likeness import Corpus, compare, identity
from collate.model.witness import Item, ItemKind

Pair = tuple[int, int]
Heading = frozenset[str]
"""The words of a heading, each by what it is matched by."""

OF_A_KIND = frozenset(
    {ItemKind.PREFACE, ItemKind.INCIPIT, ItemKind.EXPLICIT, ItemKind.COLOPHON, ItemKind.TABLE}
)
"""Kinds of which a book has one, and by which it is matched."""

OF_SEVERAL = 0.12
"""How like the likest of several of a kind must be to the only one of another book."""

NEARLY = 0.05
"""By how much it must be liker than the next."""

SAME_HEADING = 0.75
"""The likeness of headings from which on they are enough where there is nothing else."""

BARE = "like headings, and one of them has no words"
"""The ground of a match by headings alone."""

SCANT = "like headings, and hardly any words"
"""The ground of a match by headings where both items have a few words, and those unlike."""

ALL = "each is all of its book"
"""The ground of a match of two books of one item each."""

FEW = 2
"""Up to how many words are too few to be looked for by their rarity."""

MOST = 200
"""Up to how many items of a few words are brought together by one heading."""


def told(book: Corpus, headings: Sequence[Heading]) -> dict[Pair, str]:
    """Return the pairs that are looked at for another ground than their words, each with that ground."""
    return {**_scant(book, headings), **_bare(book, headings), **_of_a_kind(book)}


def same_label(book: Corpus, labels: Sequence[str]) -> Iterator[Pair]:
    """Yield the pairs of one number or name: they are looked at, no more."""
    holders: dict[str, list[int]] = defaultdict(list)
    for number, label in enumerate(labels):
        holders[label].append(number)
    for held in holders.values():
        yield from _across(held, book)


def _across(held: Sequence[int], book: Corpus) -> Iterator[Pair]:
    for at, a in enumerate(held):
        for b in held[at + 1 :]:
            if book.owner[a] != book.owner[b]:
                yield a, b


def _bare(book: Corpus, headings: Sequence[Heading]) -> dict[Pair, str]:
    """Return the pairs that have nothing but their headings to go by, one of them having no words."""
    found = {}
    for a in (number for number, words in enumerate(book.words) if not words and headings[number]):
        for b in range(len(book.items)):
            if book.owner[a] != book.owner[b] and alike(headings[a], headings[b]) >= SAME_HEADING:
                found[min(a, b), max(a, b)] = BARE
    return found


def _scant(book: Corpus, headings: Sequence[Heading]) -> dict[Pair, str]:
    """Return the pairs of a few words under one heading: their words are too few to be looked for."""
    headed: dict[Heading, list[int]] = defaultdict(list)
    for number, words in enumerate(book.words):
        if 0 < len(words) <= FEW and headings[number]:
            headed[headings[number]].append(number)
    return {pair: SCANT for held in headed.values() if len(held) <= MOST for pair in _across(held, book)}


def _of_a_kind(book: Corpus) -> dict[Pair, str]:
    """Return the pairs that are matched whatever they say, each with its ground.

    Each is the only item of its kind in its book, or all that there is in it; or of several of a kind in one
    book it is the likest to the only one in the other.
    """
    held: dict[tuple[ItemKind | None, int], list[int]] = defaultdict(list)
    for number, item in enumerate(book.items):
        held[None, book.owner[number]].append(number)
        if item.kind in OF_A_KIND:
            held[item.kind, book.owner[number]].append(number)
    alone: dict[ItemKind | None, list[int]] = defaultdict(list)
    for (kind, _), numbers in held.items():
        alone[kind].extend(numbers if len(numbers) == 1 else ())
    grounds = {kind: f"each is the only {kind} of its book" if kind else ALL for kind in alone}
    several = {
        pair: f"the likest {kind} of its book"
        for (kind, owner), numbers in held.items()
        if kind and len(numbers) > 1
        for only in alone[kind]
        if book.owner[only] != owner and (pair := _likest(book, only, numbers))
    }
    found = {pair: grounds[kind] for kind, numbers in alone.items() for pair in _across(numbers, book)}
    return {**several, **found}


def _likest(book: Corpus, only: int, numbers: Sequence[int]) -> Pair | None:
    """Return an item with the likest of several, None if none is like it or another nearly as like."""
    second, best = sorted((compare(book, only, number), number) for number in numbers)[-2:]
    if best[0] < OF_SEVERAL or best[0] - second[0] < NEARLY:
        return None
    return min(only, best[1]), max(only, best[1])


def heading_of(item: Item) -> Heading:
    """Return the words of an item's heading."""
    return frozenset(identity(token) for token in item.heading_tokens if is_word(token))


def alike(ours: Heading, theirs: Heading) -> float:
    """Return how alike two headings are: the share of their words in common, 0 where either has none."""
    return 0.0 if ours.isdisjoint(theirs) else len(ours & theirs) / len(ours | theirs)
