"""What it is worth to set one word beside another: judged when asked for, and only once."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt
from rapidfuzz.distance import Indel

from collate.align.anchor import NOTHING
from collate.model.form import Form, Judge, Relation
from collate.settings import Aligning

Scores = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]

UNIT = 1000.0
"""A score of one, in the whole numbers the engine reckons with: their sums are exact everywhere."""

WORTH_JUDGING = 0.5
"""Letter likeness below which an unlisted form is not brought before the judge."""

UNSURE = 0.5
"""The share of letter likeness that counts where nothing better is known."""

UNLIKE = 0.3
"""The share of letter likeness that counts between two listed words."""


@dataclass(slots=True)
class Table:
    """The distinct forms of an item, and what each is worth beside each.

    `words[w]` holds the form numbers of witness w's words; `identity[f]` is what form f is matched by as
    an anchor. Worth is reckoned when first asked for and kept.
    """

    forms: tuple[Form, ...]
    words: tuple[Indices, ...]
    identity: Indices
    judge: Judge
    aligning: Aligning
    keys: list[frozenset[str]]
    listed: list[bool]
    known: dict[tuple[int, int], float] = field(default_factory=dict)

    def worth(self, a: int, b: int) -> float:
        """Return the score of two forms side by side, in whole thousandths."""
        if a == b:
            return round(self.aligning.match * UNIT)
        pair = (a, b) if a < b else (b, a)
        found = self.known.get(pair)
        if found is None:
            found = self.known[pair] = score_of(self._likeness(*pair), self.aligning)
        return found

    def _likeness(self, a: int, b: int) -> float:
        first, second = self.forms[a], self.forms[b]
        if not self.keys[a].isdisjoint(self.keys[b]):
            return self.judge(first, second).likeness
        near = Indel.normalized_similarity(first.normal, second.normal)
        if self.listed[a] and self.listed[b]:
            return near * UNLIKE
        if near < WORTH_JUDGING:
            return near * UNSURE
        judged = self.judge(first, second)
        sure = judged.sure or judged.relation is not Relation.DIFFERENT
        return judged.likeness if sure else near * UNSURE


def score_of(likeness: float, aligning: Aligning) -> float:
    """Turn likeness into score: `unlike` to `mismatch` up to `alike`, then in a line up to `match`."""
    if likeness <= aligning.alike:
        low, high, share = aligning.unlike, aligning.mismatch, likeness / aligning.alike
    else:
        low, high = aligning.mismatch, aligning.match
        share = (likeness - aligning.alike) / (1.0 - aligning.alike)
    return round((low + share * (high - low)) * UNIT)


def table(texts: Sequence[Sequence[Form]], judge: Judge, aligning: Aligning) -> Table:
    """Return the table for the words of several witnesses. Form numbers follow sorted forms."""
    forms = sorted({form for text in texts for form in text}, key=_order)
    number = {form: index for index, form in enumerate(forms)}
    words = tuple(np.array([number[form] for form in text], dtype=np.intp) for text in texts)
    keys = [judge.keys(form) for form in forms]
    names = {name: index for index, name in enumerate(sorted({key[0] for key in keys}))}
    identity = np.array([names[key[0]] for key in keys] or [NOTHING], dtype=np.intp)
    listed = [judge.listed(form) for form in forms]
    return Table(tuple(forms), words, identity, judge, aligning, [frozenset(key) for key in keys], listed)


def _order(form: Form) -> tuple[str, str, str, tuple[str, ...], float, str]:
    return form.normal, form.folded, form.kind, form.headwords, form.value or 0.0, form.language
