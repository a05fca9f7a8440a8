"""The words of one item in several witnesses, aligned and proved."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from collate.align.divide import Unit, cells, units
from collate.align.extent import Ends, beyond, end_eases, torn_ends
from collate.align.grow import Ease, Grid, grow
from collate.align.loci import loci
from collate.align.recut import recut
from collate.align.score import table
from collate.align.settle import settle
from collate.align.stretch import Places, cuts
from collate.align.struck import beside_struck
from collate.align.together import Steps, beside
from collate.align.transpose import transpositions
from collate.align.verify import verify
from collate.model.collation import Collation
from collate.model.form import Form, Judge
from collate.model.witness import Item, Token, TokenKind
from collate.settings import Aligning

SIDE_BY_SIDE = 32
"""How many stretches of a long item grow side by side: more would cost memory and save no time."""


def collate(
    key: str,
    members: Sequence[tuple[str, Item]],
    judge: Judge,
    aligning: Aligning,
    ends: Mapping[str, Ends] | None = None,
) -> Steps[Collation]:
    """Align one item of several witnesses, given as (siglum, item), in steps; always verified.

    The steps may be done beside those of other items (see `together`), or alone by `finished`. The result
    keeps the order of `members`; the columns do not depend on it. `ends` says of which witnesses the
    beginning or the end may be lost; where nothing is said, of none.
    """
    inner = sorted(range(len(members)), key=lambda index: members[index][0])
    every = [item for _, item in members]
    texts = [item.tokens for item in every]
    parts = units(texts, judge)
    forms = [[unit.form for unit in parts[index]] for index in inner]
    sigla = tuple(siglum for siglum, _ in members)
    torn = _torn([(ends or {}).get(siglum, Ends()) for siglum in sigla], parts, judge)
    light = end_eases([len(part) for part in parts], torn)
    eases = [_ease(parts[index], texts[index], light[index]) for index in inner]
    grid = yield from _grid(forms, eases, judge, aligning)
    back = [inner.index(index) for index in range(len(members))]
    held = recut(beside_struck(cells(grid[:, back], parts, judge), every), texts, judge)
    columns = settle(held, texts, beyond([[cell is not None for cell in row] for row in held], torn))
    moved = transpositions(columns, sigla, every, judge)
    places = loci(columns, every, judge)
    return verify(Collation(key, sigla, tuple(every), columns, places, moved))


def _torn(ends: Sequence[Ends], parts: Sequence[Sequence[Unit]], judge: Judge) -> tuple[Ends, ...]:
    """Return which ends may be lost, where any is said to be."""
    if not any(end.start or end.stop for end in ends):
        return tuple(ends)
    return torn_ends([[judge.keys(unit.form)[0] for unit in part] for part in parts], ends)


def _grid(
    forms: Sequence[Sequence[Form]], eases: Sequence[Ease], judge: Judge, aligning: Aligning
) -> Steps[Grid]:
    """Return the columns of all witnesses; the stretches between cuts grow side by side."""
    names: dict[str, int] = {}
    identities = [[names.setdefault(judge.keys(form)[0], len(names)) for form in text] for text in forms]
    found: list[Grid] = []
    stretches = list(pairwise(cuts(identities)))
    for at in range(0, len(stretches), SIDE_BY_SIDE):
        some = stretches[at : at + SIDE_BY_SIDE]
        growing = [_stretch(forms, eases, stretch, judge, aligning) for stretch in some]
        found.extend((yield from beside(growing)))
    return np.concatenate(found)


def _stretch(
    forms: Sequence[Sequence[Form]],
    eases: Sequence[Ease],
    stretch: tuple[Places, Places],
    judge: Judge,
    aligning: Aligning,
) -> Steps[Grid]:
    """Return the columns of a stretch, given as where each witness begins and ends in it."""
    spans = list(zip(*stretch, strict=True))
    part = [text[begin:end] for text, (begin, end) in zip(forms, spans, strict=True)]
    easy = [Ease(ease.places[begin : end + 1]) for ease, (begin, end) in zip(eases, spans, strict=True)]
    grid = yield from grow(table(part, judge, aligning), easy, aligning)
    return np.where(grid >= 0, grid + np.array(stretch[0], dtype=np.int32), -1)


def _ease(parts: Sequence[Unit], text: Sequence[Token], end: tuple[float, float]) -> Ease:
    """Return 0 where the copy has a gap between its units, `end` at either end, 1 at all other places."""
    starts = [0, *(unit.stop for unit in parts)]
    stops = [*(unit.start for unit in parts), len(text)]
    silent = (
        any(token.kind is TokenKind.GAP for token in text[start:stop])
        for start, stop in zip(starts, stops, strict=True)
    )
    places = np.array([0.0 if gap else 1.0 for gap in silent])
    places[[0, -1]] = np.minimum(places[[0, -1]], end)
    return Ease(places)
