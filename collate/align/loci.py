"""Where the witnesses vary: columns joined into the places an apparatus reports.

Neighbouring varying columns of words are one place where the witnesses fall into the same groups in both:
the same have no word, the same have one word in whatever spelling. So an omission, an addition or a
substitution of several words is one place. A column where all agree but for spelling, one of two forms of a
word, and a number, are never joined to others; where words moved, the analysis parts them. A column of
punctuation between two columns that are joined goes with them; across a gap that stands between words
nothing is joined.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from collate.align.divide import is_word
from collate.model.collation import Column, Locus, Presence
from collate.model.division import one_text
from collate.model.form import Form, Judge, Relation, form_of
from collate.model.transcript import Mark
from collate.model.witness import Item, Token, TokenKind

Words = tuple[Form, ...]


@dataclass(frozen=True, slots=True)
class _Varying:
    """A varying column: the groups its witnesses fall into, one number each, and whether it may be joined."""

    groups: tuple[int, ...]
    joins: bool


def loci(
    columns: Sequence[Column], items: Sequence[Item], judge: Judge, parted: Sequence[Locus] = ()
) -> tuple[Locus, ...]:
    """Return the places of variation, in order and without overlap.

    A column varies if any witness has other letters or abbreviations than another, or nothing. `parted` are
    columns over which copies divide one text otherwise: no place reaches across their borders.
    """
    borders = {border for span in parted for border in (span.first, span.stop)}
    found: list[Locus] = []
    last: _Varying | None = None
    points: list[int] = []
    for index, column in enumerate(columns):
        words = [_tokens(column, items, w) for w in range(len(items))]
        if not any(is_word(token) for tokens in words for token in tokens):
            points.append(index)
            if any(token.kind is TokenKind.GAP for tokens in words for token in tokens):
                last = None
            continue
        here = _varying(column, words, judge) if _varies(column, words) else None
        crossed = last is not None and any(at in borders for at in range(found[-1].stop, index + 1))
        if here and here.joins and here == last and not crossed:
            found[-1] = Locus(found[-1].first, index + 1)
        else:
            found.extend(_alone(points, columns, items))
            found.extend([Locus(index, index + 1)] if here else [])
        last = here
        points = []
    found.extend(_alone(points, columns, items))
    return tuple(found)


def _alone(points: Sequence[int], columns: Sequence[Column], items: Sequence[Item]) -> Iterator[Locus]:
    for index in points:
        words = [_tokens(columns[index], items, w) for w in range(len(items))]
        if _varies(columns[index], words):
            yield Locus(index, index + 1)


def _tokens(column: Column, items: Sequence[Item], w: int) -> tuple[Token, ...]:
    span = column.spans[w]
    return items[w].tokens[span.start : span.stop]


def _varies(column: Column, readings: Sequence[Sequence[Token]]) -> bool:
    if any(span.presence is not Presence.PRESENT for span in column.spans):
        return True
    if len({tuple([token.expanded for token in reading]) for reading in readings}) > 1:
        return True
    return len({tuple([_expanded(token) for token in reading]) for reading in readings}) > 1


def _expanded(token: Token) -> tuple[tuple[int, int], ...]:
    """Return which of a word's letters stand for an abbreviation."""
    return tuple([(m.start, m.stop) for m in token.marks if m.mark is Mark.EXPANDED])


def _varying(column: Column, readings: Sequence[Sequence[Token]], judge: Judge) -> _Varying:
    """Group the readings of a column: no word, a lost place, and each word in all its spellings."""
    kinds: list[Words] = []
    groups = []
    known: dict[Words, int] = {}
    for span, reading in zip(column.spans, readings, strict=True):
        words = tuple([form_of(token) for token in reading if is_word(token)])
        if not words:
            groups.append(-1 if span.presence is Presence.OMITTED else -2)
            continue
        if words not in known:
            alike = (at for at, kind in enumerate(kinds) if one_text(kind, words, judge))
            known[words] = next(alike, len(kinds))
            if known[words] == len(kinds):
                kinds.append(words)
        groups.append(known[words])
    number = any(token.kind is TokenKind.NUMERAL for reading in readings for token in reading)
    return _Varying(tuple(groups), len(set(groups)) > 1 and not number and not _formal(kinds, judge))


def _formal(kinds: Sequence[Words], judge: Judge) -> bool:
    """Say whether two of the readings are forms of one word."""
    single = [kind[0] for kind in kinds if len(kind) == 1]
    return any(
        judge(a, b).relation is not Relation.DIFFERENT for at, a in enumerate(single) for b in single[:at]
    )
