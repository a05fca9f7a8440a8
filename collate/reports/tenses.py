"""An item's shifts of tense in, the lines that name them out."""

from collections.abc import Iterator

from collate.model.collation import Presence
from collate.model.findings import ItemFindings
from collate.model.tense import TenseShift
from collate.model.witness import beside, shown, without_points
from collate.reports.lemma import LONG, place
from collate.reports.phrases import joined

NAME = "Shifts of tense"


def shift_lines(found: ItemFindings) -> Iterator[tuple[str, str]]:
    """Yield (place in the base, what stands there) of each shift.

    `is AM] was BC (present : preterite; state)`. Where the base is on neither side, its own words are told.
    """
    for shift in found.shifts:
        ours = f"{shift.from_text} {joined(shift.from_sigla)}"
        theirs = f"{shift.to_text} {joined(shift.to_sigla)}"
        yield (
            place_of(found, shift.column),
            f"{ours}] {theirs} ({shift.from_tense} : {shift.to_tense}; {shift.kind}{_of_base(found, shift)})",
        )


def _of_base(found: ItemFindings, shift: TenseShift) -> str:
    """Say what the base has at a shift between others, "" where it is on a side itself."""
    base, collation = found.base, found.collation
    if base in (*shift.from_sigla, *shift.to_sigla):
        return ""
    w = collation.sigla.index(base)
    columns = collation.columns[shift.column : shift.stop]
    words = [shown(token) for token in without_points(collation.tokens(w, shift.column, shift.stop))]
    if any(column.spans[w].presence is Presence.LACUNOSE for column in columns):
        return f"; {base} is damaged here"
    if len(words) > LONG:
        words = [words[0], "…", words[-1]]
    return f"; {base} has ‘{' '.join(words)}’" if words else f"; {base} has nothing"


def place_of(found: ItemFindings, column: int) -> str:
    """Return the place of the base's word in a column, or of the word before where it has none there."""
    w = found.collation.sigla.index(found.base)
    tokens = found.collation.items[w].tokens
    span = found.collation.columns[column].spans[w]
    at = span.start if span.start < span.stop else span.start - 1
    near = beside(tokens, at)
    return "" if near is None else place(tokens, near)
