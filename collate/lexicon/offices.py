"""Words for offices and titles: a word of a passage in, the office it names out."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from collate.lexicon.patterns import Word, keys_of
from collate.lexicon.tables import table

LEADS = frozenset({"title", "courtesy", "crown", "church", "lay", "house"})
"""The kinds of office whose word may stand before a name."""


@dataclass(frozen=True, slots=True)
class Office:
    """One row of the table of offices: its name in English, its kind, and the keys of its words."""

    name: str
    kind: str
    keys: frozenset[str]


@cache
def offices() -> tuple[Office, ...]:
    """Return the offices in the order of the table."""
    rows = table("offices", "office", "kind", "words", "authority")
    return tuple(Office(name, kind, keys_of(words)) for name, kind, words, _ in rows)


def office_of(word: Word) -> Office | None:
    """Return the office that a word names, None if it names none."""
    if not word.keys & _every():
        return None
    return next(office for office in offices() if office.keys & word.keys)


@cache
def _every() -> frozenset[str]:
    return frozenset().union(*(office.keys for office in offices()))


def office_among(words: Sequence[Word]) -> Office | None:
    """Return the first office named among words."""
    return next((office for word in words if (office := office_of(word))), None)
