"""Items of all witnesses brought together from the matches of each two: one of each witness at most.

Agglomeration by average linkage (R. R. Sokal and C. D. Michener, "A statistical method for evaluating
systematic relationships", University of Kansas Science Bulletin 38 (1958) 1409-38): the two
groups that are likest on the whole are made one, if they have no witness in common, and so on. So a recipe
that is lost in one book is not answered by its twin there, if any third book has both.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from heapq import heapify, heappop, heappush
from itertools import combinations

from collate.align.likeness import Corpus
from collate.align.links import LEAST, Link
from collate.align.told import Pair

BASE = 0

UNMATCHED = 0.5
"""What a link counts, of its weight, if the best matching of the two witnesses leaves it out."""


@dataclass(frozen=True, slots=True)
class Fixed:
    """What the editor rules: groups of items that are one, each with its reason, and pairs that are not."""

    groups: tuple[tuple[int, ...], ...] = ()
    reasons: tuple[str, ...] = ()
    apart: frozenset[Pair] = frozenset()

    def pairs(self, book: Corpus) -> Iterator[Pair]:
        """Yield the pairs of items of different witnesses that are ruled to be one."""
        for group in self.groups:
            for a, b in combinations(group, 2):
                if book.owner[a] != book.owner[b]:
                    yield a, b

    def allows(self, pair: Pair, book: Corpus) -> bool:
        """Say whether two items may be matched by what they say.

        They may not if they are ruled apart, or one is ruled to answer to another item of that witness.
        """
        if pair in self.apart:
            return False
        for group in self.groups:
            inside = [number in group for number in pair]
            if inside[0] != inside[1]:
                other = pair[0] if inside[1] else pair[1]
                if book.owner[other] in {book.owner[number] for number in group}:
                    return False
        return True


@dataclass(frozen=True, slots=True)
class Clusters:
    """Groups of items; `of[i]` is the number of the group that item i is in."""

    groups: dict[int, list[int]]
    of: dict[int, int] = field(default_factory=dict)

    def witnesses(self, group: int, book: Corpus) -> set[int]:
        """Return the witnesses that have an item in a group."""
        return {book.owner[number] for number in self.groups[group]}

    def merge(self, a: int, b: int) -> int:
        """Make two groups one; return its number, the lower of the two."""
        low, high = sorted((a, b))
        for number in self.groups.pop(high):
            self.groups[low].append(number)
            self.of[number] = low
        self.groups[low].sort()
        return low

    def move(self, number: int, home: int) -> None:
        """Take an item out of its group and set it into another."""
        rest = [other for other in self.groups.pop(self.of[number]) if other != number]
        for part in (rest, sorted([*self.groups.pop(home), number])):
            self.groups[part[0]] = part
            self.of.update((other, part[0]) for other in part)


def clusters(book: Corpus, kept: Iterable[Link], links: Mapping[Pair, Link], fixed: Fixed) -> Clusters:
    """Bring items together, the likest groups first; `links` are all that are known, `kept` those that stand.

    A link that does not stand counts half. Of equal averages one with an item of the base (witness 0) comes
    first, then the lower numbers.
    """
    found = Clusters({number: [number] for number in range(len(book.items))})
    found.of.update((number, number) for number in found.groups)
    for group in fixed.groups:
        for number in group[1:]:
            if found.of[number] != found.of[group[0]]:
                found.merge(found.of[group[0]], found.of[number])
    near = _Near(book, found, fixed)
    stand = {link.pair for link in kept}
    for link in links.values():
        if link.weight >= LEAST:
            near.add(link.pair, link.weight if link.pair in stand else link.weight * UNMATCHED)
    heap = [near.entry(a, b) for a, others in near.weights.items() for b in others if a < b]
    heapify(heap)
    while heap and -heap[0][0] >= LEAST:
        entry = heappop(heap)
        if near.is_current(entry) and near.may(*entry[2:]):
            for newer in near.merge(*entry[2:]):
                heappush(heap, newer)
    return found


Entry = tuple[float, bool, int, int]
"""Two groups to be made one: their average (negative, so that the highest comes first), and a tie's rank."""


@dataclass(frozen=True, slots=True)
class _Near:
    """The groups, and the sum of the weights of the links between each two of them."""

    book: Corpus
    found: Clusters
    fixed: Fixed
    weights: dict[int, dict[int, float]] = field(default_factory=lambda: defaultdict(dict))

    def add(self, pair: Pair, weight: float) -> None:
        """Add the weight of a link to what lies between two groups."""
        a, b = (self.found.of[number] for number in pair)
        if a != b:
            self.weights[a][b] = self.weights[b][a] = self.weights[a].get(b, 0.0) + weight

    def entry(self, a: int, b: int) -> Entry:
        """Return two groups with their average; items that were not worth comparing count nothing.

        An item of the base is the lowest of its group.
        """
        low, high = (a, b) if a < b else (b, a)
        groups = self.found.groups
        average = round(self.weights[low][high] / (len(groups[low]) * len(groups[high])), 9)
        return -average, self.book.owner[low] != BASE, low, high

    def is_current(self, entry: Entry) -> bool:
        """Say whether both groups of an entry are still what they were."""
        a, b = entry[2:]
        return b in self.weights.get(a, ()) and self.entry(a, b) == entry

    def may(self, a: int, b: int) -> bool:
        """Say whether two groups may be one: no witness in common, and not parted by the editor."""
        witnesses = self.found.witnesses(a, self.book)
        if not witnesses.isdisjoint(self.found.witnesses(b, self.book)):
            return False
        return not is_apart(self.found.groups[a], self.found.groups[b], self.fixed.apart)

    def merge(self, a: int, b: int) -> list[Entry]:
        """Make two groups one; return the entries of the new group."""
        low = self.found.merge(a, b)
        for other, weight in self.weights.pop(b).items():
            del self.weights[other][b]
            if other != low:
                total = self.weights[low].get(other, 0.0) + weight
                self.weights[low][other] = self.weights[other][low] = total
        return [self.entry(low, other) for other in sorted(self.weights[low])]


def is_apart(ours: Collection[int], theirs: Collection[int], apart: frozenset[Pair]) -> bool:
    """Say whether the editor has parted any item of one group from one of another."""
    return bool(apart) and any((min(a, b), max(a, b)) in apart for a in ours for b in theirs)
