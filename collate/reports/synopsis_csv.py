"""Findings in, the witnesses side by side as CSV out: a row for each column of the alignment."""

from collections.abc import Iterable, Iterator, Sequence

from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.reports.synopsis import Cell, Synopsis, synopsis
from collate.reports.table import rows

ABSENT = "absent"
"""The state of a witness that lacks the item, beside those of Presence."""


def csv(findings: Findings) -> Iterator[str]:
    """Yield a header and a row for each column; four fields for each witness of the edition."""
    edition = findings.edition
    yield from assembled(edition, (item(found, edition) for found in findings.items))


def item(found: ItemFindings, edition: Edition) -> str:
    """Return the rows of one item."""
    return "".join(rows(_rows(found, edition)))


def assembled(edition: Edition, items: Iterable[str]) -> Iterator[str]:
    """Yield a header and the rows of items, each written by `item`."""
    names = ("", " state", " place", " moved")
    fields = [f"{witness.siglum}{name}" for witness in edition.witnesses for name in names]
    yield from rows((["item", "column", "base", "place", "weight", *fields],))
    yield from items


def _rows(found: ItemFindings, edition: Edition) -> Iterator[Sequence[str]]:
    laid = synopsis(found)
    for at, head in enumerate(laid.heads):
        row = [found.collation.key, str(head.number), found.base, head.place, head.weight or ""]
        for witness in edition.witnesses:
            row.extend(_fields(laid, witness.siglum, at))
        yield row


def _fields(laid: Synopsis, siglum: str, at: int) -> Sequence[str]:
    if siglum not in laid.sigla:
        return ("", ABSENT, "", "")
    cell: Cell = laid.rows[laid.sigla.index(siglum)][at]
    return (cell.words, cell.presence, cell.place, " ".join(str(number) for number in cell.moves))
