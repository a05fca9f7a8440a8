"""Letters and elements in, in the order of the text, an XML element with mixed content out."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from lxml import etree
from lxml.etree import _Element

XML_ID = "{http://www.w3.org/XML/1998/namespace}id"
XML_LANG = "{http://www.w3.org/XML/1998/namespace}lang"

_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_UNSAFE = re.compile("[\r\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")

Attributes = Mapping[str, str]


def allowed(text: str) -> str:
    """Return a text with the mark of a character unknown (U+FFFD) for each that XML does not allow."""
    return _NOT_XML.sub("\ufffd", text)


def element(tag: str, attributes: Attributes, parent: _Element | None = None) -> _Element:
    """Return a new element, the last of its parent's if one is given; empty attributes are left out."""
    kept = {name: allowed(value) for name, value in attributes.items() if value}
    return etree.Element(tag, kept) if parent is None else etree.SubElement(parent, tag, kept)


def serialised(root: _Element) -> str:
    """Return an element as XML, not one blank added; invisible controls are written as their numbers."""
    text = etree.tostring(root, encoding="unicode")
    return _UNSAFE.sub(lambda match: f"&#x{ord(match.group()):X};", text)


@dataclass(slots=True)
class Mixed:
    """Fills an element from left to right. Only here are `text` and `tail` written."""

    root: _Element
    _open: list[_Element] = field(default_factory=list)

    @property
    def here(self) -> _Element:
        """The innermost element that is open."""
        return self._open[-1] if self._open else self.root

    def text(self, text: str) -> None:
        """Write letters."""
        if not text:
            return
        text = allowed(text)
        last = self.here[-1] if len(self.here) else None
        if last is None:
            self.here.text = (self.here.text or "") + text
        else:
            last.tail = (last.tail or "") + text

    def begin(self, tag: str, attributes: Attributes) -> _Element:
        """Open an element."""
        opened = element(tag, attributes, self.here)
        self._open.append(opened)
        return opened

    def end(self) -> None:
        """Close the element opened last."""
        self._open.pop()

    def empty(self, tag: str, attributes: Attributes) -> None:
        """Write an element without content."""
        element(tag, attributes, self.here)

    def whole(self, tag: str, attributes: Attributes, text: str) -> None:
        """Write an element that holds letters only."""
        self.begin(tag, attributes)
        self.text(text)
        self.end()


@dataclass(slots=True)
class Nested:
    """Keeps elements nested in one order while what holds changes from letter to letter."""

    mixed: Mixed
    _held: list[tuple[str, tuple[tuple[str, str], ...]]] = field(default_factory=list)

    def keep(self, wanted: Sequence[tuple[str, tuple[tuple[str, str], ...]]]) -> None:
        """Close elements until none is open that is not `wanted`, outermost first."""
        shared = 0
        while shared < min(len(wanted), len(self._held)) and wanted[shared] == self._held[shared]:
            shared += 1
        for _ in self._held[shared:]:
            self.mixed.end()
        del self._held[shared:]

    def hold(self, wanted: Sequence[tuple[str, tuple[tuple[str, str], ...]]]) -> None:
        """Close and open elements until just those `wanted` are open, outermost first."""
        self.keep(wanted)
        for tag, attributes in wanted[len(self._held) :]:
            self.mixed.begin(tag, dict(attributes))
        self._held.extend(wanted[len(self._held) :])
