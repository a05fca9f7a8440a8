"""What an apparatus says of a reading: the editor's term, and the words."""

from dataclasses import dataclass

from collate.model.apparatus import Variant, VariantKind
from collate.model.collation import Presence
from collate.reports.lemma import Lemma


@dataclass(frozen=True, slots=True)
class Said:
    """A reading as printed: `term` ("om.", "add.") is set in italics; either may be empty."""

    term: str
    text: str


def said(variant: Variant, lemma: Lemma) -> Said:
    """Return what is printed of a reading beside its lemma, but for the sigla."""
    text = variant.reading.text
    if variant.kind is VariantKind.LACUNA:
        return Said("def.", "")
    if variant.kind is VariantKind.TRANSPOSITION:
        return Said("tr.", f"after {text}" if text else "")
    omits = variant.kind in (VariantKind.OMISSION, VariantKind.EYE_SKIP)
    if omits or variant.reading.presence is Presence.OMITTED:
        return Said("om.", "")
    if variant.kind is VariantKind.PUNCTUATION and not any(c.isalnum() for c in text):
        text = f"‘{text}’"
    return Said(lemma.adds, text)
