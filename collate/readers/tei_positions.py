"""Where the elements of a TEI file begin: its bytes in, line and column of each element out."""

from collections.abc import Mapping
from dataclasses import dataclass
from io import BytesIO
from xml.parsers import expat

from lxml.etree import _Element


@dataclass(slots=True)
class Positions:
    """Finds where an element of `root` begins in `data`; the file is gone through when first asked for.

    The tree itself knows lines only, and of a tag over several lines the last.
    """

    data: bytes
    root: _Element
    _found: Mapping[_Element, tuple[int, int]] | None = None

    def of(self, element: _Element) -> tuple[int, int] | None:
        """Return the line and column of an element, from 1; None where they cannot be known."""
        if self._found is None:
            self._found = _positions(self.data, self.root)
        return self._found.get(element)


def _positions(data: bytes, root: _Element) -> Mapping[_Element, tuple[int, int]]:
    begins: list[tuple[int, int]] = []
    parser = expat.ParserCreate()
    parser.UseForeignDTD()

    def begin(tag: str, attributes: Mapping[str, str]) -> None:
        begins.append((parser.CurrentLineNumber, parser.CurrentColumnNumber + 1))

    parser.StartElementHandler = begin
    try:
        parser.ParseFile(BytesIO(data))
    except expat.ExpatError:
        return {}
    elements = list(root.iter("*"))
    return dict(zip(elements, begins, strict=True)) if len(elements) == len(begins) else {}
