"""What each TEI element is to the text of a copy: a block, words apart, a mark, or nothing."""

import re

from lxml.etree import _Element

from collate.model.extents import Extent, Unit
from collate.model.transcript import Mark
from collate.readers.tei_xml import children, find, name, pointed

DIVISIONS = frozenset({"div", *(f"div{level}" for level in range(1, 8))})
"""What may be an item."""

CONTAINERS = DIVISIONS | {"text", "front", "body", "back", "group"}
"""What may hold items."""

BLOCKS = CONTAINERS | {
    "p", "ab", "l", "lg", "head", "list", "table", "trailer", "opener", "closer", "argument", "epigraph",
}  # fmt: skip
"""What begins and ends with a new line."""

SPACED = frozenset({"item", "label", "row", "cell", "salute", "signed"})
"""What stands apart from its neighbours by a blank."""

TRANSPARENT = frozenset({
    "hi", "num", "seg", "w", "pc", "c", "s", "cl", "phr", "m", "g", "damage", "sic", "orig", "reg", "abbr",
    "am", "expan", "persName", "placeName", "name", "date", "rs", "foreign", "quote", "q", "emph", "title",
    "ref", "term", "measure", "forename", "surname", "roleName", "geogName", "orgName", "lem", "rdg",
})  # fmt: skip
"""What adds nothing to its letters but what @rend says."""

EMPTY = frozenset({
    "lb", "pb", "cb", "gb", "milestone", "handShift", "gap", "space",
    "witStart", "witEnd", "lacunaStart", "lacunaEnd",
})  # fmt: skip
"""What holds no letters, and says something by its place."""

NOTHING = frozenset({"metamark", "figure", "graphic", "index", "anchor", "ptr", "wit"})
"""What is no part of the text and is left out with all that is in it."""

_MARKED = {
    "del": Mark.DELETED,
    "surplus": Mark.SURPLUS,
    "ex": Mark.EXPANDED,
    "corr": Mark.ADDED,
    "fw": Mark.CATCHWORD,
    "space": Mark.SPACE,
}
KNOWN = (
    BLOCKS | SPACED | TRANSPARENT | EMPTY | NOTHING | frozenset(_MARKED)
    | {"add", "supplied", "unclear", "choice", "subst", "app", "note", "witDetail"}
)  # fmt: skip
"""All the elements this reader understands."""

_SHOWING = (BLOCKS | SPACED | TRANSPARENT) - CONTAINERS
"""What @rend may make red, an initial, or (if it is no block) raised."""

_PREFERRED = (
    "expan",
    "ex",
    "sic",
    "orig",
    "abbr",
    "am",
    "unclear",
    "seg",
    "choice",
    "supplied",
    "corr",
    "reg",
)
_UNITS = (("char", Unit.LETTER), ("letter", Unit.LETTER), ("word", Unit.WORD), ("line", Unit.LINE))
_COUNTED = re.compile(r"\s*(\d{1,4})\s*([a-z]*)\.?\s*")


def marks_of(element: _Element) -> tuple[tuple[Mark, str], ...]:
    """Return the marks that an element sets on its letters, outermost first, each with its note."""
    tag = name(element)
    if tag in _MARKED:
        return ((_MARKED[tag], ""),)
    if tag == "add":
        return (
            (Mark.MARGIN, hand_of(element)) if is_marginal(element) else (Mark.INSERTED, hand_of(element)),
        )
    if tag == "note":
        return ((Mark.MARGIN, hand_of(element)),) if is_marginal(element) else ()
    if tag == "supplied":
        return ((Mark.ADDED if "omitted" in (element.get("reason") or "") else Mark.SUPPLIED, ""),)
    if tag == "expan" and not any(True for _ in find(element, "ex")):
        return ((Mark.EXPANDED, ""),)
    words = _look(element) if tag in _SHOWING else []
    rubric = any("rubric" in word or word == "red" for word in words)
    initial = any("initial" in word or ("capital" in word and word != "capitals") for word in words)
    return ((Mark.RUBRIC, ""),) * rubric + ((Mark.INITIAL, ""),) * initial


def is_raised(element: _Element) -> bool:
    """Say whether an element raises its letters."""
    return name(element) in TRANSPARENT and any(word.startswith("sup") for word in _look(element))


def _look(element: _Element) -> list[str]:
    if not element.attrib:
        return []
    said = " ".join(element.get(key) or "" for key in ("rend", "rendition", "style"))
    return re.findall("[a-z]+", said.lower())


def is_marginal(element: _Element) -> bool:
    """Say whether an addition or note is the scribe's own in the margin (a note needs its hand)."""
    where = "margin" in (element.get("place") or "").lower()
    return where and (name(element) == "add" or element.get("hand") is not None)


def hand_of(element: _Element, key: str = "hand") -> str:
    """Return the hand an element names, "" for none."""
    return re.sub(r"[^\w.-]", "", pointed(element.get(key) or ""))


def letters_of(element: _Element) -> int | None:
    """Return how many letters a gap or space is said to hold, None if not in letters."""
    extent = lost_in(element)
    return extent.count if extent and extent.unit is Unit.LETTER else None


def lost_in(element: _Element) -> Extent | None:
    """Return how many letters, words or lines a gap or space is said to hold, None if in nothing of these."""
    found = _COUNTED.fullmatch((element.get("quantity") or element.get("extent") or "").lower())
    if found is None or not int(found[1]):
        return None
    said = found[2] or (element.get("unit") or "chars").lower()
    return next((Extent(int(found[1]), unit) for begins, unit in _UNITS if said.startswith(begins)), None)


def extent_of(element: _Element) -> str:
    """Return the argument of a space left blank: a number of letters, or what is said of it, or "?"."""
    letters = letters_of(element)
    said = f"{element.get('quantity') or element.get('extent') or ''} {element.get('unit') or ''}"
    return str(letters) if letters else " ".join(said.split()) or "?"


def chosen(element: _Element) -> tuple[_Element, ...]:
    """Return what a choice is read as: what the copy has, abbreviations written out."""
    offered = children(element)
    for tag in _PREFERRED:
        for child in offered:
            if name(child) == tag:
                return (child,)
    return offered[:1]


def substituted(element: _Element) -> tuple[_Element, ...]:
    """Return the parts of a subst, what was struck out first."""
    return tuple(sorted(children(element), key=lambda child: name(child) not in ("del", "surplus")))
