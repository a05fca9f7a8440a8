"""The parts of a printed apparatus: substantive, words of one sense, accidental."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from collate.model.apparatus import Entry, VariantKind
from collate.model.findings import ItemFindings
from collate.settings import Printing

Entries = tuple[Entry, ...]


def sections(found: ItemFindings, printing: Printing) -> Iterator[tuple[str, Entries]]:
    """Yield the name and the entries of each part that is printed of an item, in order.

    The substantive part is named even where it is empty, unless one witness alone has the item.
    """
    if len(found.collation.sigla) > 1:
        yield "Substantive", found.substantive
    forms, others = forms_apart(found.accidental)
    if forms:
        yield "Words of one sense, by dialect", forms
    if others and printing.accidentals:
        yield "Accidental", others


def forms_apart(entries: Sequence[Entry]) -> tuple[Entries, Entries]:
    """Part accidental entries into words of one sense (hem and them) and all others."""
    forms, others = [], []
    for entry in entries:
        words = tuple(variant for variant in entry.variants if variant.kind is VariantKind.SUBSTITUTION)
        rest = tuple(variant for variant in entry.variants if variant.kind is not VariantKind.SUBSTITUTION)
        forms.extend([replace(entry, variants=words)] if words else [])
        others.extend([replace(entry, variants=rest)] if rest else [])
    return tuple(forms), tuple(others)
