"""What a match rests on: each member of a group beside its first, with the likeness and the ground."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from collate.align.answering import answering, in_its_place, in_order
from collate.align.clusters import Clusters, Fixed
from collate.align.likeness import Corpus, compare, compare_all, quick
from collate.align.links import LEAST, SAFE, Link, Links
from collate.align.parted import joined
from collate.align.told import FEW
from collate.model.concordance import Certainty, Likest, Member

RIVAL = 0.05
"""How near the next likest item of a witness may come before a match is called uncertain."""


@dataclass(frozen=True, slots=True)
class Grounds:
    """All that is known of the items: their words, the groups they are in, the links between them."""

    book: Corpus
    sigla: tuple[str, ...]
    found: Clusters
    fixed: Fixed
    links: Links

    def named(self, numbers: Sequence[int]) -> str:
        """Return items as they are cited: "B 12+12b"."""
        labels = "+".join(self.book.items[number].label for number in numbers)
        return f"{self.sigla[self.book.owner[numbers[0]]]} {labels}"


def members(grounds: Grounds, group: int, order: Sequence[int]) -> tuple[Member, ...]:
    """Return what each witness has of a group; `order` are the witnesses, the first of them its head.

    The head is the base where it has the item.
    """
    book = grounds.book
    held: dict[int, list[int]] = defaultdict(list)
    for number in grounds.found.groups[group]:
        held[book.owner[number]].append(number)
    here = [witness for witness in order if witness in held]
    first = 0 if 0 in held else here[0]
    head = tuple(sorted(held[first], key=lambda number: book.place[number]))
    return tuple(
        _member(grounds, head if witness == first else in_order(book, head, held[witness]), head)
        for witness in here
    )


def _member(grounds: Grounds, parts: Sequence[int], head: Sequence[int]) -> Member:
    book = grounds.book
    item = joined([book.items[number] for number in parts])
    siglum, places = grounds.sigla[book.owner[parts[0]]], tuple(book.place[number] for number in parts)
    if parts == head:
        reason = "the base has it" if book.owner[head[0]] == 0 else "the first witness that has it"
        return Member(siglum, item, places, None, Certainty.CERTAIN, reason)
    link = grounds.links.between(parts[0], head[0]) if len(parts) == len(head) == 1 else None
    value = link.likeness if link else compare_all(book, head, parts).value
    certainty, reason = _ground(grounds, parts, head, value)
    return Member(siglum, item, places, value, certainty, reason)


def _ground(
    grounds: Grounds, parts: Sequence[int], head: Sequence[int], value: float
) -> tuple[Certainty, str]:
    """Say why some parts answer to the head, and how sure it is."""
    for group, reason in zip(grounds.fixed.groups, grounds.fixed.reasons, strict=True):
        if not set(group).isdisjoint(parts) and not set(group).isdisjoint(head):
            return Certainty.FIXED, f"the editor: {reason}"
    if len(parts) > 1 or len(head) > 1:
        return _of_parts(grounds, parts, head, value)
    link = _best(grounds, parts[0], grounds.found.of[head[0]], head[0])
    if link is None:
        return Certainty.UNCERTAIN, "by what other witnesses have"
    other = link.pair[0] if link.pair[1] == parts[0] else link.pair[1]
    reason = link.reason
    if other != head[0]:
        reason += f" to {grounds.named((other,))} ({link.likeness:.2f})"
    rival = _rival(grounds, link)
    if rival is not None:
        return Certainty.UNCERTAIN, f"{reason}; {rival}"
    if link.otherwise:
        return Certainty.UNCERTAIN, reason
    if link.likeness < SAFE:
        return Certainty.UNCERTAIN, f"{reason}; not very like"
    if link.likeness < 1 and min(len(grounds.book.words[number]) for number in link.pair) <= FEW:
        return Certainty.UNCERTAIN, f"{reason}; hardly any words to go by"
    return Certainty.CERTAIN, reason


def _of_parts(
    grounds: Grounds, parts: Sequence[int], head: Sequence[int], value: float
) -> tuple[Certainty, str]:
    """Say how several items stand beside the head, or the head's several beside one."""
    book = grounds.book
    held = answering(book, head, parts)
    reason = "; ".join(
        f"{grounds.named(ours)} = {grounds.named(theirs)} ({compare_all(book, ours, theirs).value:.2f})"
        if ours and theirs
        else f"nothing answers to {grounds.named(ours or theirs)}"
        for ours, theirs in held
    )
    if len(held) == 1:
        reason = (
            f"its words stand in one item in {grounds.named(head)}"
            if len(head) == 1
            else f"has the words of {grounds.named(head)} in one item, or of one of them"
            if len(parts) == 1
            else f"like in words, in {'as many ' if len(parts) == len(head) else ''}parts"
        )
    rivals = in_its_place(book, head, parts, value - RIVAL)
    if rivals:
        likeness, other, part = rivals[0]
        said = f"with {grounds.named((other,))} for {grounds.named((part,))} it is {_beside(likeness, value)}"
        reason += f"; {said} ({likeness:.2f})"
    likest = [compare_all(book, ours, theirs).value for ours, theirs in held if ours and theirs]
    sure = not rivals and min([value, *likest]) >= SAFE
    return (Certainty.CERTAIN if sure else Certainty.UNCERTAIN), reason


def _best(grounds: Grounds, number: int, group: int, head: int) -> Link | None:
    """Return the likest link of an item within its group, one to the head before one to others as like."""
    direct = grounds.links.between(number, head)
    if direct is not None and direct.weight >= LEAST:
        return direct
    inside = grounds.found.groups[group]
    return next(
        (link for link in grounds.links.of(number) if link.pair[0] in inside and link.pair[1] in inside), None
    )


def _rival(grounds: Grounds, link: Link) -> str | None:
    """Name another item of either witness that is nearly as like, or liker; None if there is none.

    Of several, one that nothing answers to in the other book comes first, then the likest.
    """
    if link.weight >= 1 or link.by_kind:
        return None
    book, found = grounds.book, grounds.found
    rivals = []
    for mine, other in (link.pair, link.pair[::-1]):
        for third, likeness in _others(grounds, link, mine, other):
            if book.owner[third] == book.owner[other] and found.of[third] != found.of[other]:
                answered = book.owner[mine] in found.witnesses(found.of[third], book)
                rivals.append((answered, -likeness, third))
    if not rivals:
        return None
    _, likeness, third = min(rivals)
    return f"{grounds.named((third,))} is {_beside(-likeness, link.likeness)} ({-likeness:.2f})"


def _beside(likeness: float, other: float) -> str:
    ours, theirs = round(likeness, 2), round(other, 2)
    if ours == theirs:
        return "just as like"
    return "more like" if ours > theirs else "nearly as like"


def _others(grounds: Grounds, link: Link, mine: int, other: int) -> Iterator[tuple[int, float]]:
    """Yield the items that one item is nearly as like, or liker, with the likeness: those known first.

    If only its number brought the other to it, all items of that book are looked at.
    """
    near = link.likeness - RIVAL
    for rival in grounds.links.of(mine, near):
        yield rival.pair[0] if rival.pair[1] == mine else rival.pair[1], rival.likeness
    if link.by_label:
        book = grounds.book
        first, least = other - book.place[other], quick(book, mine, other) - RIVAL
        for third in range(first, first + book.sizes[book.owner[other]]):
            if quick(book, mine, third) > least and (likeness := compare(book, mine, third)) > near:
                yield third, likeness


def unlike(grounds: Grounds) -> Iterator[Likest]:
    """Yield each item that stands alone, with the likest of others: too unlike, or matched elsewhere."""
    book = grounds.book
    for held in grounds.found.groups.values():
        if len({book.owner[number] for number in held}) > 1:
            continue
        for number in held:
            for link in islice(grounds.links.of(number), 1):
                yield _likest(grounds, number, link)


def _likest(grounds: Grounds, number: int, link: Link) -> Likest:
    """Return an item with the likest of others, and what answers to that one in its own book."""
    book = grounds.book
    other = link.pair[0] if link.pair[1] == number else link.pair[1]
    group = grounds.found.groups[grounds.found.of[other]]
    ours = sorted(each for each in group if book.owner[each] == book.owner[number] and each != number)
    return Likest(
        grounds.sigla[book.owner[number]],
        book.items[number].label,
        grounds.sigla[book.owner[other]],
        book.items[other].label,
        link.likeness,
        "+".join(book.items[each].label for each in ours),
        compare_all(book, (number,), ours).value if ours else 0.0,
    )
