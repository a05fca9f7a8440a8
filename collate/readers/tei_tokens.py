"""The elements that TEI sets about each word, number or point: an element in, where it divides words out."""

import re
from enum import StrEnum

from lxml.etree import _Element

from collate.readers.tei_xml import name, plain_text


class Sort(StrEnum):
    """What an element says that its letters are."""

    WORD = "w"
    NUMBER = "num"
    POINT = "pc"


_FOLLOWS = frozenset({"F", "M", "Y"})
_GOES_ON = frozenset({"I", "M", "Y"})
_ROMAN = re.compile("[ivxlcdmju]+", re.IGNORECASE)
_CLINGS = frozenset("'’ʼ^-‐‑⸗")
"""Points that would be read as a letter of the word right before or about them."""


def sort_of(element: _Element) -> Sort | None:
    """Return what an element says that its letters are; None of one that says nothing of it."""
    tag = name(element)
    return Sort(tag) if tag in ("w", "num", "pc") else None


def begins(element: _Element) -> bool:
    """Say whether a word begins where the element does: it is no later part of one, nor joined to it."""
    joined = element.get("join") in ("left", "both") or element.get("prev") is not None
    return not joined and element.get("part") not in _FOLLOWS


def ends(element: _Element) -> bool:
    """Say whether a word ends where the element does."""
    joined = element.get("join") in ("right", "both") or element.get("next") is not None
    return not joined and element.get("part") not in _GOES_ON


def stay_apart(before: Sort, element: _Element) -> bool:
    """Say whether a blank divides something of a sort from an element that is to be a word of its own.

    A point set right after a word is a point anyhow, and one before a numeral may belong to its notation.
    """
    sort = sort_of(element)
    if sort is Sort.POINT:
        return before is sort or plain_text(element)[:1] in _CLINGS
    return before is not Sort.POINT or not _ROMAN.fullmatch(plain_text(element))


def letters_stay_apart(before: Sort, text: str) -> bool:
    """Say the same of letters that stand in no such element."""
    return before is Sort.WORD and (text[:1].isalnum() or text[:1] in _CLINGS)
