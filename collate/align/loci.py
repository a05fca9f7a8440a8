"""Where the witnesses vary: columns joined into the places an apparatus reports.

Neighbouring varying columns of words are one place where the same witnesses have no word in both (an
omission or an addition of several words) and the others differ in both at most in spelling; a
column of punctuation between two columns that are joined goes with them. No other columns are joined.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from collate.align.divide import is_word
from collate.model.collation import Column, Locus, Presence
from collate.model.form import Form, form_of
from collate.model.transcript import Mark
from collate.model.witness import Item, Token

OneWord = Callable[[Form, Form], bool]
"""Says whether two forms are one word in two spellings."""


@dataclass(frozen=True, slots=True)
class _Varying:
    """A varying column: who has no word in it, and whether those who have agree but for spelling."""

    index: int
    wordless: frozenset[int]
    agreed: bool


def loci(columns: Sequence[Column], items: Sequence[Item], one_word: OneWord) -> tuple[Locus, ...]:
    """Return the places of variation, in order and without overlap.

    A column varies if any witness has other letters or abbreviations than another, or nothing.
    """
    found: list[Locus] = []
    open_to: frozenset[int] | None = None
    points: list[int] = []
    for index, column in enumerate(columns):
        words = [_tokens(column, items, w) for w in range(len(items))]
        if not any(is_word(token) for tokens in words for token in tokens):
            points.append(index)
            continue
        here = _varying(index, column, words, one_word)
        if here and here.agreed and here.wordless == open_to:
            found[-1] = Locus(found[-1].first, index + 1)
        else:
            found.extend(_alone(points, columns, items))
            found.extend([Locus(index, index + 1)] if here else [])
            open_to = here.wordless if here and here.agreed and here.wordless else None
        points = []
    found.extend(_alone(points, columns, items))
    return tuple(found)


def _alone(points: Sequence[int], columns: Sequence[Column], items: Sequence[Item]) -> Iterator[Locus]:
    for index in points:
        words = [_tokens(columns[index], items, w) for w in range(len(items))]
        if _varies(columns[index], words):
            yield Locus(index, index + 1)


def _tokens(column: Column, items: Sequence[Item], w: int) -> tuple[Token, ...]:
    span = column.spans[w]
    return items[w].tokens[span.start : span.stop]


def _varies(column: Column, readings: Sequence[Sequence[Token]]) -> bool:
    if any(span.presence is not Presence.PRESENT for span in column.spans):
        return True
    first = [_letters(token) for token in readings[0]]
    return any([_letters(token) for token in reading] != first for reading in readings[1:])


def _letters(token: Token) -> tuple[str, tuple[tuple[int, int], ...]]:
    """Return a word's letters, and which of them stand for an abbreviation."""
    return token.expanded, tuple((m.start, m.stop) for m in token.marks if m.mark is Mark.EXPANDED)


def _varying(
    index: int, column: Column, readings: Sequence[Sequence[Token]], one_word: OneWord
) -> _Varying | None:
    if not _varies(column, readings):
        return None
    wordless = frozenset(w for w, reading in enumerate(readings) if not any(map(is_word, reading)))
    forms = [[form_of(token) for token in reading] for w, reading in enumerate(readings) if w not in wordless]
    agreed = all(len(other) == len(forms[0]) and all(map(one_word, forms[0], other)) for other in forms[1:])
    return _Varying(index, wordless, agreed)
