"""Which words of an item's copies are one word: by class at a glance, by the judge where it counts."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from collate.align.groups import Groups
from collate.model.bones import bones
from collate.model.form import Form, Judge, one_word

Classes = npt.NDArray[np.int32]

NO_WORD = -1
"""The class where a copy has no word."""


@dataclass(frozen=True, slots=True)
class Likes:
    """The words of each copy, and the class of each: words of two classes are never one word.

    `breaks` holds, for each copy, the words before which text may be lost; `table` the classes, a row for
    each copy, with one more place at least that holds no word.
    """

    forms: tuple[tuple[Form, ...], ...]
    classes: tuple[Classes, ...]
    breaks: tuple[frozenset[int], ...]
    judge: Judge
    table: Classes

    def same(self, ours: tuple[int, int], theirs: tuple[int, int]) -> bool:
        """Say whether two words, given as copy and place, are one word."""
        a, b = self.forms[ours[0]][ours[1]], self.forms[theirs[0]][theirs[1]]
        return a == b or (
            self.classes[ours[0]][ours[1]] == self.classes[theirs[0]][theirs[1]]
            and one_word(self.judge(a, b))
        )

    def is_function(self, word: tuple[int, int]) -> bool:
        """Say whether a word, given as copy and place, can only be a function word."""
        return self.judge.is_function(self.forms[word[0]][word[1]])


def padded(rows: Sequence[Classes]) -> Classes:
    """Return rows of classes as one table, each filled up with places that hold no word, one at least."""
    found = np.full((len(rows), max(map(len, rows), default=0) + 1), NO_WORD, dtype=np.int32)
    for filled, classes in zip(found, rows, strict=True):
        filled[: len(classes)] = classes
    return found


def likes(forms: Sequence[Sequence[Form]], breaks: Sequence[frozenset[int]], judge: Judge) -> Likes:
    """Return the words with their classes: what shares a headword, a normal form, or unlisted consonants."""
    distinct = [*dict.fromkeys(form for text in forms for form in text)]
    number = {form: at for at, form in enumerate(distinct)}
    groups, first = Groups(), dict[str, int]()
    for at, form in enumerate(distinct):
        for key in _keys(form, judge):
            if (other := first.setdefault(key, at)) != at:
                groups.join(other, at)
    heads = [groups.head(at) for at in range(len(distinct))]
    classes = tuple(np.array([heads[number[form]] for form in text], dtype=np.int32) for text in forms)
    return Likes(tuple(tuple(text) for text in forms), classes, tuple(breaks), judge, padded(classes))


def _keys(form: Form, judge: Judge) -> list[str]:
    """Return what two forms of one word share: a key that is no meaning, or, if unlisted, the consonants."""
    keys = [key for key in judge.keys(form) if not key.startswith("'")]
    return keys if judge.listed(form) else [*keys, f"~~{bones(form.normal)}"]
