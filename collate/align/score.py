"""What it is worth to set one word beside another: a table of likeness, made once per item."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from rapidfuzz.distance import Indel
from rapidfuzz.process import cdist

from collate.model.form import Form, Judge, Relation
from collate.settings import Aligning

Scores = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]

UNIT = 1000.0
"""A score of one, in the whole numbers the engine reckons with."""

WORTH_JUDGING = 0.4
"""Letter likeness below which two forms without a common headword are not brought before the judge."""


UNSURE = 0.5
"""The share of letter likeness that counts where the judge only says that it does not know better."""


@dataclass(frozen=True, slots=True)
class Table:
    """The distinct forms of an item, and what each is worth beside each.

    `words[w]` holds the form numbers of witness w's words; `worth[a, b]` is the score of form a
    beside form b, `likeness[a, b]` their likeness from 0 to 1.
    """

    forms: tuple[Form, ...]
    words: tuple[Indices, ...]
    worth: Scores
    likeness: Scores


def table(texts: Sequence[Sequence[Form]], judge: Judge, aligning: Aligning) -> Table:
    """Return the table for the words of several witnesses. Form numbers follow sorted forms."""
    forms = sorted({form for text in texts for form in text}, key=_order)
    number = {form: index for index, form in enumerate(forms)}
    words = tuple(np.array([number[form] for form in text], dtype=np.intp) for text in texts)
    likeness = _likeness(forms, judge)
    return Table(tuple(forms), words, worth(likeness, aligning), likeness)


def worth(likeness: Scores, aligning: Aligning) -> Scores:
    """Turn likeness into score: `mismatch` up to `alike`, then in a straight line up to `match`."""
    share = np.clip((likeness - aligning.alike) / (1.0 - aligning.alike), 0.0, 1.0)
    return whole(aligning.mismatch + share * (aligning.match - aligning.mismatch))


def whole(scores: Scores) -> Scores:
    """Return scores as whole thousandths: sums of them are exact, whatever machine adds them."""
    return np.rint(scores * UNIT)


def _order(form: Form) -> tuple[str, str, str, tuple[str, ...], float, str]:
    return form.normal, form.folded, form.kind, form.headwords, form.value or 0.0, form.language


def _likeness(forms: Sequence[Form], judge: Judge) -> Scores:
    """Judge every pair that shares letters or a headword; the others have likeness 0."""
    normals = [form.normal for form in forms]
    near = cdist(normals, normals, scorer=Indel.normalized_similarity, dtype=np.float32)
    worth_it = near >= WORTH_JUDGING
    for sharers in _sharers(forms):
        worth_it[np.ix_(sharers, sharers)] = True
    result: Scores = np.eye(len(forms))
    rows, columns = np.nonzero(np.triu(worth_it, 1))
    for row, column in zip(rows.tolist(), columns.tolist(), strict=True):
        judgement = judge(forms[row], forms[column])
        likeness = judgement.likeness
        if not judgement.sure and judgement.relation is Relation.DIFFERENT:
            likeness = float(near[row, column]) * UNSURE
        result[row, column] = result[column, row] = likeness
    return result


def _sharers(forms: Sequence[Form]) -> list[list[int]]:
    """Return the groups of forms that share a headword or a numeral value."""
    groups: dict[str, list[int]] = {}
    for index, form in enumerate(forms):
        for key in (*form.headwords, *([f"={form.value:g}"] if form.value is not None else [])):
            groups.setdefault(key, []).append(index)
    return [group for group in groups.values() if len(group) > 1]
