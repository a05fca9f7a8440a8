"""Columns drawn together where copies write whole numbers in fewer or more words: *vj* beside *a dosen*.

The alignment goes word by word, and finds one number in two notations. Two numbers are no one word; but where
one of them stands in several columns, and a copy has another whole number there in fewer or more words, it is
one place with one number for another.
"""

from collections.abc import Iterator, Sequence, Set

from collate.align.divide import Cell, is_word
from collate.align.number_runs import number_runs
from collate.model.form import Form, Judge, form_of
from collate.model.witness import Token

_OTHER_WORDS = 2
"""How many words that are no number a copy may have beside numbers."""

Rows = Sequence[Sequence[Cell]]


def numbers_together(columns: Rows, texts: Sequence[Sequence[Token]], judge: Judge) -> list[list[Cell]]:
    """Return columns of words, those drawn together over which two copies have numbers of unlike length.

    Every other copy must have there a whole number, a word or two, or nothing. Of columns that overlap
    the widest are drawn, and of those as wide the first.
    """
    written = {token.expanded: token for text in texts for token in text if is_word(token)}
    numbers = {each for each, token in written.items() if judge.number((form_of(token),)) is not None}
    copies = range(len(texts)) if numbers else ()
    spans = {span for w in copies for span in _spans(columns, texts, w, numbers, judge)}
    found: list[list[Cell]] = []
    drawn: list[tuple[int, int]] = []
    for first, stop in sorted(spans, key=lambda span: (span[0] - span[1], span)):
        if all(stop <= a or b <= first for a, b in drawn) and _suit(columns[first:stop], texts, judge):
            drawn.append((first, stop))
    at = 0
    for first, stop in sorted(drawn):
        found.extend([*row] for row in columns[at:first])
        found.append([_joined(cells) for cells in zip(*columns[first:stop], strict=True)])
        at = stop
    found.extend([*row] for row in columns[at:])
    return found


def _spans(
    columns: Rows, texts: Sequence[Sequence[Token]], w: int, numbers: Set[str], judge: Judge
) -> Iterator[tuple[int, int]]:
    """Yield the columns [first, stop) of each number that a copy writes in several of them, as they vary.

    Where two copies have numbers of unlike length, one of them has nothing in a column of the other's: only
    about such columns are numbers looked for, and only near one of the words `numbers`.
    """
    for start, stop in _near(columns, texts[w], w, numbers):
        forms = [form_of(token) if is_word(token) else None for token in texts[w][start:stop]]
        counting = frozenset(form for form in forms if form and judge.counts(form))
        for run in number_runs(forms, counting, judge):
            first, last = start + run.start, start + run.stop
            held = [at for at, row in enumerate(columns) if (cell := row[w]) and first <= cell[0] < last]
            yield from _narrowed(columns, texts, held)


def _near(columns: Rows, text: Sequence[Token], w: int, numbers: Set[str]) -> Iterator[tuple[int, int]]:
    """Yield the tokens about each number of a copy that some other has nothing beside."""
    done = -1
    for row in columns:
        if (cell := row[w]) and cell[0] > done and None in row:
            start, done = max(cell[0] - 1, 0), cell[1]
            if any(token.expanded in numbers for token in text[start : done + 1]):
                yield max(start - REACH, 0), done + REACH


REACH = 5
"""How many words before and after one of its words a number is looked for."""


def _narrowed(
    columns: Rows, texts: Sequence[Sequence[Token]], held: Sequence[int]
) -> Iterator[tuple[int, int]]:
    """Yield some columns without those at either end in which all copies have the same, if two are left."""
    if len(held) > 1:
        first, stop = held[0], held[-1] + 1
        while first < stop and _all_same(columns[first], texts):
            first += 1
        while first < stop and _all_same(columns[stop - 1], texts):
            stop -= 1
        if stop - first > 1:
            yield first, stop


def _all_same(row: Sequence[Cell], texts: Sequence[Sequence[Token]]) -> bool:
    return len({_words(text, (cell,)) for cell, text in zip(row, texts, strict=True)}) == 1


def _words(text: Sequence[Token], cells: Sequence[Cell]) -> tuple[Form, ...]:
    return tuple([form_of(token) for cell in cells if cell for token in text[cell[0] : cell[1]]])


def _suit(columns: Rows, texts: Sequence[Sequence[Token]], judge: Judge) -> bool:
    """Say whether what every copy has in some columns suits one, and two have numbers of unlike length."""
    lengths: set[int] = set()
    for text, cells in zip(texts, zip(*columns, strict=True), strict=True):
        held = [cell for cell in cells if cell]
        words = _words(text, cells)
        if not words:
            continue
        number = judge.number(words) is not None or (len(words) == 1 and judge.counts(words[0]))
        unbroken = all(is_word(token) for token in text[held[0][0] : held[-1][1]])
        if not unbroken or not (number or len(words) <= _OTHER_WORDS):
            return False
        lengths |= {len(words)} if number else set()
    return len(lengths) > 1


def _joined(cells: Sequence[Cell]) -> Cell:
    held = [cell for cell in cells if cell]
    return (held[0][0], held[-1][1]) if held else None
