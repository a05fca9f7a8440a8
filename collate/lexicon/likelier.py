"""Which of the words that a form may be comes to mind first in a recipe: headwords in, their ranks out."""

from collections.abc import Iterable
from functools import cache

from collate.lexicon.spelling import normalise, rules_in_force
from collate.lexicon.tables import table
from collate.lexicon.words import key_of

_ANY = "*"


def ranked(key: str, heads: Iterable[tuple[str, str, str]]) -> list[int]:
    """Return the rank of each headword (name, class, kind) as a sense of a key; the least is the likeliest.

    A row of the table that names the headword and the form goes before one of its class and kind, that
    before one of its class or its kind.
    """
    return [_rank(key, *head) for head in heads]


def _rank(key: str, name: str, word_class: str, kind: str) -> int:
    own = _of_forms().get((name, word_class, key))
    if own is not None:
        return own
    asked = ((word_class, kind), (word_class, _ANY), (_ANY, kind), (_ANY, _ANY))
    return next(_of_kinds()[each] for each in asked if each in _of_kinds())


def _rows() -> tuple[tuple[str, ...], ...]:
    return table("likelier", "headword", "class", "kind", "forms", "rank", "authority")


@cache
def _of_kinds() -> dict[tuple[str, str], int]:
    return {(each, kind): int(rank) for name, each, kind, _, rank, _ in _rows() if name == _ANY}


@cache
def _of_forms() -> dict[tuple[str, str, str], int]:
    """Return the ranks of single headwords by the keys of the forms named, and by their normal forms."""
    rules = rules_in_force()
    return {
        (name, word_class, key): int(rank)
        for name, word_class, _, forms, rank, _ in _rows()
        if name != _ANY
        for form in forms.split(" ")
        for key in (f"={normalise(form, rules)}", key_of(form))
    }
