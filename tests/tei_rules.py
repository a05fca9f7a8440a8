"""What a TEI document with an apparatus must keep to, beyond its grammar.

The rules are those of the TEI P5 Guidelines 4.9.0a (the prose of the chapter on critical apparatus, and the
Schematron in the specifications of the elements named), which RELAX NG cannot express.
"""

import re
from collections.abc import Iterator

from lxml import etree
from lxml.etree import _Element

TEI = "{http://www.tei-c.org/ns/1.0}"
XML_ID = "{http://www.w3.org/XML/1998/namespace}id"
POINTING = (
    "wit",
    "ana",
    "exclude",
    "corresp",
    "inst",
    "edRef",
    "hand",
    "new",
    "target",
    "copyOf",
    "source",
    "resp",
    "calendar",
    "datingMethod",
    "from",
    "to",
)
METHODS = {("parallel-segmentation", "internal"), ("double-end-point", "external")}
MILESTONES = ("lacunaStart", "lacunaEnd", "witStart", "witEnd")
BLOCKS = ("p", "ab", "div", "head")


def faults(document: str) -> list[str]:
    """Return each breach of a rule, in words."""
    root = etree.fromstring(document.encode(), etree.XMLParser(collect_ids=False))
    rules = (
        _categories,
        _names,
        _pointers,
        _method,
        _tokens,
        _entries,
        _groups,
        _milestones,
        _blocks,
        _witnesses,
    )
    return [fault for rule in rules for fault in rule(root)]


def name(element: _Element) -> str:
    return str(element.tag).removeprefix(TEI)


def every(element: _Element, *names: str) -> Iterator[_Element]:
    yield from element.iter(*(TEI + each for each in names))


def _names(root: _Element) -> Iterator[str]:
    names = [value for element in root.iter("*") if (value := element.get(XML_ID)) is not None]
    yield from (f"xml:id {each} stands twice" for each in sorted(set(names)) if names.count(each) > 1)
    yield from (
        f"xml:id {each!r} is no NCName" for each in names if not re.fullmatch(r"[^\W\d][\w.-]*", each)
    )


def _pointers(root: _Element) -> Iterator[str]:
    names = {element.get(XML_ID) for element in root.iter("*")}
    for element in root.iter("*"):
        for key in POINTING:
            for pointer in (element.get(key) or "").split():
                if not pointer.startswith("#") or pointer[1:] not in names:
                    yield f"{name(element)}/@{key} points to nothing: {pointer}"


def _method(root: _Element) -> Iterator[str]:
    stated = [(each.get("method"), each.get("location")) for each in every(root, "variantEncoding")]
    if len(stated) != 1 or stated[0] not in METHODS:
        yield f"variantEncoding is stated as {stated}"
        return
    if stated[0][1] == "external":
        yield from _attached(root)
        return
    yield from (
        "an app has @from, @to or @loc"
        for app in every(root, "app")
        if {"from", "to", "loc"} & set(app.keys())
    )


def _attached(root: _Element) -> Iterator[str]:
    """Yield what is wrong with entries that stand apart: each points to two ends, the first one first."""
    order = {f"#{each.get(XML_ID)}": number for number, each in enumerate(root.iter("*")) if each.get(XML_ID)}
    for app in every(root, "app"):
        if any(name(each) == "text" for each in app.iterancestors()):
            yield "an app stands in the text"
        first, last = app.get("from", ""), app.get("to", "")
        if app.get("loc") or not first or not last:
            yield "an app has not both of @from and @to, or has @loc"
        elif order.get(last, 0) < order.get(first, 0):
            yield "an app ends before it begins"
    pointed = {app.get(key, "")[1:] for app in every(root, "app") for key in ("from", "to")}
    yield from (
        "nothing points to an anchor" for each in every(root, "anchor") if each.get(XML_ID) not in pointed
    )


def _tokens(root: _Element) -> Iterator[str]:
    for element in every(root, "app", "lem", "rdg", "rdgGrp", "div", "hi", "add"):
        if element.get("subtype") and not element.get("type"):
            yield f"{name(element)} has @subtype without @type"
        for key in ("type", "subtype", "cause"):
            if (value := element.get(key)) is not None and len(value.split()) != 1:
                yield f"{name(element)}/@{key} is not one word: {value!r}"


def _categories(root: _Element) -> Iterator[str]:
    """Yield what the attributes of readings say that no taxonomy explains."""
    known = {category.get(XML_ID) for category in every(root, "category")}
    for element in every(root, "lem", "rdg"):
        for key, lead in (("type", ("kind", "state")), ("subtype", ("sort",)), ("cause", ("cause",))):
            value = element.get(key)
            if value is not None and known.isdisjoint(f"{each}-{value}" for each in lead):
                yield f"{name(element)}/@{key} is in no taxonomy: {value}"


def readings(app: _Element) -> list[_Element]:
    """Return the readings of an entry itself, those in groups too."""
    found = []
    for child in app:
        if name(child) in ("lem", "rdg"):
            found.append(child)
        elif name(child) == "rdgGrp":
            found.extend(readings(child))
    return found


def is_absence(app: _Element) -> bool:
    """Say whether an entry that stands apart says who has not the item it points to: the text is its lemma."""
    return app.get("from") is not None and app.get("type") == "absent"


def _entries(root: _Element) -> Iterator[str]:
    for app in every(root, "app"):
        offered = readings(app)
        if is_absence(app):
            continue
        if not offered or name(offered[0]) != "lem":
            yield "the first reading of an app is no lem"
        if sum(name(each) == "lem" for each in offered) > 1:
            yield "an app has two lemmas"
        if len(offered) < 2:
            yield "an app has one reading only"
        if (app.text or "").strip() or any((child.tail or "").strip() for child in app):
            yield "letters stand right inside an app"


def _groups(root: _Element) -> Iterator[str]:
    for group in every(root, "rdgGrp"):
        if group.get("wit"):
            yield "a rdgGrp has @wit"
        if sum(name(child) == "lem" for child in group) > 1:
            yield "a rdgGrp has two lemmas"
        if len(group) < 2:
            yield "a rdgGrp has one reading only"


def _milestones(root: _Element) -> Iterator[str]:
    for element in every(root, *MILESTONES):
        if not any(name(each) in ("lem", "rdg") for each in element.iterancestors()):
            yield f"{name(element)} stands outside any reading"


def _blocks(root: _Element) -> Iterator[str]:
    for block in every(root, *BLOCKS):
        for outer in block.iterancestors(TEI + "p", TEI + "ab", TEI + "head"):
            yield f"a {name(block)} stands in a {name(outer)}"


def _witnesses(root: _Element) -> Iterator[str]:
    """Yield where a witness stands in no reading or in two, among those whose text an entry is."""
    listed = {f"#{each.get(XML_ID)}" for each in every(root, "witness")}
    for app in every(root, "app"):
        if is_absence(app):
            continue
        about = next((each for each in app.iterancestors(TEI + "lem", TEI + "rdg")), None)
        wanted = listed if about is None else set((about.get("wit") or "").split())
        beside = app.getparent()
        if about is None and beside is not None:
            lacking = [each for other in beside if is_absence(other) for each in readings(other)]
            wanted = wanted - {pointer for each in lacking for pointer in (each.get("wit") or "").split()}
        named = [pointer for each in readings(app) for pointer in (each.get("wit") or "").split()]
        if sorted(named) != sorted(wanted):
            yield f"an app of {sorted(wanted)} has readings of {named}"
