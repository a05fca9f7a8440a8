"""A scribe's habits, counted: what `collate tokens --profile` shows."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Habit:
    """One alternation and how often the scribe writes each side: ("and / an", (("and", 12), ("an", 3)))."""

    name: str
    counts: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class SignUse:
    """One sign, how often it stands, and (expansion, times, ground) for each way it was written out."""

    sign: str
    name: str
    count: int
    expansions: tuple[tuple[str, int, str], ...]


@dataclass(frozen=True, slots=True)
class OpenCase:
    """An abbreviation that nothing but the usual value of its sign decides."""

    written: str
    expanded: str
    citation: str


@dataclass(frozen=True, slots=True)
class Profile:
    """The habits of one hand of one witness."""

    siglum: str
    hand: str
    words: int
    open_cases: tuple[OpenCase, ...]
    habits: tuple[Habit, ...]
    signs: tuple[SignUse, ...]
    otiose: tuple[tuple[str, int], ...]
