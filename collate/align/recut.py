"""Columns drawn together where copies divide their words across them: *a nother* beside *an other*.

The alignment goes word by word. Where the words of two neighbouring columns (or three) are one text in two
copies, but stand in them divided otherwise, there is one column, as no word answers to a word.
"""

from collections.abc import Sequence
from itertools import combinations

from collate.align.divide import Cell, is_word
from collate.model.division import divided, letters, loosened
from collate.model.form import Form, Judge, form_of, same_forms
from collate.model.witness import Token

_WIDEST = 3


def recut(
    columns: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]], judge: Judge
) -> list[list[Cell]]:
    """Return columns of words, those drawn together whose words are only divided otherwise."""
    written = [[letters(token.expanded.casefold()) for token in text] for text in texts]
    spelled = [
        ["".join(text[cell[0] : cell[1]]) if cell else "" for text, cell in zip(written, row, strict=True)]
        for row in columns
    ]
    varied = [len(set(map(loosened, set(row)))) > 1 for row in spelled]
    found: list[list[Cell]] = []
    at = 0
    while at < len(columns):
        width = 1
        if varied[at] and any(varied[at + 1 : at + _WIDEST]):
            widths = (w for w in range(2, _WIDEST + 1) if at + w <= len(columns) and varied[at + w - 1])
            spans = (slice(at, at + w) for w in widths)
            width = next((len(spelled[s]) for s in spans if _one(columns[s], spelled[s], texts, judge)), 1)
        found.append(_together(columns[at : at + width]) if width > 1 else [*columns[at]])
        at += width
    return found


def _together(columns: Sequence[Sequence[Cell]]) -> list[Cell]:
    rows = [[cell for cell in row if cell] for row in zip(*columns, strict=True)]
    return [(row[0][0], row[-1][1]) if row else None for row in rows]


def _one(
    columns: Sequence[Sequence[Cell]],
    spelled: Sequence[Sequence[str]],
    texts: Sequence[Sequence[Token]],
    judge: Judge,
) -> bool:
    """Say whether some columns are one: two copies have one text in them, divided otherwise."""
    copies = [*zip(*spelled, strict=True)]
    kinds = set(copies)
    if len({loosened("".join(kind)) for kind in kinds}) == len(kinds):
        return False
    wholes: dict[str, list[_Kind]] = {}
    for kind in dict.fromkeys(copies):
        wholes.setdefault(loosened("".join(kind)), []).append((copies.index(kind), kind))
    rows = [*zip(*columns, strict=True)]
    alike = [group for group in wholes.values() if len(group) > 1]
    return any(_cross(group, rows, texts, judge) for group in alike) and _unbroken(columns, texts)


_Kind = tuple[int, tuple[str, ...]]
"""The first copy that has some letters in each of some columns, and the letters."""


def _cross(
    group: Sequence[_Kind],
    rows: Sequence[Sequence[Cell]],
    texts: Sequence[Sequence[Token]],
    judge: Judge,
) -> bool:
    """Say whether two copies divide one text otherwise, and nowhere both between two of the columns."""
    for (w, ours), (v, theirs) in combinations(group, 2):
        if not _share_a_border(ours, theirs):
            one, two = _forms(texts[w], rows[w]), _forms(texts[v], rows[v])
            if not same_forms(one, two, judge) and divided(one, two, judge):
                return True
    return False


def _share_a_border(ours: Sequence[str], theirs: Sequence[str]) -> bool:
    return any(loosened("".join(ours[:at])) == loosened("".join(theirs[:at])) for at in range(1, len(ours)))


def _forms(text: Sequence[Token], row: Sequence[Cell]) -> list[Form]:
    return [form_of(token) for cell in row if cell for token in text[cell[0] : cell[1]]]


def _unbroken(columns: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]]) -> bool:
    """Say whether in every copy the words follow one another, with no point or gap between."""
    for w, cell in enumerate(_together(columns)):
        if cell and not all(is_word(token) for token in texts[w][cell[0] : cell[1]]):
            return False
    return True
