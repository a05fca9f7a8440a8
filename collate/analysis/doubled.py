"""Words that stand more than once running: which, and how often."""

from collections.abc import Sequence
from functools import lru_cache

from collate.model.division import letters, loosened
from collate.model.form import Judge, form_of, same_word
from collate.model.witness import Token

_TIMES = ("", "twice", "three times", "four times", "five times")

_PARTS = 2
"""By how many words at most the one run may be divided otherwise than the other."""


def doubled(
    words: Sequence[Token], before: Sequence[Token], after: Sequence[Token], judge: Judge
) -> tuple[str, str] | None:
    """Return which of some words stand also right before or after them, and how often in all; or None.

    Words that are the same over and over count so often. The words before and after may be divided otherwise.
    """
    for times in range(1, len(_TIMES)):
        size, rest = divmod(len(words), times)
        if size and not rest and _alike(words[size:], words[:-size], judge):
            sides = (side for n in _sizes(size) for side in (before[-n:], after[:n]) if len(side) == n)
            if any(_stands(words[:size], side, judge) and _sure(words[:size], side, judge) for side in sides):
                return " ".join(token.expanded for token in words[:size]), _TIMES[times]
    return None


def _sure(words: Sequence[Token], there: Sequence[Token], judge: Judge) -> bool:
    """Say whether words that may be the same are surely so.

    A number in another notation (*xx score*), or a lone function word in another spelling (*and an*), is
    likelier meant as it stands.
    """
    if len(words) != len(there):
        return True
    for a, b in zip(words, there, strict=True):
        same = letters(a.expanded.casefold()) == letters(b.expanded.casefold())
        lone = len(words) == 1 and judge.is_function(form_of(a))
        if not same and (lone or a.value is not None or b.value is not None):
            return False
    return True


def _sizes(size: int) -> list[int]:
    """Return how many words the same words may be, the same number first."""
    return [size, *(n for n in range(max(1, size - _PARTS), size + _PARTS + 1) if n != size)]


def _stands(part: Sequence[Token], there: Sequence[Token], judge: Judge) -> bool:
    """Say whether some words are these words, one by one, or have their letters divided otherwise."""
    if len(part) == len(there):
        return _alike(part, there, judge)
    return _initial(part[0].expanded) == _initial(there[0].expanded) and _letters(part) == _letters(there)


def _alike(one: Sequence[Token], other: Sequence[Token], judge: Judge) -> bool:
    for a, b in zip(one, other, strict=True):  # noqa: SIM110  # most often it ends with the first
        if not same_word(a, b, judge):
            return False
    return True


@lru_cache(maxsize=65536)
def _initial(written: str) -> str:
    """Return the first letter of a word, as `_letters` has it."""
    return loosened(letters(written.casefold()))[:1]


def _letters(words: Sequence[Token]) -> str:
    return loosened("".join([letters(token.expanded.casefold()) for token in words]))
