"""The places of an item that bear on date, as lines for an apparatus; `collate dating` has the grounds."""

from collections.abc import Iterator

from collate.model.findings import Bearing, ItemFindings
from collate.reports.phrases import joined
from collate.reports.tenses import place_of

NAME = "Bears on date (collate dating has the grounds)"


def bearing_lines(found: ItemFindings) -> Iterator[tuple[str, str]]:
    """Yield (place in the base, who has which words, and what they say) of each place.

    `‘þat is abbot’ AM: spoken of in the present, as abbot`
    """
    for bearing in found.bearings:
        where = place_of(found, bearing.locus.first)
        for text, says, sigla in _grouped(bearing):
            yield where, f"‘{text}’ {joined(sigla)}: {says}"


def _grouped(bearing: Bearing) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Bring the evidence of one place together that says the same, under the words of its first witness."""
    grouped: dict[str, list[str]] = {}
    texts: dict[str, str] = {}
    for each in bearing.evidence:
        grouped.setdefault(each.says, []).append(each.siglum)
        texts.setdefault(each.says, each.text)
    for says, sigla in grouped.items():
        yield texts[says], says, tuple(dict.fromkeys(sigla))
