"""Abbreviation signs: a word as written in, what it may stand for out."""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import islice, product
from math import prod

from collate.lexicon.tables import Sign, signs, table

MOST_CANDIDATES = 64
"""Of a word with several ambiguous signs no more combinations than these are weighed."""

DOT_BELOW = "\u0323"

_VOWELS = frozenset("aeiouyæ")
_BASE_LETTER = re.compile(r"LETTER (?:LONG )?([A-Z]) WITH")


@dataclass(frozen=True, slots=True)
class Choice:
    """One sign of a word: where it stands, its candidates with the letters they add, and its row.

    `at` is the index of the character in the written word; `kept` the letter of the sign itself
    ("p" of ꝑ), which every candidate begins with unless it is a combining sign.
    """

    at: int
    sign: str
    options: tuple[str, ...]
    default: str
    kept: str
    kind: str
    authority: str


@dataclass(frozen=True, slots=True)
class Word:
    """A whole abbreviated word: its candidates, the default first."""

    options: tuple[str, ...]
    authority: str


@cache
def _by_sign() -> dict[str, tuple[Sign, ...]]:
    found: dict[str, list[Sign]] = {}
    for sign in signs():
        if sign.kind in ("abbreviation", "otiose", "word"):
            found.setdefault(sign.sign, []).append(sign)
    return {sign: tuple(rows) for sign, rows in found.items()}


@cache
def _words() -> dict[tuple[str, str], Word]:
    columns = ("written", "language", "expansions", "default", "note", "authority")
    words: dict[tuple[str, str], Word] = {}
    for written, language, expansions, default, _, authority in table("sign_words", *columns):
        options = tuple(dict.fromkeys((default, *expansions.split("|"))))
        word = Word(options, authority)
        words[unicodedata.normalize("NFC", written), language] = word
    return words


def names_a_sign(text: str) -> bool:
    """Say whether a text is a sign of the table, a letter with one, or a word with one in it."""
    return bool(text) and has_signs(unicodedata.normalize("NFC", text.removeprefix("◌")))


@cache
def raised_letters() -> dict[str, str]:
    """Return the raised form of each letter that may be typed after a caret."""
    return {sign.key[1:]: sign.sign for sign in signs() if sign.key.startswith("^") and len(sign.key) == 2}


@lru_cache(maxsize=65536)
def has_signs(text: str) -> bool:
    """Say whether a word as written holds anything to expand (a carets' raised letters included)."""
    if text.isascii():
        return "^" in text or "&" in text or _whole(text, "any") is not None
    signed = any(part in _by_sign() for part in unicodedata.normalize("NFD", text))
    return signed or "^" in text or _whole(text, "any") is not None


def raise_letters(text: str) -> str:
    """Set the letters after a caret to their raised signs: w^t is wᵗ."""
    head, caret, tail = text.partition("^")
    if not caret:
        return text
    return head + "".join(raised_letters().get(letter, letter) for letter in tail.replace("^", ""))


def whole_word(text: str, language: str) -> Word | None:
    """Return what an abbreviated word as a whole stands for in a language, if the table has it."""
    return _whole(text, language) or _whole(text, "any")


def _whole(text: str, language: str) -> Word | None:
    words = _words()
    found = words.get((text, language))
    if found is None and (lower := words.get((text.casefold(), language))):
        capital = text[:1].isupper()
        options = tuple(o[:1].upper() + o[1:] for o in lower.options) if capital else lower.options
        found = Word(options, lower.authority)
    return found


@cache
def _unraised() -> dict[str, tuple[str, str]]:
    """Return English words with raised letters, by their letters alone: as written, and in full."""
    lowered = {sign: letter for letter, sign in raised_letters().items()}
    found: dict[str, tuple[str, str]] = {}
    for (written, language), word in _words().items():
        flat = "".join(lowered.get(character, character) for character in written)
        if language == "en" and flat != written:
            found.setdefault(flat, (written, word.options[0]))
    return found


def unraised(text: str) -> tuple[str, str] | None:
    """Return the abbreviated word that a text would be with some letters raised (wt: wᵗ, with), or None."""
    return _unraised().get(text) or _unraised().get(text.casefold())


def base_letter(character: str) -> str:
    """Return the letter that a written character is or is built on, in small; "" for none."""
    plain = unicodedata.normalize("NFKD", character)[0].casefold()
    if character in _by_sign() and (named := _BASE_LETTER.search(unicodedata.name(character, ""))):
        return named[1].lower()
    return plain if plain.isalpha() and plain not in _by_sign() else ""


def keeps_letters(written: str, expansion: str) -> bool:
    """Say whether an expansion keeps every letter that is written, in order."""
    rest = iter(expansion.casefold())
    return all(letter in rest for character in written if (letter := base_letter(character)))


@lru_cache(maxsize=65536)
def choices(text: str) -> tuple[Choice, ...]:
    """Return the signs of a word in order; each is read by the first row whose position fits."""
    found = []
    for at, character in enumerate(text):
        for part in unicodedata.normalize("NFD", character):
            row = next((row for row in _by_sign().get(part, ()) if _fits(row.position, text, at)), None)
            if row is not None:
                found.append(_choice(row, at))
    return tuple(found)


def _choice(row: Sign, at: int) -> Choice:
    named = _BASE_LETTER.search(row.name)
    kept = named[1].lower() if named and not unicodedata.combining(row.sign) else ""
    options = tuple(dict.fromkeys((row.default, *row.expansions)))
    if row.sign.isupper():
        kept, options = kept.upper(), tuple(o[:1].upper() + o[1:] for o in options)
    return Choice(at, row.sign, options, options[0], kept, row.kind, row.authority)


def candidates(text: str, found: tuple[Choice, ...]) -> tuple[tuple[str, ...], ...]:
    """Return the combinations of expansions, one string for each sign, the defaults first."""
    if prod(len(choice.options) for choice in found) <= MOST_CANDIDATES:
        return tuple(product(*(choice.options for choice in found)))
    return tuple(islice(product(*(choice.options[:2] for choice in found)), MOST_CANDIDATES))


@dataclass(frozen=True, slots=True)
class _Spot:
    """Where a sign stands: the letter it is on or after, and whether it begins or ends the word."""

    letter: str
    after: str
    first: bool
    last: bool
    alone: bool


def _fits(position: str, text: str, at: int) -> bool:
    """Say whether the sign at an index stands in a position of the table."""
    spot = _spot(text, at)
    if position.startswith("after-") and len(position) == 7:
        return spot.letter == position[-1]
    vowel = spot.letter in _VOWELS and spot.letter != ""
    fits = {
        "any": True,
        "initial": spot.first,
        "final": spot.last,
        "medial": not spot.first and not spot.last,
        "word": spot.alone,
        "before-bpm": (vowel or spot.first) and spot.after != "" and spot.after in "bpm",
        "after-vowel": vowel and not spot.last,
        "vowel-final": vowel and spot.last,
        "after-consonant": spot.letter != "" and not vowel,
        "over-n-final": spot.letter == "n" and spot.last,
        "over-m-final": spot.letter == "m" and spot.last,
        "over-n": spot.letter == "n",
        "over-m": spot.letter == "m",
        "after-thorn": spot.letter == "þ" or (spot.letter == "y" and spot.first),
    }
    return fits.get(position, False)


@lru_cache(maxsize=65536)
def _spot(text: str, at: int) -> _Spot:
    bases = ["" if unicodedata.combining(c) else unicodedata.normalize("NFD", c)[0].casefold() for c in text]
    rides = unicodedata.combining(text[at]) != 0 or len(unicodedata.normalize("NFD", text[at])) > 1
    before = [base for base in bases[: at + 1 if rides else at] if base]
    after = [base for base in bases[at + 1 :] if base and base.isalpha()]
    return _Spot(
        before[-1] if before else "",
        after[0] if after else "",
        len(before) == (1 if rides else 0),
        not after,
        len([base for base in bases if base]) == 1,
    )


@cache
def _known_characters() -> frozenset[str]:
    return frozenset(part for sign in signs() for part in unicodedata.normalize("NFD", sign.sign))


def is_known_character(character: str) -> bool:
    """Say whether a character may stand in a transcription: the table's, ASCII, and the notation's own."""
    return character.isascii() or character in _NOTATION or character in _known_characters()


_NOTATION = frozenset("¬´…·’‘“”–—‐‑⸗°º½¼¾⁄⁊⹒" + DOT_BELOW)
