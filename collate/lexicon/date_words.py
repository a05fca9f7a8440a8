"""The words of dates: a word as written in, the parts it may play in a date out."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from typing import TypeVar

from collate.lexicon.distance import one_move_away
from collate.lexicon.numerals import read_numeral, roman_value
from collate.lexicon.rule_words import rule_words
from collate.lexicon.spelling import fold, normalise, rules_in_force
from collate.lexicon.tables import table
from collate.lexicon.words import REACH
from collate.model.witness import Token, TokenKind

Found = TypeVar("Found")

_BOTH_YEARS = re.compile(r"(\d{3,4})\s*[/⁄–-]\s*(\d{1,4})")
_LETTERS = re.compile(r"[ivxlcdmj]+")
_THOUSAND = re.compile(r"(m+)(?:\^?l)?([ivxlcdj]*)")


@dataclass(frozen=True, slots=True)
class Word:
    """One word of a passage as dates are read: `at` is its token, `key` its loose spelling.

    `value` is the number a numeral writes; `letters` the value of bare roman letters that are no
    numeral elsewhere (m, l, c, d, i); `both` says that a year is written with both its numbers.
    `broken` says that a gap stands before it; `language` is "en", "la", "fr" or "" if not known.
    """

    at: int
    written: str
    key: str
    value: int | None = None
    letters: int | None = None
    both: bool = False
    broken: bool = False
    language: str = ""


_ENDED = re.compile(
    r"(?=..)((?:[mdclxvij]+(?=th|the$))|(?:[mdclxvij]*(?:[cmdlx]|[vx](?:ij|ii)|(?<=[vx])(?:ij|ii))(?=mo$))"
    r"|(?:[mdclxvij]*(?:v|vi|vj|iiij|iiii)(?=to$))|(?:[mdclxvij]{2,}(?=o$)))(?:th|the|mo|to|o)"
)
"""A numeral with the ending of its ordinal on the line: xijo, ccccmo, vjto, lxth."""


@lru_cache(maxsize=16384)
def loose(form: str) -> str:
    """Return the loose spelling by which the words of dates are compared."""
    key = normalise(form.rstrip("."), rules_in_force())
    for pattern, replacement in _loosened():
        key = pattern.sub(replacement, key)
    return key


@cache
def _loosened() -> tuple[tuple[re.Pattern[str], str], ...]:
    rows = table("loose_rules", "pattern", "replacement", "says", "authority")
    return tuple((re.compile(pattern), replacement) for pattern, replacement, _, _ in rows)


def words_of(tokens: Sequence[Token]) -> tuple[Word, ...]:
    """Return the words and numerals of some tokens; punctuation falls out, a gap breaks the run."""
    found: list[Word] = []
    broken = False
    for at, token in enumerate(tokens):
        if token.kind is TokenKind.PUNCTUATION:
            continue
        if token.kind is TokenKind.GAP:
            broken = True
            continue
        read = word(at, token.expanded, token.value)
        found.append(replace(read, broken=broken, language=token.language))
        broken = False
    return tuple(found)


def word(at: int, written: str, value: float | None = None) -> Word:
    """Return a word as dates are read."""
    if years := _BOTH_YEARS.fullmatch(written):
        first = int(years[1])
        following = int(years[1][: -len(years[2])] + years[2]) == first + 1
        if following or (first + 1) % 10 == int(years[2]):
            return Word(at, written, written, first, both=True)
    bare = fold(written.strip(".·"))
    number = int(value) if value is not None and value == int(value) and bare != "do" else None
    letters = roman_value(bare) if _LETTERS.fullmatch(bare) else None
    if number is None and (thousand := _THOUSAND.fullmatch(bare)) and len(bare) > 1:
        number = _thousands(thousand)
    if number is None and (ended := _ENDED.fullmatch(bare)) and not _is_name(written, ended[1]):
        number = roman_value(ended[1])
    number = 1000 if written == "Mo" else number
    return Word(at, written, loose(bare), number, letters)


def _is_name(written: str, letters: str) -> bool:
    """Say whether a word written as a name is one, and no numeral with its ending: Ivo."""
    return len(letters) < 3 and written[:1].isupper() and not written[1:2].isupper()


def _thousands(found: re.Match[str]) -> int | None:
    """Read "mlccccxxx": the l after m only says that m is a thousand."""
    rest = roman_value(found[2]) if found[2] else 0
    return None if rest is None or rest >= 1000 else 1000 * len(found[1]) + rest


def written_words(text: str) -> tuple[Word, ...]:
    """Return the words of a date typed by a scholar: 20 May 3 John."""
    cut = re.findall(r"[^\s,;:()&]+|&", text.replace("[", " ").replace("]", " "))
    pieces = [part for piece in cut for part in _pieces(piece)]
    return tuple(word(at, piece, _value(piece)) for at, piece in enumerate(pieces))


def _pieces(piece: str) -> Iterator[str]:
    """Cut "Hen.VI" and "12Ric.II" where a letter follows a point or a figure."""
    if piece.startswith(".") or _BOTH_YEARS.fullmatch(piece):
        yield piece
    else:
        yield from filter(None, re.split(r"(?<=[A-Za-z]\.)(?=\w)|(?<=\d\.)(?=[A-Za-z])", piece))


def _value(piece: str) -> float | None:
    number = read_numeral(piece) or read_numeral(piece.rstrip("."))
    return number.value if number else None


@cache
def _roles() -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for role, forms, _, _ in table("date_words", "role", "forms", "authority", "note"):
        for form in forms.split(" "):
            found.setdefault(loose(form), set()).add(role)
    return {key: frozenset(roles) for key, roles in found.items()}


def plays(given: Word, *roles: str) -> bool:
    """Say whether a word may play one of some parts in a date."""
    return not _roles().get(given.key, frozenset()).isdisjoint(roles)


def skip(words: Sequence[Word], at: int, *roles: str) -> int:
    """Return the place after all words from `at` on that may play one of some parts."""
    while at < len(words) and plays(words[at], *roles) and not words[at].broken:
        at += 1
    return at


def is_at(words: Sequence[Word], at: int, *roles: str) -> bool:
    """Say whether there is a word at a place that may play one of some parts."""
    return 0 <= at < len(words) and plays(words[at], *roles)


def _named(rows: Iterable[tuple[str, str]]) -> dict[str, int]:
    return {loose(form): int(value) for value, forms in rows for form in forms.split(" ")}


def find(known: Mapping[str, Found], key: str) -> Found | None:
    """Return what a table has for a loose spelling, or for the one nearest to it by a cheap alternation."""
    found = known.get(key)
    if found is not None or len(key) < 4:
        return found
    return next((known[other] for other, _ in one_move_away(key, REACH, known)), None)


@lru_cache(maxsize=4096)
def month_of(key: str) -> int | None:
    """Return the number of the month that a loose spelling names, or None."""
    return find(months(), key) if len(key) > 5 else months().get(key)


@lru_cache(maxsize=4096)
def weekday_of(key: str) -> int | None:
    """Return the day of the week that a loose spelling names, or None."""
    return find(weekdays(), key) if key.endswith("dai") else weekdays().get(key)


_BEGINNINGS = (
    *("year", "king", "feast", "saint", "saintly", "day", "eve", "morrow", "octave", "quindene", "kalends"),
    *("nones", "ides", "pridie", "feria", "incarnation", "date", "same", "last", "our", "ember", "lord"),
    *("month", "reign"),
)


def begins_date(word: Word) -> bool:
    """Say whether a date may begin with a word, its numbers and feasts left aside."""
    if word.value is not None or word.letters or word.both or word.key in rule_words("year-letter"):
        return True
    named = (months(), weekdays(), king_names())
    return plays(word, *_BEGINNINGS) or any(word.key in names for names in named) or word.key.endswith("dai")


@lru_cache(maxsize=4096)
def king_of(key: str) -> "NameForm | None":
    """Return the king's name that a loose spelling is of, or None."""
    return find(king_names(), key)


@cache
def months() -> dict[str, int]:
    """Return the months by the loose spelling of their names."""
    return _named((row[0], row[2]) for row in table("months", "month", "name", "forms", "authority", "note"))


@cache
def weekdays() -> dict[str, int]:
    """Return the days of the week (0 is Monday) by the loose spelling of their names."""
    columns = ("weekday", "name", "forms", "authority", "note")
    return _named((row[0], row[2]) for row in table("weekdays", *columns))


@dataclass(frozen=True, slots=True)
class NameForm:
    """A king's name, and whether the form is a shortening of it."""

    name: str
    short: bool


@cache
def king_names() -> dict[str, NameForm]:
    """Return the names of kings by their loose spelling; a full form is taken before a short one."""
    found: dict[str, NameForm] = {}
    for name, language, forms, _, _ in table("king_names", "name", "language", "forms", "authority", "note"):
        for form in forms.split(" "):
            found.setdefault(loose(form), NameForm(name, language == "short"))
    return found
