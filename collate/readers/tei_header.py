"""A TEI header in, what it says of a witness and of special signs out."""

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import replace

from lxml.etree import _Element

from collate.model.edition import DateRange, Witness
from collate.model.notice import Notice
from collate.model.source import Place
from collate.readers.tei_xml import XML_ID, children, find, line_of, name, plain_text

SCHEME = "TEI"
"""The scheme of dates that a header states in years."""

DATES = ("origDate", "origin")
"""The elements that date a copy."""

_YEAR = re.compile(r"(-?\d{4,6})(?:-\d\d(?:-\d\d)?)?")
_CODE = re.compile(r"(?:U\+|0x|&#x)?([0-9A-Fa-f]{4,6});?")
_KINDS = ("", "-iso", "-custom")
_BEST = ("standard", "exact", "unicode", "composed", "diplomatic", "")


def described(
    witness: Witness, header: _Element, source: str, dates: tuple[str, ...] = DATES
) -> tuple[Witness, tuple[Notice, ...]]:
    """Return a witness with the name and date that an element of the header states for it.

    What the witness is called or dated already stands. `dates` are the elements that may date it.
    """
    called = witness.name
    if called == witness.siglum:
        called = next((found for each in find(header, "msIdentifier") if (found := _shelf(each))), called)
    hand, notices = (witness.hand, ()) if witness.hand else date_of(header, source, dates)
    return replace(witness, name=called, hand=hand), notices


def _shelf(identifier: _Element) -> str:
    """Return "Marlhythe, St Osmyn's College, MS 17" from an msIdentifier."""
    wanted = ("settlement", "institution", "repository", "collection", "idno")
    parts = (plain_text(child) for child in children(identifier) if name(child) in wanted)
    return ", ".join(dict.fromkeys(part for part in parts if part))


def date_of(
    header: _Element, source: str, names: tuple[str, ...] = DATES
) -> tuple[DateRange | None, tuple[Notice, ...]]:
    """Return the first date of origin whose years are given; a Notice tells of one without years."""
    dates = list(find(header, *names))
    for element in dates:
        if (years := _years(element)) and years[0] <= years[1]:
            stated = plain_text(element) if name(element) != "origin" else ""
            return DateRange(stated or _span(*years), *years, SCHEME), ()
    told = next((element for element in dates if name(element) != "origin"), None)
    if told is None:
        return None, ()
    message = (
        f"the date {plain_text(told)!r} has no earliest and latest year that can be used: give @notBefore"
        " and @notAfter, or the date in edition.toml"
    )
    return None, (Notice("tei-date", message, Place(source, line_of(told))),)


def _span(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}–{last}"


def _years(element: _Element) -> tuple[int, int] | None:
    for kind in _KINDS:
        if when := element.get(f"when{kind}"):
            ends = [_year(end) for end in when.split("/")]
            first, last = ends[0], ends[-1]
        else:
            first = _year(element.get(f"notBefore{kind}") or element.get(f"from{kind}"))
            last = _year(element.get(f"notAfter{kind}") or element.get(f"to{kind}"))
        if first is not None and last is not None:
            return first, last
    return None


def _year(value: str | None) -> int | None:
    found = _YEAR.fullmatch((value or "").strip())
    return int(found[1]) if found else None


def copies(root: _Element) -> tuple[_Element, ...]:
    """Return what the header says of the copies transcribed, lists of witnesses apart."""
    described = (child for each in find(root, "sourceDesc") for child in children(each))
    return tuple(child for child in described if name(child) not in ("listWit", "listBibl"))


def hands(root: _Element) -> Mapping[str, str]:
    """Return what the hands that a header describes are called (@n), by their xml:id."""
    found = ((element.get(XML_ID), (element.get("n") or "").strip()) for element in find(root, "handNote"))
    return {identity: called for identity, called in found if identity and called}


def glyphs(root: _Element) -> Mapping[str, str]:
    """Return what the signs of charDecl are in Unicode, by their xml:id."""
    found = ((element.get(XML_ID), glyph(element)) for element in find(root, "char", "glyph"))
    return {identity: sign for identity, sign in found if identity and sign}


def glyph(element: _Element) -> str | None:
    """Return the character a char or glyph describes, or None.

    A mapping to standard characters goes before a name or code point among the properties; a
    mapping of another type (to a private character, to the letters meant) is not taken.
    """
    mappings = {(each.get("type") or "").lower(): plain_text(each) for each in find(element, "mapping")}
    for kind in _BEST:
        if mappings.get(kind):
            stated = mappings[kind]
            return unicodedata.normalize("NFC", (_has_prefix(stated) and _coded(stated)) or stated)
    return next(_properties(element), None)


def _properties(element: _Element) -> Iterator[str]:
    for each in find(element, "unicodeProp", "localProp"):
        kind, value = (each.get("name") or "").lower(), (each.get("value") or "").strip()
        if "name" in kind:
            try:
                yield unicodedata.lookup(value)
            except KeyError:
                continue
        elif ("code" in kind or "unicode" in kind or _has_prefix(value)) and (sign := _coded(value)):
            yield sign


def _has_prefix(value: str) -> bool:
    return value[:2] in ("U+", "0x", "&#")


def _coded(value: str) -> str | None:
    """Return the character whose code point is given ("A751", "U+A751"), or None."""
    found = _CODE.fullmatch(value)
    if found is None or int(found[1], 16) > 0x10FFFF:
        return None
    sign = chr(int(found[1], 16))
    return None if unicodedata.category(sign) in ("Cc", "Cn", "Cs") else sign
