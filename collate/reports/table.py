"""Rows of fields in, CSV as RFC 4180 has it out."""

import csv
import io
from collections.abc import Iterable, Iterator, Sequence


def rows(fields: Iterable[Sequence[str]]) -> Iterator[str]:
    """Yield each row as CSV: commas, quotation marks doubled, lines that end in CR and LF."""
    for row in fields:
        line = io.StringIO(newline="")
        csv.writer(line, lineterminator="\r\n").writerow(row)
        yield line.getvalue()
