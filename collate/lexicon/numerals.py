"""Numbers as scribes write them: a written form in, its value out."""

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

from collate.lexicon.rule_words import rule_words
from collate.lexicon.tables import (
    cardinal_endings,
    never_numerals,
    numeral_exceptions,
    numeral_multipliers,
    numeral_units,
    ordinal_endings,
)
from collate.model.numbers import figures as figures  # asked for here, beside the numbers that are read


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number read: its `value`, and whether it is an ordinal."""

    value: float
    ordinal: bool = False


_LETTERS = {"i": 1, "v": 5, "x": 10, "l": 50, "c": 100, "d": 500, "m": 1000}
_SUBTRACTIVE = {"iv": 4, "ix": 9, "xl": 40, "xc": 90, "cd": 400, "cm": 900}
_WELL_FORMED = re.compile(r"m*(?:cm|cd|d?c{0,5})(?:xc|xl|l?x{0,5})(?:ix|iv|v?i{0,5})")
_WRITTEN = re.compile(r"([ivxlcdmju]+)(?:\^([a-zþ0-9]+))?([ivxlcdmju]*)")
_FUSED = re.compile(r"([ivxlcdmj]+?)(th|the|þ|þe|st|nd|rd|de|te)")
_UNRAISED = re.compile(r"([ivxl]*j)(xx|c|m)")
_ARABIC = re.compile(r"(\d{1,15})(?:\^?([a-zþ]{1,3}))?")
_FRACTION = re.compile(r"(\d{1,15})[/⁄](\d{1,15})")
_MIXED = re.compile(r"(\d{0,15})(\D)")
_RAISED = {
    "ª": "a", "º": "o", "°": "o", "¹": "1", "ᵃ": "a", "ᶜ": "c", "ᵈ": "d", "ᵉ": "e", "ʰ": "h", "ⁱ": "i",
    "ˡ": "l", "ᵐ": "m", "ⁿ": "n", "ᵒ": "o", "ʳ": "r", "ˢ": "s", "ᵗ": "t", "ᵘ": "u", "ˣ": "x",
    "\u0363": "a", "\u0364": "e", "\u0365": "i", "\u0366": "o", "\u0367": "u", "\u0368": "c",
    "\u0369": "d", "\u036b": "m", "\u036c": "r", "\u036d": "t", "\u036f": "x",
}  # fmt: skip
_RAISED_RUN = re.compile("[" + "".join(_RAISED) + "]+")


@lru_cache(maxsize=65536)
def read_numeral(written: str) -> Numeral | None:
    """Return the number a form writes, or None if it writes none.

    Takes roman numerals with or without points, additive or subtractive, j or u for i and v,
    scores and hundreds raised (`vj^xx`, `vjˣˣ`), ordinal endings, arabic figures (to 15) and fractions.
    Without points a form listed as an exception (mi, di, i ...) is no numeral.
    """
    bare = written.strip(".·").casefold()
    pointed = len(written) - len(bare) >= 2 and written[0] in ".·"
    if not bare:
        return None
    if bare[0].isdigit() or unicodedata.category(bare[0]) == "No":
        return _read_arabic(bare)
    plain = _RAISED_RUN.sub(lambda m: "^" + "".join(_RAISED[c] for c in m.group()), bare)
    if plain in never_numerals() or (not pointed and (plain in numeral_exceptions() or "u" in plain)):
        return None
    return _read_roman(plain)


@lru_cache(maxsize=65536)
def lone_letter(written: str) -> int | None:
    """Return the value of a lone letter that may be a roman numeral, or a label, or a shortened word."""
    bare = written.strip(".·").casefold()
    return roman_value(bare) if bare in rule_words("lone-numeral") else None


def _read_arabic(bare: str) -> Numeral | None:
    if (fraction := _FRACTION.fullmatch(bare)) and int(fraction[2]):
        return Numeral(int(fraction[1]) / int(fraction[2]))
    if (mixed := _MIXED.fullmatch(bare)) and (part := unicodedata.numeric(mixed[2], 1.0)) < 1:
        return Numeral(int(mixed[1] or 0) + part)
    if len(bare) == 1 and not bare.isdecimal():
        return Numeral(unicodedata.numeric(bare))
    found = _ARABIC.fullmatch(bare)
    if found is None or not bare.isascii() or (found[2] and found[2] not in ordinal_endings()):
        return None
    return Numeral(int(found[1]), ordinal=found[2] is not None)


def _read_roman(plain: str) -> Numeral | None:
    if fused := _FUSED.fullmatch(plain):
        value = roman_value(fused[1])
        sure = "j" in fused[1] or len(fused[1]) > 2
        return (
            Numeral(value, ordinal=True) if value and sure and fused[1] not in numeral_exceptions() else None
        )
    if unraised := _UNRAISED.fullmatch(plain):
        plain = f"{unraised[1]}^{unraised[2]}"
    found = _WRITTEN.fullmatch(plain)
    if found is None:
        return None
    head, raised, tail = found.groups()
    value, rest = roman_value(head), roman_value(tail) if tail else 0
    if value is None or rest is None:
        return None
    if raised is None:
        return Numeral(value)
    return _raise(value, raised, rest)


def _raise(value: int, raised: str, rest: int) -> Numeral | None:
    if raised in numeral_units() and value % 1000 == 0:
        return Numeral(value + rest)
    if raised in numeral_multipliers():
        return Numeral(value * numeral_multipliers()[raised] + rest)
    if raised in ordinal_endings():
        return Numeral(value, ordinal=True)
    if raised in cardinal_endings():
        return Numeral(value)
    for score, times in numeral_multipliers().items():
        if raised.startswith(score) and (tail := roman_value(raised[len(score) :])):
            return Numeral(value * times + tail)
    return None


def roman_value(letters: str) -> int | None:
    """Return the value of roman letters (j is i, u is v), or None where they make no number."""
    letters = letters.replace("j", "i").replace("u", "v")
    if not letters or not _WELL_FORMED.fullmatch(letters):
        return None
    value, at = 0, 0
    while at < len(letters):
        pair = letters[at : at + 2]
        step = 2 if pair in _SUBTRACTIVE else 1
        value += _SUBTRACTIVE[pair] if step == 2 else _LETTERS[letters[at]]
        at += step
    return value
