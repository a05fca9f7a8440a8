"""A number in several words: forms in, its value out (two hundred, iiij skore, ij c, two dosen)."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from collate.lexicon.date_numbers import atoms_at, numbers_at
from collate.lexicon.date_words import Word, loose, word
from collate.lexicon.rule_words import rule_words
from collate.lexicon.tables import numeral_multipliers
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


def _dozens(words: Sequence[Word]) -> float | None:
    if len(words) == 1 and words[0].key == "a":
        return _DOZENS
    atoms = atoms_at(words, 0) if len(words) == 1 else ()
    return atoms[0].value * _DOZENS if atoms and not atoms[0].ordinal else None
