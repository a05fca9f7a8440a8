"""What the editor rules of items, read against the items that there are."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
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
    that is not there, where one ruling parts what others make one, or where two make two items of a book one.
    """
    held = [tuple(_numbers(book, texts, key, ruling)) for ruling in rulings]
    ruled = _Ruled(book, texts, rulings, held)
    groups = ruled.groups
    for at, (ruling, numbers) in enumerate(zip(rulings, held, strict=True)):
        if not ruling.apart and numbers:
            for number in numbers[1:]:
                groups.join(numbers[0], number)
            ruled.check_one(at)
    apart: set[tuple[int, int]] = set()
    reasons: dict[int, list[str]] = {}
    for at, (ruling, numbers) in enumerate(zip(rulings, held, strict=True)):
        if ruling.apart:
            ruled.check_apart(at)
            apart.update(combinations(sorted(numbers), 2))
        elif len(numbers) > 1:
            reasons.setdefault(groups.head(numbers[0]), []).append(ruling.reason)
    parts = {part[0]: tuple(part) for part in groups.parts(len(book.items)) if len(part) > 1}
    return Fixed(
        tuple(parts[head] for head in sorted(reasons)),
        tuple("; ".join(dict.fromkeys(reasons[head])) for head in sorted(reasons)),
        frozenset(apart),
    )


@dataclass(frozen=True, slots=True)
class _Ruled:
    """The rulings, the items that each names, and the groups that they make of these so far."""

    book: Corpus
    texts: Sequence[WitnessText]
    rulings: Sequence[FixedMatch]
    held: Sequence[tuple[int, ...]]
    groups: Groups = field(default_factory=Groups)

    def check_one(self, at: int) -> None:
        """Raise InputError if a ruling makes two items of a book one that no ruling names together."""
        head, owner = self.groups.head(self.held[at][0]), self.book.owner
        members = [number for number in range(len(owner)) if self.groups.head(number) == head]
        for a, b in combinations(members, 2):
            if owner[a] == owner[b] and not self._together(a, b):
                both = ", ".join(f'"{self.book.items[number].label}"' for number in (a, b))
                raise InputError(
                    f"with {self._lines(head, at)} this match makes {self._cited(a)} and {self._cited(b)}"
                    f" one: if they are, name both in one match, {self.texts[owner[a]].siglum} = [{both}]",
                    self.rulings[at].place,
                )

    def check_apart(self, at: int) -> None:
        """Raise InputError if a ruling parts items that others make one."""
        for a, b in combinations(sorted(self.held[at]), 2):
            if self.groups.head(a) == self.groups.head(b):
                raise InputError(
                    f"this match parts {self._cited(a)} and {self._cited(b)}, which"
                    f" {self._lines(self.groups.head(a), len(self.rulings))} makes one: take one of them out",
                    self.rulings[at].place,
                )

    def _together(self, a: int, b: int) -> bool:
        """Say whether a ruling names two items as one."""
        rulings = zip(self.rulings, self.held, strict=True)
        return any(not ruling.apart and a in numbers and b in numbers for ruling, numbers in rulings)

    def _lines(self, head: int, stop: int) -> str:
        """Return where the rulings stand, of those before `stop`, that make up a group."""
        lines = [
            str(ruling.place.line)
            for ruling, numbers in zip(self.rulings[:stop], self.held, strict=False)
            if not ruling.apart and numbers and self.groups.head(numbers[0]) == head
        ]
        return f"the match of line {' and '.join(lines)}"

    def _cited(self, number: int) -> str:
        return f"{self.texts[self.book.owner[number]].siglum} {self.book.items[number].label}"


def _numbers(book: Corpus, texts: Sequence[WitnessText], key: Key, ruling: FixedMatch) -> Iterator[int]:
    sigla = {text.siglum: number for number, text in enumerate(texts)}
    seen: set[int] = set()
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
            first = label.split()[0] if label.split() else label
            blank = f"; a name ends at the first blank, so perhaps {first!r}" if first != label else ""
            raise InputError(
                f"there is no item {label!r} in {siglum}: write a number or name that stands after ## in its"
                f" transcription{blank}",
                ruling.place,
            )
        if found[0] in seen:
            raise InputError(f"this match names {siglum} {label} twice: name it once", ruling.place)
        seen.add(found[0])
        yield found[0]
