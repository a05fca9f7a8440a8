"""What is lost at a place where a copy has no words: a gap, a part of a hole, or an end of the item."""

from collections.abc import Sequence

from collate.analysis.classify import BEYOND, IN_HOLE, LOST, Verdict
from collate.lexicon.spelling import LACK
from collate.model.collation import Collation, Locus
from collate.model.witness import Token, TokenKind


def of_loss(collation: Collation, locus: Locus, siglum: str) -> Verdict:
    """Say what is lost at a place: text in a gap, what a hole in the word beside it held, or an end."""
    w = collation.sigla.index(siglum)
    tokens = collation.items[w].tokens
    start, stop = (
        collation.columns[locus.first].spans[w].start,
        collation.columns[locus.stop - 1].spans[w].stop,
    )
    if _has_gap(tokens[start:stop]):
        return LOST
    if _hole_beside(tokens, start, stop):
        return IN_HOLE
    return LOST if _has_gap(tokens) else BEYOND


def _has_gap(tokens: Sequence[Token]) -> bool:
    return any(token.kind is TokenKind.GAP for token in tokens)


def _hole_beside(tokens: Sequence[Token], start: int, stop: int) -> bool:
    """Say whether the word before a place, or the one after it, lacks letters at that edge in a hole."""
    before = next((t for t in reversed(tokens[:start]) if t.kind is not TokenKind.PUNCTUATION), None)
    after = next((t for t in tokens[stop:] if t.kind is not TokenKind.PUNCTUATION), None)
    ends = before is not None and before.expanded.endswith(LACK)
    return ends or (after is not None and after.expanded.startswith(LACK))
