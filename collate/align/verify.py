"""The proof of a collation: it is run on every one before anybody sees it."""

from collections.abc import Iterator, Sequence

from collate.align.divide import WORDS
from collate.errors import InternalError
from collate.model.collation import Collation, Presence
from collate.model.witness import Token, TokenKind, has_gap


def verify(collation: Collation) -> Collation:
    """Return the collation, or raise InternalError naming the first thing that is not as promised."""
    fault = next(faults(collation), None)
    if fault is not None:
        raise InternalError(
            f"the collation of item {collation.key} is not sound: {fault}; please report this"
        )
    return collation


def faults(collation: Collation) -> Iterator[str]:
    """Yield every breach of the promises a collation makes."""
    yield from _tiling(collation)
    yield from _columns(collation)
    yield from _loci(collation)
    yield from _transpositions(collation)


def _tiling(collation: Collation) -> Iterator[str]:
    for w, (siglum, item) in enumerate(zip(collation.sigla, collation.items, strict=True)):
        at = 0
        for number, column in enumerate(collation.columns):
            span = column.spans[w]
            if span.start != at or span.stop < span.start:
                yield f"{siglum} has [{span.start}, {span.stop}) in column {number}, not from {at}"
                return
            at = span.stop
        if at != len(item.tokens):
            yield f"{siglum} ends at word {at} of {len(item.tokens)}"
        if any(token.index != index for index, token in enumerate(item.tokens)):
            yield f"the words of {siglum} are not numbered in order"


def _columns(collation: Collation) -> Iterator[str]:
    gapped = [has_gap(item.tokens) for item in collation.items]
    for number, column in enumerate(collation.columns):
        if len(column.spans) != len(collation.sigla):
            yield f"column {number} has {len(column.spans)} spans for {len(collation.sigla)} witnesses"
        elif all(span.start == span.stop for span in column.spans):
            yield f"column {number} is empty in every witness"
        for span, item, gaps in zip(column.spans, collation.items, gapped, strict=False):
            held = item.tokens[span.start : span.stop]
            here = _has_words(held) if gaps else bool(held)
            if here is (span.presence is not Presence.PRESENT):
                yield f"column {number} says {span.presence} of [{span.start}, {span.stop})"


def _has_words(tokens: Sequence[Token]) -> bool:
    """Say whether a copy has words or points at a place, which beside a gap must be words."""
    kinds = {token.kind for token in tokens}
    return not kinds.isdisjoint(WORDS) if TokenKind.GAP in kinds else bool(kinds)


def _loci(collation: Collation) -> Iterator[str]:
    last = 0
    for locus in collation.loci:
        if not last <= locus.first < locus.stop <= len(collation.columns):
            yield f"the place [{locus.first}, {locus.stop}) overlaps or runs out"
        last = locus.stop


def _transpositions(collation: Collation) -> Iterator[str]:
    for moved in collation.transpositions:
        count = len(collation.items[collation.sigla.index(moved.siglum)].tokens)
        if not 0 <= moved.start < moved.stop <= count:
            yield f"the words [{moved.start}, {moved.stop}) moved in {moved.siglum} are not there"
        if not 0 <= moved.home < moved.home_stop <= len(collation.columns):
            yield f"the home [{moved.home}, {moved.home_stop}) of words moved in {moved.siglum} is not there"
