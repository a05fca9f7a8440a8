"""The words of one item in several witnesses, aligned and proved."""

from collections.abc import Sequence

import numpy as np

from collate.align.grow import Ease, grow
from collate.align.loci import loci
from collate.align.score import table
from collate.align.settle import is_word, settle
from collate.align.verify import verify
from collate.model.collation import Collation
from collate.model.form import Judge, Relation
from collate.model.witness import Item, TokenKind
from collate.settings import Aligning

ONE_WORD = frozenset({Relation.SAME, Relation.SPELLING})


def collate(key: str, members: Sequence[tuple[str, Item]], judge: Judge, aligning: Aligning) -> Collation:
    """Align one item of several witnesses, given as (siglum, item); always verified.

    The result keeps the order of `members`; the columns do not depend on it.
    """
    inner = sorted(range(len(members)), key=lambda index: members[index][0])
    items = [members[index][1] for index in inner]
    words = [[token for token in item.tokens if is_word(token)] for item in items]
    grid = grow(table(words, judge, aligning), [_ease(item) for item in items], aligning)
    back = [inner.index(index) for index in range(len(members))]
    texts = [item.tokens for _, item in members]
    columns = settle(grid[:, back], texts)
    every = [item for _, item in members]
    return verify(
        Collation(
            key,
            tuple(siglum for siglum, _ in members),
            tuple(every),
            columns,
            loci(columns, every, lambda a, b: judge(a, b).relation in ONE_WORD),
        )
    )


def _ease(item: Item) -> Ease:
    """Return 0 for the places between words where the copy has a gap, 1 for all others."""
    places, silent = [], False
    for token in item.tokens:
        if is_word(token):
            places.append(0.0 if silent else 1.0)
            silent = False
        elif token.kind is TokenKind.GAP:
            silent = True
    places.append(0.0 if silent else 1.0)
    return Ease(np.array(places))
