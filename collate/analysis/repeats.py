"""Slips over a repeated word: what a scribe wrote twice, and what his eye skipped from like to like.

M. L. West, Textual Criticism and Editorial Technique (1973): dittography, homoeoteleuton, homoeoarchon (from
memory). A skip loses the stretch between two like words and one of the two. It is called homoeoteleuton
where the repeated words end their phrases, homoeoarchon where they begin them.
"""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from collate.analysis.begun import false_start, said
from collate.analysis.doubled import doubled
from collate.analysis.skip_names import skip_name
from collate.model.apparatus import BASE_DOUBLES, VariantKind
from collate.model.collation import Collation, Locus
from collate.model.form import Judge, form_of, same_word
from collate.model.witness import Token, TokenKind

LEAST = 3
"""The fewest words that a skip loses."""


@dataclass(frozen=True, slots=True)
class Repeat:
    """A slip of one witness over the columns of `locus`, and its ground; `begun` of a false start."""

    siglum: str
    locus: Locus
    kind: VariantKind
    reason: str
    begun: bool = False


@dataclass(frozen=True, slots=True)
class _Words:
    """The words of a witness with the column of each, which rises."""

    tokens: tuple[Token, ...]
    columns: tuple[int, ...]
    held: frozenset[int]

    def at(self, column: int) -> int:
        """Return how many words stand left of a column."""
        return bisect_left(self.columns, column)

    def before(self, column: int, count: int) -> tuple[Token, ...]:
        """Return the last `count` words left of a column."""
        stop = self.at(column)
        return self.tokens[max(stop - count, 0) : stop]

    def after(self, column: int, count: int) -> tuple[Token, ...]:
        """Return the first `count` words from a column on."""
        start = self.at(column)
        return self.tokens[start : start + count]

    def within(self, first: int, stop: int) -> tuple[Token, ...]:
        """Return the words in the columns [first, stop)."""
        return self.tokens[self.at(first) : self.at(stop)]


def repeats(collation: Collation, base: str, judge: Judge) -> tuple[Repeat, ...]:
    """Return the doublings and skips of each witness beside the base, and of the base beside the others."""
    words = {siglum: _words_of(collation, w) for w, siglum in enumerate(collation.sigla)}
    found: list[Repeat] = []
    for siglum in collation.sigla:
        if siglum == base:
            continue
        for locus in _lacking(words[base], words[siglum]):
            found.extend(_of_gap(siglum, locus, words[base], words[siglum], judge))
        for locus in _lacking(words[siglum], words[base]):
            found.extend(_of_surplus(siglum, locus, words[siglum], words[base], judge))
    return tuple(found)


def _words_of(collation: Collation, w: int) -> _Words:
    tokens: list[Token] = []
    columns: list[int] = []
    every = collation.items[w].tokens
    for number, column in enumerate(collation.columns):
        span = column.spans[w]
        for token in every[span.start : span.stop]:
            if token.kind is TokenKind.WORD or token.kind is TokenKind.NUMERAL:
                tokens.append(token)
                columns.append(number)
    return _Words(tuple(tokens), tuple(columns), frozenset(columns))


def _lacking(full: _Words, other: _Words) -> tuple[Locus, ...]:
    """Return the stretches of columns in which one has words and the other none."""
    found: list[Locus] = []
    last = -1
    for column in sorted(full.held - other.held):
        if found and other.at(column) == other.at(last):
            found[-1] = Locus(found[-1].first, column + 1)
        else:
            found.append(Locus(column, column + 1))
        last = column
    return tuple(found)


def _of_gap(siglum: str, locus: Locus, base: _Words, other: _Words, judge: Judge) -> tuple[Repeat, ...]:
    """Judge words that a witness lacks: a skip, or the base's own doubling."""
    lost = base.within(locus.first, locus.stop)
    if twice := _doubled(lost, base, locus, judge):
        return (Repeat(siglum, locus, VariantKind.OMISSION, f"{BASE_DOUBLES}{' '.join(twice)}"),)
    if full := _begun(lost, base, locus, judge):
        return (Repeat(siglum, locus, VariantKind.OMISSION, f"in the base {said(lost, full)}", begun=True),)
    if skip := _skip(lost, base, other, locus, judge):
        name = _name(base, skip, judge)
        reason = f"skipped from {_shown(skip)} to {_shown(skip)} ({name})"
        return (Repeat(siglum, locus, VariantKind.EYE_SKIP, reason),)
    return ()


def _of_surplus(siglum: str, locus: Locus, own: _Words, base: _Words, judge: Judge) -> tuple[Repeat, ...]:
    """Judge words that only a witness has beside the base: its doubling, or the base's own skip."""
    more = own.within(locus.first, locus.stop)
    if twice := _doubled(more, own, locus, judge):
        return (Repeat(siglum, locus, VariantKind.DITTOGRAPHY, " stands ".join(twice)),)
    if full := _begun(more, own, locus, judge):
        return (Repeat(siglum, locus, VariantKind.ADDITION, said(more, full), begun=True),)
    if skip := _skip(more, own, base, locus, judge):
        name = _name(own, skip, judge)
        reason = f"the base may have skipped from {_shown(skip)} to {_shown(skip)} ({name})"
        return (Repeat(siglum, locus, VariantKind.ADDITION, reason),)
    return ()


def _begun(words: Sequence[Token], own: _Words, locus: Locus, judge: Judge) -> str:
    """Return the word of which some words are a false start, "" where they are none."""
    count = len(words)
    return false_start(words, own.before(locus.first, count), own.after(locus.stop, count), judge)


def _doubled(words: Sequence[Token], all_of: _Words, locus: Locus, judge: Judge) -> tuple[str, str] | None:
    """Return the words that stand once more right before or after, and how often; see `doubled`."""
    most = 2 * len(words) + 2
    return doubled(words, all_of.before(locus.first, most), all_of.after(locus.stop, most), judge)


def _skip(lost: Sequence[Token], full: _Words, other: _Words, locus: Locus, judge: Judge) -> Sequence[Token]:
    """Return the repeated words from which to which an eye may have skipped, or nothing.

    They end the lost stretch and stand before the gap, or begin it and stand after, or lie across, if the
    full text goes on so too: the gap can be set anywhere along the repeat. One word of no content is no
    ground.
    """
    if len(lost) < LEAST:
        return ()
    before, after = other.before(locus.first, len(lost)), other.after(locus.stop, len(lost))
    ends = tuple(reversed(_common(tuple(reversed(lost)), tuple(reversed(before)), judge)))
    begins = _common(lost[: len(lost) - len(ends)], after, judge)
    if ends:
        begins = _common(begins, full.after(locus.stop, len(begins)), judge)
    same = (*ends, *begins)
    if len(same) >= len(lost) or not same:
        return ()
    return same if len(same) > 1 or not judge.is_function(form_of(same[0])) else ()


def _common(a: Sequence[Token], b: Sequence[Token], judge: Judge) -> tuple[Token, ...]:
    found: list[Token] = []
    for x, y in zip(a, b, strict=False):
        if not same_word(x, y, judge):
            break
        found.append(x)
    return tuple(found)


def _name(full: _Words, same: Sequence[Token], judge: Judge) -> str:
    """Return the name of the skip from the first of two like runs of words to the second, given."""
    start = full.tokens.index(same[0])
    return skip_name(full.tokens, start, start + len(same), judge)


def _shown(tokens: Sequence[Token]) -> str:
    return " ".join(token.expanded for token in tokens)


Slips = Mapping[tuple[str, int], Repeat]
"""The slip of a witness (by its siglum) that a column is part of."""


def slips(found: Sequence[Repeat]) -> Slips:
    """Return slips by witness and column."""
    return {
        (each.siglum, column): each
        for each in reversed(found)
        for column in range(each.locus.first, each.locus.stop)
    }


def slip_at(found: Slips, locus: Locus, siglum: str) -> Repeat | None:
    """Return the slip of a witness that a place is part of."""
    slip = found.get((siglum, locus.first))
    return slip if slip and locus.stop <= slip.locus.stop else None
