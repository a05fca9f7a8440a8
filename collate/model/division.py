"""One text divided in two ways: which words of two runs answer to one another, whatever blanks they have."""

import re
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from functools import lru_cache
from itertools import accumulate, pairwise

from collate.model.form import Form, Judge, Relation, form_of, one_word, same_forms
from collate.model.witness import Token, TokenKind

MOST = 4
"""How many written words may be one, at most."""

LIKE = 0.6
"""Letter likeness below which words written together are not compared with a whole one."""

VERY_LIKE = 0.85
"""Letter likeness from which a judgement that is not sure will do."""

_LONGEST = 16
_UNLIKE = 10
_LETTERS = str.maketrans({"þ": "th", "ð": "th", "ȝ": "gh", "v": "u", "j": "i", "y": "i", "ſ": "s"})
_NO_LETTERS = re.compile(r"[\-‐‑⸗'’ʼ]")
_DOUBLED = re.compile(r"(.)(?=\1)")
_ONE_WORD = frozenset({Relation.SAME, Relation.SPELLING})

Group = tuple[int, int, int, int]
"""Words [0, 1) of the one run that answer to words [2, 3) of the other."""


@lru_cache(maxsize=262144)
def letters(folded: str) -> str:
    """Return the letters of a word: þ as th, y and j as i, v as u, no hyphen or apostrophe."""
    return _NO_LETTERS.sub("", folded.translate(_LETTERS))


@lru_cache(maxsize=262144)
def loosened(text: str) -> str:
    """Return letters with doubled ones single and without a last e."""
    return single(text).removesuffix("e")


@lru_cache(maxsize=262144)
def single(text: str) -> str:
    """Return letters with doubled ones single."""
    return _DOUBLED.sub("", text)


def joined(forms: Sequence[Form]) -> Form:
    """Return words written together as one form; a single word as it is."""
    if len(forms) == 1:
        return forms[0]
    return Form(
        "".join(form.folded for form in forms),
        "".join(form.normal for form in forms),
        language=forms[0].language,
    )


def divided(one: Sequence[Form], other: Sequence[Form], judge: Judge) -> bool:
    """Say whether two runs of words are the same words or the same number, divided otherwise."""
    if len(one) + len(other) < 3:
        return False
    ours, theirs = (letters("".join(form.folded for form in forms)) for forms in (one, other))
    if ours == theirs:
        return True
    if any(form.kind is TokenKind.NUMERAL for form in (*one, *other)) or _ends_in_number(one, judge):
        value = judge.number(tuple(one))
        return value is not None and value == judge.number(tuple(other))
    if len(one) > 1 and len(other) > 1:
        return loosened(ours) == loosened(theirs)
    whole, parts = (one[0], other) if len(one) == 1 else (other[0], one)
    return splits(letters(whole.folded), parts, judge) or _alike(whole, parts, judge)


def _ends_in_number(forms: Sequence[Form], judge: Judge) -> bool:
    return judge.number((forms[-1],)) is not None


def splits(whole: str, parts: Sequence[Form], judge: Judge) -> bool:
    """Say whether the letters of a word (see `letters`) are those of the parts, each spelled as it may be."""
    first = parts[0]
    if len(parts) == 1:
        return _one_spelling(whole, first, judge)
    near = len(letters(first.folded))
    cuts = range(max(1, near - 2), min(len(whole) - 1, near + 2) + 1)
    return any(
        _one_spelling(whole[:at], first, judge) and splits(whole[at:], parts[1:], judge) for at in cuts
    )


@lru_cache(maxsize=262144)
def _one_spelling(piece: str, part: Form, judge: Judge) -> bool:
    if piece == letters(part.folded):
        return True
    found = judge(Form(piece, piece, language=part.language), part)
    return found.sure and found.relation in _ONE_WORD


def _alike(whole: Form, parts: Sequence[Form], judge: Judge) -> bool:
    """Say whether the parts written together are the whole word, and none of them is so alone."""
    if _most_alike(whole.normal, "".join([part.normal for part in parts])) < LIKE:
        return False
    together = joined(parts)
    found = judge(whole, together)
    if found.relation not in _ONE_WORD:
        return False
    if not found.sure and SequenceMatcher(None, whole.normal, together.normal).ratio() < VERY_LIKE:
        return False
    alone = [judge(whole, part) for part in parts]
    return not any(
        each.relation is not Relation.DIFFERENT and (each.sure or not found.sure) for each in alone
    )


def _most_alike(one: str, other: str) -> float:
    """Return the greatest likeness that words of these letters, in whatever order, can have."""
    common = sum([min(one.count(letter), other.count(letter)) for letter in set(one)])
    return 2.0 * common / (len(one) + len(other)) if one or other else 1.0


def paired(one: Sequence[Form], other: Sequence[Form], judge: Judge) -> tuple[Group, ...] | None:
    """Return which words answer to which, or None where word by word and by division they do not go up.

    A word answers to a word, of several ways in the one with the fewest unlike; or some to some divided.
    Where the letters are the same all through, they say it.
    """
    if len(one) + len(other) > 2 and (groups := _by_letters(one, other)):
        return groups
    if same_forms(one, other, judge):
        return tuple((at, at + 1, at, at + 1) for at in range(len(one)))
    return _by_division(one, other, judge)


def _by_letters(one: Sequence[Form], other: Sequence[Form]) -> tuple[Group, ...] | None:
    """Return which words answer to which in runs of the same letters: those between two common borders."""
    ours, theirs = ([letters(form.folded) for form in forms] for forms in (one, other))
    if "".join(ours) != "".join(theirs):
        return None
    ends = [{at: n + 1 for n, at in enumerate(accumulate(map(len, words)))} for words in (ours, theirs)]
    common = sorted(ends[0].keys() & ends[1].keys())
    borders = [(0, 0), *((ends[0][at], ends[1][at]) for at in common)]
    return tuple((a, b, c, d) for (a, c), (b, d) in pairwise(borders))


def _by_division(one: Sequence[Form], other: Sequence[Form], judge: Judge) -> tuple[Group, ...] | None:
    """Return the same for runs that are not the same word by word."""
    if max(len(one), len(other)) > _LONGEST:
        return _walked(one, other, judge)
    best: dict[tuple[int, int], tuple[int, tuple[Group, ...]]] = {(0, 0): (0, ())}
    for i in range(len(one)):
        for j in range(len(other)):
            if (i, j) in best:
                cost, way = best[i, j]
                for group, more in _onward(one, other, i, j, judge):
                    to, total = (group[1], group[3]), cost + more
                    if to not in best or total < best[to][0]:
                        best[to] = (total, (*way, group))
    found = best.get((len(one), len(other)))
    return found[1] if found else None


def _walked(one: Sequence[Form], other: Sequence[Form], judge: Judge) -> tuple[Group, ...] | None:
    """Return the same for long runs: at each step the first pair or division that will do, else two words."""
    found: list[Group] = []
    i = j = 0
    while i < len(one) and j < len(other):
        group = (i, i + 1, j, j + 1)
        if not one_word(judge(one[i], other[j])):
            ways = _onward(one, other, i, j, judge)
            group = next((way for way, cost in ways if 0 < cost < _UNLIKE), group)
        found.append(group)
        i, j = group[1], group[3]
    return tuple(found) if i == len(one) and j == len(other) else None


def _onward(
    one: Sequence[Form], other: Sequence[Form], i: int, j: int, judge: Judge
) -> Iterator[tuple[Group, int]]:
    """Yield the groups that may begin at two words, each with its cost: unlike words weigh most.

    Several words beside several cost more than one beside its parts: no group is wider than it need be.
    """
    yield (i, i + 1, j, j + 1), (0 if one_word(judge(one[i], other[j])) else _UNLIKE)
    for m in range(1, min(MOST, len(one) - i) + 1):
        for n in range(1, min(MOST, len(other) - j) + 1):
            if divided(one[i : i + m], other[j : j + n], judge):
                yield (i, i + m, j, j + n), min(m, n)


def one_text(one: Sequence[Form], other: Sequence[Form], judge: Judge) -> bool:
    """Say whether two runs are the same words: spelled, ended or divided otherwise at most."""
    if len(one) < 2 and len(other) < 2:
        return same_forms(one, other, judge)
    if same_forms(one, other, judge):
        return True
    if not one or not other:
        return False
    if max(len(one), len(other)) <= _LONGEST and not _goes_up(one, other, 0, 0, judge, set()):
        return False
    groups = _by_division(one, other, judge)
    return groups is not None and all(
        i2 - i + j2 - j > 2 or one_word(judge(one[i], other[j])) for i, i2, j, j2 in groups
    )


def _goes_up(
    one: Sequence[Form], other: Sequence[Form], i: int, j: int, judge: Judge, dead: set[tuple[int, int]]
) -> bool:
    """Say whether two runs go up from two words on by words that are one and divisions alone.

    `dead` holds the places from which they do not.
    """
    if i == len(one) or j == len(other):
        return i == len(one) and j == len(other)
    if (i, j) in dead:
        return False
    for (_, i2, _, j2), cost in _onward(one, other, i, j, judge):
        if cost < _UNLIKE and _goes_up(one, other, i2, j2, judge, dead):
            return True
    dead.add((i, j))
    return False


def one_wording(one: Sequence[Token], other: Sequence[Token], judge: Judge) -> bool:
    """Say the same of two runs of tokens."""
    return one_text([*map(form_of, one)], [*map(form_of, other)], judge)
