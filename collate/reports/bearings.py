"""The places of an item that bear on date, as lines for an apparatus; `collate dating` has the grounds."""

from collections.abc import Iterator

from collate.model.findings import ItemFindings
from collate.reports.phrases import joined
from collate.reports.tenses import place_of

NAME = "Bears on date (collate dating has the grounds)"


def bearing_lines(found: ItemFindings) -> Iterator[tuple[str, str]]:
    """Yield (place in the base, who has which words, and what they say) of each place.

    `‘þat is abbot’ AM: spoken of in the present, as abbot`
    """
    for bearing in found.bearings:
        where = place_of(found, bearing.locus.first)
        for group in bearing.evidence:
            sigla = tuple(dict.fromkeys(each.siglum for each in group))
            yield where, f"‘{group[0].text}’ {joined(sigla)}: {group[0].says}"
