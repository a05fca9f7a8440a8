"""What it is worth to set one word beside another: judged when asked for, and only once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TypeVar

import numpy as np
import numpy.typing as npt
from rapidfuzz.distance import Indel
from rapidfuzz.process import cdist

from collate.align.anchor import NOTHING
from collate.model.form import Form, Judge, Relation
from collate.settings import Aligning

Scores = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]

Likeness = TypeVar("Likeness", float, npt.NDArray[np.floating])

UNIT = 1000.0
"""A score of one, in the whole numbers the engine reckons with: their sums are exact everywhere."""

WORTH_JUDGING = 0.5
"""Letter likeness below which an unlisted form is not brought before the judge."""

Worths = Mapping[tuple[Form, Form], float]
"""What some forms are worth beside some others, as a share of a match."""

LARGE = 200_000
"""How many pairs of forms are summed at a time."""

FEW = 4
"""How much less it costs to look up whole rows of forms than pair by pair."""

UNSURE = 0.5
"""The share of letter likeness that counts where nothing better is known."""


@dataclass(slots=True)
class Table:
    """The distinct forms of an item, and what each is worth beside each.

    `words[w]` holds the form numbers of witness w's words, `padded[w]` the same filled up to one length and
    one more with the number of no form (the last of `worth`, which is worth nothing beside any);
    `identity[f]` is what form f is matched by as an anchor, `function[f]` says that it is a function word.
    `worth[a, b]`, which is `worth[b, a]`, is NaN until the pair is judged.
    """

    forms: tuple[Form, ...]
    words: tuple[Indices, ...]
    padded: Indices
    identity: Indices
    function: npt.NDArray[np.bool_]
    judge: Judge
    aligning: Aligning
    worth: Scores

    def sums(self, columns: Indices, words: Indices) -> Scores:
        """Return the summed score of the forms of each column (a row of `columns`) beside each word."""
        found = self._sums(columns, words)
        column, word = np.isnan(found).nonzero()
        if len(column):
            judged = self.pairs(columns[column], words[word][:, np.newaxis])
            found[column, word] = judged.sum(axis=1)
        return found

    def _sums(self, columns: Indices, words: Indices) -> Scores:
        """Return the same, NaN where a pair is not judged."""
        found: Scores
        width = len(self.worth)
        if columns.size * FEW < width:
            found = self.worth.take(columns.T[:, :, np.newaxis] * width + words).sum(axis=0)
            return found
        beside = np.ascontiguousarray(self.worth.take(words, axis=0).T)
        if columns.size * len(words) < LARGE:
            found = beside.take(columns.T, axis=0).sum(axis=0)
            return found
        found = np.zeros((len(columns), len(words)))
        for forms in columns.T:
            found += beside.take(forms, axis=0)
        return found

    def pairs(self, a: Indices, b: Indices) -> Scores:
        """Return the score of each form of one array beside its fellow in another."""
        found: Scores = self.worth[a, b]
        unknown = np.isnan(found)
        if unknown.any():
            first, second = np.broadcast_arrays(a, b)
            self._judge_all(first[unknown], second[unknown])
            found = self.worth[a, b]
        return found

    def _judge_all(self, a: Indices, b: Indices) -> None:
        for pair in {*zip(a.tolist(), b.tolist(), strict=True)}:
            self._judge(*pair)

    def _judge(self, a: int, b: int) -> None:
        first, second = self.forms[a], self.forms[b]
        judged = self.judge(first, second)
        likeness = judged.likeness
        if not judged.sure and judged.relation is Relation.DIFFERENT:
            likeness = round(Indel.normalized_similarity(first.normal, second.normal), 3) * UNSURE
        score = _score(likeness, self.aligning)
        if score > 0 and self.function[a] and self.function[b]:
            score = round(score * self.aligning.function)
        self.worth[a, b] = self.worth[b, a] = score


def score_of(likeness: npt.NDArray[np.floating], aligning: Aligning) -> Scores:
    """Turn likeness into whole scores: from `unlike` to `mismatch` at `alike`, and on to `match`."""
    low, high = _below(likeness, aligning), _above(likeness, aligning)
    return np.rint(np.where(likeness <= aligning.alike, low, high) * UNIT)


def _below(likeness: Likeness, aligning: Aligning) -> Likeness:
    return aligning.unlike + likeness / aligning.alike * (aligning.mismatch - aligning.unlike)


def _above(likeness: Likeness, aligning: Aligning) -> Likeness:
    share = (likeness - aligning.alike) / (1.0 - aligning.alike)
    return aligning.mismatch + share * (aligning.match - aligning.mismatch)


def _score(likeness: float, aligning: Aligning) -> float:
    """Turn one likeness into a score, as `score_of` does."""
    if likeness <= aligning.alike:
        return float(round(_below(likeness, aligning) * UNIT))
    return float(round(_above(likeness, aligning) * UNIT))


def table(texts: Sequence[Sequence[Form]], judge: Judge, aligning: Aligning) -> Table:
    """Return the table for the words of several witnesses. Form numbers follow sorted forms."""
    forms = sorted({form for text in texts for form in text}, key=_order)
    number = {form: index for index, form in enumerate(forms)}
    words = tuple(np.array([number[form] for form in text], dtype=np.intp) for text in texts)
    keys = [judge.keys(form) for form in forms]
    names = {name: index for index, name in enumerate(sorted({key[0] for key in keys}))}
    identity = np.array([names[key[0]] for key in keys] or [NOTHING], dtype=np.intp)
    length = max((len(text) for text in words), default=0) + 1
    padded = np.full((len(words), length), len(forms), dtype=np.intp)
    for row, text in zip(padded, words, strict=True):
        row[: len(text)] = text
    function = np.array([*map(judge.is_function, forms), False])
    worth = _worth(forms, keys, function, judge, aligning)
    return Table(tuple(forms), words, padded, identity, function, judge, aligning, worth)


def lend(to: Table, shares: Worths) -> None:
    """Give pairs of forms the worth of a share of a match at least, whatever the judge says of them."""
    number = {form: index for index, form in enumerate(to.forms)}
    for (one, other), share in shares.items():
        a, b = number[one], number[other]
        worth = max(to.pairs(np.array([a]), np.array([b]))[0], round(share * to.aligning.match * UNIT))
        to.worth[a, b] = to.worth[b, a] = worth


def _worth(
    forms: Sequence[Form],
    keys: Sequence[tuple[str, ...]],
    function: npt.NDArray[np.bool_],
    judge: Judge,
    aligning: Aligning,
) -> Scores:
    """Return the scores that need no judge, and NaN for the pairs that share a key or may be one word."""
    count = len(forms)
    worth = np.full((count + 1, count + 1), round(aligning.unlike * UNIT), dtype=np.float64)
    worth[function[:, np.newaxis] != function] += round(aligning.apart * UNIT)
    unlisted = [index for index, form in enumerate(forms) if not judge.listed(form)]
    if unlisted:
        normals = [form.normal for form in forms]
        near = cdist([normals[index] for index in unlisted], normals, scorer=Indel.normalized_similarity)
        likeness = np.round(near.astype(np.float64), 3)
        scores = np.where(likeness >= WORTH_JUDGING, np.nan, score_of(likeness * UNSURE, aligning))
        worth[unlisted, :count] = scores
        worth[:count, unlisted] = scores.T
    groups: dict[str, list[int]] = {}
    for index, key in enumerate(keys):
        for name in key:
            groups.setdefault(name, []).append(index)
    alike = [pair for group in groups.values() if len(group) > 1 for pair in product(group, repeat=2)]
    if alike:
        worth[tuple(np.array(alike).T)] = np.nan
    own = np.where(function, aligning.match * aligning.function, aligning.match) * UNIT
    np.fill_diagonal(worth, np.rint(own))
    worth[count, :] = worth[:, count] = 0.0
    return worth


def _order(form: Form) -> tuple[str, str, str, tuple[str, ...], float, str]:
    return form.normal, form.folded, form.kind, form.headwords, form.value or 0.0, form.language
