"""Letters and elements in, in the order of the text, an XML element with mixed content out."""

import re
from collections.abc import Mapping, Sequence
from itertools import islice

XML_ID = "xml:id"
XML_LANG = "xml:lang"

_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_UNSAFE = re.compile("[\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")
_LETTERS = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", "\r": "&#13;"})
_VALUES = _LETTERS | str.maketrans({'"': "&quot;", "\t": "&#9;", "\n": "&#10;"})

Attributes = Mapping[str, str]


def _written(text: str, signs: Mapping[int, str]) -> str:
    """Return a text in XML, with the mark of a character unknown (U+FFFD) for each that XML does not allow.

    Invisible controls are written as their numbers.
    """
    if text.isalnum():
        return text
    allowed = _NOT_XML.sub("\ufffd", text).translate(signs)
    return _UNSAFE.sub(lambda match: f"&#x{ord(match.group()):X};", allowed)


class Mixed:
    """Writes an element from left to right, not one blank added; empty attributes are left out."""

    __slots__ = ("_begun", "_open", "_pieces")

    def __init__(self, tag: str, attributes: Attributes) -> None:
        self._pieces: list[str] = []
        self._open: list[str] = []
        self._begun = False  # whether the tag written last waits for its end: what it holds decides on that
        self.begin(tag, attributes)

    def text(self, text: str) -> None:
        """Write letters."""
        if text:
            self.put(_written(text, _LETTERS))

    def put(self, xml: str) -> None:
        """Write what is XML already."""
        if self._begun:
            self._pieces.append(">")
            self._begun = False
        self._pieces.append(xml)

    def begin(self, tag: str, attributes: Attributes) -> None:
        """Open an element."""
        said = "".join(f' {name}="{_written(value, _VALUES)}"' for name, value in attributes.items() if value)
        self.put(f"<{tag}{said}")
        self._open.append(tag)
        self._begun = True

    def end(self) -> None:
        """Close the element opened last."""
        tag = self._open.pop()
        self._pieces.append("/>" if self._begun else f"</{tag}>")
        self._begun = False

    def empty(self, tag: str, attributes: Attributes) -> None:
        """Write an element without content."""
        self.begin(tag, attributes)
        self.end()

    def whole(self, tag: str, attributes: Attributes, text: str) -> None:
        """Write an element that holds letters only."""
        self.begin(tag, attributes)
        self.text(text)
        self.end()

    @property
    def is_filled(self) -> bool:
        """Whether an element stands in it."""
        return any(piece.startswith("<") for piece in islice(self._pieces, 1, None))

    def done(self) -> str:
        """Close what is open, and return the whole."""
        while self._open:
            self.end()
        return "".join(self._pieces)


class Nested:
    """Keeps elements nested in one order while what holds changes from letter to letter."""

    __slots__ = ("_held", "mixed")

    def __init__(self, mixed: Mixed) -> None:
        self.mixed = mixed
        self._held: list[tuple[str, tuple[tuple[str, str], ...]]] = []

    def keep(self, wanted: Sequence[tuple[str, tuple[tuple[str, str], ...]]]) -> None:
        """Close elements until none is open that is not `wanted`, outermost first."""
        if not self._held:
            return
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
            self._held.append((tag, attributes))
