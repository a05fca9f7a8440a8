"""Words that stand more than once running: which, and how often."""

from collections.abc import Sequence

from collate.model.division import letters, loosened
from collate.model.form import Judge, form_of, one_word
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
            if any(_stands(words[:size], side, judge) for side in sides):
                return " ".join(token.expanded for token in words[:size]), _TIMES[times]
    return None


def _sizes(size: int) -> list[int]:
    """Return how many words the same words may be, the same number first."""
    return [size, *(n for n in range(max(1, size - _PARTS), size + _PARTS + 1) if n != size)]


def _stands(part: Sequence[Token], there: Sequence[Token], judge: Judge) -> bool:
    """Say whether some words are these words, one by one, or have their letters divided otherwise."""
    if len(part) == len(there):
        return _alike(part, there, judge)
    return _letters(part[:1])[:1] == _letters(there[:1])[:1] and _letters(part) == _letters(there)


def _alike(one: Sequence[Token], other: Sequence[Token], judge: Judge) -> bool:
    return all(one_word(judge(form_of(a), form_of(b))) for a, b in zip(one, other, strict=True))


def _letters(words: Sequence[Token]) -> str:
    return loosened("".join([letters(token.expanded.casefold()) for token in words]))
