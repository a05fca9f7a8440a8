"""Words, beginnings and endings that a rule asks for: the name of a use in, its forms out."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from collate.lexicon.tables import table


@cache
def rule_words(use: str) -> frozenset[str]:
    """Return the forms of a use, in the letters that the rule compares; KeyError for a use there is not."""
    return frozenset(_forms()[use])


@cache
def rule_endings(use: str) -> tuple[str, ...]:
    """Return the endings, or beginnings, of a use in the table's order: the first that fits counts."""
    return _forms()[use]


@cache
def letter_pairs(use: str) -> Mapping[str, str]:
    """Return the letters of a use, each with the one that stands for it elsewhere."""
    rows = table("letter_pairs", "use", "letter", "other", "authority")
    uses = {row[0] for row in rows}
    if use not in uses:
        raise KeyError(use)
    return MappingProxyType({letter: other for name, letter, other, _ in rows if name == use})


@cache
def _forms() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for use, form, _ in table("rule_words", "use", "form", "authority"):
        found.setdefault(use, []).append(form)
    return MappingProxyType({use: tuple(forms) for use, forms in found.items()})
