"""What witnesses have between two columns of words, set side by side: points by their letters, gaps apart."""

from collections.abc import Sequence
from itertools import groupby

import numpy as np

from collate.align.path import Costs, Path, best_path
from collate.model.witness import Token, TokenKind

Cell = tuple[int, ...]
"""Tokens of one witness that stand in one row: a point, or a gap of as many marks as follow one another."""

Row = list[Cell]
"""One cell for each witness, () where it has nothing."""

ALONE = 2
"""What it costs that a point stands beside nothing."""

UNLIKE = 3
"""What it costs that it stands beside another: less than that both stand alone, more than that one does."""

NEVER = 9
"""What it would cost to set a point beside a gap: more than to leave both alone."""


def rows_of(slot: Sequence[Cell], texts: Sequence[Sequence[Token]]) -> list[Row]:
    """Return the rows in which the tokens of one slot stand, given as one sequence for each witness.

    Like points stand side by side, as few as may be alone or beside another. The rows do not depend on the
    order of the witnesses.
    """
    if not any(slot):
        return []
    if all(_at_most_a_point(tokens, text) for tokens, text in zip(slot, texts, strict=True)):
        return [list(slot)]
    held = [_cells(tokens, text) for tokens, text in zip(slot, texts, strict=True)]
    signs = [tuple(_sign(cell, text) for cell in cells) for cells, text in zip(held, texts, strict=True)]
    rows: list[set[str]] = []
    homes: dict[tuple[str, ...], list[int]] = {}
    for sign in sorted({*signs}, key=lambda each: (-len(each), each)):
        rows, homes[sign], moved = _set_in(rows, sign)
        for other in homes.keys() - {sign}:
            homes[other] = [moved[at] for at in homes[other]]
    found: list[Row] = [[() for _ in texts] for _ in rows]
    for w, (cells, sign) in enumerate(zip(held, signs, strict=True)):
        for at, cell in zip(homes[sign], cells, strict=True):
            found[at][w] = cell
    return found


def _at_most_a_point(tokens: Cell, text: Sequence[Token]) -> bool:
    return not tokens or (len(tokens) == 1 and text[tokens[0]].kind is not TokenKind.GAP)


def _cells(tokens: Cell, text: Sequence[Token]) -> list[Cell]:
    found: list[Cell] = []
    for gap, group in groupby(tokens, key=lambda index: text[index].kind is TokenKind.GAP):
        indices = tuple(group)
        found.extend([indices] if gap else [(index,) for index in indices])
    return found


def _sign(cell: Cell, text: Sequence[Token]) -> str:
    """Return the letters of a point, "" for a gap."""
    token = text[cell[0]]
    return "" if token.kind is TokenKind.GAP else token.expanded


def _set_in(rows: Sequence[set[str]], signs: Sequence[str]) -> tuple[list[set[str]], list[int], list[int]]:
    """Set signs into rows: return the rows, the row of each sign, and that of each row there was."""
    found: list[set[str]] = []
    homes, moved = [], []
    for row, at in _path(rows, signs):
        if row >= 0:
            moved.append(len(found))
        if at >= 0:
            homes.append(len(found))
        found.append({*(rows[row] if row >= 0 else ()), *([signs[at]] if at >= 0 else ())})
    return found, homes, moved


def _path(rows: Sequence[set[str]], signs: Sequence[str]) -> Path:
    """Return the cheapest way through rows and signs, -1 for nothing on a side: pairs as early as may be."""
    scores = np.array([[-_apart(row, sign) for sign in signs] for row in rows], dtype=np.float64)
    alone = np.full(len(rows), -float(ALONE))
    costs = Costs(np.zeros(len(rows)), alone, 0.0, -float(ALONE), np.ones((2, len(signs) + 1)))
    return best_path(scores.reshape(len(rows), len(signs)), costs).path


def _apart(row: set[str], sign: str) -> int:
    if sign in row:
        return 0
    return NEVER if not sign or "" in row else UNLIKE
