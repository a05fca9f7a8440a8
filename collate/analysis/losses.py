"""What is lost at a place where a copy has no words: a gap, a part of a hole, or an end of the item."""

from collections.abc import Sequence

from collate.analysis.classify import BEYOND, IN_HOLE, LOST, Verdict, verdict
from collate.analysis.lacking import letters_fit
from collate.lexicon.spelling import LACK
from collate.model.apparatus import VariantKind
from collate.model.collation import Collation, Locus, Presence
from collate.model.witness import Token, TokenKind, has_gap

Words = tuple[Sequence[Token], Sequence[Token]]
"""The words of the base and of a copy at a place."""


def of_loss(collation: Collation, locus: Locus, siglum: str) -> Verdict:
    """Say what is lost at a place: text in a gap, what a hole in the word beside it held, or an end."""
    w = collation.sigla.index(siglum)
    tokens = collation.items[w].tokens
    start, stop = (
        collation.columns[locus.first].spans[w].start,
        collation.columns[locus.stop - 1].spans[w].stop,
    )
    if has_gap(tokens[start:stop]):
        return LOST
    if _hole_beside(tokens, start, stop):
        return IN_HOLE
    return LOST if has_gap(tokens) else BEYOND


def in_hole(found: Verdict, collation: Collation, locus: Locus, siglum: str, pair: Words) -> Verdict:
    """Return the verdict on another word; it is the same one where its hole held words beside it as well."""
    if len(pair[0]) != 1 or len(pair[1]) != 1:
        return found
    w = collation.sigla.index(siglum)
    sides = [at for at in (locus.first - 1, locus.stop) if 0 <= at < len(collation.columns)]
    beside = any(collation.columns[at].spans[w].presence is Presence.LACUNOSE for at in sides)
    if beside and letters_fit(pair[0][0], pair[1][0], held_more=True):
        return verdict(VariantKind.SPELLING, "letters are lacking; those that are left fit the other")
    return found


def _hole_beside(tokens: Sequence[Token], start: int, stop: int) -> bool:
    """Say whether the word before a place, or the one after it, lacks letters at that edge in a hole."""
    before = next((t for t in reversed(tokens[:start]) if t.kind is not TokenKind.PUNCTUATION), None)
    after = next((t for t in tokens[stop:] if t.kind is not TokenKind.PUNCTUATION), None)
    ends = before is not None and before.expanded.endswith(LACK)
    return ends or (after is not None and after.expanded.startswith(LACK))
