"""The segments of an item in, after which of them a blank stands out."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from collate.reports.tei_segments import Segment, Words
from collate.reports.tei_write import needs_blank, wants_blank

_Gap = tuple[str, int, int]
"""A witness, and the segments of two words that stand side by side in it."""


def blanks(parts: Sequence[Segment], sigla: Sequence[str]) -> tuple[tuple[Segment, ...], tuple[bool, ...]]:
    """Say after which segments a blank stands. `sigla` begin with the base, whose blanks are kept.

    A witness that has nothing in some segments finds its blank on either side of them. Where a blank
    would do another witness harm, it is written within the reading: so the segments are returned too.
    """
    has = {siglum: [part.words(siglum) for part in parts] for siglum in sigla}
    gaps = list(_gaps(has))
    barred = {
        at for siglum, first, after in gaps if has[siglum][first][-1].tight for at in range(first, after)
    }
    found = [
        at not in barred
        and wants_blank(
            [(each[at][-1], each[at + 1][0]) for each in has.values() if each[at] and each[at + 1]]
        )
        for at in range(len(parts) - 1)
    ]
    inside: dict[int, set[str]] = {}
    for siglum, before, after in gaps:
        first, second = has[siglum][before][-1], has[siglum][after][0]
        needed = needs_blank(first, second) or (first.spaced and siglum == sigla[0])
        if not needed or any(found[before:after]):
            continue
        if free := [at for at in range(before, after) if at not in barred]:
            found[free[-1]] = True
        else:
            inside.setdefault(before, set()).add(siglum)
    closed = tuple(_closed(part, inside.get(number, ())) for number, part in enumerate(parts))
    return closed, (*found, False)[: len(parts)]


def _gaps(has: Mapping[str, Sequence[Words]]) -> Iterator[_Gap]:
    for siglum, each in has.items():
        for before, after in pairwise(at for at, words in enumerate(each) if words):
            yield siglum, before, after


def _closed(part: Segment, sigla: Collection[str]) -> Segment:
    """Return a segment in which a blank stands within the readings of some witnesses, at their end."""
    if not sigla:
        return part
    return replace(
        part,
        offers=tuple(
            replace(
                offer,
                words={
                    siglum: (*words[:-1], replace(words[-1], closed=True)) if siglum in sigla else words
                    for siglum, words in offer.words.items()
                },
            )
            for offer in part.offers
        ),
    )
