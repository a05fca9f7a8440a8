"""How many letters the marks of a gap say are lost: the marks of a transcription in, their extents out."""

import re

MARK = re.compile(r"\[\.(\d+)\.?\]|\[(?:\.{2,}|…+|-{2,})\]|(\++)")
"""One mark of lost letters: about so many, of no stated extent, or a plus for each."""


def extents(marks: str) -> list[int | None]:
    """Return how many letters each of some marks says are lost, None where it does not say."""
    found = MARK.findall(marks)
    return [int(about or len(signs)) if about or signs else None for about, signs in found]
