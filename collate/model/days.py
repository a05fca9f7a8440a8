"""Days and bounds in words, as a scholar writes them: 2 March 1418; 1391 – 2 March 1418."""

from collate.model.dates import Bounds, Day

MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def day_said(day: Day) -> str:
    """Return a day in words."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def start_said(day: Day) -> str:
    """Return the first day of a span in words; the first of a year as the year."""
    return str(day.year) if (day.month, day.day) == (1, 1) else day_said(day)


def end_said(day: Day) -> str:
    """Return the last day of a span in words; the last of a year as the year."""
    return str(day.year) if (day.month, day.day) == (12, 31) else day_said(day)


def bounds_said(bounds: Bounds) -> str:
    """Return bounds in words: "not before 1391", "1391 – 2 March 1418", "" where there are none."""
    first, last = bounds.not_before, bounds.not_after
    if first is not None and last is not None:
        if first == last:
            return day_said(first)
        if first.year == last.year and start_said(first) == end_said(last) == str(first.year):
            return str(first.year)
        return f"{start_said(first)} – {end_said(last)}"
    if first is not None:
        return f"not before {start_said(first)}"
    return f"not after {end_said(last)}" if last is not None else ""


def term_said(office: str, held: Bounds) -> str:
    """Return an office and its time in words: "abbot of Eldernesse 1391 – 1418", "duchess from 1402"."""
    first, last = held.not_before, held.not_after
    if first is not None and last is None:
        return f"{office} from {start_said(first)}"
    if last is not None and first is None:
        return f"{office} until {end_said(last)}"
    return f"{office} {bounds_said(held)}".strip()


def death_said(died: Bounds) -> str:
    """Return a death in words: "† 2 March 1418", "" where it is not known."""
    if died == Bounds():
        return ""
    first, last = died.not_before, died.not_after
    if first and last and first != last and (first.year, first.month) == (last.year, last.month):
        return f"† {MONTHS[first.month - 1]} {first.year}"
    return f"† {bounds_said(died)}"
