"""Dates of hands as catalogues state them: a phrase in, years out, under a named scheme."""

import re
from functools import cache

from collate.lexicon.numerals import roman_value
from collate.lexicon.tables import table
from collate.model.edition import DateRange

SCHEMES = ("quarters", "narrow")
"""The schemes known: how many years "in.", "med." and "ex." are taken to span."""

_CENTURY = r"(?:s(?:aec)?\.\s*)?(?P<century>[ivx]+|\d{1,2}(?:st|nd|rd|th)?)(?:\s*c(?:ent(?:ury|\.)?|\.)?)?"
_TURN = re.compile(r"(?:s(?:aec)?\.\s*)?([ivx]+)\s*/\s*([ivx]+)\.?")
_PHRASE = re.compile(rf"{_CENTURY}\s*(?P<part>.*)")
_WORDED = re.compile(rf"(?P<part>[a-z ]+?)\s+(?:of\s+)?(?:the\s+)?{_CENTURY}")
_YEARS = re.compile(r"(\d{3,4})\s*(?:[×x/]|[-–])\s*(\d{2,4})")
_ABOUT = re.compile(r"(?:c(?:irca|a)?\.?|about|ab\.)\s*(\d{3,4})|(\d{3,4})\s*~")
_SPAN = re.compile(r"\s*[–—-]\s*(?=s\.|saec|[ivx]+\b)")


@cache
def _parts(scheme: str) -> dict[str, tuple[int, int]]:
    columns = ("scheme", "part", "from", "to", "authority", "note")
    rows = table("date_phrases", *columns)
    return {part: (int(start), int(stop)) for s, part, start, stop, _, _ in rows if s in (scheme, "any")}


def read_date(stated: str, scheme: str) -> DateRange | None:
    """Return the years a catalogue's phrase means under `scheme`, or None if it is not understood.

    Takes "s. xv in.", "s. xiv/xv", "s. xv 3/4", "s. xv¹", "s. xiv ex.–xv in.", "15th century,
    beginning", "c. 1420", "1420 × 1440", "1420–40", "1420". Both ends are included.
    """
    bare = " ".join(stated.casefold().replace("¹", " 1").replace("²", " 2").replace(",", " ").split())
    years = _years(bare, scheme) or _turn(bare, scheme) or _century(bare, scheme)
    if years is None and len(ends := _SPAN.split(bare)) == 2:
        first, last = (_turn(end, scheme) or _century(end, scheme) for end in ends)
        years = (first[0], last[1]) if first and last else None
    if years is None or years[0] > years[1]:
        return None
    return DateRange(stated, *years, scheme)


def _years(bare: str, scheme: str) -> tuple[int, int] | None:
    if found := _YEARS.fullmatch(bare):
        first, last = found.groups()
        return int(first), int(first[: len(first) - len(last)] + last)
    if found := _ABOUT.fullmatch(bare):
        year, around = int(found[1] or found[2]), _parts(scheme)["circa"]
        return year + around[0], year + around[1]
    return (int(bare), int(bare)) if re.fullmatch(r"\d{3,4}", bare) else None


def _turn(bare: str, scheme: str) -> tuple[int, int] | None:
    found = _TURN.fullmatch(bare)
    first, second = (roman_value(found[1]), roman_value(found[2])) if found else (None, None)
    if first is None or second is None or second != first + 1:
        return None
    around = _parts(scheme)["turn"]
    return first * 100 + around[0], first * 100 + around[1]


def _century(bare: str, scheme: str) -> tuple[int, int] | None:
    for pattern in (_PHRASE, _WORDED):
        found = pattern.fullmatch(bare)
        if found is None:
            continue
        written = found["century"]
        number = int(re.sub(r"\D", "", written)) if written[0].isdigit() else roman_value(written)
        part = _parts(scheme).get(found["part"].strip(" .") or "whole")
        if number and part:
            return (number - 1) * 100 + part[0], (number - 1) * 100 + part[1]
    return None
