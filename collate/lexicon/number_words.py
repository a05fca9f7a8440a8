"""A number in several words: forms in, its value out (two hundred, iiij skore, ij c, half a dosen)."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from collate.lexicon.date_numbers import atoms_at, numbers_at
from collate.lexicon.date_words import Word, is_at, loose, word
from collate.lexicon.rule_words import rule_words
from collate.lexicon.tables import numeral_multipliers, table
from collate.lexicon.words import COLUMNS
from collate.model.form import Form
from collate.model.witness import TokenKind

_DOZENS = 12


@lru_cache(maxsize=65536)
def number_of(forms: tuple[Form, ...]) -> float | None:
    """Return the value of two words or more that write one number, all of them, or None."""
    if len(forms) < 2:
        return None
    if len(forms) == 2 and (value := _of_letter(*forms)) is not None:
        return value
    words = [_word(at, form) for at, form in enumerate(forms)]
    if (value := _with_half(words)) is not None:
        return value
    return _whole(words)


def _whole(words: Sequence[Word]) -> int | None:
    """Return the value of words that write one number without a half."""
    if words[-1].key in _dozen() and words[-1].value is None:
        return _dozens(words[:-1])
    return next((number.value for number in numbers_at(words, 0) if number.stop == len(words)), None)


def _word(at: int, form: Form) -> Word:
    found = word(at, form.folded, form.value)
    key = "a" if at == 0 and form.folded == "an" else found.key
    return replace(found, key=key, language=form.language)


def _of_letter(number: Form, letter: Form) -> float | None:
    """Read a numeral before the letters of hundreds, thousands or scores that are not raised: ij c, vj xx."""
    times = numeral_multipliers().get(letter.folded.strip(".·"))
    scale = letter.folded in rule_words("number-scale")
    if number.kind is not TokenKind.NUMERAL or number.value is None or not scale:
        return None
    return number.value * times if times and 0 < number.value < times else None


@lru_cache(maxsize=1)
def _dozen() -> frozenset[str]:
    return frozenset(map(loose, rule_words("dozen")))


def _dozens(words: Sequence[Word]) -> int | None:
    if len(words) == 1 and words[0].key in rule_words("number-article"):
        return _DOZENS
    atoms = atoms_at(words, 0) if len(words) == 1 else ()
    return atoms[0].value * _DOZENS if atoms and not atoms[0].ordinal else None


def _with_half(words: Sequence[Word]) -> float | None:
    """Return the value of half a number, or of one and a half: half a dosen, ij c and an half."""
    if words[0].key in _halves():
        at = 1 + (len(words) > 2 and words[1].key in rule_words("number-article"))
        scale = _scale(words[-1]) if at == len(words) - 1 else None
        return scale / 2 if scale else None
    if words[-1].key not in _halves() or len(words) < 3:
        return None
    stop = len(words) - 1 - (words[-2].key in rule_words("number-article"))
    if not is_at(words, stop - 1, "and") or not (counted := words[: stop - 1]):
        return None
    whole = _whole(counted) if len(counted) > 1 else _single(counted[0])
    return None if whole is None else whole + (_scale(counted[-1]) or 1) / 2


def _single(counted: Word) -> int | None:
    scale = _scale(counted)
    return scale if scale else next((a.value for a in atoms_at((counted,), 0) if not a.ordinal), None)


def _scale(scale: Word) -> int | None:
    """Return what a word counts by, a dozen, a score, a hundred or a thousand; None for any other."""
    if scale.value is not None:
        return None
    if scale.key in _dozen():
        return _DOZENS
    return next((a.value for a in atoms_at((scale,), 0) if not a.ordinal and a.value in _SCALES), None)


_SCALES = (20, 100, 1000)


@lru_cache(maxsize=1)
def _halves() -> frozenset[str]:
    """Return the words for a half in their loose spelling, as the table of numbers has them."""
    rows = table("numbers", *COLUMNS)
    return frozenset(
        loose(form) for row in rows if "value=1/2" in row[3].split(",") for form in row[4].split(" ")
    )
