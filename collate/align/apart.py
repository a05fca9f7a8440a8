"""Words that were joined to a unit are set word by word where that unit spoils the columns.

Two words that a copy writes as one are aligned as one unit (see `divide`). Where a third copy answers to one
of them alone, or has other words between them, no column suits all. There the words between the nearest firm
columns are set anew, each for itself; the undivided word goes to that of its parts that it shares most with.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from rapidfuzz.distance import Indel
from rapidfuzz.process import cdist

from collate.align.divide import Parted, Row, Unit
from collate.align.divide import rows as row_units
from collate.align.grow import Ease, grow
from collate.align.score import Worths, lend, table
from collate.align.together import Steps, beside
from collate.model.division import LIKE, MOST, VERY_LIKE, divided, letters, one_text
from collate.model.form import Form, Judge, one_word
from collate.model.witness import TokenKind
from collate.settings import Aligning

Writings = Mapping[Form, Sequence[tuple[Form, ...]]]
"""Undivided words, and the runs of words that write them elsewhere."""

REACH = 4
"""How many columns on each side of a spoilt one are set anew, at most."""


def apart(
    rows: Sequence[Row], eases: Sequence[Ease], judge: Judge, aligning: Aligning
) -> Steps[tuple[tuple[Row, ...], tuple[Parted, ...]]]:
    """Return columns of units, those about a spoilt one set anew word by word; `eases` are by unit.

    Returned besides are the words there that another copy has undivided.
    """
    joined = [at for at, row in enumerate(rows) if any(unit and _is_divided(unit) for unit in row)]
    near = {n for at in joined for n in range(max(at - REACH, 0), min(at + REACH + 1, len(rows)))}
    firm = {at for at in near if _firm(rows[at], judge)}
    spoilt = [at for at in joined if at not in firm and _spoilt(rows, at, firm, judge)]
    if not spoilt:
        return tuple(rows), ()
    spans = list(_spans(spoilt, firm, len(rows)))
    texts = [_texts(rows, span) for span in spans]
    lighter = [_eases(rows, span, eases) for span in spans]
    mended = yield from beside(
        [_anew(text, ease, judge, aligning) for text, ease in zip(texts, lighter, strict=True)]
    )
    found: list[Row] = []
    at = 0
    for span, (new, _) in zip(spans, mended, strict=True):
        found.extend((*rows[at : span.start], *new))
        at = span.stop
    return (*found, *rows[at:]), tuple([each for _, parted in mended for each in parted])


def _anew(
    text: Sequence[Sequence[Unit]], eases: Sequence[Ease], judge: Judge, aligning: Aligning
) -> Steps[tuple[list[Row], list[Parted]]]:
    """Return the columns of some words of each copy, an undivided word beside what it shares most with.

    Returned besides are the words that it stands for.
    """
    scores = table([[unit.form for unit in words] for words in text], judge, aligning)
    writings = _writings(text, judge)
    lend(scores, _shares(writings))
    grid = yield from grow(scores, eases, aligning)
    columns = _cleared(_shifted(row_units(grid, text), judge), writings, judge)
    parted = [
        _parted(columns, span, at, w)
        for at, row in enumerate(columns)
        for w, unit in enumerate(row)
        if unit and unit.form in writings and (span := _parts_of(columns, at, w, writings[unit.form]))
    ]
    return columns, parted


def _parted(columns: Sequence[Row], span: range, at: int, w: int) -> Parted:
    """Return words in the first and last of some columns, in its own only of the copy that has the whole."""
    first, last = (
        next((v, unit.start) for v, unit in enumerate(columns[n]) if unit and (v != w or n == at))
        for n in (span.start, span.stop - 1)
    )
    return Parted(first, last)


def _firm(row: Row, judge: Judge) -> bool:
    """Say whether all copies have one undivided word in a column."""
    first = row[0]
    if first is None or len(first.parts) > 1:
        return False
    if all(unit is not None and unit.form is first.form for unit in row):
        return True
    name = judge.keys(first.form)[0]
    return all(unit is not None and len(unit.parts) == 1 and judge.keys(unit.form)[0] == name for unit in row)


def _spoilt(rows: Sequence[Row], at: int, firm: set[int], judge: Judge) -> bool:
    """Say whether words are joined in a column, and a copy that has not their text answers to a part."""
    joined = {unit.parts for unit in rows[at] if unit and _is_divided(unit)}
    if not joined:
        return False
    near = {*_reach(at, firm, len(rows)), *range(max(at - 1, 0), min(at + 2, len(rows)))} - {at}
    for parts in joined:
        written = {letters(part.folded) for part in parts}
        for w, unit in enumerate(rows[at]):
            if unit and _has_all(unit, parts, judge):
                continue
            if unit and _answers(unit, parts, written, judge):
                return True
            held = [(n, other) for n in near if (other := rows[n][w])]
            rest = [(n, other) for n, other in held if not _has_all(other, parts, judge)]
            if any(abs(n - at) == 1 and _answers(other, parts, written, judge) for n, other in rest):
                return True
            if any(letters(part.folded) in written for _, other in rest for part in other.parts):
                return True
    return False


def _has_all(unit: Unit, parts: Sequence[Form], judge: Judge) -> bool:
    """Say whether a unit has the text of all of some parts."""
    return one_text(parts, unit.parts, judge) or _writes(unit.parts, parts)


def _is_divided(unit: Unit) -> bool:
    return len(unit.parts) > 1 and unit.form.kind is TokenKind.WORD


def _writes(words: Sequence[Form], parts: Sequence[Form]) -> bool:
    """Say whether words have nearly the letters of some parts together, and of none of them so nearly."""
    written, *each = (letters("".join(form.folded for form in forms)) for forms in (words, *zip(parts)))
    near = Indel.normalized_similarity(written, "".join(each))
    return near >= VERY_LIKE and all(Indel.normalized_similarity(written, part) < near for part in each)


def _answers(unit: Unit, parts: Sequence[Form], written: set[str], judge: Judge) -> bool:
    """Say whether a unit has a part of some joined words, as a word or at the beginning or end of one."""
    for form in unit.parts:
        theirs = letters(form.folded)
        if any(theirs.startswith(each) or theirs.endswith(each) for each in written):
            return True
        if any(one_word(judge(form, part)) for part in parts):
            return True
    return False


def _reach(at: int, firm: set[int], count: int) -> range:
    """Return the columns about one, as far as the nearest firm ones or REACH on each side."""
    first = next((n + 1 for n in range(at - 1, at - REACH - 1, -1) if n in firm), at - REACH)
    stop = next((n for n in range(at + 1, at + REACH + 1) if n in firm), at + REACH + 1)
    return range(max(first, 0), min(stop, count))


def _spans(spoilt: Sequence[int], firm: set[int], count: int) -> Iterator[range]:
    """Yield the columns to be set anew; what overlaps is one."""
    held = _reach(spoilt[0], firm, count)
    for at in spoilt[1:]:
        near = _reach(at, firm, count)
        if near.start < held.stop:
            held = range(min(held.start, near.start), max(held.stop, near.stop))
        else:
            yield held
            held = near
    yield held


def _texts(rows: Sequence[Row], span: range) -> list[list[Unit]]:
    """Return the words of each copy in some columns, one by one; a number stays one."""
    return [
        [word for unit in held if unit for word in _words(unit)]
        for held in zip(*rows[span.start : span.stop], strict=True)
    ]


def _words(unit: Unit) -> list[Unit]:
    if not _is_divided(unit):
        return [unit]
    return [Unit(unit.start + n, unit.start + n + 1, part, (part,)) for n, part in enumerate(unit.parts)]


def _eases(rows: Sequence[Row], span: range, eases: Sequence[Ease]) -> list[Ease]:
    """Return what silence costs between the words of some columns."""
    found = []
    for w, ease in enumerate(eases):
        first = sum(row[w] is not None for row in rows[: span.start])
        held = [unit for row in rows[span.start : span.stop] if (unit := row[w])]
        sizes = [len(_words(unit)) for unit in held]
        places = np.ones((2, sum(sizes) + 1))
        starts = np.concatenate(([0], np.cumsum(sizes, dtype=np.intp)))
        places[:, starts] = ease.places[:, first : first + len(held) + 1]
        found.append(Ease(places))
    return found


def _writings(text: Sequence[Sequence[Unit]], judge: Judge) -> Writings:
    """Return the undivided words that stand somewhere in several, and the runs that write them."""
    wholes = [*dict.fromkeys(u.form for words in text for u in words if u.form.kind is TokenKind.WORD)]
    runs = [*dict.fromkeys(run for words in text for run in _runs(words))]
    found: dict[Form, list[tuple[Form, ...]]] = {}
    if not runs or not wholes:
        return found
    likeness = cdist(
        ["".join(letters(form.folded) for form in run) for run in runs],
        [letters(whole.folded) for whole in wholes],
        scorer=Indel.normalized_similarity,
        dtype=np.float64,
    )
    for r, w in np.argwhere(likeness >= LIKE).tolist():
        if divided((wholes[w],), runs[r], judge) or _writes((wholes[w],), runs[r]):
            found.setdefault(wholes[w], []).append(runs[r])
    return found


def _shares(writings: Writings) -> Worths:
    """Return what undivided words share with each of the words that write them, by letters."""
    found: dict[tuple[Form, Form], float] = {}
    for whole, runs in writings.items():
        for run in runs:
            sizes = [len(letters(form.folded)) for form in run]
            for form, size in zip(run, sizes, strict=True):
                found[whole, form] = max(found.get((whole, form), 0.0), size / sum(sizes))
    return found


def _shifted(columns: Sequence[Row], judge: Judge) -> list[Row]:
    """Return columns in which a word that is like none in its own stands beside its like in the next.

    A column that an undivided word left to the next has fewer words than copies that have them.
    """
    found = [*columns]
    for at, step in ((at, step) for at in range(len(found)) for step in (1, -1)):
        to = at + step
        for w in range(len(found[at])) if 0 <= to < len(found) else ():
            if found[at][w] and not found[to][w] and not _has_like(found[at], w, judge):
                there = (*found[to][:w], found[at][w], *found[to][w + 1 :])
                if _has_like(there, w, judge):
                    found[to], found[at] = there, (*found[at][:w], None, *found[at][w + 1 :])
    return [row for row in found if any(row)]


def _cleared(columns: list[Row], writings: Writings, judge: Judge) -> list[Row]:
    """Return columns in which no other word of a copy stands beside the parts of one that it has undivided.

    Where one does and is like none there, it and all between go before the first part, or after the last.
    """
    wholes = [(w, unit) for row in columns for w, unit in enumerate(row) if unit and unit.form in writings]
    for w, unit in wholes:
        at = next(n for n, row in enumerate(columns) if row[w] is unit)
        span = _parts_of(columns, at, w, writings[unit.form])
        if span:
            before, after = range(span.start, at), range(at + 1, span.stop)
            beside_parts = [columns[n] for n in (*before, *after) if columns[n][w]]
            if beside_parts and not any(_has_like(row, w, judge) for row in beside_parts):
                columns = _moved_out(columns, w, before, after)
    return columns


def _parts_of(columns: Sequence[Row], at: int, w: int, runs: Sequence[tuple[Form, ...]]) -> range | None:
    """Return the columns of the words of another copy that write a word of a copy, one of them beside it."""
    for v, unit in enumerate(columns[at]):
        if v != w and unit:
            for run in runs:
                first = next((unit.start - n for n, form in enumerate(run) if form is unit.form), unit.stop)
                held = {
                    other.start: n
                    for n, row in enumerate(columns)
                    if (other := row[v]) and first <= other.start < first + len(run)
                }
                if len(held) == len(run) and first <= unit.start:
                    return range(min(held.values()), max(held.values()) + 1)
    return None


def _has_like(row: Row, w: int, judge: Judge) -> bool:
    """Say whether a copy's word in a column is one with that of another."""
    mine = row[w]
    return mine is not None and any(
        other and v != w and one_word(judge(mine.form, other.form)) for v, other in enumerate(row)
    )


def _moved_out(columns: Sequence[Row], w: int, before: range, after: range) -> list[Row]:
    """Return columns in which the words of a copy stand before some of them, or after others, alone."""
    empty: Row = (None,) * len(columns[0])

    def alone(at: int) -> Row:
        return (*empty[:w], columns[at][w], *empty[w + 1 :])

    def without(at: int) -> Row:
        return (*columns[at][:w], None, *columns[at][w + 1 :])

    first = before.start
    moved = [
        *columns[:first],
        *map(alone, before),
        *map(without, before),
        columns[before.stop],
        *map(without, after),
        *map(alone, after),
        *columns[after.stop :],
    ]
    return [row for row in moved if any(row)]


def _runs(words: Sequence[Unit]) -> Iterator[tuple[Form, ...]]:
    """Yield the runs of words that may be one, of two words to MOST, nothing standing between."""
    for first in range(len(words)):
        for stop in range(first + 2, min(first + MOST, len(words)) + 1):
            run = words[first:stop]
            if run[-1].stop - run[0].start != len(run) or run[-1].form.kind is not TokenKind.WORD:
                break
            yield tuple([unit.form for unit in run])
