"""An item's shifts of tense in, the lines that name them out."""

from collections.abc import Iterator

from collate.model.findings import ItemFindings
from collate.model.witness import TokenKind
from collate.reports.lemma import place
from collate.reports.phrases import joined


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
    words = [index for index, token in enumerate(tokens) if token.kind is not TokenKind.PUNCTUATION]
    span = found.collation.columns[column].spans[w]
    at = span.start if span.start < span.stop else span.start - 1
    near = [index for index in words if index <= at] or words
    return place(tokens, near[-1] if near[0] <= at else near[0], words) if near else ""
