"""What one witness does over several neighbouring places, told as an editor tells it: in one entry.

Omissions, additions and substitutions of one witness with no word of agreement between them are one run; a
skip of the eye and a lacuna go on only into their like. A number beside another word or number never joins a
run: its value is for itself.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from collate.model.apparatus import Entry, Variant, VariantKind, Weight
from collate.model.collation import Collation, Locus
from collate.model.value import value
from collate.model.witness import Token, TokenKind, without_points

_OPEN = frozenset({VariantKind.OMISSION, VariantKind.ADDITION, VariantKind.SUBSTITUTION})
_CLOSED = frozenset({VariantKind.EYE_SKIP, VariantKind.LACUNA})


@dataclass(frozen=True, slots=True)
class Run:
    """Places (indices of entries) at which the same witnesses do the same, and what it is."""

    places: tuple[int, ...]
    sigla: tuple[str, ...]
    kind: VariantKind
    variant: Variant


@value
class _Deed:
    """What a witness does at one place."""

    at: int
    variant: Variant


def runs(found: Sequence[Entry], collation: Collation, base: str) -> Iterator[Run]:
    """Yield each run of more than one place, those of the first witness first."""
    grouped: dict[tuple[tuple[int, ...], tuple[str, ...]], list[str]] = {}
    first: dict[tuple[tuple[int, ...], tuple[str, ...]], list[_Deed]] = {}
    for siglum in collation.sigla:
        if siglum != base:
            for deeds in _of_witness(siglum, found, collation, base):
                key = (tuple(deed.at for deed in deeds), tuple(deed.variant.reading.text for deed in deeds))
                grouped.setdefault(key, []).append(siglum)
                first.setdefault(key, deeds)
    for key, sigla in grouped.items():
        kinds = {deed.variant.kind for deed in first[key]}
        kind = kinds.pop() if len(kinds) == 1 else VariantKind.SUBSTITUTION
        gravest = next((d.variant for d in first[key] if d.variant.kind is kind), first[key][0].variant)
        yield Run(key[0], tuple(sigla), kind, gravest)


def _of_witness(
    siglum: str, found: Sequence[Entry], collation: Collation, base: str
) -> Iterator[list[_Deed]]:
    ours, theirs = collation.sigla.index(base), collation.sigla.index(siglum)
    held: list[_Deed] = []
    stop = 0
    for at, entry in enumerate(found):
        if held and _words(collation, ours, stop, entry.locus.first):
            yield from _long(held)
            held = []
        if held and _silent(entry.locus, collation, (ours, theirs)):
            stop = entry.locus.stop
            continue
        variant = _variant_of(entry, siglum)
        if variant is None or not _runs_on(variant, entry, collation, ours, theirs):
            yield from _long(held)
            held = []
            continue
        if held and not _goes_on(held[-1].variant, variant):
            yield from _long(held)
            held = []
        held.append(_Deed(at, variant))
        stop = entry.locus.stop
    yield from _long(held)


def _silent(locus: Locus, collation: Collation, pair: tuple[int, int]) -> bool:
    """Say whether neither of two witnesses has a word at a place."""
    return not any(_words(collation, w, locus.first, locus.stop) for w in pair)


def _variant_of(entry: Entry, siglum: str) -> Variant | None:
    """Return the variant that a witness reads at a place, None where it has the lemma."""
    for variant in entry.variants:
        if siglum in variant.reading.sigla:
            return variant
    return None


def _long(held: list[_Deed]) -> Iterator[list[_Deed]]:
    if len(held) > 1:
        yield held


def _runs_on(variant: Variant, entry: Entry, collation: Collation, ours: int, theirs: int) -> bool:
    if variant.weight is not Weight.SUBSTANTIVE or variant.kind not in _OPEN | _CLOSED:
        return False
    locus = entry.locus
    tokens = [
        *collation.tokens(ours, locus.first, locus.stop),
        *collation.tokens(theirs, locus.first, locus.stop),
    ]
    if variant.kind in (VariantKind.OMISSION, VariantKind.ADDITION, *_CLOSED):
        return True
    return not any(token.kind is TokenKind.NUMERAL for token in tokens)


def _goes_on(before: Variant, after: Variant) -> bool:
    closed = before.kind in _CLOSED or after.kind in _CLOSED
    return before.kind is after.kind if closed else True


def _words(collation: Collation, w: int, first: int, stop: int) -> tuple[Token, ...]:
    return without_points(collation.tokens(w, first, stop))
