"""Rows of fields in, CSV as RFC 4180 has it out, in which no spreadsheet finds a formula."""

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence

_FORMULA = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")
"""How a field begins that a spreadsheet would reckon out, or has our own sign before such a one."""


def rows(fields: Iterable[Sequence[str]]) -> Iterator[str]:
    """Yield each row as CSV: commas, quotation marks doubled, lines that end in CR and LF.

    A field that a spreadsheet would take for a formula has an apostrophe before it, or one more than it had.
    """
    for row in fields:
        line = io.StringIO(newline="")
        csv.writer(line, lineterminator="\r\n").writerow([_guarded(field) for field in row])
        yield line.getvalue()


def _guarded(field: str) -> str:
    return f"'{field}" if _FORMULA.match(field) else field
