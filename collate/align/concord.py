"""Which item of one witness answers to which of another: for now, those of one number or name."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from collate.model.witness import Item, WitnessText


@dataclass(frozen=True, slots=True)
class Match:
    """One item of the edition: its key, and the witnesses that have it with their items, in order."""

    key: str
    members: tuple[tuple[str, Item], ...]


def concord(texts: Sequence[WitnessText], base: str, key: Callable[[str], str]) -> tuple[Match, ...]:
    """Bring the items of all witnesses together by the key of their label.

    The order is the base's; an item it lacks follows the item it follows in the first other
    witness that has it.
    """
    by_key: dict[str, list[tuple[str, Item]]] = {}
    for text in texts:
        for item in text.items:
            by_key.setdefault(key(item.label), []).append((text.siglum, item))
    order: list[str] = []
    for text in sorted(texts, key=lambda text: text.siglum != base):
        at = 0
        for item in text.items:
            name = key(item.label)
            if name in order:
                at = order.index(name) + 1
            else:
                order.insert(at, name)
                at += 1
    return tuple(Match(name, tuple(by_key[name])) for name in order)
