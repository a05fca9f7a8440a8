"""Findings in, the witnesses side by side as CSV out: a row for each column of the alignment."""

from collections.abc import Iterator, Sequence

from collate.model.findings import Findings
from collate.reports.synopsis import Cell, Synopsis, synopsis
from collate.reports.table import rows

ABSENT = "absent"
"""The state of a witness that lacks the item, beside those of Presence."""


def csv(findings: Findings) -> Iterator[str]:
    """Yield a header and a row for each column; four fields for each witness of the edition."""
    sigla = [witness.siglum for witness in findings.edition.witnesses]
    yield from rows(_rows(findings, sigla))


def _rows(findings: Findings, sigla: Sequence[str]) -> Iterator[Sequence[str]]:
    fields = [f"{siglum}{name}" for siglum in sigla for name in ("", " state", " place", " moved")]
    yield ["item", "column", "base", "place", "weight", *fields]
    for found in findings.items:
        laid = synopsis(found)
        for at, head in enumerate(laid.heads):
            row = [found.collation.key, str(head.number), found.base, head.place, head.weight or ""]
            for siglum in sigla:
                row.extend(_fields(laid, siglum, at))
            yield row


def _fields(laid: Synopsis, siglum: str, at: int) -> Sequence[str]:
    if siglum not in laid.sigla:
        return ("", ABSENT, "", "")
    cell: Cell = laid.rows[laid.sigla.index(siglum)][at]
    return (cell.words, cell.presence, cell.place, " ".join(str(number) for number in cell.moves))
