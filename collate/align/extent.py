"""How far a copy reaches within an item: what is lost before its beginning or after its end is not omitted.

A copy is a fragment at an end that is torn: the item before breaks off in a gap, or the item after begins
with one. Where nothing says that text is lost, silence at an end is an omission, as it is within.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

SHORT = 0.75
"""A copy with fewer words than this share of the others' median may be a fragment."""

EASE = 0.25
"""The share of the usual cost at which a fragment's torn end is passed over."""

LEAST = 20
"""The fewest words of most other copies beyond a torn end for silence to be absence."""

SHARE = 0.2
"""The least share of the item's words."""

ALIKE = 3
"""A copy whose first words, so many, are those with which another begins has its beginning; so its end."""


@dataclass(frozen=True, slots=True)
class Ends:
    """Whether the beginning and the end of a copy may be lost."""

    start: bool = False
    stop: bool = False


def torn_ends(words: Sequence[Sequence[str]], ends: Sequence[Ends]) -> tuple[Ends, ...]:
    """Return which ends of each witness may be lost, given what its words are compared by.

    No end is lost at which a witness has the words of another.
    """
    heads = [tuple(text[:ALIKE]) for text in words]
    tails = [tuple(text[-ALIKE:]) for text in words]
    return tuple(
        Ends(end.start and heads.count(head) < 2, end.stop and tails.count(tail) < 2)
        for end, head, tail in zip(ends, heads, tails, strict=True)
    )


def end_eases(lengths: Sequence[int], ends: Sequence[Ends]) -> tuple[tuple[float, float], ...]:
    """Return for each witness, of so many words, how lightly its beginning and its end are passed over."""
    eases = []
    for w, (length, end) in enumerate(zip(lengths, ends, strict=True)):
        light = len(lengths) > 1 and length < SHORT * median(_others(lengths, w))
        eases.append((EASE if light and end.start else 1.0, EASE if light and end.stop else 1.0))
    return tuple(eases)


def _others(lengths: Sequence[int], w: int) -> list[int]:
    return [length for other, length in enumerate(lengths) if other != w]


def beyond(present: Sequence[Sequence[bool]], ends: Sequence[Ends]) -> frozenset[tuple[int, int]]:
    """Return the (witness, column) that lie beyond the extent of a witness.

    `present[c][w]` says whether witness w has a word in column c.
    """
    found: set[tuple[int, int]] = set()
    for w, end in enumerate(ends):
        held = [column for column, row in enumerate(present) if row[w]]
        if held:
            sides = [range(held[0])] * end.start + [range(held[-1] + 1, len(present))] * end.stop
            for side in sides:
                if _long(present, w, side):
                    found.update((w, column) for column in side)
    return frozenset(found)


def _long(present: Sequence[Sequence[bool]], w: int, side: range) -> bool:
    words = [column for column in range(len(present)) if _most_have(present[column], w)]
    silent = sum(column in side for column in words)
    return silent >= LEAST and silent >= SHARE * len(words)


def _most_have(row: Sequence[bool], w: int) -> bool:
    others = [has for other, has in enumerate(row) if other != w]
    return sum(others) * 2 > len(others)
