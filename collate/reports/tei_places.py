"""Where words stand in a copy in, the page, column and line beginnings that say so out."""

import re
from dataclasses import dataclass

from collate.model.source import Place

_COLUMN = re.compile(r"(\d+[rv])([ab])")


@dataclass(frozen=True, slots=True)
class Break:
    """An empty element that says where something begins."""

    tag: str
    attributes: tuple[tuple[str, str], ...]


@dataclass(slots=True)
class Course:
    """Follows one witness through the document: the page and line reached, and its hand.

    `pointer` points to the witness.
    """

    pointer: str
    hand: str = "1"
    _folio: str | None = None
    _line: int | None = None

    def move(self, place: Place, *, apart: bool = True) -> tuple[Break, ...]:
        """Go to a place, and return what begins there; `apart` says whether it divides two words."""
        marks: list[tuple[str, str]] = []
        if place.folio != self._folio:
            marks.extend(self._page(place.folio))
            self._folio, self._line = place.folio, None
        if place.ms_line is not None and place.ms_line != self._line:
            marks.append(("lb", str(place.ms_line)))
            self._line = place.ms_line
        return tuple(self._break(tag, number, apart=apart) for tag, number in marks)

    def _page(self, folio: str | None) -> list[tuple[str, str]]:
        leaf, column = _divided(folio)
        last, before = _divided(self._folio)
        if leaf == last and column and before:
            return [("cb", column)]
        return [("pb", leaf or ""), *([("cb", column)] if column else [])]

    def _break(self, tag: str, number: str, *, apart: bool) -> Break:
        attributes = [("n", number), ("edRef", self.pointer), ("break", "" if apart else "no")]
        return Break(tag, tuple((name, value) for name, value in attributes if value))


def _divided(folio: str | None) -> tuple[str | None, str]:
    """Return a folio's leaf and column: "7va" is 7v and a."""
    found = _COLUMN.fullmatch(folio or "")
    return (found[1], found[2]) if found else (folio, "")
