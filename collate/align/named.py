"""An item as a user names it, looked up in a concordance."""

from collections.abc import Iterator
from difflib import get_close_matches

from collate.align.links import Key
from collate.errors import UsageError
from collate.model.concordance import Concordance, Match

SHOWN = 30
"""How many items are named in an error; of more, those that look like what was asked for."""


def named(found: Concordance, name: str, key: Key) -> Match:
    """Return the item that a name means: its own name, a part of it, or a witness's own ("A:xij").

    Raises UsageError where there is none.
    """
    asked = key(name)
    by_name = {match.key: match for match in found.items}
    if name in by_name or asked in by_name:
        return by_name.get(name) or by_name[asked]
    for match in found.items:
        if asked in match.key.split("+") and match.member(found.base):
            return match
    siglum = next((siglum for siglum in found.sigla if name.startswith(f"{siglum}:")), "")
    if siglum and (label := name.removeprefix(f"{siglum}:").strip()):
        for match in found.items:
            if key(label) in _own(match, siglum, key):
                return match
        raise UsageError(
            f"there is no item {label!r} in {siglum}: it has {_listed(label, _labels(found, siglum))}"
        )
    witness, colon, rest = name.partition(":")
    if colon and rest and witness not in found.sigla:
        raise UsageError(
            f"there is no witness {witness!r}, so no item {name!r}: the sigla are {', '.join(found.sigla)}"
        )
    raise UsageError(f"there is no item {name!r}: the items are {_listed(name, list(by_name))}")


def _own(match: Match, siglum: str, key: Key) -> list[str]:
    """Return what the labels of a witness's items mean, of those together first."""
    member = match.member(siglum)
    return [key(member.item.label), *map(key, member.item.label.split("+"))] if member else []


def _labels(found: Concordance, siglum: str) -> list[str]:
    def held() -> Iterator[tuple[int, str]]:
        for match in found.items:
            if member := match.member(siglum):
                yield member.places[0], member.item.label

    return [label for _, label in sorted(held())]


def _listed(name: str, names: list[str]) -> str:
    """Return names to choose from, not more than can be taken in."""
    if len(names) <= SHOWN:
        return ", ".join(names)
    near = get_close_matches(name, names, 5, 0.4) or names[:5]
    return f"{', '.join(near)} and {len(names) - len(near)} more"
