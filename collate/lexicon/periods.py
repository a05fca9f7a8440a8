"""Spellings whose use by period is counted: a form in, how often it is found in three periods out."""

from dataclasses import dataclass
from functools import cache

from collate.lexicon.spelling import fold
from collate.lexicon.tables import table

PERIODS = ("1350–1419", "1420–1499", "1500–1569")
"""The periods of the counts, those of Carr & Rastle 2024."""


@dataclass(frozen=True, slots=True)
class PeriodUse:
    """How often a form was counted in each period, and how often its word in any spelling."""

    form: str
    counts: tuple[int, int, int]
    totals: tuple[int, int, int]

    @property
    def leans(self) -> int:
        """The period in which the word was most often so spelled, as its place in PERIODS."""
        shares = [count / total for count, total in zip(self.counts, self.totals, strict=True)]
        return shares.index(max(shares))


@cache
def period_uses() -> dict[str, PeriodUse]:
    """Return the forms of the table that lean to one period, by their folded spelling."""
    columns = (
        *("form", "word", "form_1350", "form_1420", "form_1500"),
        *("word_1350", "word_1420", "word_1500", "authority"),
    )
    found = {}
    for form, _, a, b, c, x, y, z, _ in table("periods", *columns):
        found[fold(form)] = PeriodUse(form, (int(a), int(b), int(c)), (int(x), int(y), int(z)))
    return found
