"""One item here, two or more there: the parts of a split item found, and joined again.

An item that is left over is a part of another if a third, in another book, holds both: the words of the two,
one after the other, are much liker to it than those of the first alone, and each of the two has most of its
words there. A twin of the first, whose words would be found in the same place, adds nothing.
"""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from collate.align.answering import HELD, in_order
from collate.align.clusters import Clusters, Fixed, is_apart
from collate.align.likeness import Corpus, compare_all, quick
from collate.align.links import Links
from collate.align.overlap import ROUNDING
from collate.align.told import Pair
from collate.model.witness import Item, Token

GAIN = 0.06
"""How much liker the parts together must be than the first of them alone."""

KEPT = 0.7
"""The share of what the first part had in common with the whole that it must keep beside the second."""


@dataclass(frozen=True, slots=True)
class _Whole:
    """An item that may hold parts of another witness.

    `gain` is how much liker it is to all of them than without the last, `held` the share of that one that it
    has, `kept` the share of what it had in common with the others that is left.
    """

    gain: float
    held: float
    kept: float


def with_parts(book: Corpus, found: Clusters, links: Links, fixed: Fixed) -> Clusters:
    """Make groups one that hold the parts of one item, as long as there are any; the clearest first.

    What counts is the average over all items that may hold the parts.
    """
    ruled = frozenset(number for group in fixed.groups for number in group)
    pairs = [pair for pair, shared in links.shared if shared >= HELD - ROUNDING]
    laid = _Laid(book)
    while True:
        tested: dict[Pair, list[_Whole]] = defaultdict(list)
        for groups, whole in _wholes(laid, found, pairs, ruled):
            tested[groups].append(whole)
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
    laid: "_Laid", found: Clusters, pairs: Sequence[Pair], ruled: frozenset[int]
) -> Iterator[tuple[Pair, _Whole]]:
    """Yield every test of a left-over item against an item whose group has another of its witness.

    Left over is an item in whose group the other's witness has nothing. An item that the editor has matched
    is all that its witness has of the group.
    """
    book, home = laid.book, found.of
    for pair in pairs:
        if home[pair[0]] == home[pair[1]]:
            continue
        for part, host in (pair, pair[::-1]):
            ours, theirs = found.groups[home[part]], found.groups[home[host]]
            siblings = _of_witness(book, theirs, part)
            if not siblings or _of_witness(book, ours, host) or not ruled.isdisjoint((part, *siblings)):
                continue
            if quick(book, part, host) >= HELD:
                groups = min(home[part], home[host]), max(home[part], home[host])
                yield groups, laid.tested(_of_witness(book, theirs, host), siblings, part)


def _of_witness(book: Corpus, group: Sequence[int], number: int) -> tuple[int, ...]:
    """Return the items of a group that are of the witness of a given item, in the order of its book."""
    owner, witness = book.owner, book.owner[number]
    return tuple([n for n in group if owner[n] == witness])


@dataclass(frozen=True, slots=True)
class _Parts:
    """Items of one witness laid one after the other along another's: how like, and what share of each."""

    value: float
    shares: dict[int, float]


@dataclass(frozen=True, slots=True)
class _Laid:
    """Items laid along others, each but once: what is found of some of a witness along some of another."""

    book: Corpus
    along: dict[tuple[tuple[int, ...], tuple[int, ...]], _Parts] = field(default_factory=dict)

    def tested(self, hosts: tuple[int, ...], siblings: tuple[int, ...], part: int) -> _Whole:
        """Test whether a part stands beside its siblings in the items that may hold them all."""
        before, after = self.parts(hosts, siblings), self.parts(hosts, (*siblings, part))
        kept = min(after.shares[number] / max(before.shares[number], 1e-9) for number in siblings)
        return _Whole(after.value - before.value, after.shares[part], min(kept, 1.0))

    def parts(self, hosts: tuple[int, ...], numbers: tuple[int, ...]) -> _Parts:
        """Return how some items stand along their hosts."""
        found = self.along.get((hosts, numbers))
        if found is None:
            found = self.along[hosts, numbers] = _parts(self.book, hosts, numbers)
        return found


def _parts(book: Corpus, hosts: Sequence[int], numbers: Sequence[int]) -> _Parts:
    order = in_order(book, hosts, numbers)
    found = compare_all(book, order, hosts)
    weigh = book.weights.__getitem__
    shares, start, at = {}, 0, 0
    for number in order:
        words = book.words[number]
        stop = bisect_left(found.ours, at + len(words), start)
        shared = sum(weigh(words[place - at]) for place in found.ours[start:stop])
        shares[number] = shared / book.totals[number] if book.totals[number] else 0.0
        start, at = stop, at + len(words)
    return _Parts(found.value, shares)


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
