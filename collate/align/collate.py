"""The words of one item in several witnesses, aligned and proved."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from collate.align.apart import apart
from collate.align.astray import set_apart
from collate.align.counted import numbers_together
from collate.align.divide import Parted, Unit, cells, forms_of, rows, units
from collate.align.doublings import numbered, put_back, taken_out, without
from collate.align.extent import Ends, beyond, end_eases, torn_ends
from collate.align.gaps import ease
from collate.align.grow import Ease, Grid, grow
from collate.align.halves import in_their_halves
from collate.align.likes import Likes, likes
from collate.align.loci import loci
from collate.align.recut import recut
from collate.align.score import table
from collate.align.settle import settle
from collate.align.stretch import Places, cuts
from collate.align.struck import beside_struck
from collate.align.together import Steps, beside
from collate.align.verify import verify
from collate.model.collation import Collation, Column, Locus, columns_of
from collate.model.form import Form, Judge
from collate.model.witness import Item
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
    words = [forms_of(text) for text in texts]
    parts = units(words, judge)
    forms = [[unit.form for unit in parts[index]] for index in inner]
    sigla = tuple(siglum for siglum, _ in members)
    torn = _torn([(ends or {}).get(siglum, Ends()) for siglum in sigla], parts, judge)
    light = end_eases([len(part) for part in parts], torn)
    eases = [ease(parts[index], texts[index], light[index]) for index in inner]
    grid = yield from _grid(forms, eases, judge, aligning)
    ours = [parts[index] for index in inner]
    grid = _slips(grid, likes(forms, [_breaks(each) for each in eases], judge))
    mended, told = yield from apart(rows(grid, ours), eases, judge, aligning)
    back = [inner.index(index) for index in range(len(members))]
    held = beside_struck(cells([tuple([row[at] for at in back]) for row in mended], judge), every)
    drawn, cut = recut(numbers_together(held, texts, judge), texts, judge)
    columns = settle(drawn, texts, beyond([[cell is not None for cell in row] for row in drawn], torn))
    spans = {*(_columns_over(each, range(len(sigla)), columns) for each in cut)}
    spans |= {_columns_over(each, inner, columns) for each in told}
    parted = tuple(sorted(span for span in spans if span.stop - span.first > 1))
    places = loci(columns, every, words, judge, parted)
    return verify(Collation(key, sigla, tuple(every), columns, places, parted=parted))


def _columns_over(parted: Parted, order: Sequence[int], columns: Sequence[Column]) -> Locus:
    """Return the columns from that of one word to that of another; `order` are the numbers of the copies."""
    first, last = (columns_of(columns, order[w], at, at + 1) for w, at in (parted.first, parted.last))
    return Locus(first.first, last.stop)


def _slips(grid: Grid, words: Likes) -> Grid:
    """Return the columns with what a copy doubled or skipped where it belongs."""
    rest, twice = taken_out(grid, words)
    if not twice:
        return set_apart(in_their_halves(grid, words), words)
    plain, once, left = without(rest, twice, words)
    rest = set_apart(in_their_halves(plain, once), once)
    return put_back(numbered(rest, left), twice, words)


def _breaks(ease: Ease) -> frozenset[int]:
    """Return the words before which text may be lost: right after a gap, or at a torn end."""
    return frozenset(np.flatnonzero(ease.places[0] < 1.0).tolist())


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
    number = {
        form: names.setdefault(judge.keys(form)[0], len(names))
        for form in dict.fromkeys(form for text in forms for form in text)
    }
    identities = [[*map(number.__getitem__, text)] for text in forms]
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
    easy = [Ease(each.places[:, begin : end + 1]) for each, (begin, end) in zip(eases, spans, strict=True)]
    grid = yield from grow(table(part, judge, aligning), easy, aligning)
    return np.where(grid >= 0, grid + np.array(stretch[0], dtype=np.int32), -1)
