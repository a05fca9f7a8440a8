"""An item's findings in, its division of a TEI text out."""

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from collate.model.apparatus import VariantKind, Weight
from collate.model.collation import Locus, columns_of
from collate.model.findings import ItemFindings
from collate.reports.tei_app import Entries, Key, Link
from collate.reports.tei_attach import Attaching
from collate.reports.tei_blanks import blanks
from collate.reports.tei_mixed import XML_ID, Mixed
from collate.reports.tei_segments import Offer, Segment, heading, segments
from collate.reports.tei_words import Scribe
from collate.reports.tei_write import write


def division(found: ItemFindings, number: int, scribes: Mapping[str, Scribe], attaching: Attaching) -> str:
    """Return the division of an item, the `number`th of the document, its entries attached to it."""
    collation = found.collation
    members = dict(zip(collation.sigla, collation.items, strict=True))
    heads = {
        siglum: scribes[siglum].words(item.heading_tokens, item.heading_asides)
        for siglum, item in members.items()
    }
    bodies = {siglum: scribes[siglum].words(item.tokens, item.asides) for siglum, item in members.items()}
    attributes = {XML_ID: f"item-{number}", "type": str(found.kind), "n": collation.key}
    mixed = Mixed("div", attributes)
    attaching.begin(found, number)
    mixed.text("\n")
    if any(len(words) > 1 for words in heads.values()):
        mixed.begin("head", {})
        attaching.begin_block(mixed, found)
        _heading(mixed, heading(heads, found.base), attaching)
        attaching.end_block(mixed, found)
        mixed.end()
        mixed.text("\n")
    mixed.begin("p", {})
    attaching.begin_block(mixed, found)
    _text(mixed, found, attaching, segments(found, bodies))
    attaching.end_block(mixed, found)
    mixed.end()
    mixed.text("\n")
    return mixed.done()


def _heading(mixed: Mixed, offers: Sequence[Offer], attaching: Attaching) -> None:
    if len(offers) > 1:
        attaching.headings(mixed, offers)
    else:
        write(mixed, tuple(offers[0].words.values()))


def _text(mixed: Mixed, found: ItemFindings, attaching: Attaching, parts: Sequence[Segment]) -> None:
    links = _links(parts, found, attaching.entries)
    order = (found.base, *(siglum for siglum in found.collation.sigla if siglum != found.base))
    parts, spaced = blanks(parts, order)
    for number, part in enumerate(parts):
        if len(part.offers) > 1:
            attaching.entry(mixed, part, number, links)
        else:
            write(mixed, tuple(part.offers[0].words[siglum] for siglum in order))
        if spaced[number]:
            mixed.text("\n" if len(parts[number + 1].offers) > 1 else " ")


def _links(parts: Sequence[Segment], found: ItemFindings, entries: Entries) -> Mapping[Key, Link]:
    """Return the links between readings that have the same words in two places."""
    others: dict[Key, set[Key]] = {}
    collation = found.collation
    placed = _Placed.of(parts)
    for moved in found.moved:
        w = collation.sigla.index(moved.siglum)
        away = columns_of(collation.columns, w, moved.start, moved.stop)
        for one in _filled(placed, away, moved.siglum, moved=True):
            for other in _filled(placed, Locus(moved.home, moved.home_stop), moved.siglum, moved=False):
                others.setdefault(one, set()).add(other)
                others.setdefault(other, set()).add(one)
    names = {key: entries.name() for key in sorted(others)}
    return {
        key: Link(names[key], " ".join(f"#{names[other]}" for other in sorted(rest)))
        for key, rest in others.items()
    }


@dataclass(frozen=True, slots=True)
class _Placed:
    """The segments that are places, by their numbers, in order; `stops` are the columns where they end."""

    segments: Sequence[tuple[int, Segment, Locus]]
    stops: Sequence[int]

    @classmethod
    def of(cls, parts: Sequence[Segment]) -> "_Placed":
        """Return those among all segments of an item."""
        placed = [(number, part, part.entry.locus) for number, part in enumerate(parts) if part.entry]
        return cls(placed, [locus.stop for _, _, locus in placed])

    def over(self, wanted: Locus) -> Iterator[tuple[int, Segment]]:
        """Yield those that have a column in common with a locus."""
        for at in range(bisect_right(self.stops, wanted.first), len(self.segments)):
            number, part, locus = self.segments[at]
            if locus.first >= wanted.stop:
                break
            yield number, part


def _filled(placed: _Placed, locus: Locus, siglum: str, *, moved: bool) -> Iterator[Key]:
    """Yield the readings at either end of a move that have its words."""
    for number, part in placed.over(locus):
        for at, offer in enumerate(part.offers):
            variant = offer.variant
            ours = (
                variant is None
                or variant.weight is Weight.ACCIDENTAL
                or variant.kind is VariantKind.TRANSPOSITION
            )
            if ours and offer.words[offer.sigla[0]] and (siglum in offer.sigla) is moved:
                yield number, at
