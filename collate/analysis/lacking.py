"""Words that lack letters: whether what is left of one may be the other."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from collate.lexicon.spelling import LACK
from collate.model.extents import MARK, Unit, extents
from collate.model.witness import Token

_LACKS = re.compile(f"{LACK}+")
_MARKS = re.compile(rf"(?<!\\)(?:{MARK.pattern})+")


@dataclass(frozen=True, slots=True)
class _Left:
    """What is left of a word: its parts, and about how many letters are lost between them (0: not known)."""

    parts: tuple[str, ...]
    lost: tuple[int, ...]


def letters_fit(ours: Token, theirs: Token, *, held_more: bool = False) -> bool:
    """Say whether one of two words lacks letters and may be the other, in its own or its normal spelling.

    Where both lack letters, what is left of one must not contradict what is left of the other. Of letters
    that are said to be so many, some more or fewer are allowed for; where a hole at an end `held_more` than
    letters of the word, any fewer.
    """
    if LACK not in ours.normal and LACK not in theirs.normal:
        return False
    pairs = ((ours.normal, theirs.normal), (ours.expanded.casefold(), theirs.expanded.casefold()))
    return any(_fit(_left(ours, a), _left(theirs, b), held_more=held_more) for a, b in pairs)


def _left(token: Token, form: str) -> _Left:
    parts = tuple(_LACKS.split(form))
    stated = tuple(_extent(found[0]) for found in _MARKS.finditer(token.written))
    return _Left(parts, stated if len(stated) == len(parts) - 1 else (0,) * (len(parts) - 1))


def _extent(marks: str) -> int:
    """Return how many letters marks that follow one another say are lost, 0 where one does not say."""
    found = [extent.count if extent and extent.unit is Unit.LETTER else 0 for extent in extents(marks)]
    return sum(found) if all(found) else 0


def _fit(one: _Left, other: _Left, *, held_more: bool) -> bool:
    if one.lost and other.lost:
        (a, *_, a_end), (b, *_, b_end) = one.parts, other.parts
        return (a.startswith(b) or b.startswith(a)) and (a_end.endswith(b_end) or b_end.endswith(a_end))
    lacking, (whole,) = (one, other.parts) if one.lost else (other, one.parts)
    return re.fullmatch(_pattern(lacking.parts, lacking.lost, held_more=held_more), whole) is not None


def _pattern(parts: Sequence[str], lost: Sequence[int], *, held_more: bool) -> str:
    """Return what a whole word must match; a hole at either end may have held more than letters of it."""
    between = [f".{{{max(n - n // 2 - 1, 1)},{n + n // 2 + 1}}}" if n else ".*" for n in lost]
    if held_more and not parts[0]:
        between[0] = f".{{0,{lost[0] + lost[0] // 2 + 1}}}" if lost[0] else ".*"
    if held_more and not parts[-1]:
        between[-1] = f".{{0,{lost[-1] + lost[-1] // 2 + 1}}}" if lost[-1] else ".*"
    return re.escape(parts[0]) + "".join(
        letters + re.escape(part) for letters, part in zip(between, parts[1:], strict=True)
    )
