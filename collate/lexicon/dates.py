"""Dates of hands as catalogues state them: a phrase in, years out, under a named scheme."""

import re
from collections.abc import Iterator
from functools import cache

from collate.lexicon.date_numbers import atoms_at
from collate.lexicon.date_words import written_words
from collate.lexicon.edtf import EdtfDate, NotEdtf, read_edtf_date
from collate.lexicon.numerals import roman_value
from collate.lexicon.tables import table
from collate.model.edition import DateRange

SCHEMES = ("quarters", "narrow")
"""The schemes known: how many years "in.", "med." and "ex." are taken to span."""

_LAST_CENTURY = 21

Years = tuple[int, int]

_NUMBER = r"(?P<century>[ivx]+(?![a-z])|\d{1,2}(?:st|nd|rd|th)?(?!\d)|[a-z]+th)"
_CENTURY = rf"(?:s(?:aec(?:ulo)?)?\.?\s*)?{_NUMBER}(?:[\s-]*c(?:ent(?:ury|uries|\.)?|\.)?(?![a-z]))?"
_TURN = re.compile(r"(?:s(?:aec)?\.?\s*)?([ivx]+)\s*/\s*(?:s\.\s*)?([ivx]+)\.?")
_PHRASE = re.compile(rf"{_CENTURY}\s*(?P<part>.*)")
_WORDED = re.compile(
    rf"(?P<part>[a-z][a-z ]*?|\d(?:st|nd|rd|th) [a-z]+)[\s-]+(?:of\s+)?(?:the\s+)?{_CENTURY}"
)
_YEARS = re.compile(r"(\d{3,4})\s*(?:[×x/]|[-–])\s*(\d{2,4})")
_ABOUT = re.compile(r"(?:c(?:irca|a)?\.?|about|ab\.|around)\s*(\d{3,4})|(\d{3,4})\s*~")
_DECADE = re.compile(r"(\d{3}0)s")
_SPAN = re.compile(r"\s*[–—×-]\s*|\s+(?:or|to|x)\s+|(?<=[a-z.])\s*/\s*(?=[a-z])")
_LIMIT = re.compile(
    r"(?P<rest>.*?)\s*[(\[]?\s*(?P<side>\b(?:not )?(?:before|after)|ante|post|by)\s+(?P<year>\d{4})[)\]]?"
)


@cache
def _parts(scheme: str) -> dict[str, Years]:
    columns = ("scheme", "part", "from", "to", "authority", "note")
    rows = table("date_phrases", *columns)
    return {part: (int(start), int(stop)) for s, part, start, stop, _, _ in rows if s in (scheme, "any")}


def read_date(stated: str, scheme: str) -> DateRange | None:
    """Return the years a catalogue's phrase means under `scheme`, or None if it is not understood.

    Takes "s. xv in.", "s. xiv/xv", "s. xv 3/4", "s. xv¹", "s. xiv ex.–xv in.", "15th century,
    beginning", "early fifteenth century", "c. 1420", "1420 × 1440", "1420–40", "1420", "1420s",
    "s. xv in. (before 1425)", and what the Extended Date/Time Format allows: "1418~", "14XX",
    "1418-03-02", "[1417,1418]". Both ends are included.
    """
    bare = " ".join(stated.casefold().replace("¹", " 1").replace("²", " 2").replace(",", " ").split())
    years = _read(bare.replace("?", "").strip(), scheme) or _edtf(stated, scheme)
    return DateRange(stated, *years, scheme) if years and years[0] <= years[1] else None


def _read(bare: str, scheme: str) -> Years | None:
    """Return the years of a phrase: one date, one with a limit, or the span of two."""
    years = _one(bare, scheme) or _limited(bare, scheme)
    return years or next(_spans(bare, scheme), None)


def _one(bare: str, scheme: str) -> Years | None:
    years = _years(bare, scheme) or _turn(bare, scheme) or _century(bare, scheme)
    return years if years and years[0] <= years[1] else None


def _limited(bare: str, scheme: str) -> Years | None:
    """Read "s. xv in. (before 1425)": the limit cuts what the phrase allows."""
    found = _LIMIT.fullmatch(bare)
    years = _read(found["rest"], scheme) if found and found["rest"] else None
    if found is None or years is None:
        return None
    year = int(found["year"])
    step = 0 if found["side"].startswith("not ") or found["side"] == "by" else 1
    if found["side"] in ("after", "post", "not before"):
        return max(years[0], year + step), years[1]
    return years[0], min(years[1], year - step)


def _spans(bare: str, scheme: str) -> Iterator[Years]:
    """Yield the spans of two dates: from the first year of one to the last of the other."""
    for between in _SPAN.finditer(bare):
        left, right = bare[: between.start()], bare[between.end() :]
        if not left or not right:
            continue
        first = _one(left, scheme) or _in_century_of(left, right, scheme)
        last = _one(right, scheme) or _in_century_of(right, left, scheme)
        if first and last and first[0] <= last[1] and first != last:
            yield first[0], last[1]


def _in_century_of(part: str, other: str, scheme: str) -> Years | None:
    """Read "med." beside "s. xv in.", or "early" beside "mid 15th century": it has the other's century."""
    for pattern in (_PHRASE, _WORDED):
        found = pattern.fullmatch(other)
        if found is not None and (number := _number(found["century"])):
            return _part(part, number, scheme)
    return None


def _years(bare: str, scheme: str) -> Years | None:
    if found := _YEARS.fullmatch(bare):
        first, last = found.groups()
        return int(first), int(first[: max(len(first) - len(last), 0)] + last)
    if found := _ABOUT.fullmatch(bare):
        return _about(int(found[1] or found[2]), scheme)
    if found := _DECADE.fullmatch(bare):
        return int(found[1]), int(found[1]) + 9
    return (int(bare), int(bare)) if re.fullmatch(r"\d{3,4}", bare) else None


def _about(year: int, scheme: str) -> Years:
    around = _parts(scheme)["circa"]
    return year + around[0], year + around[1]


def _turn(bare: str, scheme: str) -> Years | None:
    found = _TURN.fullmatch(bare)
    first, second = (roman_value(found[1]), roman_value(found[2])) if found else (None, None)
    if first is None or second is None or second != first + 1:
        return None
    around = _parts(scheme)["turn"]
    return first * 100 + around[0], first * 100 + around[1]


def _century(bare: str, scheme: str) -> Years | None:
    for pattern in (_PHRASE, _WORDED):
        found = pattern.fullmatch(bare)
        number = _number(found["century"]) if found else None
        if found and number and (years := _part(found["part"] or "whole", number, scheme)):
            return years
    return None


def _number(written: str) -> int | None:
    """Return the number of a century: xv, 15th, fifteenth."""
    if written[0].isdigit():
        number: int | None = int(re.sub(r"\D", "", written))
    else:
        number = roman_value(written) or _ordinal(written)
    return number if number and number <= _LAST_CENTURY else None


def _ordinal(written: str) -> int | None:
    return next((atom.value for atom in atoms_at(written_words(written), 0) if atom.ordinal), None)


def _part(part: str, century: int, scheme: str) -> Years | None:
    found = _parts(scheme).get(re.sub(r"^the |(?:^| )of$| of the$", "", part.strip(" .()-")).strip())
    return ((century - 1) * 100 + found[0], (century - 1) * 100 + found[1]) if found else None


def _edtf(stated: str, scheme: str) -> Years | None:
    """Return the years of a date in the extended format; an approximate one is widened as "c." is."""
    try:
        found = read_edtf_date(stated)
    except NotEdtf:
        return None
    years = [_edtf_years(part, scheme) for part in found.parts or (found,)]
    if found.bounds.not_before is None or found.bounds.not_after is None:
        return None
    return min(first for first, _ in years), max(last for _, last in years)


def _edtf_years(date: EdtfDate, scheme: str) -> Years:
    first, last = date.bounds.not_before, date.bounds.not_after
    if first is None or last is None:
        return (1, 1)
    around = _parts(scheme)["circa"] if date.approximate else (0, 0)
    return first.year + around[0], last.year + around[1]
