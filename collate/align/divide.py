"""Word division: what is aligned is not the written word but the unit, one word or the parts of one.

Neighbouring words are one unit if, written together, they are one word with a word that stands undivided
somewhere in the item, none of them alone is that word, and no punctuation stands between them; or if they
write one number that stands in the item in another notation.
"""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, field
from itertools import takewhile

from rapidfuzz.distance import Indel

from collate.align.grow import Grid
from collate.model.bones import bones, bones_of_two
from collate.model.division import LIKE, MOST, VERY_LIKE, divided, joined, letters, splits
from collate.model.form import Form, Judge, Relation, form_of
from collate.model.numbers import figures
from collate.model.witness import Token, TokenKind

_ONE_WORD = frozenset({Relation.SAME, Relation.SPELLING})


WORDS = frozenset({TokenKind.WORD, TokenKind.NUMERAL})
"""The kinds of token that are aligned as words."""


@dataclass(frozen=True, slots=True)
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


def units(texts: Sequence[Sequence[Token]], judge: Judge) -> tuple[tuple[Unit, ...], ...]:
    """Return the units of each witness, in order; punctuation and gaps belong to none."""
    forms = [[form_of(token) if is_word(token) else None for token in text] for text in texts]
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

    `heads` are the letters that any of them begins with.
    """

    judge: Judge
    undivided: dict[str, list[Form]] = field(default_factory=dict)
    lettered: dict[str, Form] = field(default_factory=dict)
    heads: set[str] = field(default_factory=set)
    found: dict[tuple[Form, Form], Form | None] = field(default_factory=dict)

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


@dataclass(frozen=True, slots=True)
class _Run:
    """Words [start, stop) that write one number."""

    start: int
    stop: int
    value: float


def _numbers(texts: Sequence[Sequence[Form | None]], judge: Judge) -> list[dict[int, _Run]]:
    """Return by their first word the numbers in several words, where one stands in other notation too."""
    single = {form for text in texts for form in text if form}
    counting = {form for form in single if form.folded in _SCALES or _is_number(form, judge)}
    runs = [list(_runs(text, counting, judge)) for text in texts]
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


def _runs(text: Sequence[Form | None], counting: Set[Form], judge: Judge) -> Iterator[_Run]:
    """Yield the numbers of two words or more, the longest first from each place."""
    counts = [form in counting for form in text]
    at = 0
    while at < len(text) - 1:
        begins = counts[at] or (counts[at + 1] and (form := text[at]) is not None and form.folded in _ONE)
        stops = _stops(counts, at) if begins else ()
        found = next((run for stop in stops if (run := _run(text, at, stop - at, judge))), None)
        if found:
            yield found
        at = found.stop if found else at + 1


def _is_number(form: Form, judge: Judge) -> bool:
    return judge.number((form,)) is not None


def _stops(counts: Sequence[bool], at: int) -> list[int]:
    """Return where a number that begins at a word may end, the farthest first; one *and* may stand in it."""
    found, last = [], at
    for place in range(at + 1, min(at + _MOST_OF_NUMBER, len(counts))):
        if counts[place]:
            found.append(place + 1)
            last = place
        elif place - last > 1:
            break
    return found[::-1]


_ONE = frozenset({"a", "an"})
_SCALES = frozenset({"c", "m"})
_MOST_OF_NUMBER = 6


def _run(text: Sequence[Form | None], at: int, size: int, judge: Judge) -> _Run | None:
    forms = tuple(form for form in text[at : at + size] if form)
    value = judge.number(forms) if len(forms) == size else None
    return None if value is None else _Run(at, at + size, value)


def is_word(token: Token) -> bool:
    """Say whether a token is aligned as a word."""
    return token.kind in WORDS


def _units(text: Sequence[Form | None], divider: _Divider, runs: dict[int, _Run]) -> Iterator[Unit]:
    at = 0
    while at < len(text):
        form = text[at]
        if form is None:
            at += 1
            continue
        if run := runs.get(at):
            parts = tuple(part for part in text[at : run.stop] if part)
            name = " ".join(part.folded for part in parts)
            found = Unit(
                at, run.stop, Form(name, figures(run.value), TokenKind.NUMERAL, (), run.value), parts
            )
        else:
            found = _unit(text, at, form, divider)
        yield found
        at = found.stop


def _unit(text: Sequence[Form | None], at: int, form: Form, divider: _Divider) -> Unit:
    """Return the unit that begins at a word: the most words that are one."""
    after = text[at + 1] if at + 1 < len(text) else None
    if after is None:
        return Unit(at, at + 1, form, (form,))
    if letters(form.folded) + letters(after.folded) in divider.heads:
        parts = list(takewhile(bool, text[at : at + MOST]))
        for size in range(len(parts), 2, -1):
            several = tuple(part for part in parts[:size] if part)
            if written := divider.written(several):
                return Unit(at, at + size, written, several)
    both = divider.joined(form, after)
    return Unit(at, at + 2, both, (form, after)) if both else Unit(at, at + 1, form, (form,))
