"""Which items of two witnesses are one item: each with one other at most, so that the whole is likest."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from collate.align.groups import Groups
from collate.align.likeness import Corpus
from collate.align.links import LEAST, Link
from collate.align.told import Pair

SMALL = 8
"""Up to how many links that compete every way to choose among them is looked at."""

MOST = 200
"""Up to how many links that compete are matched by the best whole; of more, the likest first."""


def matched(found: Iterable[Link], book: Corpus) -> tuple[Link, ...]:
    """Return the links that stand when every item answers to one other of each witness at most."""
    between: dict[Pair, list[Link]] = defaultdict(list)
    for link in found:
        if link.weight >= LEAST:
            a, b = link.pair
            between[book.owner[a], book.owner[b]].append(link)
    return tuple(link for _, held in sorted(between.items()) for link in _one_to_one(held))


def _one_to_one(held: Sequence[Link]) -> Iterator[Link]:
    """Yield the matching of the greatest weight between the items of two witnesses.

    A link is not heard if either of its items is more than twice as like to another.

    Where two items are likelier for one another than all their rivals together they are taken at once
    (no better whole can part them); the rest is the maximum weight matching of J. Edmonds, "Paths,
    trees, and flowers", Canadian Journal of Mathematics 17 (1965) 449-67.
    """
    best: dict[int, float] = {}
    for link in held:
        for number in link.pair:
            best[number] = max(best.get(number, 0.0), link.weight)
    rest = sorted((link for link in held if 2 * link.weight >= max(best[n] for n in link.pair)), key=_rank)
    while True:
        clear = _clear(rest)
        yield from clear
        taken = {number for link in clear for number in link.pair}
        rest = [link for link in rest if taken.isdisjoint(link.pair)]
        if not clear:
            break
    for part in _competing(rest):
        yield from _best_whole(part)


def _rank(link: Link) -> tuple[float, Pair]:
    return -link.weight, link.pair


def _clear(held: Sequence[Link]) -> list[Link]:
    """Return the links that weigh at least as much as the next best of both their items together."""
    weights: dict[int, list[float]] = defaultdict(list)
    for link in held:
        for number in link.pair:
            if len(weights[number]) < 2:
                weights[number].append(link.weight)
    found = []
    for link in held:
        a, b = (weights[number] for number in link.pair)
        if link.weight == a[0] == b[0] and link.weight > sum((*a[1:], *b[1:])):
            found.append(link)
    return found


def _competing(held: Sequence[Link]) -> Iterator[list[Link]]:
    """Yield the links in groups that have no item in common."""
    groups = Groups()
    for link in held:
        groups.join(*link.pair)
    parts: dict[int, list[Link]] = defaultdict(list)
    for link in held:
        parts[groups.head(link.pair[0])].append(link)
    yield from parts.values()


def _best_whole(held: Sequence[Link]) -> list[Link]:
    if len(held) > MOST:
        return _likest_first(held)
    weights = [round(link.weight * 10**6) for link in held]
    ways = _ways(held, weights) if len(held) <= SMALL else []
    best = max(ways, default=(0, ()))
    if [weight for weight, _ in ways].count(best[0]) == 1:
        return [held[at] for at in best[1]]
    import networkx as nx  # here, because it takes long to load and is seldom wanted

    graph: nx.Graph[int] = nx.Graph()
    for link, weight in zip(held, weights, strict=True):
        graph.add_edge(*link.pair, weight=weight)
    chosen = {(min(pair), max(pair)) for pair in nx.max_weight_matching(graph)}
    return [link for link in held if link.pair in chosen]


def _ways(held: Sequence[Link], weights: Sequence[int]) -> list[tuple[int, tuple[int, ...]]]:
    """Return every way to choose links that have no item in common: its weight, and where the links are."""
    ways: list[tuple[int, tuple[int, ...], frozenset[int]]] = [(0, (), frozenset())]
    for at, link in enumerate(held):
        ways.extend(
            (weight + weights[at], (*chosen, at), taken.union(link.pair))
            for weight, chosen, taken in tuple(ways)
            if taken.isdisjoint(link.pair)
        )
    return [(weight, chosen) for weight, chosen, _ in ways]


def _likest_first(held: Sequence[Link]) -> list[Link]:
    found: list[Link] = []
    taken: set[int] = set()
    for link in held:
        if taken.isdisjoint(link.pair):
            found.append(link)
            taken.update(link.pair)
    return found
