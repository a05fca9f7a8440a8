"""Traditions whose truth is known: a text copied down a random tree by careless scribes.

Every word keeps the number of its place in the first text, through respelling, substitution and division;
what a scribe adds or doubles gets a number of its own; what he moves keeps its number and is marked.
"""

import random
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cache

from collate.lexicon.compile import rows
from collate.lexicon.distance import one_move_away

ROMAN = {1: "j", 2: "ij", 3: "iij", 4: "iiij", 5: "v", 6: "vj", 7: "vij", 8: "viij", 9: "ix", 10: "x"}
NUMBER_WORDS = {
    1: "on",
    2: "two",
    3: "thre",
    4: "foure",
    5: "fyue",
    6: "sixe",
    7: "seuen",
    8: "eyghte",
    9: "nyne",
    10: "ten",
}
COMPOUNDS = [
    ("ther", "to"),
    ("ther", "in"),
    ("ther", "with"),
    ("to", "gedre"),
    ("a", "none"),
    ("y", "nogh"),
    ("vp", "on"),
    ("with", "oute"),
]


SECOND = 5_000
"""What is added to the number of a place for the second half of a word that may be divided."""


@dataclass(frozen=True)
class Word:
    """A written word: the places of the first text it stands for, and what it is."""

    places: tuple[int, ...]
    kind: str
    identity: str
    written: str = ""
    moved: bool = False


@dataclass(frozen=True)
class Rates:
    """How often, per word, a scribe does what."""

    substitute: float = 0.02
    omit: float = 0.012
    add: float = 0.008
    skip: float = 0.12
    double: float = 0.004
    swap: float = 0.004
    move: float = 0.25
    divide: float = 0.3
    respell: float = 0.35
    notation: float = 0.3


@dataclass(frozen=True)
class Tradition:
    """The copies of one text, by siglum; `moves` are the phrases that changed place on the way to each."""

    witnesses: dict[str, tuple[Word, ...]]
    moves: dict[str, tuple[tuple[int, ...], ...]] = field(default_factory=dict)

    def text(self, siglum: str) -> str:
        """Return a copy as it would be transcribed."""
        return " ".join(word.written for word in self.witnesses[siglum])


@cache
def vocabulary() -> dict[str, dict[str, tuple[str, ...]]]:
    """Return, by kind, each headword's spellings of one part."""
    found: dict[str, dict[str, tuple[str, ...]]] = {}
    for name, word_class, kind, features, forms, *_ in rows():
        spellings = tuple(form for form in forms.split(" ") if form.isalpha() and len(form) > 1)
        first = features.split(",")[0]
        if len(spellings) < 2 or first not in (
            "-",
            "singular",
            "positive",
            "infinitive",
            "subject",
            "object",
        ):
            continue
        group = "function" if kind == "function" else word_class
        found.setdefault(group, {}).setdefault(f"{name} ({word_class})", spellings)
    return found


FUNCTION = ["and (conjunction)", "the (determiner)", "a (determiner)", "in (preposition)", "of (preposition)",
            "with (preposition)", "hit (pronoun)", "hem (pronoun)", "to (preposition)", "then (adverb)", "ye (pronoun)"]  # fmt: skip


class Everything:
    """A container that holds whatever it is asked for."""

    def __contains__(self, word: object) -> bool:
        return True


class Scribe:
    """A copyist with spelling habits of his own, drawn from a seeded chance."""

    def __init__(self, chance: random.Random, rates: Rates) -> None:
        self.chance = chance
        self.rates = rates
        self._habits: dict[str, str] = {}
        self._notation = chance.choice(["roman", "pointed", "arabic", "word"])

    def spell(self, word: Word) -> Word:
        """Write a word in this scribe's spelling."""
        if word.kind == "numeral":
            return replace(word, written=self._number(int(word.identity)))
        if word.kind == "part":
            return word
        if word.written and self.chance.random() > self.rates.respell:
            return word
        habit = self._habits.get(word.identity)
        if habit is None or self.chance.random() < 0.15:
            habit = self._habits[word.identity] = self.chance.choice(spellings(word.identity, self.chance))
        return replace(word, written=habit)

    def _number(self, value: int) -> str:
        notation = (
            self._notation if self.chance.random() > 0.1 else self.chance.choice(["roman", "arabic", "word"])
        )
        forms = {
            "roman": ROMAN[value],
            "pointed": f".{ROMAN[value]}.",
            "arabic": str(value),
            "word": NUMBER_WORDS[value],
        }
        return forms[notation]


def spellings(identity: str, chance: random.Random) -> tuple[str, ...]:
    """Return the spellings of a headword, or of a word nobody has listed (its identity is its first form)."""
    for words in vocabulary().values():
        if identity in words:
            return words[identity]
    near = [form for form, _ in one_move_away(identity, 0.2, Everything()) if form.isalpha()]
    return (identity, *near[:6])


def first_text(length: int, chance: random.Random, unlisted: float = 0.15) -> list[Word]:
    """Return a text of recipe-like sentences; a share of its content words stands in no lexicon."""
    words: list[Word] = []
    known = vocabulary()
    content = {kind: sorted(known[kind]) for kind in ("noun", "verb", "adjective", "adverb")}
    theme = {kind: chance.sample(content[kind], min(len(content[kind]), 40)) for kind in content}
    invented = [invent(chance) for _ in range(20)]
    while len(words) < length:
        pattern = chance.choice(
            ["v f n f n", "v f a n", "f v f f n", "n f n f n", "v f d", "f q n", "v f n c", "f a n f n"]
        )
        for sort in pattern.split():
            place = (len(words),)
            if sort == "q":
                words.append(Word(place, "numeral", str(chance.randint(1, 10))))
            elif sort == "f":
                words.append(Word(place, "function", chance.choice(FUNCTION[:-1])))
            elif sort == "c":
                a, b = chance.choice(COMPOUNDS)
                words.append(Word((*place, SECOND + len(words)), "compound", a + b, a + b))
            elif chance.random() < unlisted:
                words.append(Word(place, "invented", chance.choice(invented)))
            else:
                kind = {"v": "verb", "n": "noun", "a": "adjective", "d": "adverb"}[sort]
                words.append(Word(place, kind, chance.choice(theme[kind])))
    return words[:length]


def invent(chance: random.Random) -> str:
    """Return a word that no dictionary has, in plausible letters."""
    onset = [
        "b",
        "br",
        "c",
        "ch",
        "d",
        "f",
        "fl",
        "g",
        "gr",
        "h",
        "l",
        "m",
        "p",
        "pr",
        "r",
        "s",
        "sp",
        "st",
        "t",
        "th",
        "w",
    ]
    vowel, coda = (
        ["a", "e", "i", "o", "u", "ou", "ai", "ei"],
        ["l", "m", "n", "r", "s", "t", "nd", "rt", "st", "ll", "pp", "ck"],
    )
    return "".join(
        chance.choice(onset) + chance.choice(vowel) + chance.choice(coda) for _ in range(2)
    ) + chance.choice(["", "e"])


def copy(words: Sequence[Word], scribe: Scribe, fresh: list[int]) -> tuple[list[Word], list[tuple[int, ...]]]:
    """Copy a text with this scribe's slips; `fresh[0]` is the next free place number."""
    chance, rates = scribe.chance, scribe.rates
    moved: list[tuple[int, ...]] = []
    words = list(words)
    if len(words) > 30 and chance.random() < rates.move:
        moved.append(_move(words, chance))
    if len(words) > 20 and chance.random() < rates.skip:
        _skip(words, chance)
    out: list[Word] = []
    at = 0
    while at < len(words):
        word = words[at]
        draw = chance.random()
        if draw < rates.omit:
            at += chance.choice([1, 1, 1, 2, 3])
            continue
        if draw < rates.omit + rates.substitute and word.kind in ("noun", "verb", "adjective", "adverb"):
            word = replace(word, identity=chance.choice(sorted(vocabulary()[word.kind])), written="")
        out.extend(_divided(scribe.spell(word), scribe))
        if chance.random() < rates.double:
            out.append(replace(out[-1], places=tuple(_new(fresh) for _ in out[-1].places)))
        if chance.random() < rates.add:
            for _ in range(chance.choice([1, 1, 2, 3])):
                kind = chance.choice(["function", "noun", "adverb"])
                identity = chance.choice(FUNCTION[:-1] if kind == "function" else sorted(vocabulary()[kind]))
                out.append(scribe.spell(Word((_new(fresh),), kind, identity)))
        if len(out) > 1 and chance.random() < rates.swap:
            out[-1], out[-2] = replace(out[-2], moved=True), replace(out[-1], moved=True)
        at += 1
    return out, moved


def _new(fresh: list[int]) -> int:
    fresh[0] += 1
    return fresh[0]


def _move(words: list[Word], chance: random.Random) -> tuple[int, ...]:
    length, start = chance.randint(2, 5), chance.randrange(5, len(words) - 12)
    phrase = [replace(word, moved=True) for word in words[start : start + length]]
    del words[start : start + length]
    far = chance.randint(6, 20)
    home = start + far if start + far < len(words) else max(0, start - far)
    words[home:home] = phrase
    return tuple(place for word in phrase for place in word.places)


def _skip(words: list[Word], chance: random.Random) -> None:
    """Jump from a word to the next of its kind: what lies between is lost, and one of the two."""
    pairs = [
        (a, b)
        for a in range(len(words))
        for b in range(a + 3, min(a + 14, len(words)))
        if words[a].identity == words[b].identity and words[a].kind != "numeral"
    ]
    if pairs:
        a, b = chance.choice(pairs)
        del words[a + 1 : b + 1]


def _divided(word: Word, scribe: Scribe) -> list[Word]:
    if word.kind != "compound" or scribe.chance.random() > scribe.rates.divide:
        return [word]
    a, b = next(pair for pair in COMPOUNDS if "".join(pair) == word.identity)
    if scribe.chance.random() < 0.5:
        return [replace(word, written=a + b)]
    first, second = word.places
    return [
        replace(word, places=(first,), kind="part", written=a),
        replace(word, places=(second,), kind="part", written=b),
    ]


def tradition(witnesses: int, length: int, seed: int, rates: Rates | None = None) -> Tradition:
    """Return copies of one text: each new copy is made from a random earlier one, and some are lost."""
    chance = random.Random(seed)
    rates = rates or Rates()
    first = first_text(length, chance)
    fresh = [10_000]
    made: list[tuple[list[Word], list[tuple[int, ...]]]] = [(first, [])]
    for _ in range(int(witnesses * 1.5)):
        model, moves = chance.choice(made)
        scribe = Scribe(random.Random(chance.random()), rates)
        words, moved = copy(model, scribe, fresh)
        made.append((words, moves + moved))
    kept = sorted(chance.sample(range(1, len(made)), witnesses))
    sigla = [f"W{number:02}" for number in range(witnesses)]
    return Tradition(
        {siglum: tuple(made[index][0]) for siglum, index in zip(sigla, kept, strict=True)},
        {siglum: tuple(made[index][1]) for siglum, index in zip(sigla, kept, strict=True)},
    )
