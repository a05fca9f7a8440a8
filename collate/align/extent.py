"""How far a copy reaches within an item: what lies before its beginning or after its end it never omitted.

A copy that begins or ends in the middle of an item is a fragment there: its silence at that end is absence,
as at a lost leaf. That is concluded only where the silence is long, and only at an end of the copy that is
open: where the copy goes on to another item, silence is an omission.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

SHORT = 0.75
"""A copy with fewer words than this share of the others' median may be a fragment."""

EASE = 0.25
"""The share of the usual cost at which a fragment's ends are passed over."""

LEAST = 20
"""The fewest words of most other copies beyond an end for silence to be absence."""

SHARE = 0.2
"""The least share of the item's words."""


@dataclass(frozen=True, slots=True)
class Ends:
    """Whether a copy may begin and may end within the item."""

    start: bool = True
    stop: bool = True


def end_eases(lengths: Sequence[int]) -> tuple[float, ...]:
    """Return for each witness, given its number of words, how lightly its ends are passed over."""
    return tuple(
        EASE if len(lengths) > 1 and length < SHORT * median(_others(lengths, w)) else 1.0
        for w, length in enumerate(lengths)
    )


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
