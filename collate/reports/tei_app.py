"""A place of the apparatus in, its TEI entry out, each witness in one reading."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from collate.model.apparatus import Variant, VariantKind, Weight
from collate.reports.tei_mixed import XML_ID, Attributes, Mixed
from collate.reports.tei_names import Grounds, Names
from collate.reports.tei_segments import Offer, Segment
from collate.reports.tei_write import write

PRESENTATION = "presentation"
HEADING = "heading"
ABSENT = "absent"
DIALECT = "dialect"

_SKIPS = {"homoeoteleuton": "homeoteleuton", "homoeoarchon": "homeoarchy"}
"""What a ground calls a skip of the eye, and what the Guidelines suggest for @cause."""

Key = tuple[int, int]
"""A segment's number and an offer's within it."""


@dataclass(frozen=True, slots=True)
class Link:
    """The name of a reading, and pointers to those with which it is in exclusive alternation."""

    name: str
    exclude: str


@dataclass(slots=True)
class Entries:
    """Writes the entries of a document; numbers the grounds and the readings that are pointed at."""

    names: Names
    grounds: Grounds = field(default_factory=Grounds)
    readings: int = 0

    def name(self) -> str:
        """Return a new name of a reading."""
        self.readings += 1
        return f"reading-{self.readings}"

    def entry(
        self,
        mixed: Mixed,
        segment: Segment,
        number: int,
        links: Mapping[Key, Link],
        ends: Attributes | None = None,
    ) -> None:
        """Write the entry of a segment that varies; `number` is the segment's.

        `ends` point to where its place begins and ends, if it stands apart from the text.
        """
        mixed.begin("app", {**(ends or {}), "type": _type(segment), "ana": self._shifts(segment)})
        classes = list(_classes(segment.offers))
        for members in classes:
            grouped = len(classes) > 1 and len(members) > 1
            if grouped:
                mixed.begin("rdgGrp", {"type": str(Weight.ACCIDENTAL)})
            for at in members:
                self._reading(mixed, segment, at, links.get((number, at)))
            if grouped:
                mixed.end()
        mixed.end()

    def headings(self, mixed: Mixed, offers: Sequence[Offer], ends: Attributes | None = None) -> None:
        """Write headings that differ, each as one reading; `ends` are as in `entry`."""
        mixed.begin("app", {**(ends or {}), "type": HEADING})
        for number, offer in enumerate(offers):
            mixed.begin("rdg" if number else "lem", {"wit": self.names.pointers(offer.sigla)})
            write(mixed, tuple(offer.words.values()))
            mixed.end()
        mixed.end()

    def _shifts(self, segment: Segment) -> str:
        """Return pointers to what each shift of tense here is about, and to its ground."""
        told = [(f"#shift-{each.kind}", self.grounds.pointer(each.reason)) for each in segment.shifts]
        return " ".join(dict.fromkeys(pointer for pair in told for pointer in pair))

    def _reading(self, mixed: Mixed, segment: Segment, at: int, link: Link | None) -> None:
        offer = segment.offers[at]
        said = self._said(offer)
        tenses = dict.fromkeys(f"#tense-{tense}" for tense in _tenses(segment, offer))
        analysed = " ".join([*said.get("ana", "").split(), *tenses])
        attributes = {"wit": self.names.pointers(offer.sigla), **said, "ana": analysed}
        if link is not None:
            attributes |= {XML_ID: link.name, "exclude": link.exclude}
        mixed.begin("rdg" if at else "lem", attributes)
        write(mixed, tuple(offer.words.values()))
        mixed.end()

    def _said(self, offer: Offer) -> Mapping[str, str]:
        """Return what a reading is beside the lemma: its kind, its likely cause, its weight, its ground."""
        if offer.variant is None:
            return {"type": PRESENTATION} if offer.state else {}
        variant = offer.variant
        return {
            "type": str(variant.kind),
            "subtype": DIALECT if _is_of_one_sense(variant) else "",
            "cause": _cause(variant),
            "ana": f"#weight-{variant.weight} {self.grounds.pointer(variant.reason)}",
        }


def _type(segment: Segment) -> str:
    if segment.entry is None:
        return PRESENTATION
    substantive = any(variant.weight is Weight.SUBSTANTIVE for variant in segment.entry.variants)
    return str(Weight.SUBSTANTIVE if substantive else Weight.ACCIDENTAL)


def _tenses(segment: Segment, offer: Offer) -> Iterator[str]:
    """Yield the tense that a reading has, where tenses shift and it has words."""
    if not any(offer.words.values()):
        return
    for shift in segment.shifts:
        if set(offer.sigla) <= set(shift.from_sigla):
            yield str(shift.from_tense)
        elif set(offer.sigla) <= set(shift.to_sigla):
            yield str(shift.to_tense)


def _is_of_one_sense(variant: Variant) -> bool:
    """Say whether a reading is another word of the same sense (them for hem)."""
    return variant.kind is VariantKind.SUBSTITUTION and variant.weight is Weight.ACCIDENTAL


def _cause(variant: Variant) -> str:
    if variant.kind is VariantKind.DITTOGRAPHY:
        return str(VariantKind.DITTOGRAPHY)
    if variant.kind is VariantKind.EYE_SKIP:
        return next((cause for name, cause in _SKIPS.items() if name in variant.reason), "")
    return variant.confusion


def _classes(offers: Sequence[Offer]) -> Iterator[tuple[int, ...]]:
    """Yield the offers of one substance together, by their numbers: those of the lemma first."""
    found: dict[tuple[str, ...], list[int]] = {}
    for number, offer in enumerate(offers):
        variant = offer.variant
        if variant is None or variant.weight is Weight.ACCIDENTAL:
            key: tuple[str, ...] = ()
        else:
            key = (variant.reading.normal, variant.kind, variant.reading.presence)
        found.setdefault(key, []).append(number)
    yield from map(tuple, found.values())
