"""What an apparatus says of a reading: the editor's term, and the words."""

from dataclasses import dataclass

from collate.model.apparatus import BASE_DOUBLES, Variant, VariantKind
from collate.model.collation import Presence
from collate.reports.lemma import Lemma

SKIPS = ("homoeoteleuton", "homoeoarchon")
"""The slips of the eye that the reason of an omission may name."""

_LOST = {"": "def.", "add.": "foll. by lac.", "add. before": "prec. by lac."}
"""What is said of lost text: of words of the base, or beside the word that names a place."""


@dataclass(frozen=True, slots=True)
class Said:
    """A reading as printed: `term` ("om.", "add.") is set in italics, `note` follows the sigla.

    Any of them may be empty.
    """

    term: str
    text: str
    note: str = ""


def said(variant: Variant, lemma: Lemma, target: str) -> Said:
    """Return what is printed of a reading beside its lemma, but for the sigla.

    `target` says beside which word moved words stand.
    """
    text = variant.reading.text
    if variant.kind is VariantKind.LACUNA:
        return Said(_LOST[lemma.adds], "")
    if variant.kind is VariantKind.TRANSPOSITION:
        return Said("tr.", target) if target or not text else Said("", text, "(tr.)")
    omits = variant.kind is VariantKind.EYE_SKIP or (
        variant.kind is VariantKind.OMISSION and not _leaves_part(variant)
    )
    if omits or variant.reading.presence is Presence.OMITTED:
        return Said("om.", "", _note(variant))
    if variant.kind is VariantKind.PUNCTUATION and not any(c.isalnum() for c in text):
        text = f"‘{text}’"
    return Said(lemma.adds, text, _note(variant))


def _leaves_part(variant: Variant) -> bool:
    """Say whether a copy that leaves a word out has words there: a part of a word written as one."""
    reading = variant.reading
    return reading.presence is Presence.PRESENT and any(c.isalnum() for c in reading.text)


def _note(variant: Variant) -> str:
    """Return the likely cause in brackets: a slip of the eye by its name, a misreading as a question."""
    if variant.kind is VariantKind.DITTOGRAPHY:
        return f"({variant.kind})"
    skip = next((name for name in SKIPS if name in variant.reason), "")
    if variant.kind is VariantKind.EYE_SKIP and skip:
        return f"({skip})"
    if variant.kind is VariantKind.OMISSION and variant.reason.startswith(BASE_DOUBLES):
        return f"({VariantKind.DITTOGRAPHY} in the base)"
    return f"({variant.cause}?)" if variant.cause else ""
