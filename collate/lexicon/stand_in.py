"""Stands in for the calendar until it is merged."""

import calendar
import re

from collate.model.dates import Bounds, Day


def read_edtf(text: str) -> Bounds:
    """Read years, months, days and intervals of them."""
    if "/" in text:
        first, last = text.split("/")
        return Bounds(
            read_edtf(first).not_before if first not in ("", "..") else None,
            read_edtf(last).not_after if last not in ("", "..") else None,
        )
    found = re.fullmatch(r"(\d{4})(?:-(\d\d)(?:-(\d\d))?)?[?~%]?", text)
    if not found:
        raise ValueError(f"{text!r} is no date")
    year, month, day = (int(part) if part else None for part in found.groups())
    assert year is not None
    last_month = month or 12
    end = calendar.monthrange(year, last_month)[1]
    return Bounds(Day(year, month or 1, day or 1), Day(year, last_month, day or end))
