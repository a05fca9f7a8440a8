"""Dates in the Extended Date/Time Format (ISO 8601-2:2019): a string in, its Julian bounds out.

The standard counts in the Gregorian calendar; here, as in the rest of an edition, the years and days
are Julian, and the year begins on 1 January.
"""

import re
from dataclasses import dataclass, field
from itertools import product

from collate.lexicon.calendar import is_valid, length_of_month, month_names
from collate.model.dates import Bounds, Day

_DATE = re.compile(
    r"(?P<before_year>[?~%]?)(?P<year>[0-9X]{4})(?:S(?P<digits>\d))?(?P<after_year>[?~%]?)"
    r"(?:-(?P<before_month>[?~%]?)(?P<month>[0-9X]{2})(?P<after_month>[?~%]?)"
    r"(?:-(?P<before_day>[?~%]?)(?P<day>[0-9X]{2})(?P<after_day>[?~%]?))?)?"
)
_SEASONS = {
    **dict.fromkeys((21, 25, 31), (3, 5)),
    **dict.fromkeys((22, 26, 32), (6, 8)),
    **dict.fromkeys((23, 27, 29), (9, 11)),
    **dict.fromkeys((24, 28, 30), (1, 14)),
    **{33 + quarter: (3 * quarter + 1, 3 * quarter + 3) for quarter in range(4)},
    **{37 + third: (4 * third + 1, 4 * third + 4) for third in range(3)},
    **{40 + half: (6 * half + 1, 6 * half + 6) for half in range(2)},
}
"""First and last month of the standard's seasons, quarters, thirds and halves of a year. Winter may lie at
either end of its year: January of it to February of the next."""

_HINTS = (
    (re.compile(r"(?:c(?:irca|a)?\.?|about|ab\.)\s*(\d{4})", re.IGNORECASE), r"\1~"),
    (re.compile(r"(\d{4})\s*[–-]\s*(\d{4})"), r"\1/\2"),
    (re.compile(r"(\d{2})(?:\?\?|xx|--|\.\.)"), r"\1XX"),
    (re.compile(r"(\d{3})(?:\?|x|-|\.)"), r"\1X"),
    (re.compile(r"(\d{4})-(\d)"), r"\1-0\2"),
    (re.compile(r"(\d{4})-(\d)-(\d)"), r"\1-0\2-0\3"),
    (re.compile(r"(\d{4})-(\d)-(\d\d)"), r"\1-0\2-\3"),
    (re.compile(r"(\d{4})-(\d\d)-(\d)"), r"\1-\2-0\3"),
    (re.compile(r"(\d{4})\s+\?"), r"\1?"),
    (re.compile(r"(?:before|ante|a\.)\s*(\d{4})", re.IGNORECASE), r"../\1"),
    (re.compile(r"(?:after|post|p\.)\s*(\d{4})", re.IGNORECASE), r"\1/.."),
    (re.compile(r"(\d{4})[./](\d\d)[./](\d\d)"), r"\1-\2-\3"),
)
"""What people write for a date in the format, and what would be right."""


class NotEdtf(ValueError):  # noqa: N818  the sentence it carries says what is wrong
    """A string that is no date in the format; its message says why, and what would be right."""


@dataclass(frozen=True, slots=True)
class EdtfDate:
    """A date read: its bounds, whether it is uncertain (?) or approximate (~), both for %.

    `parts` are the ends of an interval or the members of a set, and empty for a single date.
    """

    bounds: Bounds
    uncertain: bool = False
    approximate: bool = False
    parts: tuple["EdtfDate", ...] = field(default=())


def read_edtf(text: str) -> Bounds:
    """Return the days between which a date in the format lies; raise `NotEdtf` if it is none."""
    return read_edtf_date(text).bounds


def read_edtf_date(text: str) -> EdtfDate:
    """Return a date in the format with its qualifiers; raise `NotEdtf` if it is none.

    Takes levels 0 and 1 and, of level 2, sets, qualified parts, digits left open and significant
    digits. Years before 1 or beyond 9999 and times of day are refused.
    """
    text = text.strip()
    if not text:
        raise NotEdtf("an empty string is no date; leave the key out where no date is known")
    if text.startswith(("Y", "-")):
        raise NotEdtf(
            f"“{text}” is refused: years run from 0001 to 9999 here, and are written with four digits"
        )
    if "T" in text:
        raise NotEdtf(
            f"“{text}” is refused: a time of day is no part of a date here; write {text.split('T')[0]}"
        )
    if text[0] in "[{":
        return _set(text)
    return _interval(text) if "/" in text and _hint(text).count("-") != 2 else _single(text, text)


def _interval(text: str) -> EdtfDate:
    ends = text.split("/")
    if len(ends) != 2 or set(ends) <= {"", ".."}:
        raise NotEdtf(f"“{text}” is no interval: give two dates with one / between, as 1391/1418 or 1391/..")
    first, last = (None if end in ("", "..") else _single(end, text) for end in ends)
    start = first.bounds.not_before if first else None
    stop = last.bounds.not_after if last else None
    if start and stop and stop < start:
        raise NotEdtf(f"“{text}” ends before it begins; write {ends[1]}/{ends[0]}")
    return _joined(Bounds(start, stop), tuple(end for end in (first, last) if end))


def _joined(bounds: Bounds, parts: tuple[EdtfDate, ...]) -> EdtfDate:
    uncertain = any(part.uncertain for part in parts)
    return EdtfDate(bounds, uncertain, any(part.approximate for part in parts), parts)


def _set(text: str) -> EdtfDate:
    """Read "[1417,1418]" (one of them) or "{1417..1420}" (all): the bounds take in every member."""
    end = {"[": "]", "{": "}"}[text[0]]
    if text[-1] != end:
        raise NotEdtf(f"“{text}” is no set: it begins with {text[0]} and does not end with {end}")
    members = [_member(member.strip(), text) for member in text[1:-1].split(",")]
    firsts = [member.bounds.not_before for member in members]
    lasts = [member.bounds.not_after for member in members]
    first = None if None in firsts else min(day for day in firsts if day)
    last = None if None in lasts else max(day for day in lasts if day)
    return _joined(Bounds(first, last), tuple(members))


def _member(member: str, whole: str) -> EdtfDate:
    if ".." not in member:
        return _single(member, whole)
    start, _, stop = member.partition("..")
    return _interval(f"{start or '..'}/{stop or '..'}")


def _single(text: str, whole: str) -> EdtfDate:
    found = _DATE.fullmatch(text)
    if found is None:
        raise NotEdtf(_not_a_date(text, whole))
    signs = "".join(found[name] or "" for name in found.groupdict() if name.startswith(("before", "after")))
    bounds = _bounds(text, found)
    return EdtfDate(bounds, bool(set(signs) & set("?%")), bool(set(signs) & set("~%")))


def _hint(text: str) -> str:
    return next((found.expand(right) for pattern, right in _HINTS if (found := pattern.fullmatch(text))), "")


def _not_a_date(text: str, whole: str) -> str:
    where = "" if text == whole else f" in “{whole}”"
    hint = _hint(text) or _hint(text.replace("x", "X"))
    right = (
        f"write {hint}"
        if hint
        else "write a year, 1418, or a day, 1418-03-02, and ~ behind what is approximate"
    )
    return f"“{text}”{where} is no date in the extended format (EDTF); {right}"


def _bounds(text: str, found: re.Match[str]) -> Bounds:
    year, month, day = found["year"], found["month"], found["day"]
    if found["digits"]:
        kept = int(found["digits"])
        if not 1 <= kept <= 4 or month or "X" in year:
            raise NotEdtf(f"“{text}” has no such significant digits; write a year and S1 to S4, as 1418S2")
        year = year[:kept] + "X" * (4 - kept)
    if year == "0000":
        raise NotEdtf(f"“{text}” is refused: there is no year 0; the year before A.D. 1 is not dated here")
    if year == "XXXX":
        return Bounds()
    if month and month.isdigit() and int(month) in _SEASONS:
        return _season(text, year, int(month), day)
    if month is None:
        return Bounds(Day(max(_least(year), 1), 1, 1), Day(_most(year), 12, 31))
    return _days(text, year, month, day)


def _least(digits: str) -> int:
    return int(digits.replace("X", "0"))


def _most(digits: str) -> int:
    return int(digits.replace("X", "9"))


def _season(text: str, year: str, season: int, day: str | None) -> Bounds:
    if day is not None:
        raise NotEdtf(f"“{text}” gives a day of a season, which has none; write {year}-{season}")
    first, last = _SEASONS[season]
    end = _most(year) + (last > 12)
    month = (last - 1) % 12 + 1
    return Bounds(Day(max(_least(year), 1), first, 1), Day(end, month, length_of_month(end, month)))


def _days(text: str, year: str, month: str, day: str | None) -> Bounds:
    """Return the first and last day that the digits leave open."""
    months = [number for number in _fitting(month) if 1 <= number <= 12]
    if not months:
        raise NotEdtf(f"“{text}” has the month {month}; months run from 01 to 12, seasons from 21 to 41")
    wanted = _fitting(day) if day else tuple(range(1, 32))
    years = [number for number in _fitting(year) if number > 0]
    near = (*years[:4], *years[-4:])
    days = sorted(each for y, m, d in product(near, months, wanted) if is_valid(each := Day(y, m, d)))
    if not days:
        last = length_of_month(near[0], months[0])
        month_of = f"{month_names()[months[0]]} {year}"
        raise NotEdtf(f"“{text}” has the day {day}; {month_of} has the days 01 to {last:02} (Julian)")
    return Bounds(days[0], days[-1])


def _fitting(digits: str) -> tuple[int, ...]:
    """Return every number that digits with some left open may be."""
    choices = ["0123456789" if digit == "X" else digit for digit in digits]
    return tuple(int("".join(choice)) for choice in product(*choices))
