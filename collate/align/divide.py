"""Word division: what is aligned is not the written word but the unit, one word or the parts of one.

Two neighbouring words are one unit if, written together, they are one word with a word that stands undivided
somewhere in the item, neither part alone is that word, and no punctuation stands between them.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from rapidfuzz.distance import Indel

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


LIKE = 0.6
"""Letter likeness below which two words written together are not compared with a whole one."""

VERY_LIKE = 0.85
"""Letter likeness from which a judgement that is not sure will do."""

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
                undivided.setdefault(bones(form.normal), {})[form] = None
    divider = _Divider(undivided, judge, {})
    return tuple(tuple(_units(text, divider)) for text in texts)


@dataclass(frozen=True, slots=True)
class _Divider:
    """The undivided words of an item by their bones, and what was found of each pair of words."""

    undivided: dict[str, dict[Form, None]]
    judge: Judge
    found: dict[tuple[Form, Form], Form | None]

    def joined(self, a: Form, b: Form) -> Form | None:
        """Return the form of two words that are the parts of one, or None."""
        if (a, b) not in self.found:
            self.found[a, b] = self._joined(a, b)
        return self.found[a, b]

    def _joined(self, a: Form, b: Form) -> Form | None:
        normal = a.normal + b.normal
        keys = [bones(normal)]
        if normal.startswith("i"):
            keys.append(bones("th" + normal[1:]))  # y for thorn
        wholes = [form for key in keys for form in self.undivided.get(key, ())]
        if not wholes:
            return None
        together = Form(a.folded + b.folded, normal, language=a.language)
        named = self.judge.names(together)
        for whole in wholes:
            if whole.normal != together.normal and not named:
                continue
            likeness = Indel.normalized_similarity(whole.normal, together.normal)
            if likeness < LIKE:
                continue
            judgement = self.judge(whole, together)
            sure = judgement.sure or likeness >= VERY_LIKE
            if sure and judgement.relation in _ONE_WORD and self._neither(whole, a, b):
                return together
        return None

    def _neither(self, whole: Form, a: Form, b: Form) -> bool:
        judgements = [self.judge(whole, part) for part in (a, b)]
        return not any(found.sure and found.relation is not Relation.DIFFERENT for found in judgements)


def is_word(token: Token) -> bool:
    """Say whether a token is aligned as a word."""
    return token.kind in (TokenKind.WORD, TokenKind.NUMERAL)


def _units(text: Sequence[Token], divider: _Divider) -> list[Unit]:
    forms = [form_of(token) if is_word(token) else None for token in text]
    found: list[Unit] = []
    at = 0
    while at < len(text):
        form, after = forms[at], forms[at + 1] if at + 1 < len(text) else None
        if form is None:
            at += 1
            continue
        words = form.kind is TokenKind.WORD and after is not None and after.kind is TokenKind.WORD
        joined = divider.joined(form, after) if words and after is not None else None
        found.append(Unit(at, at + 2, joined) if joined else Unit(at, at + 1, form))
        at = found[-1].stop
    return found


@lru_cache(maxsize=262144)
def bones(normal: str) -> str:
    """Return the consonants of a normal form, by which whole words are looked for."""
    bones = _SOFT.sub("", normal)
    return re.sub(r"(.)\1+", r"\1", bones) or normal
