"""Word division: what is aligned is not the written word but the unit, one word or the parts of one.

Two neighbouring words are one unit if, written together, they are one word with a word that stands undivided
somewhere in the item, neither part alone is that word, and no punctuation stands between them.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from collate.align.grow import Grid
from collate.model.form import Form, Judge, Relation, form_of
from collate.model.witness import Token, TokenKind

_ONE_WORD = frozenset({Relation.SAME, Relation.SPELLING})
_SOFT = re.compile(r"[aeiouwh]|gh|(?<=.)[sn]$")


@dataclass(frozen=True, slots=True)
class Unit:
    """Tokens [start, stop) that are aligned as one, and the form they are compared by."""

    start: int
    stop: int
    form: Form


Cell = tuple[int, int] | None
"""The tokens [start, stop) that a witness has in a column, or None."""


def cells(grid: Grid, parts: Sequence[Sequence[Unit]], judge: Judge) -> list[list[Cell]]:
    """Return the columns of a grid of units as cells of tokens.

    A column whose divided words stand beside no undivided one was joined in vain: it is two again.
    """
    columns: list[list[Cell]] = []
    for row in grid.tolist():
        held = [parts[w][at] if at >= 0 else None for w, at in enumerate(row)]
        whole = [unit.form for unit in held if unit and unit.stop == unit.start + 1]
        divided = [unit.form for unit in held if unit and unit.stop > unit.start + 1]
        mated = any(judge(a, b).relation in _ONE_WORD for a in divided for b in whole)
        if mated or not divided:
            columns.append([(unit.start, unit.stop) if unit else None for unit in held])
        else:
            columns.append([(unit.start, unit.start + 1) if unit else None for unit in held])
            columns.append(
                [
                    (unit.start + 1, unit.stop) if unit and unit.stop > unit.start + 1 else None
                    for unit in held
                ]
            )
    return columns


def units(texts: Sequence[Sequence[Token]], judge: Judge) -> tuple[tuple[Unit, ...], ...]:
    """Return the units of each witness, in order; punctuation and gaps belong to none."""
    undivided: dict[str, dict[Form, None]] = {}
    for text in texts:
        for token in text:
            if token.kind is TokenKind.WORD:
                form = form_of(token)
                undivided.setdefault(_bones(form.normal), {})[form] = None
    return tuple(tuple(_units(text, undivided, judge)) for text in texts)


def is_word(token: Token) -> bool:
    """Say whether a token is aligned as a word."""
    return token.kind in (TokenKind.WORD, TokenKind.NUMERAL)


def _units(text: Sequence[Token], undivided: dict[str, dict[Form, None]], judge: Judge) -> list[Unit]:
    found: list[Unit] = []
    at = 0
    while at < len(text):
        if is_word(text[at]):
            joined = _joined(text, at, undivided, judge)
            found.append(Unit(at, at + 2, joined) if joined else Unit(at, at + 1, form_of(text[at])))
            at = found[-1].stop
        else:
            at += 1
    return found


def _joined(
    text: Sequence[Token], at: int, undivided: dict[str, dict[Form, None]], judge: Judge
) -> Form | None:
    """Return the form of two neighbouring words that are the parts of one, or None."""
    if at + 1 >= len(text) or not all(token.kind is TokenKind.WORD for token in text[at : at + 2]):
        return None
    a, b = form_of(text[at]), form_of(text[at + 1])
    together = Form(a.folded + b.folded, a.normal + b.normal, language=a.language)
    keys = [_bones(together.normal)]
    if together.normal.startswith("i"):
        keys.append(_bones("th" + together.normal[1:]))  # y for thorn
    for whole in (form for key in keys for form in undivided.get(key, ())):
        judgement = judge(whole, together)
        if judgement.sure and judgement.relation in _ONE_WORD and _neither(whole, a, b, judge):
            return together
    return None


def _neither(whole: Form, a: Form, b: Form, judge: Judge) -> bool:
    return all(judge(whole, part).relation is Relation.DIFFERENT for part in (a, b))


def _bones(normal: str) -> str:
    """Return the consonants of a normal form, by which whole words are looked for."""
    bones = _SOFT.sub("", normal)
    return re.sub(r"(.)\1+", r"\1", bones) or normal
