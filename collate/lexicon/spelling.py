"""Normal forms: an expanded word in, the form by which it is compared out, and the rules that made it."""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache

from collate.lexicon.tables import Rule, spelling_rules

LACK = "…"
"""What stands in an expanded form for letters lost or illegible."""

_DROPPED = re.compile(r"[\-‐‑⸗'’ʼ^\u00ad\u200b-\u200f\u2060\ufeff]|[\u0300-\u036f\u1ab0-\u1aff\u1dc0-\u1dff]")


@dataclass(frozen=True, slots=True, eq=False)
class Rules:
    """Spelling rules in their order. Two sets of rules are one only if they are the same object."""

    rows: tuple[Rule, ...]


@cache
def rules_in_force(on: frozenset[str] = frozenset(), off: frozenset[str] = frozenset()) -> Rules:
    """Return the rules that decide, with those named in `on` added and those in `off` left out."""
    return Rules(
        tuple(rule for rule in spelling_rules() if rule.name in on or (rule.decides and rule.name not in off))
    )


@cache
def every_rule() -> Rules:
    """Return all rules, those that may only propose included."""
    return Rules(spelling_rules())


def rule_names() -> tuple[str, ...]:
    """Return the names of the rules in their order."""
    return tuple(dict.fromkeys(rule.name for rule in spelling_rules()))


@lru_cache(maxsize=131072)
def normalise(expanded: str, rules: Rules) -> str:
    """Return the normal form of a word: folded, then each rule in its order."""
    form = fold(expanded)
    for rule in rules.rows:
        form = rule.pattern.sub(rule.replacement, form)
    return form


def grounds(expanded: str, rules: Rules) -> tuple[str, ...]:
    """Return the names of the rules that changed anything on the way to the normal form, in order."""
    form = fold(expanded)
    named: list[str] = []
    for rule in rules.rows:
        changed = rule.pattern.sub(rule.replacement, form)
        if changed != form and rule.name not in named:
            named.append(rule.name)
        form = changed
    return tuple(named)


@lru_cache(maxsize=131072)
def fold(expanded: str) -> str:
    """Return a word in small letters, without hyphens, apostrophes, accents and invisible characters."""
    if expanded.isascii() and expanded.isalpha():
        return expanded.lower()
    loose = "".join(_loosen(character) for character in expanded)
    return unicodedata.normalize("NFC", _DROPPED.sub("", unicodedata.normalize("NFD", loose)).casefold())


def _loosen(character: str) -> str:
    """Set a raised letter on the line; every other character stays as it is."""
    if character not in "ꝰꝫ" and unicodedata.decomposition(character).startswith("<super>"):
        return unicodedata.normalize("NFKD", character)
    return character
