"""Findings in, the apparatus as CSV out: a row for each variant reading."""

from collections.abc import Iterable, Iterator, Sequence

from collate.model.apparatus import Entry, Variant, VariantKind
from collate.model.findings import ItemFindings
from collate.reports.lemma import lemma_of, named_by, place
from collate.reports.sections import sections
from collate.reports.table import rows
from collate.settings import Printing

FIELDS = (
    "item",
    "base",
    "entry",
    "first column",
    "last column",
    "place",
    "folio",
    "line",
    "lemma",
    "lemma as printed",
    "lemma sigla",
    "reading",
    "after",
    "sigla",
    "kind",
    "weight",
    "reason",
    "cause",
    "before",
    "beside",
)
"""The names of the fields, in order. Sigla are divided by blanks."""


def item(found: ItemFindings, *, accidentals: bool = True) -> str:
    """Return the rows of one item, in the order of the text."""
    return "".join(rows(_rows(found, accidentals=accidentals)))


def assembled(items: Iterable[str]) -> Iterator[str]:
    """Yield a header and the rows of items, each written by `item`: one for each reading not the lemma."""
    yield from rows((FIELDS,))
    yield from items


def _rows(found: ItemFindings, *, accidentals: bool) -> Iterator[Sequence[str]]:
    parts = sections(found, Printing(accidentals=accidentals))
    printed = sorted((entry for _, part in parts for entry in part), key=lambda entry: entry.locus.first)
    for number, entry in enumerate(printed, 1):
        yield from _entry(found, entry, number)


def _entry(found: ItemFindings, entry: Entry, number: int) -> Iterator[Sequence[str]]:
    order = found.collation.sigla
    lemma = lemma_of(entry, found)
    first = named_by(entry, found)
    others = {siglum for variant in entry.variants for siglum in variant.reading.sigla}
    before = (
        found.collation.key,
        found.base,
        str(number),
        str(entry.locus.first + 1),
        str(entry.locus.stop),
        lemma.place,
        (first.place.folio or "") if first else "",
        str(first.place.ms_line or "") if first else "",
        entry.lemma.text,
        f"{lemma.text}] {lemma.adds}".strip(),
        " ".join(siglum for siglum in order if siglum not in others),
    )
    for variant in entry.variants:
        yield (*before, *_variant(variant, found))


def _variant(variant: Variant, found: ItemFindings) -> Sequence[str]:
    sigla, text, beside = " ".join(variant.reading.sigla), variant.reading.text, variant.beside
    after = text if beside and not beside.before else ""
    words = ("", after) if variant.kind is VariantKind.TRANSPOSITION else (text, "")
    tokens = found.collation.items[found.collation.sigla.index(found.base)].tokens
    moved = (text if beside.before else "", place(tokens, beside.token)) if beside else ("", "")
    return (*words, sigla, variant.kind, variant.weight, variant.reason, variant.cause, *moved)
