"""Days and the bounds they set, as dating reckons with them."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Day:
    """A day of the Julian calendar; the year is taken to begin on 1 January."""

    year: int
    month: int
    day: int

    def __str__(self) -> str:
        """Return the day as ISO 8601 writes it, still Julian: 1399-09-29."""
        return f"{self.year:04}-{self.month:02}-{self.day:02}"


@dataclass(frozen=True, slots=True)
class Bounds:
    """The days between which something lies, both included; None where nothing bounds it."""

    not_before: Day | None = None
    not_after: Day | None = None
