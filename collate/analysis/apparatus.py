"""The apparatus of one item: at each place the base's reading, and what each other reading is."""

from collections.abc import Sequence

from collate.analysis.classify import classify, weight
from collate.model.apparatus import Entry, Reading, Variant
from collate.model.collation import Collation, Locus, Presence
from collate.model.form import Judge
from collate.model.witness import Token, TokenKind


def entries(collation: Collation, base: str, judge: Judge) -> tuple[Entry, ...]:
    """Return one entry for each place of the collation, in order.

    Witnesses of the very same words share a reading. The lemma is the base's, even where it is
    empty; the other readings stand in the order of their first witness.
    """
    return tuple(_entry(collation, locus, base, judge) for locus in collation.loci)


def _entry(collation: Collation, locus: Locus, base: str, judge: Judge) -> Entry:
    groups: dict[tuple[str, Presence], list[str]] = {}
    tokens: dict[tuple[str, Presence], tuple[Token, ...]] = {}
    for w, siglum in enumerate(collation.sigla):
        words = collation.tokens(w, locus.first, locus.stop)
        key = (wording(words), _presence(collation, w, locus, words))
        groups.setdefault(key, []).append(siglum)
        tokens.setdefault(key, words)
    ours = next(key for key, sigla in groups.items() if base in sigla)
    variants = []
    for key, sigla in groups.items():
        if key != ours:
            kind, reason = classify(tokens[ours], tokens[key], key[1], judge)
            variants.append(Variant(_reading(tokens[key], sigla, key[1]), kind, weight(kind), reason))
    lemma = _reading(tokens[ours], groups[ours], ours[1])
    return Entry(locus, lemma, tuple(variants))


def _reading(tokens: Sequence[Token], sigla: Sequence[str], presence: Presence) -> Reading:
    words = (token for token in tokens if token.kind is not TokenKind.PUNCTUATION)
    normal = " ".join(token.normal for token in words)
    return Reading(wording(tokens), normal, tuple(sigla), presence)


def _presence(collation: Collation, w: int, locus: Locus, words: Sequence[Token]) -> Presence:
    spans = [column.spans[w] for column in collation.columns[locus.first : locus.stop]]
    if any(span.presence is Presence.LACUNOSE for span in spans):
        return Presence.LACUNOSE
    return Presence.PRESENT if words else Presence.OMITTED


def wording(tokens: Sequence[Token]) -> str:
    """Return words as they are shown: expanded, blanks single and where the copy has them."""
    parts = []
    for token in tokens:
        parts.append(token.expanded)
        if any(character.isspace() for character in token.trail):
            parts.append(" ")
    return "".join(parts).strip()
