"""Where the witnesses vary: columns joined into the places an apparatus reports.

Neighbouring varying columns of words are one place where the witnesses fall into the same groups in both:
the same have no word, the same have one word in whatever spelling. So an omission, an addition or a
substitution of several words is one place. A column where all agree but for spelling, one of two forms of a
word, and a number, are never joined to others; where words moved, the analysis parts them. A column of
punctuation between two columns that are joined goes with them; across a gap that stands between words
nothing is joined.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from collate.align.divide import Forms
from collate.model.collation import Column, Locus, Presence
from collate.model.division import one_text
from collate.model.form import Form, Judge, Relation
from collate.model.transcript import Mark
from collate.model.witness import Item, Token, TokenKind

Words = tuple[Form, ...]


@dataclass(frozen=True, slots=True)
class _Varying:
    """A varying column: the groups its witnesses fall into, one number each, and whether it may be joined."""

    groups: tuple[int, ...]
    joins: bool


def loci(
    columns: Sequence[Column],
    items: Sequence[Item],
    forms: Sequence[Forms],
    judge: Judge,
    parted: Sequence[Locus] = (),
) -> tuple[Locus, ...]:
    """Return the places of variation, in order and without overlap; `forms` are those of all tokens.

    A column varies if any witness has other letters or abbreviations than another, or nothing. `parted` are
    columns over which copies divide one text otherwise: no place reaches across their borders.
    """
    borders = {border for span in parted for border in (span.first, span.stop)}
    written = [[*map(_written, item.tokens)] for item in items]
    found: list[Locus] = []
    last: _Varying | None = None
    points: list[int] = []
    for index, column in enumerate(columns):
        words = [text[span.start : span.stop] for text, span in zip(forms, column.spans, strict=True)]
        if not any(map(any, words)):
            points.append(index)
            if _has_gap(column, items):
                last = None
            continue
        here = _varying(column, words, judge) if _varies(column, written) else None
        crossed = last is not None and any(at in borders for at in range(found[-1].stop, index + 1))
        if here and here.joins and here == last and not crossed:
            found[-1] = Locus(found[-1].first, index + 1)
        else:
            found.extend(Locus(at, at + 1) for at in points if _varies(columns[at], written))
            found.extend([Locus(index, index + 1)] if here else [])
        last = here
        points = []
    found.extend(Locus(at, at + 1) for at in points if _varies(columns[at], written))
    return tuple(found)


def _has_gap(column: Column, items: Sequence[Item]) -> bool:
    return any(
        token.kind is TokenKind.GAP
        for span, item in zip(column.spans, items, strict=True)
        for token in item.tokens[span.start : span.stop]
    )


_Written = str | tuple[str, tuple[tuple[int, int], ...]]
"""The letters of a word, and which of them stand for an abbreviation, if any do."""


def _written(token: Token) -> _Written:
    if not token.marks:
        return token.expanded
    expanded = tuple([(m.start, m.stop) for m in token.marks if m.mark is Mark.EXPANDED])
    return (token.expanded, expanded) if expanded else token.expanded


def _varies(column: Column, written: Sequence[Sequence[_Written]]) -> bool:
    readings = [text[span.start : span.stop] for text, span in zip(written, column.spans, strict=True)]
    if readings.count(readings[0]) < len(readings):
        return True
    return any(span.presence is not Presence.PRESENT for span in column.spans)


def _varying(column: Column, readings: Sequence[Forms], judge: Judge) -> _Varying:
    """Group the readings of a column: no word, a lost place, and each word in all its spellings."""
    kinds: list[Words] = []
    groups = []
    known: dict[Words, int] = {}
    for span, reading in zip(column.spans, readings, strict=True):
        words = tuple([form for form in reading if form])
        if not words:
            groups.append(-1 if span.presence is Presence.OMITTED else -2)
            continue
        group = known.get(words)
        if group is None:
            alike = (at for at, kind in enumerate(kinds) if one_text(kind, words, judge))
            group = known[words] = next(alike, len(kinds))
            if group == len(kinds):
                kinds.append(words)
        groups.append(group)
    number = any(form.kind is TokenKind.NUMERAL for words in known for form in words)
    return _Varying(tuple(groups), len(set(groups)) > 1 and not number and not _formal(kinds, judge))


def _formal(kinds: Sequence[Words], judge: Judge) -> bool:
    """Say whether two of the readings are forms of one word."""
    single = [kind[0] for kind in kinds if len(kind) == 1]
    return any(
        judge(a, b).relation is not Relation.DIFFERENT for at, a in enumerate(single) for b in single[:at]
    )
