"""The names that pointers in a TEI document use: of witnesses, hands, readings and grounds."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

_NOT_IN_NAME = re.compile(r"[^A-Za-z0-9._\-À-ÖØ-öø-ÿΑ-ΡΣ-ω]")
_MAY_BEGIN = re.compile(r"[A-Za-z_À-ÖØ-öø-ÿΑ-ΡΣ-ω]")
_OURS = re.compile(r"(?:calendar|kind|weight|cause|tense|shift|state|reason|reading|item)-")
"""How the names begin that are given to everything but witnesses and hands."""


@dataclass(frozen=True, slots=True)
class Names:
    """The xml:id of each witness by its siglum, in the order of the edition, and of each hand."""

    identities: Mapping[str, str]
    hands: Mapping[tuple[str, str], str]

    def pointers(self, sigla: Iterable[str]) -> str:
        """Return pointers to witnesses, in the order of the edition."""
        wanted = set(sigla)
        return " ".join(f"#{name}" for siglum, name in self.identities.items() if siglum in wanted)

    def hand(self, siglum: str, hand: str) -> str:
        """Return a pointer to a hand of a witness."""
        return f"#{self.hands[siglum, hand]}"


def names(sigla: Sequence[str], hands: Iterable[tuple[str, str]]) -> Names:
    """Give each witness an xml:id: its siglum, or what of it XML allows in a name (NCName).

    `hands` are pairs of a siglum and a hand.
    """
    given = {siglum: siglum for siglum in sigla if _fit(siglum) == siglum}
    taken = set(given)
    for siglum in sigla:
        if siglum not in given:
            given[siglum] = _unused(_fit(siglum), taken)
    written = {
        (siglum, hand): _unused(_fit(f"{given[siglum]}-hand-{hand}"), taken)
        for siglum, hand in dict.fromkeys(hands)
    }
    return Names({siglum: given[siglum] for siglum in sigla}, written)


def _unused(name: str, taken: set[str]) -> str:
    """Return a name, with a number behind it if it is taken already, and take it."""
    number, free = 1, name
    while free in taken:
        number += 1
        free = f"{name}-{number}"
    taken.add(free)
    return free


def _fit(siglum: str) -> str:
    name = _NOT_IN_NAME.sub("_", siglum)
    return name if _MAY_BEGIN.match(name) and not _OURS.match(name) else f"w{name}"


@dataclass(slots=True)
class Grounds:
    """Numbers each ground on which a reading is judged, in the order in which they come."""

    numbers: dict[str, int] = field(default_factory=dict)

    def pointer(self, reason: str) -> str:
        """Return a pointer to a ground."""
        return f"#reason-{self.numbers.setdefault(reason, len(self.numbers) + 1)}"
