"""The tables under `data/`: loaded, checked for their columns, each row with its authority."""

import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from collate.errors import InternalError


@cache
def table(name: str, *columns: str) -> tuple[tuple[str, ...], ...]:
    """Return the rows of `data/<name>.tsv`, whose header must be exactly `columns`."""
    text = files("collate.lexicon").joinpath("data", f"{name}.tsv").read_text("utf-8")
    head, *lines = text.split("\n")
    if tuple(head.split("\t")) != columns:
        raise InternalError(f"the table {name}.tsv should have the columns {', '.join(columns)}")
    rows = tuple(tuple(line.split("\t")) for line in lines if line)
    for number, row in enumerate(rows, 2):
        if len(row) != len(columns):
            raise InternalError(f"{name}.tsv line {number} has {len(row)} columns, not {len(columns)}")
    return rows


def compiled_list(name: str) -> str:
    """Return the text of `compiled/<name>.tsv`."""
    return files("collate.lexicon").joinpath("compiled", f"{name}.tsv").read_text("utf-8")


@dataclass(frozen=True, slots=True)
class Rule:
    """One row of the spelling rules; several rows may share a rule's name."""

    name: str
    says: str
    pattern: re.Pattern[str]
    replacement: str
    decides: bool
    authority: str


@cache
def spelling_rules() -> tuple[Rule, ...]:
    """Return the spelling rules R0 to R15 in the order in which they apply.

    A rule that `decides` is on unless switched off: forms it makes equal are one word. The
    others may only propose.
    """
    columns = ("rule", "says", "pattern", "replacement", "default", "authority", "note")
    return tuple(
        Rule(name, says, re.compile(pattern), replacement, default == "on", authority)
        for name, says, pattern, replacement, default, authority, _ in table("rules", *columns)
    )


def _numerals(role: str) -> tuple[tuple[str, str], ...]:
    columns = ("role", "text", "value", "authority", "note")
    return tuple((text, value) for r, text, value, _, _ in table("numerals", *columns) if r == role)


@cache
def numeral_exceptions() -> frozenset[str]:
    """Return the words that look like roman numerals and, without points, are not."""
    return frozenset(text for text, _ in _numerals("exception"))


@cache
def numeral_multipliers() -> dict[str, int]:
    """Return the raised letters that multiply a numeral (vj^xx = 6 x 20)."""
    return {text: int(value) for text, value in _numerals("multiplier")}


@cache
def numeral_units() -> frozenset[str]:
    """Return the raised letters that only say that M is a thousand (M^l)."""
    return frozenset(text for text, _ in _numerals("unit"))


@cache
def ordinal_endings() -> frozenset[str]:
    """Return the endings that make a numeral an ordinal."""
    return frozenset(text for text, _ in _numerals("ordinal"))


@cache
def never_numerals() -> frozenset[str]:
    """Return the words that are no roman numerals between points either (.di., a half)."""
    return frozenset(text for text, _ in _numerals("word"))


@cache
def cardinal_endings() -> frozenset[str]:
    """Return the raised endings that write out a numeral's own word (iiij^or, quattuor)."""
    return frozenset(text for text, _ in _numerals("cardinal"))


@dataclass(frozen=True, slots=True)
class Sign:
    """One row of the table of signs: a sign in one position, what it may stand for, and its key."""

    sign: str
    name: str
    key: str
    position: str
    expansions: tuple[str, ...]
    default: str
    kind: str
    authority: str


_SIGN_COLUMNS = (
    *("sign", "codepoint", "name", "key", "position"),
    *("expansions", "default", "class", "note", "authority"),
)


@cache
def signs() -> tuple[Sign, ...]:
    """Return the rows of the table of signs, in its order; "-" is read as nothing."""
    return tuple(
        Sign(
            row[0].removeprefix("◌"),
            row[2],
            row[3],
            row[4],
            tuple(_nothing(expansion) for expansion in row[5].split("|")),
            _nothing(row[6]),
            row[7],
            row[9],
        )
        for row in table("signs", *_SIGN_COLUMNS)
    )


def _nothing(expansion: str) -> str:
    return "" if expansion == "-" else expansion


@cache
def typed_keys() -> dict[str, str]:
    """Return what may be typed for a sign that is not on the keyboard: key -> sign."""
    return {sign.key: sign.sign for sign in signs() if sign.key.startswith("$")}
