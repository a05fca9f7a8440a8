"""How much the marks of a gap say is lost: the marks of a transcription in, their extents out."""

import re
from dataclasses import dataclass
from enum import StrEnum

MARK = re.compile(
    r"\[\.0*([1-9]\d*)(?:\.?| *(letter|word|line)s?\.?)\]|\[(?:\.{2,}|…+|-{2,})\]|(\++)", re.IGNORECASE
)
"""One mark of what is lost: so many letters, words or lines, of no stated extent, or a plus a letter."""


BRACKETED = re.compile(rf"(?<!\\)(?=\[){MARK.pattern}", re.IGNORECASE)
"""A mark of what is lost that stands in brackets."""


class Unit(StrEnum):
    """In what an extent is counted."""

    LETTER = "letter"
    WORD = "word"
    LINE = "line"


@dataclass(frozen=True, slots=True)
class Extent:
    """About how much is lost."""

    count: int
    unit: Unit = Unit.LETTER


def extents(marks: str) -> list[Extent | None]:
    """Return how much each of some marks says is lost, None where it does not say."""
    found = MARK.findall(marks)
    return [
        Extent(int(about or len(signs)), Unit(unit.lower() or Unit.LETTER)) if about or signs else None
        for about, unit, signs in found
    ]


def typed(extent: Extent | None) -> str:
    """Return the mark of a gap of some extent, as it is typed."""
    if extent is None:
        return "[...]"
    if extent.unit is Unit.LETTER:
        return f"[.{extent.count}.]"
    return f"[.{extent.count} {extent.unit}{'s' * (extent.count > 1)}.]"
