"""Which items of two witnesses are one item: each with one other at most, so that the whole is likest.

What decides is the likeness of the words. An equal number, a like heading and a like place in the book are
weak evidence, which tips the scale only where the words leave it level. A preface answers to a preface, an
explicit to an explicit, whatever they say, where each book has one.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from collate.align.candidates import candidates
from collate.align.divide import is_word
from collate.align.groups import Groups
from collate.align.likeness import Corpus, compare, identity, quick
from collate.model.witness import Item, ItemKind, Token

Pair = tuple[int, int]
Key = Callable[[str], str]
"""Gives what a label means: its number as a figure, or its name."""

LEAST = 0.25
"""The likeness, with the weak evidence, below which two items are not one."""

SAFE = 0.4
"""The likeness from which on a match is called certain."""

NUMBER, HEADING, PLACE = 0.02, 0.08, 0.005
"""What an equal number, an equal heading, and the same place in the book add at most."""

FAINT = 0.12
"""The likeness of the sets of words below which two items are not compared word by word."""

OF_A_KIND = frozenset(
    {ItemKind.PREFACE, ItemKind.INCIPIT, ItemKind.EXPLICIT, ItemKind.COLOPHON, ItemKind.TABLE}
)
"""Kinds of which a book has one, and by which it is matched."""

ACROSS_KINDS = 0.5
"""The likeness that items of two kinds must have, where one is matched by its kind."""

MOST = 200
"""Up to how many links that compete are matched by the best whole; of more, the likest first."""


@dataclass(frozen=True, slots=True)
class Link:
    """Two items that may be one: their likeness, the weight of all evidence, and the ground.

    `by_label` says that nothing but an equal number or name brought them under the eye: other items were not
    looked at, and may be as like.
    """

    pair: Pair
    likeness: float
    weight: float
    reason: str
    by_label: bool = False


def links(book: Corpus, key: Key, others: Iterable[Pair] = ()) -> dict[Pair, Link]:
    """Return the evidence on every pair of items that may be one; `others` are pairs to look at besides."""
    told = {**_scant(book), **_bare(book), **_told(book)}
    seen = {*candidates(book)}
    found = {pair for pair in {*seen, *_same_label(book, key)} if quick(book, *pair) >= FAINT}
    known = {pair: _link(pair, book, key, told.get(pair, "")) for pair in sorted({*told, *others, *found})}
    unseen = found - seen - told.keys()
    return {pair: replace(link, by_label=True) if pair in unseen else link for pair, link in known.items()}


def near(links: Mapping[Pair, Link]) -> dict[int, tuple[Link, ...]]:
    """Return the links of each item, the likest first."""
    found: dict[int, list[Link]] = defaultdict(list)
    for link in sorted(links.values(), key=lambda link: (-link.likeness, link.pair)):
        for number in link.pair:
            found[number].append(link)
    return {number: tuple(held) for number, held in found.items()}


def _same_label(book: Corpus, key: Key) -> Iterator[Pair]:
    """Yield the pairs of one number or name: they are looked at, no more."""
    holders: dict[str, list[int]] = defaultdict(list)
    for number, item in enumerate(book.items):
        holders[key(item.label)].append(number)
    for held in holders.values():
        yield from _across(held, book)


def _across(held: Sequence[int], book: Corpus) -> Iterator[Pair]:
    for at, a in enumerate(held):
        for b in held[at + 1 :]:
            if book.owner[a] != book.owner[b]:
                yield a, b


def _bare(book: Corpus) -> dict[Pair, str]:
    """Return the pairs that have nothing but their headings to go by, one of them having no words."""
    found = {}
    for a in (number for number, words in enumerate(book.words) if not words):
        for b in range(len(book.items)):
            pair = (min(a, b), max(a, b))
            if (
                book.owner[a] != book.owner[b]
                and alike_headings(*(book.items[n] for n in pair)) >= SAME_HEADING
            ):
                found[pair] = BARE
    return found


def _scant(book: Corpus) -> dict[Pair, str]:
    """Return the pairs of a few words under one heading: their words are too few to be looked for."""
    headed: dict[frozenset[str], list[int]] = defaultdict(list)
    for number, words in enumerate(book.words):
        if 0 < len(words) <= FEW and (heading := frozenset(_headed(book.items[number]))):
            headed[heading].append(number)
    return {pair: SCANT for held in headed.values() if len(held) <= MOST for pair in _across(held, book)}


def _told(book: Corpus) -> dict[Pair, str]:
    """Return the pairs that are matched whatever they say, each with its ground.

    Each is the only item of its kind in its book, or all that there is in it.
    """
    held: dict[tuple[ItemKind | None, int], list[int]] = defaultdict(list)
    for number, item in enumerate(book.items):
        held[None, book.owner[number]].append(number)
        if item.kind in OF_A_KIND:
            held[item.kind, book.owner[number]].append(number)
    alone: dict[ItemKind | None, list[int]] = defaultdict(list)
    for (kind, _), numbers in held.items():
        alone[kind].extend(numbers if len(numbers) == 1 else ())
    grounds = {
        kind: f"each is the only {kind} of its book" if kind else "each is all of its book" for kind in alone
    }
    return {pair: grounds[kind] for kind, numbers in alone.items() for pair in _across(numbers, book)}


def _link(pair: Pair, book: Corpus, key: Key, told: str) -> Link:
    """Weigh all that speaks for two items being one."""
    a, b = (book.items[number] for number in pair)
    alike = compare(book, *pair).value
    if told is SCANT:
        alike = max(alike, _alike_readings(a.tokens, b.tokens))
    elif told:
        return Link(pair, alike, LEAST if told is BARE else 1.0 + alike, told)
    if a.kind is not b.kind and OF_A_KIND & {a.kind, b.kind} and alike < ACROSS_KINDS:
        return Link(pair, alike, 0.0, f"one is the {a.kind}, one the {b.kind}")
    grounds = ["like in words"]
    weight = alike + PLACE * (1 - abs(_depth(book, pair[0]) - _depth(book, pair[1])))
    if key(a.label) == key(b.label):
        weight += NUMBER
        grounds.append("one number or name")
    headed = alike_headings(a, b)
    if headed >= LIKE_HEADING:
        weight += HEADING * headed
        grounds.append("like headings")
    if told is SCANT and alike < SAFE:
        return Link(pair, alike, max(weight, LEAST), SCANT)
    return Link(pair, alike, weight, ", ".join(grounds))


def _alike_readings(ours: Sequence[Token], theirs: Sequence[Token]) -> float:
    """Return the share of a few words that may be the same: each by any of its headwords."""
    mine, yours = ([_readings(token) for token in tokens if is_word(token)] for tokens in (ours, theirs))
    count = len(mine) + len(yours)
    shared = 0
    for readings in mine:
        at = next((at for at, others in enumerate(yours) if readings & others), None)
        if at is not None:
            yours.pop(at)
            shared += 1
    return 2 * shared / count


def _readings(token: Token) -> frozenset[str]:
    return frozenset(token.headwords or (identity(token),))


def _depth(book: Corpus, number: int) -> float:
    """Return how far into its book an item stands, from 0 to 1."""
    return book.place[number] / max(book.sizes[book.owner[number]] - 1, 1)


LIKE_HEADING, SAME_HEADING = 0.5, 0.75
"""The likeness of headings from which on they are evidence, and enough where there is nothing else."""

BARE = "like headings, and one of them has no words"
"""The ground of a match by headings alone."""

SCANT = "like headings, and hardly any words"
"""The ground of a match by headings where both items have a few words, and those unlike."""

FEW = 2
"""Up to how many words are too few to be looked for by their rarity."""


def _headed(item: Item) -> set[str]:
    return {identity(token) for token in item.heading_tokens if is_word(token)}


def alike_headings(a: Item, b: Item) -> float:
    """Return how alike two headings are: the share of their words in common, 0 where either has none."""
    ours, theirs = _headed(a), _headed(b)
    return len(ours & theirs) / len(ours | theirs) if ours and theirs else 0.0


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
    import networkx as nx  # here, because it takes long to load and is seldom wanted

    graph: nx.Graph[int] = nx.Graph()
    for link in held:
        graph.add_edge(*link.pair, weight=round(link.weight * 10**6))
    chosen = {(min(pair), max(pair)) for pair in nx.max_weight_matching(graph)}
    return [link for link in held if link.pair in chosen]


def _likest_first(held: Sequence[Link]) -> list[Link]:
    found: list[Link] = []
    taken: set[int] = set()
    for link in held:
        if taken.isdisjoint(link.pair):
            found.append(link)
            taken.update(link.pair)
    return found
