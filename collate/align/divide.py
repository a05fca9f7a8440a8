"""Word division: what is aligned is not the written word but the unit, one word or the parts of one.

Neighbouring words are one unit if, written together, they are one word with a word that stands undivided
somewhere in the item, none of them alone is that word, and no punctuation stands between them; or if they
write one number that stands in the item in another notation.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise, takewhile

from rapidfuzz.distance import Indel

from collate.align.grow import Grid
from collate.align.number_runs import NumberRun, number_runs
from collate.model.bones import bones, bones_of_two
from collate.model.division import LIKE, MOST, VERY_LIKE, divided, joined, letters, splits
from collate.model.form import Form, Judge, Relation, form_of
from collate.model.numbers import figures
from collate.model.value import value
from collate.model.witness import Token, TokenKind

_ONE_WORD = frozenset({Relation.SAME, Relation.SPELLING})


WORDS = frozenset({TokenKind.WORD, TokenKind.NUMERAL})
"""The kinds of token that are aligned as words."""


@value
class Unit:
    """Tokens [start, stop) that are aligned as one, the form they are compared by, and their own forms."""

    start: int
    stop: int
    form: Form
    parts: tuple[Form, ...]


Row = tuple[Unit | None, ...]
"""The unit that each witness has in a column, or None."""

Cell = tuple[int, int] | None
"""The tokens [start, stop) that a witness has in a column, or None."""


@dataclass(frozen=True, slots=True)
class Parted:
    """Columns over which two copies are divided otherwise: a (copy, token) of the first, one of the last."""

    first: tuple[int, int]
    last: tuple[int, int]


def rows(grid: Grid, parts: Sequence[Sequence[Unit]]) -> list[Row]:
    """Return the columns of a grid of units with the units in them."""
    return [tuple([parts[w][at] if at >= 0 else None for w, at in enumerate(row)]) for row in grid.tolist()]


def cells(columns: Sequence[Row], judge: Judge) -> list[list[Cell]]:
    """Return columns of units as cells of tokens.

    A column whose divided words stand beside none that is divided otherwise was joined in vain: it is as many
    again as the most words in it.
    """
    found: list[list[Cell]] = []
    for held in columns:
        most = max((len(unit.parts) for unit in held if unit), default=1)
        if most == 1 or _mated([unit for unit in held if unit], judge):
            found.append([(unit.start, unit.stop) if unit else None for unit in held])
        else:
            found.extend([_nth(unit, n, last=n == most - 1) for unit in held] for n in range(most))
    return found


def _mated(held: Sequence[Unit], judge: Judge) -> bool:
    """Say whether two units of a column are one text divided otherwise."""
    kinds = list(dict.fromkeys(unit.parts for unit in held))
    return any(len(a) != len(b) and divided(a, b, judge) for at, a in enumerate(kinds) for b in kinds[:at])


def _nth(unit: Unit | None, n: int, *, last: bool) -> Cell:
    """Return one word of a unit that is taken apart; what is left over stands in the last column."""
    if unit is None or n >= len(unit.parts):
        return None
    return (unit.start + n, unit.stop if last else unit.start + n + 1)


Forms = Sequence[Form | None]
"""The forms of the tokens of a witness, None for punctuation and gaps."""


def forms_of(text: Sequence[Token]) -> Forms:
    """Return the forms of the tokens of a witness."""
    return [form_of(token) if token.kind in WORDS else None for token in text]


def units(forms: Sequence[Forms], judge: Judge) -> tuple[tuple[Unit, ...], ...]:
    """Return the units of each witness, in order; punctuation and gaps belong to none."""
    divider = _Divider(judge)
    for form in dict.fromkeys([form for text in forms for form in text if form]):
        if form.kind is TokenKind.WORD:
            written = letters(form.folded)
            divider.undivided.setdefault(bones(form.normal), []).append(form)
            divider.lettered.setdefault(written, form)
            divider.heads.update([written[:at] for at in range(1, len(written))])
    numbers = _numbers(forms, judge)
    return tuple(tuple(_units(text, divider, runs)) for text, runs in zip(forms, numbers, strict=True))


@dataclass(frozen=True, slots=True)
class _Divider:
    """The undivided words of an item by their bones and their letters, and what was found of pairs.

    `heads` are the letters that any of them begins with, `alone` the pairs that begin none, each form known
    by its object.
    """

    judge: Judge
    undivided: dict[str, list[Form]] = field(default_factory=dict)
    lettered: dict[str, Form] = field(default_factory=dict)
    heads: set[str] = field(default_factory=set)
    alone: set[tuple[int, int]] = field(default_factory=set)
    found: dict[tuple[Form, Form], Form | None] = field(default_factory=dict)

    def begun(self, text: Forms) -> set[int]:
        """Return at which words a unit of several may begin, by their letters or as one of two."""
        found: set[int] = set()
        for at, pair in enumerate(pairwise(map(id, text))):
            if pair not in self.alone:
                a, b = text[at : at + 2]
                if a and b and (self.begins(a, b) or self.joined(a, b)):
                    found.add(at)
                else:
                    self.alone.add(pair)
        return found

    def begins(self, a: Form, b: Form) -> bool:
        """Say whether the letters of two words are those with which a word begins."""
        return letters(a.folded) + letters(b.folded) in self.heads

    def written(self, forms: Sequence[Form]) -> Form | None:
        """Return the form of words that are, letter by letter, the parts of one, or None."""
        whole = self.lettered.get("".join([letters(form.folded) for form in forms]))
        return Form(joined(forms).folded, whole.normal, language=whole.language) if whole else None

    def joined(self, a: Form, b: Form) -> Form | None:
        """Return the form of two words that are the parts of one, or None."""
        wholes = self._alike(a.normal, b.normal)
        if not wholes and letters(a.folded) + letters(b.folded) not in self.lettered:
            return None
        if (a, b) not in self.found:
            words = a.kind is TokenKind.WORD and b.kind is TokenKind.WORD
            self.found[a, b] = self.written((a, b)) or (self._joined(a, b, wholes) if words else None)
        return self.found[a, b]

    def _alike(self, first: str, second: str) -> Sequence[Form]:
        """Return the undivided words that have the bones of two words written together."""
        wholes = self.undivided.get(bones_of_two(first, second), [])
        if first.startswith("i"):
            return [*wholes, *self.undivided.get(bones("th" + first[1:] + second), ())]  # y for thorn
        return wholes

    def _joined(self, a: Form, b: Form, wholes: Sequence[Form]) -> Form | None:
        together = Form(a.folded + b.folded, a.normal + b.normal, language=a.language)
        named = bool(wholes) and self.judge.names(together)
        for whole in wholes:
            if self._one(whole, together, (a, b), named=named) and self._neither(whole, a, b):
                return together
        return None

    def _one(self, whole: Form, together: Form, parts: tuple[Form, Form], *, named: bool) -> bool:
        """Say whether a word is two written together."""
        likeness = Indel.normalized_similarity(whole.normal, together.normal)
        if likeness < LIKE:
            return False
        if whole.normal != together.normal and not named:
            return not self.judge.names(whole) and splits(letters(whole.folded), parts, self.judge)
        judgement = self.judge(whole, together)
        return (judgement.sure or likeness >= VERY_LIKE) and judgement.relation in _ONE_WORD

    def _neither(self, whole: Form, a: Form, b: Form) -> bool:
        judgements = [self.judge(whole, part) for part in (a, b)]
        return not any(found.sure and found.relation is not Relation.DIFFERENT for found in judgements)


def _numbers(texts: Sequence[Forms], judge: Judge) -> list[dict[int, NumberRun]]:
    """Return by their first word the numbers in several words, where one stands in other notation too."""
    distinct = {form for text in texts for form in text if form}
    counting = frozenset(form for form in distinct if judge.counts(form))
    runs = [list(number_runs(text, counting, judge)) for text in texts]
    if not any(runs):
        return [{} for _ in texts]
    sizes = {(run.value, run.stop - run.start) for found in runs for run in found}
    values = {value for value, _ in sizes}
    sizes |= {
        (value, 1) for form in counting if (value := judge.number((form,))) in values and value is not None
    }
    if len(sizes) == len(values):
        return [{} for _ in texts]
    return [{run.start: run for run in found} for found in runs]


def is_word(token: Token) -> bool:
    """Say whether a token is aligned as a word."""
    return token.kind in WORDS


def _units(text: Forms, divider: _Divider, runs: dict[int, NumberRun]) -> Iterator[Unit]:
    begun = divider.begun(text)
    stop = 0
    for at, form in enumerate(text):
        if form is None or at < stop:
            continue
        if run := runs.get(at):
            parts = tuple(part for part in text[at : run.stop] if part)
            name = " ".join(part.folded for part in parts)
            found = Unit(
                at, run.stop, Form(name, figures(run.value), TokenKind.NUMERAL, (), run.value), parts
            )
        elif at in begun:
            found = _unit(text, at, form, divider)
        else:
            found = Unit(at, at + 1, form, (form,))
        yield found
        stop = found.stop


def _unit(text: Forms, at: int, form: Form, divider: _Divider) -> Unit:
    """Return the unit that begins at a word that another follows: the most words that are one."""
    after = text[at + 1]
    if after and divider.begins(form, after):
        parts = list(takewhile(bool, text[at : at + MOST]))
        for size in range(len(parts), 2, -1):
            several = tuple(part for part in parts[:size] if part)
            if written := divider.written(several):
                return Unit(at, at + size, written, several)
    both = divider.joined(form, after) if after else None
    return Unit(at, at + 2, both, (form, after)) if after and both else Unit(at, at + 1, form, (form,))
