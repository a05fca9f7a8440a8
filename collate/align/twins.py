"""Twins told apart: two items in nearly the same words, where one of them is wanting in some book.

What two groups share says nothing of which of them an item belongs to. So those words are asked that most
of one group have and hardly any of the other.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from collate.align.clusters import Clusters, Fixed, is_apart
from collate.align.likeness import Corpus
from collate.align.links import LEAST, Link

MOST_HAVE, FEW_HAVE = 0.5, 0.25
"""The shares of a group's items, from which on and up to which a word tells groups apart."""

ENOUGH = 0.6
"""How many of the rarest words the telling words must weigh."""

MARGIN = 0.3
"""By how much more of the telling words of another group an item must have, to belong there."""


@dataclass(frozen=True, slots=True)
class _Telling:
    """The words that tell two groups apart: those of the first, and those of the second."""

    ours: frozenset[int]
    theirs: frozenset[int]

    def leans(self, book: Corpus, number: int) -> float:
        """Return how much more of the second group's telling words an item has than of the first's."""
        if sum(book.weights[word] for word in self.ours | self.theirs) < ENOUGH * book.rarest:
            return 0.0
        return _share(book, number, self.theirs) - _share(book, number, self.ours)


def told_apart(book: Corpus, found: Clusters, near: Mapping[int, Sequence[Link]], fixed: Fixed) -> Clusters:
    """Set items that belong to another, like group into that, if their witness has nothing there.

    Where it has, the two change places if both belong so. Only groups are asked that have two items or more.
    """
    ruled = {number for group in fixed.groups for number in group}
    for number in range(len(book.items)):
        home = None if number in ruled else _home(book, found, number, near)
        if home is None:
            continue
        there = [other for other in found.groups[home] if book.owner[other] == book.owner[number]]
        first = found.of[number]
        rest = [other for other in found.groups[first] if other != number]
        if any(_home(book, found, other, near) != first or other in ruled for other in there):
            continue
        if is_apart((number,), found.groups[home], fixed.apart) or is_apart(there, rest, fixed.apart):
            continue
        found.move(number, home)
        for other in there:
            found.move(other, found.of[rest[0]])
    return found


def _rivals(found: Clusters, held: Sequence[Link], number: int) -> list[int]:
    """Return the other groups that an item is like, each of two items or more; the likest first."""
    groups: dict[int, None] = {}
    for link in held:
        if link.weight >= LEAST:
            other = found.of[link.pair[0] if link.pair[1] == number else link.pair[1]]
            if other != found.of[number] and len(found.groups[other]) > 1:
                groups[other] = None
    return list(groups)


def _home(book: Corpus, found: Clusters, number: int, near: Mapping[int, Sequence[Link]]) -> int | None:
    """Return the group that an item belongs to rather than to its own, None if it is in its place."""
    if len(found.groups[found.of[number]]) < 3:
        return None
    rivals = _rivals(found, near.get(number, ()), number)
    rest = [other for other in found.groups[found.of[number]] if other != number]
    leanings = [(_telling(book, rest, found.groups[rival]).leans(book, number), rival) for rival in rivals]
    lean, home = max(leanings, key=lambda found: (found[0], -found[1]), default=(0.0, -1))
    return home if lean >= MARGIN else None


def _telling(book: Corpus, ours: Sequence[int], theirs: Sequence[int]) -> _Telling:
    shares = [_shares(book, group) for group in (ours, theirs)]
    return _Telling(
        *(
            frozenset(
                word
                for word, share in mine.items()
                if share >= MOST_HAVE and yours.get(word, 0.0) <= FEW_HAVE
            )
            for mine, yours in (shares, shares[::-1])
        )
    )


def _shares(book: Corpus, group: Sequence[int]) -> dict[int, float]:
    counts = Counter(word for number in group for word in book.sets[number])
    return {word: count / len(group) for word, count in counts.items()}


def _share(book: Corpus, number: int, words: frozenset[int]) -> float:
    """Return the share of some words' weight that an item has, nothing if there are no such words."""
    whole = sum(book.weights[word] for word in words)
    return sum(book.weights[word] for word in words & book.sets[number]) / whole if whole else 0.0
