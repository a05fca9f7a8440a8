"""One item here, two or more there: the parts of a split item found, and joined again.

An item that is left over is a part of another if a third, in another book, holds both: the words of the two,
one after the other, are much liker to it than those of the first alone, and each of the two has most of its
words there. A twin of the first, whose words would be found in the same place, adds nothing.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from collate.align.clusters import Clusters, Fixed, is_apart
from collate.align.likeness import Corpus, compare_all, quick
from collate.align.pairing import Link, Pair
from collate.model.witness import Item, Token

GAIN = 0.06
"""How much liker the parts together must be than the first of them alone."""

HELD = 0.4
"""The share of the weight of a part's words that the whole must have in their order."""

KEPT = 0.7
"""The share of what the first part had in common with the whole that it must keep beside the second."""


@dataclass(frozen=True, slots=True)
class _Whole:
    """An item that may hold parts of another witness.

    `gain` is how much liker it is to all of them than without the last, `held` the share of that one that it
    has, `kept` the share of what it had in common with the others that is left.
    """

    groups: Pair
    gain: float
    held: float
    kept: float


def with_parts(book: Corpus, found: Clusters, links: Mapping[Pair, Link], fixed: Fixed) -> Clusters:
    """Make groups one that hold the parts of one item, as long as there are any; the clearest first.

    What counts is the average over all items that may hold the parts.
    """
    told = frozenset(number for group in fixed.groups for number in group)
    while True:
        tested: dict[Pair, list[_Whole]] = defaultdict(list)
        for whole in _wholes(book, found, links, told):
            tested[whole.groups].append(whole)
        gained = {groups: gain for groups, held in tested.items() if (gain := _gain(held)) >= GAIN}
        touched: set[int] = set()
        for a, b in sorted(gained, key=lambda groups: (-gained[groups], groups)):
            if touched.isdisjoint((a, b)) and not is_apart(found.groups[a], found.groups[b], fixed.apart):
                found.merge(a, b)
                touched.update((a, b))
        if not touched:
            return found


def _gain(held: Sequence[_Whole]) -> float:
    """Return what is gained on the average, nothing if too little of the parts is held."""
    count = len(held)
    if sum(whole.held for whole in held) < HELD * count or sum(whole.kept for whole in held) < KEPT * count:
        return 0.0
    return round(sum(whole.gain for whole in held) / count, 9)


def _wholes(
    book: Corpus, found: Clusters, links: Mapping[Pair, Link], told: frozenset[int]
) -> Iterator[_Whole]:
    """Yield every test of a left-over item against an item whose group has another of its witness.

    Left over is an item in whose group the other's witness has nothing. An item that the editor has matched
    is all that its witness has of the group.
    """
    for pair in links:
        for part, host in (pair, pair[::-1]):
            ours, theirs = found.of[part], found.of[host]
            if ours == theirs or book.owner[host] in found.witnesses(ours, book):
                continue
            siblings = _of_witness(book, found.groups[theirs], part)
            if siblings and told.isdisjoint((part, *siblings)) and quick(book, part, host) >= HELD:
                hosts = _of_witness(book, found.groups[theirs], host)
                yield _tested(book, hosts, siblings, part, (min(ours, theirs), max(ours, theirs)))


def _of_witness(book: Corpus, group: Sequence[int], number: int) -> list[int]:
    """Return the items of a group that are of the witness of a given item, in the order of its book."""
    return [n for n in group if book.owner[n] == book.owner[number]]


def _tested(book: Corpus, hosts: Sequence[int], siblings: Sequence[int], part: int, groups: Pair) -> _Whole:
    before, after = _parts(book, hosts, siblings), _parts(book, hosts, (*siblings, part))
    kept = min(after.shares[number] / max(before.shares[number], 1e-9) for number in siblings)
    return _Whole(groups, after.value - before.value, after.shares[part], min(kept, 1.0))


@dataclass(frozen=True, slots=True)
class _Parts:
    """Items of one witness laid one after the other along another's: how like, and what share of each."""

    value: float
    shares: dict[int, float]


def _parts(book: Corpus, hosts: Sequence[int], numbers: Sequence[int]) -> _Parts:
    order = in_order(book, hosts, numbers)
    found = compare_all(book, order, hosts)
    held = set(found.ours)
    shares, at = {}, 0
    for number in order:
        shared = sum(book.weights[word] for place, word in enumerate(book.words[number], at) if place in held)
        shares[number] = shared / book.totals[number] if book.totals[number] else 0.0
        at += len(book.words[number])
    return _Parts(found.value, shares)


def in_order(book: Corpus, hosts: Sequence[int], numbers: Sequence[int]) -> tuple[int, ...]:
    """Return parts in the order in which other items have their words; ties as their own book has them."""
    if len(numbers) < 2:
        return tuple(numbers)
    middles = {}
    for number in numbers:
        there = compare_all(book, (number,), hosts).theirs
        middles[number] = sum(there) / len(there) if there else float("inf")
    return tuple(sorted(numbers, key=lambda number: (middles[number], book.place[number])))


def joined(items: Sequence[Item]) -> Item:
    """Return items as one: their words counted through, and nothing of their text lost.

    The item line between two of them goes into the trail of the last word before it. The label names all
    ("12+12b"); kind and place are the first's.
    """
    whole = items[0]
    for item in items[1:]:
        whole = _two(whole, item)
    return whole


def _two(a: Item, b: Item) -> Item:
    count, headed = len(a.tokens), len(a.heading_tokens)
    tokens = list(a.tokens)
    heading = (*a.heading_tokens[:-1], *(_ended(token) for token in a.heading_tokens[-1:]))
    lead = a.lead
    if tokens:
        tokens[-1] = _ended(replace(tokens[-1], trail=tokens[-1].trail + b.lead))
    else:
        lead += b.lead
    return replace(
        a,
        label=f"{a.label}+{b.label}",
        heading="; ".join(heading for heading in (a.heading, b.heading) if heading),
        lead=lead,
        tokens=(*tokens, *_counted_from(b.tokens, count)),
        asides=(*a.asides, *(replace(aside, at=aside.at + count) for aside in b.asides)),
        heading_tokens=(*heading, *_counted_from(b.heading_tokens, headed)),
        heading_asides=(
            *a.heading_asides,
            *(replace(aside, at=aside.at + headed) for aside in b.heading_asides),
        ),
    )


def _ended(token: Token) -> Token:
    """Return the last word of a part with a blank after it, which the end of its file or line may lack."""
    apart = any(character.isspace() for character in token.trail)
    return token if apart else replace(token, trail=token.trail + " ")


def _counted_from(tokens: Sequence[Token], first: int) -> Iterator[Token]:
    return (replace(token, index=first + token.index) for token in tokens)
