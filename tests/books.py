"""Whole books whose truth is known: a collection of recipes copied down a random tree, reordered, with losses.

Every item keeps the number of the recipe it holds. Twins are two recipes in nearly the same words; a copy may
cut one recipe in two items, or write two under one number. Numbers are each copy's own, so that equal numbers
mean nothing, and headings are wanting as often as not.
"""

import random
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from tests.scribes import FUNCTION, Rates, Scribe, Word, copy, vocabulary

OPENINGS = ("take (verb)", "then (adverb)", "for (preposition)")


@dataclass(frozen=True)
class Shape:
    """How large a book is, and how its copies part from it.

    Every copy cuts `splits` recipes in two, and `joins` copies write two under one number.
    """

    items: int = 60
    copies: int = 7
    words: int = 75
    twins: int = 10
    losses: float = 0.15
    splits: int = 1
    joins: int = 2
    moves: int = 4
    headed: float = 0.5
    rates: Rates = field(default_factory=Rates)


@dataclass(frozen=True)
class Copied:
    """One item of a copy: its own label and heading, the recipes it holds, its words."""

    label: str
    heading: str
    holds: tuple[int, ...]
    words: tuple[Word, ...]


@dataclass(frozen=True)
class Book:
    """The copies of a book by siglum, each in its own order; `twins` are pairs of recipes in like words."""

    copies: dict[str, tuple[Copied, ...]]
    twins: tuple[tuple[int, int], ...]

    def text(self, siglum: str) -> str:
        """Return a copy as it would be transcribed."""
        return "\n\n".join(
            f"## {item.label} {item.heading}".rstrip() + "\n" + " ".join(word.written for word in item.words)
            for item in self.copies[siglum]
        )


@dataclass(frozen=True)
class Stock:
    """The words of one author, by kind, the commonest first."""

    words: dict[str, list[str]]
    chance: random.Random

    def draw(self, kind: str) -> str:
        """Return a word of a kind: the rank falls off as in any text (about one in rank)."""
        words = self.words[kind]
        return words[min(int(len(words) ** self.chance.random()) - 1, len(words) - 1)]


def stock(chance: random.Random) -> Stock:
    """Return an author's words: some hundred nouns, half as many verbs."""
    known = vocabulary()
    sizes = {"noun": 140, "verb": 50, "adjective": 40, "adverb": 20}
    return Stock({kind: chance.sample(sorted(known[kind]), size) for kind, size in sizes.items()}, chance)


def recipe(length: int, words: Stock) -> list[Word]:
    """Return a recipe: an opening, sentences of the author's words, a close that all recipes share."""
    chance = words.chance
    patterns = ["v f n f n", "v f a n", "f v f f n", "n f n f n", "v f d", "f q n", "v f n f a n"]
    found = [_word("verb", chance.choice(words.words["verb"][:2]))]
    while len(found) < length - 4:
        for sort in chance.choice(patterns).split():
            if sort == "q":
                found.append(_word("numeral", str(chance.randint(1, 10))))
            elif sort == "f":
                found.append(_word("function", chance.choice(FUNCTION[:-1])))
            else:
                kind = {"v": "verb", "n": "noun", "a": "adjective", "d": "adverb"}[sort]
                found.append(_word(kind, words.draw(kind)))
    close = [
        ("function", FUNCTION[0]),
        ("verb", words.words["verb"][2]),
        ("adverb", words.words["adverb"][0]),
    ]
    return [*found, *(_word(kind, identity) for kind, identity in close)]


def _word(kind: str, identity: str) -> Word:
    return Word((0,), kind, identity)


def twin(first: Sequence[Word], words: Stock) -> list[Word]:
    """Return another recipe in nearly the same words: one content word in six is another, the rest stands."""
    chance = words.chance
    content = ("noun", "verb", "adjective", "adverb")
    return [
        replace(word, identity=chance.choice(words.words[word.kind]))
        if word.kind in content and chance.random() < 1 / 6
        else word
        for word in first
    ]


def book(seed: int, shape: Shape | None = None) -> Book:
    """Return the copies of a book of this shape."""
    shape = shape or Shape()
    chance = random.Random(seed)
    words = stock(chance)
    plain = shape.items - shape.twins
    recipes = [recipe(max(20, int(chance.gauss(shape.words, shape.words / 4))), words) for _ in range(plain)]
    twins = tuple((first, plain + at) for at, first in enumerate(chance.sample(range(plain), shape.twins)))
    recipes.extend(twin(recipes[first], words) for first, _ in twins)
    order = list(range(shape.items))
    chance.shuffle(order)
    scribes = [Scribe(random.Random(chance.random()), shape.rates) for _ in range(int(shape.copies * 1.5))]
    fresh = [10_000]
    made: list[list[list[Word]]] = [recipes]
    for scribe in scribes:
        model = chance.choice(made)
        made.append([copy(text, scribe, fresh)[0] for text in model])
    kept = sorted(chance.sample(range(1, len(made)), shape.copies))
    joining = chance.sample(range(shape.copies), min(shape.joins, shape.copies))
    copies = {
        f"W{number}": _bound(
            made[index], order, scribes[index - 1], replace(shape, joins=joining.count(number))
        )
        for number, index in enumerate(kept)
    }
    return Book(copies, twins)


def _bound(
    texts: Sequence[Sequence[Word]], order: Sequence[int], scribe: Scribe, shape: Shape
) -> tuple[Copied, ...]:
    """Return a copy as it is bound: its own order, its losses, its divisions, its numbers."""
    chance = scribe.chance
    sequence = _moved(list(order), chance, shape.moves)
    sequence = _lost(sequence, chance, shape.losses)
    parts: list[tuple[tuple[int, ...], Sequence[Word]]] = [((number,), texts[number]) for number in sequence]
    parts = _joined(_split(parts, chance, shape.splits), chance, shape.joins)
    numbers = chance.choice(["arabic", "roman", "name"])
    return tuple(
        Copied(_label(at, numbers), _heading(text, scribe, shape.headed), holds, tuple(text))
        for at, (holds, text) in enumerate(parts, 1)
    )


def _moved(sequence: list[int], chance: random.Random, moves: int) -> list[int]:
    for _ in range(moves):
        length, start = chance.randint(1, 6), chance.randrange(len(sequence))
        block = sequence[start : start + length]
        del sequence[start : start + length]
        home = chance.randrange(len(sequence) + 1)
        sequence[home:home] = block
    return sequence


def _lost(sequence: list[int], chance: random.Random, losses: float) -> list[int]:
    """Lose a share of the items: a third of them in one run (a leaf), the rest one by one."""
    count = round(len(sequence) * losses)
    leaf, start = count // 3, chance.randrange(len(sequence))
    sequence = sequence[:start] + sequence[start + leaf :]
    gone = set(chance.sample(sequence, count - leaf))
    return [number for number in sequence if number not in gone]


Parts = list[tuple[tuple[int, ...], Sequence[Word]]]


def _split(parts: Parts, chance: random.Random, splits: int) -> Parts:
    """Cut some recipes in two items that follow one another."""
    cut = set(chance.sample(range(len(parts)), min(splits, len(parts))))
    found: Parts = []
    for at, (holds, text) in enumerate(parts):
        if at in cut and len(text) > 30:
            middle = int(len(text) * chance.uniform(0.35, 0.65))
            found.extend([(holds, text[:middle]), (holds, text[middle:])])
        else:
            found.append((holds, text))
    return found


def _joined(parts: Parts, chance: random.Random, joins: int) -> Parts:
    """Write some neighbours under one number."""
    for _ in range(joins):
        at = chance.randrange(len(parts) - 1)
        (ours, first), (theirs, second) = parts[at : at + 2]
        if ours != theirs:
            parts[at : at + 2] = [((*ours, *theirs), (*first, *second))]
    return parts


def _label(number: int, kind: str) -> str:
    if kind == "arabic":
        return str(number)
    if kind == "name":
        return f"r{number}"
    tens = ["", "x", "xx", "xxx", "xl", "l", "lx", "lxx", "lxxx", "xc"]
    units = ["", "j", "ij", "iij", "iiij", "v", "vj", "vij", "viij", "ix"]
    return "c" * (number // 100) + tens[number // 10 % 10] + units[number % 10]


def _heading(text: Sequence[Word], scribe: Scribe, headed: float) -> str:
    if scribe.chance.random() > headed:
        return ""
    nouns = [word for word in text if word.kind == "noun"][:2]
    return " in ".join(scribe.spell(replace(word, written="")).written for word in nouns).capitalize()


def answers(copies: dict[str, tuple[Copied, ...]]) -> dict[int, int]:
    """Return, for each recipe, the first of those that some copy writes under one number with it."""
    head: dict[int, int] = {}

    def of(number: int) -> int:
        while head.get(number, number) != number:
            number = head[number]
        return number

    for items in copies.values():
        for item in items:
            for other in item.holds[1:]:
                a, b = sorted((of(item.holds[0]), of(other)))
                head[b] = a
    return {number: of(number) for items in copies.values() for item in items for number in item.holds}
