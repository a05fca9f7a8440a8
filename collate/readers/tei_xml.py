"""TEI as XML: bytes in, a checked root out, and its content as one stream of events."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from html.entities import html5

from lxml import etree
from lxml.etree import _Element

from collate.errors import InputError
from collate.model.source import Place, Source

NAMESPACE = "http://www.tei-c.org/ns/1.0"
"""The namespace of TEI P5."""

_PREFIX = f"{{{NAMESPACE}}}"
XML_ID = "{http://www.w3.org/XML/1998/namespace}id"
XML_SPACE = "{http://www.w3.org/XML/1998/namespace}space"
BLANKS = " \t\r\n"
"""What XML calls white space."""


@dataclass(frozen=True, slots=True)
class Open:
    """An element begins."""

    element: _Element


@dataclass(frozen=True, slots=True)
class Close:
    """An element ends."""

    element: _Element


@dataclass(frozen=True, slots=True)
class Text:
    """Characters, with the line of the file on which they begin."""

    text: str
    line: int


@dataclass(frozen=True, slots=True)
class Reference:
    """A named character (`&thorn;`) that the file itself does not define."""

    name: str
    line: int


@dataclass(frozen=True, slots=True)
class Stray:
    """Letters right inside an element of which only certain elements are walked."""

    text: str
    element: _Element


Event = Open | Close | Text | Reference | Stray
Content = Callable[[_Element], tuple[_Element, ...] | None]
"""What of an element to walk: None for all that is in it, or certain elements only."""


def parse(source: Source) -> _Element:
    """Return the root of a TEI P5 document; nothing outside the file is read and no entity is set in.

    Raises InputError for XML that is broken, declares entities, or is no TEI P5.
    """
    root = _root(source)
    dtd = root.getroottree().docinfo.internalDTD
    # the stubs of lxml do not know this method
    names = [str(each.name) for each in dtd.iterentities()] if dtd is not None else []  # type: ignore[attr-defined]
    if names or (dtd is not None and b"<!ENTITY" in source.data):
        raise _entities(source, ", ".join(names[:5]) or "parameter entities")
    if root.tag not in (f"{{{NAMESPACE}}}TEI", f"{{{NAMESPACE}}}teiCorpus"):
        raise InputError(
            f"this is XML, but no TEI P5 (its root is <{etree.QName(root).localname}>): the root should be"
            f" <TEI> in the namespace {NAMESPACE}",
            Place(source.name, line_of(root)),
        )
    return root


def _root(source: Source) -> _Element:
    parser = etree.XMLParser(
        resolve_entities=False,
        no_network=True,
        load_dtd=False,
        huge_tree=False,
        remove_comments=False,
        collect_ids=False,
    )
    try:
        return etree.fromstring(source.data, parser)
    except etree.XMLSyntaxError as error:
        if b"<!ENTITY" in source.data:
            raise _entities(source, "they cannot be read safely") from None
        line, column = error.position
        raise InputError(_unread(error), Place(source.name, line, column)) from None


def _unread(error: etree.XMLSyntaxError) -> str:
    """Say why XML cannot be read: it is too deep, some text is too long, or it is broken."""
    if "depth" in str(error.msg).lower():
        return (
            "elements stand here more than 250 deep one within another, which no transcription needs: look"
            " which of them is not closed where it ends"
        )
    if "XML_PARSE_HUGE" in str(error.msg):
        return (
            "a text of over ten million letters stands here in one element or attribute: cut it into several"
        )
    return f"this is no well-formed XML ({_said(error)}): mend it here, or nearby before it"


def _said(error: etree.XMLSyntaxError) -> str:
    """Return the parser's own words without its line and column."""
    return " ".join(str(error.msg).split(", line ")[0].split())


def _entities(source: Source, names: str) -> InputError:
    return InputError(
        f"this file declares entities: {names}; type the characters themselves and take the declarations out",
        Place(source.name, 1),
    )


def only_text(root: _Element, source: Source) -> _Element:
    """Return the text of a TEI document; raise InputError where there is none, or more than one."""
    texts = [each for each in find(root, "text") if _is_document(each)]
    if not texts and (elsewhere := _in_source_doc(root, source)):
        raise elsewhere
    if not texts:
        raise InputError(
            "there is no <text> in this file: put the transcription in <text><body>", Place(source.name)
        )
    if len(texts) > 1:
        raise InputError(
            f"this file holds {len(texts)} texts: put each in a file of its own",
            Place(source.name, line_of(texts[1])),
        )
    return texts[0]


def textless(root: _Element, source: Source) -> InputError:
    """Return the fault of a document whose text holds no letters."""
    said = "there is no text in this file: put the transcription in it"
    return _in_source_doc(root, source) or InputError(said, Place(source.name))


def _in_source_doc(root: _Element, source: Source) -> InputError | None:
    """Return the fault of a document whose transcription stands in its sourceDoc, None where it does not."""
    found = next((each for each in find(root, "sourceDoc") if plain_text(each)), None)
    if found is None:
        return None
    return InputError(
        "the transcription in this file stands in <sourceDoc>, which is not read: put it in <text><body>",
        Place(source.name, line_of(found)),
    )


def _is_document(text: _Element) -> bool:
    parent = text.getparent()
    return parent is not None and name(parent) == "TEI"


def name(element: _Element) -> str:
    """Return an element's TEI name; one of another namespace keeps it in braces."""
    return str(element.tag).removeprefix(_PREFIX)


def line_of(element: _Element) -> int:
    """Return the line of the file on which an element stands, 0 if it is not known."""
    line: object = element.sourceline
    return line if isinstance(line, int) else 0


def find(element: _Element, *names: str) -> Iterator[_Element]:
    """Yield the TEI elements of these names below an element, in order."""
    yield from element.iter(*(f"{{{NAMESPACE}}}{each}" for each in names))


def children(element: _Element) -> tuple[_Element, ...]:
    """Return the elements right below an element, without comments and instructions."""
    return tuple(child for child in element if isinstance(child.tag, str))


def pointed(value: str) -> str:
    """Return the identifier that a pointer (`#A`, `wits.xml#A`, bare `A`) names."""
    return value.rsplit("#", 1)[-1]


def plain_text(element: _Element) -> str:
    """Return all the text in an element, its blanks single."""
    parts = (event.text for event in events(element, lambda _: None) if isinstance(event, Text))
    return " ".join("".join(parts).split())


def events(root: _Element, content: Content) -> Iterator[Event]:
    """Walk an element and yield what opens, closes and stands in it, in the order of the file.

    `content` is asked right after an element's Open was taken. Comments and processing
    instructions are passed over.
    """
    line = line_of(root)
    waiting: list[Event | _Element] = [root]
    while waiting:
        event = waiting.pop()
        if isinstance(event, Text):
            yield Text(event.text, line)
            line += event.text.count("\n")
        elif isinstance(event, _Element):
            line = line_of(event) or line
            yield Open(event)
            waiting.append(Close(event))
            chosen = content(event)
            inside = _inside(event)
            if chosen is None:
                waiting.extend(inside)
            else:
                waiting.extend(reversed(chosen))
                letters = "".join(part.text for part in reversed(inside) if isinstance(part, Text)).split()
                if letters:
                    waiting.append(Stray(" ".join(letters), event))
        else:
            yield event


def _inside(element: _Element) -> list[Event | _Element]:
    """Return what stands right inside an element, the last first. Only here are `text` and `tail` read."""
    inside: list[Event | _Element] = []
    for child in reversed(element):
        if child.tail:
            inside.append(Text(child.tail, 0))
        if isinstance(child.tag, str):
            inside.append(child)
        elif child.tag is etree.Entity:
            inside.append(Reference(str(child.text)[1:-1], line_of(child)))
    if element.text:
        inside.append(Text(element.text, 0))
    return inside


def referred(reference: Reference) -> str | None:
    """Return the character of a name in the HTML list (which has the ISO names), or None."""
    return html5.get(f"{reference.name};")
