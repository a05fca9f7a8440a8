"""What the editor rules of items, read against the items that there are."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from collate.align.clusters import Fixed
from collate.align.groups import Groups
from collate.align.likeness import Corpus
from collate.align.links import Key
from collate.errors import InputError
from collate.model.edition import FixedMatch
from collate.model.witness import WitnessText


def fixed_by(book: Corpus, texts: Sequence[WitnessText], key: Key, rulings: Sequence[FixedMatch]) -> Fixed:
    """Return the editor's rulings by the numbers of the items; `texts` in the order of the book's witnesses.

    A witness that is not among the texts is passed over. Raises InputError at the ruling's place for an item
    that is not there, or where one ruling parts what others make one.
    """
    held = [tuple(_numbers(book, texts, key, ruling)) for ruling in rulings]
    groups = Groups()
    for ruling, numbers in zip(rulings, held, strict=True):
        for a, b in combinations(numbers, 2) if not ruling.apart else ():
            groups.join(a, b)
    apart: set[tuple[int, int]] = set()
    reasons: dict[int, list[str]] = {}
    for ruling, numbers in zip(rulings, held, strict=True):
        for a, b in combinations(sorted(numbers), 2) if ruling.apart else ():
            if groups.head(a) == groups.head(b):
                raise InputError(
                    "this match parts items that other matches make one: take one of them out", ruling.place
                )
            apart.add((a, b))
        if not ruling.apart and len(numbers) > 1:
            reasons.setdefault(groups.head(numbers[0]), []).append(ruling.reason)
    parts = {part[0]: tuple(part) for part in groups.parts(len(book.items)) if len(part) > 1}
    return Fixed(
        tuple(parts[head] for head in sorted(reasons)),
        tuple("; ".join(dict.fromkeys(reasons[head])) for head in sorted(reasons)),
        frozenset(apart),
    )


def _numbers(book: Corpus, texts: Sequence[WitnessText], key: Key, ruling: FixedMatch) -> Iterator[int]:
    sigla = {text.siglum: number for number, text in enumerate(texts)}
    for siglum, label in ruling.items:
        if siglum not in sigla:
            continue
        witness = sigla[siglum]
        found = [
            n
            for n, owner in enumerate(book.owner)
            if owner == witness and key(book.items[n].label) == key(label)
        ]
        if not found:
            raise InputError(
                f"there is no item {label!r} in {siglum}: write a number or name that stands after ## in its"
                " transcription",
                ruling.place,
            )
        yield found[0]
