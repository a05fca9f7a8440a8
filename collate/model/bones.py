"""The consonants of words: what is left of a word in whatever spelling."""

import re
from functools import lru_cache

from collate.model.division import single

_INNER = re.compile(r"[aeiouwh]|gh")
_LAST = re.compile(r"[aeiouwh]|gh|[sn]$")
_SOFT = re.compile(r"[aeiouwh]|gh|(?<=.)[sn]$")


@lru_cache(maxsize=262144)
def bones(normal: str) -> str:
    """Return the consonants of a normal form, by which whole words are looked for."""
    return single(_SOFT.sub("", normal)) or normal


def bones_of_two(first: str, second: str) -> str:
    """Return the bones of two normal forms written together."""
    ours, theirs = _open_bones(first), _last_bones(second)
    if ours[-1:] == theirs[:1] or (first[-1:] == "g" and second[:1] == "h"):
        return bones(first + second)
    return ours + theirs


@lru_cache(maxsize=262144)
def _open_bones(normal: str) -> str:
    """Return the bones of a form that something follows: its last consonant is no ending."""
    return single(_INNER.sub("", normal))


@lru_cache(maxsize=262144)
def _last_bones(normal: str) -> str:
    """Return the bones of a form that follows something."""
    return single(_LAST.sub("", normal))
