"""Where the witnesses vary: columns joined into the places an apparatus reports."""

from collections.abc import Iterator, Sequence

from collate.align.settle import is_word
from collate.model.collation import Column, Locus, Presence
from collate.model.witness import Item, Token


def loci(columns: Sequence[Column], items: Sequence[Item]) -> tuple[Locus, ...]:
    """Return the places of variation, in order and without overlap.

    A column varies if any witness has other letters than another, or nothing. Neighbouring columns
    are one place where the same witnesses lack words in both (an omission or an addition of
    several words); a column of punctuation between two such columns goes with them.
    """
    found: list[Locus] = []
    lacking: frozenset[int] = frozenset()
    for first, stop, silent in _stretches(columns, items):
        if found and silent and silent == lacking and found[-1].stop == first:
            found[-1] = Locus(found[-1].first, stop)
        else:
            found.append(Locus(first, stop))
        lacking = silent
    return tuple(found)


def _stretches(columns: Sequence[Column], items: Sequence[Item]) -> Iterator[tuple[int, int, frozenset[int]]]:
    """Yield (first, stop, witnesses without a word) for each varying column."""
    held: tuple[int, frozenset[int]] | None = None
    for index, column in enumerate(columns):
        readings = [_reading(column, items, w) for w in range(len(items))]
        wordless = frozenset(w for w, tokens in enumerate(readings) if not any(map(is_word, tokens)))
        if len(wordless) == len(items):
            if held and held[0] == index - 1 and _varies(column, readings):
                yield index, index + 1, held[1]
                held = (index, held[1])
            elif _varies(column, readings):
                yield index, index + 1, frozenset()
            continue
        if _varies(column, readings):
            yield index, index + 1, wordless
            held = (index, wordless)


def _reading(column: Column, items: Sequence[Item], w: int) -> tuple[Token, ...]:
    span = column.spans[w]
    return items[w].tokens[span.start : span.stop]


def _varies(column: Column, readings: Sequence[Sequence[Token]]) -> bool:
    if any(span.presence is not Presence.PRESENT for span in column.spans):
        return True
    return len({tuple(token.expanded for token in reading) for reading in readings}) > 1
