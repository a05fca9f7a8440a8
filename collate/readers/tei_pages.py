"""Numbers of pages and columns as TEI has them in, folios and page marks of the plain notation out."""

import re
from dataclasses import dataclass

_FOLIO = re.compile(
    r"\[?(?:ff?|fols?|folio)?\.?\s*0*(\d+)\s*(?:(r|v)(?:ecto|erso)?)?\s*\.?([ab]?)\]?", re.IGNORECASE
)
_PAGE = re.compile(r"\[?(?:pp?|page)\.?\s*0*(\d+)\]?", re.IGNORECASE)
_COLUMNS = {"1": "a", "2": "b", "left": "a", "right": "b", "a": "a", "b": "b"}


@dataclass(frozen=True, slots=True)
class Page:
    """A page: `folio` is its name in a place, `raw` its mark, `leaf` and `column` the parts of the name.

    The mark of a page whose name the plain notation cannot say is a bare bar.
    """

    folio: str | None = None
    raw: str = "|"
    leaf: str | None = None
    column: str = ""


def page_of(number: str | None) -> Page:
    """Return the page that a pb's number names: "7v", "f. 7v", "fol. 7 verso", "p. 12", or any other name."""
    named = " ".join((number or "").split())
    if found := _PAGE.fullmatch(named):
        return Page(f"p. {found[1]}", f"|p. {found[1]}|", f"p. {found[1]}")
    if found := _FOLIO.fullmatch(named):
        leaf, column = found[1] + (found[2] or "").lower(), (found[3] or "").lower()
        if found[2] or not column:
            return Page(leaf + column, f"|f. {leaf}{column}|", leaf, column)
    return Page(named or None, leaf=named or None)


def in_column(page: Page, number: str | None) -> Page:
    """Return the column of a page that a cb's number names; one without a number is the next."""
    named = (number or "").strip().lower()
    whole = page_of(number)
    if whole.raw != "|" and whole.column:
        return whole
    column = _COLUMNS.get(named, named) or {"": "a", "a": "b"}.get(page.column, "")
    if page.leaf is None:
        return Page(column=column)
    folio = page.leaf + column
    marked = page.leaf[-1:] in ("r", "v") and page.leaf[:-1].isdecimal() and column in ("a", "b")
    return Page(folio, f"|f. {folio}|" if marked else "|", page.leaf, column)
