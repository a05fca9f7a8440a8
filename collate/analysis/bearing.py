"""Which places of an apparatus bear on date: evidence and a locus in, the evidence that stands there out."""

from collections.abc import Sequence

from collate.analysis.conclusions import conclusion, same_text
from collate.model.apparatus import Weight
from collate.model.collation import Collation, Locus
from collate.model.evidence import Evidence, EvidenceKind, Standing, Where
from collate.model.findings import Bearing, ItemFindings
from collate.model.form import Judge
from collate.model.witness import Token

_BESIDE = (Where.HEADING, Where.MARGIN, Where.STRUCK_OUT)


def bearing(evidence: Sequence[Evidence], collation: Collation, locus: Locus) -> tuple[Evidence, ...]:
    """Return the evidence of any witness that has a word in the columns of a locus, in the given order.

    What is only named, or is of no one place (a heading, a profile of the language), is left out.
    """
    return tuple(each for each in evidence if _tells(each) and _stands_in(each, collation, locus))


def bearings(evidence: Sequence[Evidence], found: ItemFindings, judge: Judge) -> tuple[Bearing, ...]:
    """Return the places of an item at which words stand that bear on date, each evidence where it begins."""
    told: set[int] = set()
    places = []
    for entry in found.entries:
        if any(variant.weight is Weight.SUBSTANTIVE for variant in entry.variants):
            here = [each for each in bearing(evidence, found.collation, entry.locus) if id(each) not in told]
            told.update(id(each) for each in here)
            groups = _grouped(here, found.collation, judge)
            places.extend([Bearing(entry.locus, groups)] if groups else [])
    return tuple(places)


def _grouped(
    evidence: Sequence[Evidence], collation: Collation, judge: Judge
) -> tuple[tuple[Evidence, ...], ...]:
    """Bring the evidence together that has the same words and concludes the same."""
    groups: list[list[Evidence]] = []
    for each in evidence:
        words = _words(each, collation)
        for group in groups:
            if conclusion(group[0]) == conclusion(each) and same_text(
                _words(group[0], collation), words, judge
            ):
                group.append(each)
                break
        else:
            groups.append([each])
    return tuple(map(tuple, groups))


def _words(each: Evidence, collation: Collation) -> tuple[Token, ...]:
    return collation.items[collation.sigla.index(each.siglum)].tokens[each.start : each.stop]


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
