"""Which places of an apparatus bear on date: evidence and a locus in, the evidence that stands there out."""

from collections.abc import Sequence

from collate.model.apparatus import Weight
from collate.model.collation import Collation, Locus
from collate.model.evidence import Evidence, EvidenceKind, Standing, Where
from collate.model.findings import Bearing, ItemFindings

_BESIDE = (Where.HEADING, Where.MARGIN, Where.STRUCK_OUT)


def bearing(evidence: Sequence[Evidence], collation: Collation, locus: Locus) -> tuple[Evidence, ...]:
    """Return the evidence of any witness that has a word in the columns of a locus, in the given order.

    What is only named, or is of no one place (a heading, a profile of the language), is left out.
    """
    return tuple(each for each in evidence if _tells(each) and _stands_in(each, collation, locus))


def bearings(evidence: Sequence[Evidence], found: ItemFindings) -> tuple[Bearing, ...]:
    """Return the places of an item at which words stand that bear on date, each evidence where it begins."""
    told: set[int] = set()
    places = []
    for entry in found.entries:
        if any(variant.weight is Weight.SUBSTANTIVE for variant in entry.variants):
            here = [each for each in bearing(evidence, found.collation, entry.locus) if id(each) not in told]
            told.update(id(each) for each in here)
            places.extend([Bearing(entry.locus, tuple(here))] if here else [])
    return tuple(places)


def _tells(each: Evidence) -> bool:
    of_place = each.kind not in (EvidenceKind.HEADING, EvidenceKind.LANGUAGE)
    return of_place and (bool(each.bounds) or each.standing is not Standing.NEUTRAL)


def _stands_in(each: Evidence, collation: Collation, locus: Locus) -> bool:
    if each.where in _BESIDE or each.siglum not in collation.sigla:
        return False
    w = collation.sigla.index(each.siglum)
    if collation.items[w].label != each.item:
        return False
    spans = [column.spans[w] for column in collation.columns[locus.first : locus.stop]]
    return any(span.start < each.stop and each.start < span.stop for span in spans)
