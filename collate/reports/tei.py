"""Findings in, a TEI P5 document out: its apparatus in parallel segmentation, or attached by end-points."""

from collections.abc import Iterable, Iterator, Sequence

from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.model.transcript import Mark
from collate.model.witness import Item
from collate.reports.tei_app import Entries
from collate.reports.tei_attach import Attaching, attaching
from collate.reports.tei_body import division
from collate.reports.tei_header import header
from collate.reports.tei_mixed import XML_ID, Mixed
from collate.reports.tei_names import Names, names
from collate.reports.tei_places import Course
from collate.reports.tei_words import Letter, Scribe
from collate.settings import Attachment

NAMESPACE = "http://www.tei-c.org/ns/1.0"


def tei(findings: Findings, attachment: Attachment = Attachment.INLINE) -> Iterator[str]:
    """Yield a TEI P5 document: the header, a division for each item, the grounds of the judgements.

    Entries that are attached by end-points stand before the grounds. No blank is added within a
    paragraph or heading, so that every witness can be read out of it again.
    """
    items = tuple(findings.items)
    sigla = [witness.siglum for witness in findings.edition.witnesses]
    named = names(sigla, _hands(items))
    bare: dict[str, tuple[Letter, ...]] = {}
    scribes = {siglum: Scribe(siglum, Course(named.pointers((siglum,))), named, bare) for siglum in sigla}
    tied = attaching(attachment, Entries(named))
    yield f'<?xml version="1.0" encoding="UTF-8"?>\n<TEI xmlns="{NAMESPACE}">\n'
    yield header(findings.edition, named, attachment) + "\n"
    yield '<text xml:lang="enm">\n<body>\n'
    if not items:
        yield "<p/>\n"
    for number, found in enumerate(items, 1):
        yield division(found, number, scribes, tied) + "\n"
    yield "</body>\n</text>\n"
    yield from _aside(findings.edition, items, named, tied)
    yield "</TEI>\n"


def _hands(items: Iterable[ItemFindings]) -> Iterator[tuple[str, str]]:
    """Yield each hand of each witness that has more than the first."""
    found: dict[str, dict[str, None]] = {}
    for each in items:
        for siglum, item in zip(each.collation.sigla, each.collation.items, strict=True):
            found.setdefault(siglum, {}).update(dict.fromkeys(_hands_of(item)))
    for siglum, hands in sorted(found.items()):
        if hands.keys() - {"1"}:
            yield from ((siglum, hand) for hand in sorted({"1", *hands}))


def _hands_of(item: Item) -> Iterator[str]:
    for token in (*item.heading_tokens, *item.tokens):
        yield token.place.hand
        yield from (each.place.hand for each in token.breaks)
    yield from (
        aside.note
        for aside in (*item.heading_asides, *item.asides)
        if aside.mark is Mark.MARGIN and aside.note
    )


def _aside(edition: Edition, items: Sequence[ItemFindings], named: Names, tied: Attaching) -> Iterator[str]:
    """Yield what stands off the text: entries, labels that differ from the item's, grounds of judgements."""
    grounds = tied.entries.grounds
    mixed = Mixed("standOff", {})
    for entries in tied.lists():
        mixed.text("\n")
        mixed.put(entries)
    _labels(mixed, edition, items, named)
    if grounds.numbers:
        mixed.text("\n")
        mixed.begin("interpGrp", {"type": "reason"})
        for reason, number in grounds.numbers.items():
            mixed.text("\n")
            mixed.whole("interp", {XML_ID: f"reason-{number}"}, reason)
        mixed.text("\n")
        mixed.end()
    mixed.text("\n")
    if mixed.is_filled:
        yield mixed.done() + "\n"


def _labels(mixed: Mixed, edition: Edition, items: Sequence[ItemFindings], named: Names) -> None:
    """Write the items of each witness that has them in another order or under other labels."""
    for witness in edition.witnesses:
        has = [
            (item.place.line, item.place.column, number, item.label, item.label == found.collation.key)
            for number, found in enumerate(items, 1)
            for siglum, item in zip(found.collation.sigla, found.collation.items, strict=True)
            if siglum == witness.siglum
        ]
        numbers = [number for _, _, number, _, _ in sorted(has)]
        if numbers == sorted(numbers) and all(same for *_, same in has):
            continue
        mixed.text("\n")
        mixed.begin("interpGrp", {"type": "label", "corresp": named.pointers((witness.siglum,))})
        for _, _, number, label, _ in sorted(has):
            mixed.whole("interp", {"inst": f"#item-{number}"}, label)
        mixed.end()
