"""The evidence that two items are one: the likeness of their words, their numbers, their headings.

What decides is the likeness of the words. An equal number, a like heading, a like place in the book and like
neighbours are weak evidence, which tips the scale only where the words leave it level; names that differ part
twins. A preface answers to a preface, an
explicit to an explicit, whatever they say, where each book has one.
"""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import takewhile

from collate.align.candidates import candidates
from collate.align.divide import is_word
from collate.align.likeness import Corpus, compare, quick, readings
from collate.align.naming import Naming
from collate.align.overlap import ROUNDING, overlaps
from collate.align.told import ALL, BARE, OF_A_KIND, SCANT, Heading, Pair, alike, heading_of, same_label, told
from collate.model.form import Judge
from collate.model.witness import Token

Key = Callable[[str], str]
"""Gives what a label means: its number as a figure, or its name."""

LEAST = 0.25
"""The likeness, with the weak evidence, below which two items are not one."""

SAFE = 0.4
"""The likeness from which on a match is called certain."""

NUMBER, HEADING, PLACE = 0.02, 0.08, 0.005
"""What an equal number, an equal heading, and the same place in the book add at most."""

NEIGHBOUR = 0.02
"""What is added where the items before them are alike too, and again where those after them are."""

NAMED = 0.15
"""What is taken away where each of two items has a name that the other has nowhere."""

FAINT = 0.12
"""The likeness of the sets of words below which two items are not compared word by word."""

LIKE_HEADING = 0.5
"""The likeness of headings from which on they are evidence."""

ACROSS_KINDS = 0.5
"""The likeness that items of two kinds must have, where one is matched by its kind."""

BY_KIND = 0.5
"""What two items of one kind weigh at least, where each is the only one of its book."""

CLOSE = 0.001
"""How near to LEAST a pair may come, order left aside, before it is compared word by word."""


@dataclass(frozen=True, slots=True)
class Link:
    """Two items that may be one: their likeness, the weight of all evidence, and the ground.

    `by_label` says that nothing but an equal number or name brought them under the eye: other items were not
    looked at, and may be as like. `otherwise` says that they are named otherwise, `by_kind` that they are
    matched by their kind.
    """

    pair: Pair
    likeness: float
    weight: float
    reason: str
    by_label: bool = False
    otherwise: bool = False
    by_kind: bool = False


@dataclass(frozen=True, slots=True)
class _Scales:
    """All by which two items are weighed; `told` gives the ground of pairs that are looked at for another.

    `unseen` are those that nothing but their labels brought under the eye.
    """

    book: Corpus
    labels: tuple[str, ...]
    headings: tuple[Heading, ...]
    told: Mapping[Pair, str]
    unseen: Collection[Pair]
    naming: Naming

    def beside(self, pair: Pair) -> float:
        """Return the most that other evidence than their words may add to two items."""
        a, b = pair
        number = NUMBER if self.labels[a] == self.labels[b] else 0.0
        return PLACE + number + HEADING * alike(self.headings[a], self.headings[b])

    def link(self, pair: Pair) -> Link:
        """Weigh all that speaks for two items being one."""
        a, b = (self.book.items[number] for number in pair)
        ground = self.told.get(pair, "")
        likeness = compare(self.book, *pair)
        if ground is SCANT:
            likeness = max(likeness, _alike_readings(a.tokens, b.tokens))
        elif ground:
            kind = ground is not BARE
            return Link(pair, likeness, _by_ground(ground, likeness), ground, by_kind=kind)
        if a.kind is not b.kind and OF_A_KIND & {a.kind, b.kind} and likeness < ACROSS_KINDS:
            return Link(
                pair, likeness, 0.0, f"one is the {a.kind}, one the {b.kind}", by_label=pair in self.unseen
            )
        weight, reason, otherwise = self._weighed(pair, likeness)
        if ground is SCANT and likeness < SAFE:
            weight, reason = max(weight, LEAST), SCANT
        return Link(pair, likeness, weight, reason, by_label=pair in self.unseen, otherwise=otherwise)

    def _weighed(self, pair: Pair, likeness: float) -> tuple[float, str, bool]:
        """Add to a likeness what else weighs; say what there is, and if they are named otherwise.

        If they are, neither number nor heading speaks for them; but what would stand without another like it
        still stands.
        """
        a, b = pair
        weight = likeness + PLACE * (1 - abs(_depth(self.book, a) - _depth(self.book, b)))
        reason = "like in words"
        if self.labels[a] == self.labels[b]:
            weight += NUMBER
            reason += ", one number or name"
        headed = alike(self.headings[a], self.headings[b])
        if headed >= LIKE_HEADING:
            weight += HEADING * headed
            reason += ", like headings"
        names = self.naming.apart(a, b) if weight >= LEAST else None
        if names:
            parted = max(likeness - NAMED, LEAST)
            return parted, f"like in words, but named otherwise ({names[0]}, {names[1]})", True
        return weight, reason, False


@dataclass(frozen=True, slots=True)
class Links:
    """The evidence on every pair of items that may be one.

    `strong` are the links that may stand, and `near[i]` those of item i, the likest first. The other pairs
    have too few words in common to stand: `weak[i]` are those that item i makes a pair with, and such a pair
    is weighed only when it is asked for. `shared` says of all pairs, in order, how like their sets of words
    are, to within ROUNDING.
    """

    strong: Mapping[Pair, Link]
    near: Mapping[int, Sequence[Link]]
    weak: Mapping[int, Sequence[int]]
    shared: Sequence[tuple[Pair, float]]
    scales: _Scales
    weighed: dict[Pair, Link] = field(default_factory=dict)

    def between(self, a: int, b: int) -> Link | None:
        """Return the link of two items, None where they were not worth looking at."""
        pair = (a, b) if a < b else (b, a)
        if b in self.weak.get(a, ()):
            return self._weak(pair)
        return self.strong.get(pair)

    def of(self, number: int, above: float = -1.0) -> Iterator[Link]:
        """Yield the links of an item liker than something, the likest first.

        The weak are weighed when it comes to them.
        """
        held = self.near.get(number, ())
        likely = next((at for at, link in enumerate(held) if link.likeness < LEAST), len(held))
        yield from takewhile(lambda link: link.likeness > above, held[:likely])
        if above < LEAST:
            weak = ((min(number, other), max(number, other)) for other in self.weak.get(number, ()))
            rest = sorted([*held[likely:], *map(self._weak, weak)], key=_likest)
            yield from takewhile(lambda link: link.likeness > above, rest)

    def _weak(self, pair: Pair) -> Link:
        found = self.weighed.get(pair)
        if found is None:
            found = self.weighed[pair] = self.scales.link(pair)
        return found


def links(book: Corpus, key: Key, others: Iterable[Pair] = (), judge: Judge | None = None) -> Links:
    """Return the evidence on every pair of items that may be one; `others` are pairs to look at besides.

    The `judge` is asked whether two names are of one sense.
    """
    labels, headings = tuple(key(item.label) for item in book.items), tuple(map(heading_of, book.items))
    grounds, seen = told(book, headings), set(candidates(book))
    by_label = set(same_label(book, labels))
    asked = {*grounds, *others}
    unseen = {
        pair for pair in by_label - seen - grounds.keys() if pair not in asked or quick(book, *pair) >= FAINT
    }
    scales = _Scales(book, labels, headings, grounds, unseen, Naming(book, judge))
    pairs = sorted({*asked, *seen, *by_label})
    shared: list[tuple[Pair, float]] = []
    strong: dict[Pair, Link] = {}
    weak: dict[int, list[int]] = defaultdict(list)
    found = overlaps(book, pairs)
    for pair, sets, most in zip(pairs, found.sets, found.most, strict=True):
        if pair not in asked and not _is_seen(book, pair, sets):
            continue
        shared.append((pair, sets))
        if pair in asked or most >= LEAST or most + scales.beside(pair) >= LEAST - CLOSE:
            strong[pair] = scales.link(pair)
        else:
            weak[pair[0]].append(pair[1])
            weak[pair[1]].append(pair[0])
    strong = _in_company(book, strong)
    return Links(strong, _near(strong.values()), weak, shared, scales)


def _by_ground(ground: str, likeness: float) -> float:
    """Return the weight of two items matched by their kind, or by headings alone.

    Two prefaces answer to one another, whatever they say, unless what is of another kind says the same.
    """
    if ground is BARE:
        return LEAST
    return 1.0 + likeness if ground is ALL else BY_KIND + likeness / 2


def _in_company(book: Corpus, strong: Mapping[Pair, Link]) -> dict[Pair, Link]:
    """Return the links, those that may stand weighed for the items before and after either that are alike."""
    found: dict[Pair, Link] = {}
    for (a, b), link in strong.items():
        beside = [
            near
            for step in (-1, 1)
            if _stands_by(book, a, step) and _stands_by(book, b, step)
            if (near := strong.get((a + step, b + step))) and near.likeness >= SAFE
        ]
        company = bool(beside) and link.weight >= LEAST
        found[a, b] = replace(link, weight=link.weight + NEIGHBOUR * len(beside)) if company else link
    return found


def _stands_by(book: Corpus, number: int, step: int) -> bool:
    """Say whether the book of an item has one before it (step -1) or after it (step 1)."""
    return 0 <= book.place[number] + step < book.sizes[book.owner[number]]


def _is_seen(book: Corpus, pair: Pair, sets: float) -> bool:
    """Say whether two items have enough words in common to be looked at."""
    return quick(book, *pair) >= FAINT if abs(sets - FAINT) < ROUNDING else sets >= FAINT


def _near(links: Iterable[Link]) -> dict[int, list[Link]]:
    """Return the links of each item, the likest first."""
    found: dict[int, list[Link]] = defaultdict(list)
    for link in sorted(links, key=_likest):
        for number in link.pair:
            found[number].append(link)
    return found


def _likest(link: Link) -> tuple[float, Pair]:
    return -link.likeness, link.pair


def _alike_readings(ours: Sequence[Token], theirs: Sequence[Token]) -> float:
    """Return the share of a few words that may be the same: each by any of its headwords."""
    mine, yours = ([readings(token) for token in tokens if is_word(token)] for tokens in (ours, theirs))
    count = len(mine) + len(yours)
    shared = 0
    for ours_may_be in mine:
        at = next((at for at, others in enumerate(yours) if ours_may_be & others), None)
        if at is not None:
            yours.pop(at)
            shared += 1
    return 2 * shared / count


def _depth(book: Corpus, number: int) -> float:
    """Return how far into its book an item stands, from 0 to 1."""
    return book.place[number] / max(book.sizes[book.owner[number]] - 1, 1)
