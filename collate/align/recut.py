"""Columns drawn together where copies divide their words across them: *a nother* beside *an other*.

The alignment goes word by word. Where the words of two neighbouring columns (or three) are one text in two
copies, but stand in them divided otherwise, there is one column, as no word answers to a word.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from collate.align.divide import Cell, is_word
from collate.model.division import divided, letters, loosened
from collate.model.form import Form, Judge, form_of, same_forms
from collate.model.witness import Token

_WIDEST = 3


@dataclass(frozen=True, slots=True)
class _Text:
    """One copy: its tokens, and the letters of each."""

    tokens: Sequence[Token]
    letters: tuple[str, ...]


def recut(
    columns: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]], judge: Judge
) -> list[list[Cell]]:
    """Return columns of words, those drawn together whose words are only divided otherwise."""
    held = [_Text(text, tuple(letters(token.expanded.casefold()) for token in text)) for text in texts]
    varied = [
        len({loosened(_of(text, cell)) for text, cell in zip(held, row, strict=True)}) > 1 for row in columns
    ]
    found: list[list[Cell]] = []
    at = 0
    while at < len(columns):
        widths = (w for w in range(2, _WIDEST + 1) if all(varied[at : at + w : w - 1]))
        width = next((w for w in widths if _one(columns[at : at + w], w, held, judge)), 1)
        found.append(_together(columns[at : at + width]))
        at += width
    return found


def _together(columns: Sequence[Sequence[Cell]]) -> list[Cell]:
    rows = [[cell for cell in row if cell] for row in zip(*columns, strict=True)]
    return [(row[0][0], row[-1][1]) if row else None for row in rows]


def _one(columns: Sequence[Sequence[Cell]], width: int, texts: Sequence[_Text], judge: Judge) -> bool:
    """Say whether some columns are one: two copies have one text in them, divided otherwise."""
    if len(columns) < width:
        return False
    kinds: dict[tuple[str, ...], tuple[int, tuple[Cell, ...]]] = {}
    for w, row in enumerate(zip(*columns, strict=True)):
        kinds.setdefault(tuple(_letters(texts[w], row)), (w, row))
    if len(kinds) < 2:
        return False
    wholes: dict[str, list[tuple[int, tuple[Cell, ...]]]] = {}
    for kind, where in kinds.items():
        wholes.setdefault(loosened("".join(kind)), []).append(where)
    alike = [group for group in wholes.values() if len(group) > 1]
    return any(_cross(group, texts, judge) for group in alike) and _unbroken(columns, texts)


def _of(text: _Text, cell: Cell) -> str:
    return "".join(text.letters[cell[0] : cell[1]]) if cell else ""


def _cross(group: Sequence[tuple[int, tuple[Cell, ...]]], texts: Sequence[_Text], judge: Judge) -> bool:
    """Say whether two copies divide one text otherwise, and nowhere both between two of the columns."""
    for at, (w, row) in enumerate(group):
        for v, other in group[:at]:
            if _share_a_border(_letters(texts[w], row), _letters(texts[v], other)):
                continue
            one, two = _forms(texts[w], row), _forms(texts[v], other)
            if not same_forms(one, two, judge) and divided(one, two, judge):
                return True
    return False


def _letters(text: _Text, row: Sequence[Cell]) -> list[str]:
    return [_of(text, cell) for cell in row]


def _share_a_border(ours: Sequence[str], theirs: Sequence[str]) -> bool:
    return any(loosened("".join(ours[:at])) == loosened("".join(theirs[:at])) for at in range(1, len(ours)))


def _forms(text: _Text, row: Sequence[Cell]) -> list[Form]:
    return [form_of(token) for cell in row if cell for token in text.tokens[cell[0] : cell[1]]]


def _unbroken(columns: Sequence[Sequence[Cell]], texts: Sequence[_Text]) -> bool:
    """Say whether in every copy the words follow one another, with no point or gap between."""
    for w, cell in enumerate(_together(columns)):
        if cell and not all(is_word(token) for token in texts[w].tokens[cell[0] : cell[1]]):
            return False
    return True
