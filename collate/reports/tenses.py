"""An item's shifts of tense in, the lines that name them out."""

from collections.abc import Iterator

from collate.model.findings import ItemFindings
from collate.reports.lemma import beside, place
from collate.reports.phrases import joined

NAME = "Shifts of tense"


def shift_lines(found: ItemFindings) -> Iterator[tuple[str, str]]:
    """Yield (place in the base, what stands there) of each shift.

    `is AM] was BC (present : preterite; state)`
    """
    for shift in found.shifts:
        ours = f"{shift.from_text} {joined(shift.from_sigla)}"
        theirs = f"{shift.to_text} {joined(shift.to_sigla)}"
        yield (
            place_of(found, shift.column),
            f"{ours}] {theirs} ({shift.from_tense} : {shift.to_tense}; {shift.kind})",
        )


def place_of(found: ItemFindings, column: int) -> str:
    """Return the place of the base's word in a column, or of the word before where it has none there."""
    w = found.collation.sigla.index(found.base)
    tokens = found.collation.items[w].tokens
    span = found.collation.columns[column].spans[w]
    at = span.start if span.start < span.stop else span.start - 1
    near = beside(tokens, at)
    return "" if near is None else place(tokens, near)
