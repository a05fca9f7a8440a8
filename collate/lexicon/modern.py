"""Spellings that no scribe wrote: a form in, what he would have written out."""

from functools import cache

from collate.lexicon.spelling import fold
from collate.lexicon.tables import table


@cache
def _modern() -> dict[str, str]:
    return {form: instead for form, instead, _ in table("modern", "form", "instead", "authority")}


def modern_for(form: str) -> str | None:
    """Return a medieval spelling of a word in a spelling not found before 1500, or None."""
    return _modern().get(fold(form))
