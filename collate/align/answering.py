"""Which of several items answer to which of several others, and whether another would do as well for one."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from collate.align.groups import Groups
from collate.align.likeness import Corpus, compare_all, quick

Parts = tuple[int, ...]

HELD = 0.4
"""The share of the weight of a part's words that the whole must have in their order."""


def answering(book: Corpus, head: Sequence[int], parts: Sequence[int]) -> tuple[tuple[Parts, Parts], ...]:
    """Return the fewest items each that have their words in one another: those of the head, the others.

    Two have if, all laid along all, they share HELD of the weight of either's words. One that has its
    words nowhere stands alone.
    """
    found = compare_all(book, head, parts)
    ours, theirs = _owners(book, head), _owners(book, parts)
    shared: dict[tuple[int, int], float] = defaultdict(float)
    for mine, yours in zip(found.ours, found.theirs, strict=True):
        number, at = ours[mine]
        shared[number, theirs[yours][0]] += book.weights[book.words[number][at]]
    groups = Groups()
    for (a, b), weight in shared.items():
        if weight >= HELD * min(book.totals[a], book.totals[b]):
            groups.join(a, b)
    held: dict[int, tuple[list[int], list[int]]] = {}
    for side, numbers in enumerate((head, parts)):
        for number in numbers:
            held.setdefault(groups.head(number), ([], []))[side].append(number)
    return tuple((tuple(a), tuple(b)) for a, b in held.values())


def _owners(book: Corpus, numbers: Sequence[int]) -> list[tuple[int, int]]:
    """Return the item of each word of some items laid one after the other, and its place there."""
    return [(number, at) for number in numbers for at in range(len(book.words[number]))]


def in_its_place(
    book: Corpus, head: Sequence[int], parts: Sequence[int], least: float
) -> list[tuple[float, int, int]]:
    """Return, the likest first, how like the whole is with another item in the place of a part; and the two.

    None with which the two sides are less like than `least`.
    """
    return sorted({*_instead(book, head, parts, least), *_instead(book, parts, head, least)}, key=_likest)


def _likest(found: tuple[float, int, int]) -> tuple[float, int, int]:
    likeness, other, part = found
    return -likeness, other, part


def _instead(
    book: Corpus, head: Sequence[int], parts: Sequence[int], least: float
) -> Iterator[tuple[float, int, int]]:
    if len(parts) < 2:
        return
    first = parts[0] - book.place[parts[0]]
    for other in range(first, first + book.sizes[book.owner[parts[0]]]):
        if other not in parts and any(quick(book, other, number) >= HELD for number in head):
            for part in parts:
                instead = [other if number == part else number for number in parts]
                likeness = compare_all(book, head, in_order(book, head, instead)).value
                if likeness >= least:
                    yield likeness, other, part


def in_order(book: Corpus, hosts: Sequence[int], numbers: Sequence[int]) -> tuple[int, ...]:
    """Return parts in the order in which other items have their words; ties as their own book has them."""
    if len(numbers) < 2:
        return tuple(numbers)
    middles = {}
    for number in numbers:
        there = compare_all(book, (number,), hosts).theirs
        middles[number] = sum(there) / len(there) if there else float("inf")
    return tuple(sorted(numbers, key=lambda number: (middles[number], book.place[number])))
