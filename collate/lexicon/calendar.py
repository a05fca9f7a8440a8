"""The Julian calendar: days counted, weekdays, Easter and the feasts that go with it."""

from functools import cache, lru_cache

from collate.lexicon.tables import table
from collate.model.dates import Bounds, Day

_BEFORE_MONTH = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365)
_DAYS_BEFORE_YEAR_ONE = 1721424
"""The Julian day number of 1 January A.D. 1 in the Julian calendar."""


def is_leap(year: int) -> bool:
    """Say whether a Julian year has 366 days: every fourth has."""
    return year % 4 == 0


def length_of_month(year: int, month: int) -> int:
    """Return how many days a month has."""
    return _BEFORE_MONTH[month] - _BEFORE_MONTH[month - 1] + (month == 2 and is_leap(year))


def is_valid(day: Day) -> bool:
    """Say whether there was such a day."""
    return 1 <= day.month <= 12 and 1 <= day.day <= length_of_month(day.year, day.month)


def day_number(day: Day) -> int:
    """Return the Julian day number that begins at noon of a day."""
    before = 365 * (day.year - 1) + (day.year - 1) // 4
    leap = day.month > 2 and is_leap(day.year)
    return _DAYS_BEFORE_YEAR_ONE + before + _BEFORE_MONTH[day.month - 1] + leap + day.day - 1


def day_of_number(number: int) -> Day:
    """Return the day whose Julian day number is `number`."""
    since = number - _DAYS_BEFORE_YEAR_ONE
    year = (4 * since + 3) // 1461 + 1
    left = number - day_number(Day(year, 1, 1))
    month = next(m for m in range(12, 0, -1) if number >= day_number(Day(year, m, 1)))
    return Day(year, month, left - (day_number(Day(year, month, 1)) - day_number(Day(year, 1, 1))) + 1)


def plus(day: Day, days: int) -> Day:
    """Return the day so many days later, or earlier if `days` is negative."""
    return day_of_number(day_number(day) + days)


def same_day_of(day: Day, year: int) -> Day:
    """Return the same day of the month in another year; 29 February gives 1 March where it lacks."""
    found = Day(year, day.month, day.day)
    return found if is_valid(found) else Day(year, 3, 1)


def weekday(day: Day) -> int:
    """Return the day of the week: 0 is Monday, 6 Sunday."""
    return day_number(day) % 7


@lru_cache(maxsize=4096)
def easter(year: int) -> Day:
    """Return Easter Sunday: the Sunday after the paschal full moon of Dionysius's nineteen-year cycle."""
    full_moon = plus(Day(year, 3, 21), (19 * (year % 19) + 15) % 30)
    return next_weekday(full_moon, 6)


def next_weekday(day: Day, wanted: int) -> Day:
    """Return the first such weekday after a day; the day itself does not count."""
    return plus(day, (wanted - weekday(day) - 1) % 7 + 1)


def last_weekday(day: Day, wanted: int) -> Day:
    """Return the last such weekday before a day; the day itself does not count."""
    return plus(day, -((weekday(day) - wanted - 1) % 7 + 1))


def advent(year: int) -> Day:
    """Return Advent Sunday: the Sunday nearest St Andrew (30 November)."""
    return next_weekday(Day(year, 11, 26), 6)


def gregorian(day: Day) -> str:
    """Return the same day of the Gregorian calendar, as ISO 8601 writes it."""
    shifted = day_number(day) + 32044
    centuries = (4 * shifted + 3) // 146097
    rest = shifted - 146097 * centuries // 4
    years = (4 * rest + 3) // 1461
    rest -= 1461 * years // 4
    months = (5 * rest + 2) // 153
    year, month = 100 * centuries + years - 4800 + months // 10, months + 3 - 12 * (months // 10)
    return f"{year:04}-{month:02}-{rest - (153 * months + 2) // 5 + 1:02}"


@cache
def month_names() -> tuple[str, ...]:
    """Return the English names of the months, "" before the first."""
    return ("", *(row[1] for row in table("months", "month", "name", "forms", "authority", "note")))


@cache
def weekday_names() -> tuple[str, ...]:
    """Return the English names of the days of the week, Monday first."""
    return tuple(row[1] for row in table("weekdays", "weekday", "name", "forms", "authority", "note"))


def in_words(day: Day) -> str:
    """Return a day as a historian writes it: 22 June 1390."""
    return f"{day.day} {month_names()[day.month]} {day.year}"


def with_weekday(day: Day) -> str:
    """Return a day with its weekday: Wednesday 22 June 1390."""
    return f"{weekday_names()[weekday(day)]} {in_words(day)}"


def span_in_words(bounds: Bounds) -> str:
    """Return bounds as a historian writes them: 22 June 1390 – 21 June 1391."""
    first, last = bounds.not_before, bounds.not_after
    if first is None:
        return f"until {in_words(last)}" if last else "at any time"
    if last is None:
        return f"from {in_words(first)}"
    return in_words(first) if first == last else f"{in_words(first)} – {in_words(last)}"
