"""How far two spellings are apart, counted in the alternations of Middle English spelling.

The method is the edit distance of R. A. Wagner and M. J. Fischer, "The string-to-string correction
problem", Journal of the ACM 21 (1974) 168-73, with moves of several letters: a move that the table of
alternations knows costs what the table says, any other letter costs a whole step.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, lru_cache

from collate.lexicon.tables import table

VOWELS = frozenset("aeiou")
FAR = 9.0
"""What is said of forms too far apart to be measured."""

_VOWEL_STEP, _STEP = 0.6, 1.0


@dataclass(frozen=True, slots=True)
class Alternation:
    """One row of the table: these letters for those, in a place, at a cost."""

    name: str
    start: str
    end: str
    where: str
    cost: float
    authority: str


@dataclass(frozen=True, slots=True)
class Distance:
    """The cost of the cheapest way from one form to another, and the rows it goes by."""

    cost: float
    moves: tuple[str, ...] = ()


@cache
def alternations() -> tuple[Alternation, ...]:
    """Return the table's rows, both ways round, in the letters of a lexicon key (i for y, u for v)."""
    columns = ("id", "from", "to", "where", "cost", "note", "authority")
    found: dict[tuple[str, str, str], Alternation] = {}
    for name, start, end, where, cost, _, authority in table("alternations", *columns):
        a, b = _letters(start), _letters(end)
        for one, other in ((a, b), (b, a)):
            row = Alternation(name, one, other, where, float(cost), authority)
            known = found.get((one, other, where))
            if one != other and (known is None or row.cost < known.cost):
                found[one, other, where] = row
    return tuple(found.values())


def _letters(text: str) -> str:
    return "" if text == "-" else text.translate(_KEY).replace("ȝ", "gh")


_KEY = str.maketrans({"þ": "th", "ð": "th", "v": "u", "j": "i", "y": "i"})


@cache
def _by_start() -> dict[str, tuple[Alternation, ...]]:
    rows: dict[str, list[Alternation]] = {}
    for row in alternations():
        rows.setdefault(row.start, []).append(row)
    return {start: tuple(found) for start, found in rows.items()}


@cache
def _longest() -> int:
    return max(len(start) for start in _by_start())


@lru_cache(maxsize=200_000)
def distance(a: str, b: str, limit: float) -> Distance:
    """Return the cheapest way from `a` to `b`, both lexicon keys, or FAR beyond `limit`."""
    if a == b:
        return Distance(0.0)
    if _hopeless(a, b, limit):
        return Distance(FAR)
    width = len(b) + 1
    best = [FAR] * ((len(a) + 1) * width)
    came: list[tuple[int, str]] = [(-1, "")] * len(best)
    best[0] = 0.0
    for i in range(len(a) + 1):
        moves = _moves(a, i)
        for j in range(width):
            here = best[i * width + j]
            if here <= limit:
                _spread(a, b, i, j, here, moves, best, came)
    if best[-1] > limit:
        return Distance(FAR)
    return Distance(round(best[-1], 3), _way(came, len(best) - 1))


def _hopeless(a: str, b: str, limit: float) -> bool:
    """Say whether the letters alone show that the forms are far apart."""
    return abs(len(a) - len(b)) > 3 + limit or not (set(a) & set(b))


@lru_cache(maxsize=65536)
def _moves(a: str, i: int) -> tuple[Alternation, ...]:
    """Return the alternations that may begin at letter i of a word, in their places."""
    rows: list[Alternation] = []
    for length in range(min(_longest(), len(a) - i) + 1):
        starting = _by_start().get(a[i : i + length], ())
        rows.extend(row for row in starting if not length or _stands(row.where, a, i, i + length))
    return tuple(rows)


def _spread(
    a: str,
    b: str,
    i: int,
    j: int,
    here: float,
    moves: tuple[Alternation, ...],
    best: list[float],
    came: list[tuple[int, str]],
) -> None:
    """Carry the cost of a cell on by every move that fits there."""
    width, at = len(b) + 1, i * (len(b) + 1) + j

    def reach(down: int, right: int, cost: float, name: str) -> None:
        to = at + down * width + right
        if here + cost < best[to] - 1e-9:
            best[to] = here + cost
            came[to] = (at, name)

    if i < len(a) and j < len(b) and a[i] == b[j]:
        reach(1, 1, 0.0, "")
    else:
        _plain_steps(a, b, i, j, reach)
    for row in moves:
        if b.startswith(row.end, j) and (row.start or _stands(row.where, b, j, j + len(row.end))):
            reach(len(row.start), len(row.end), row.cost, row.name)


def _plain_steps(a: str, b: str, i: int, j: int, reach: Callable[[int, int, float, str], None]) -> None:
    if i < len(a):
        reach(1, 0, _step(a[i]), f"{a[i]} lacking")
    if j < len(b):
        reach(0, 1, _step(b[j]), f"{b[j]} more")
    if i < len(a) and j < len(b):
        vowels = a[i] in VOWELS and b[j] in VOWELS
        reach(1, 1, _VOWEL_STEP if vowels else _STEP, f"{a[i]} for {b[j]}")


def _step(letter: str) -> float:
    return _VOWEL_STEP if letter in VOWELS else _STEP


def _way(came: list[tuple[int, str]], at: int) -> tuple[str, ...]:
    names = []
    while at > 0:
        at, name = came[at]
        if name:
            names.append(name)
    return tuple(reversed(names))


@lru_cache(maxsize=262144)
def _stands(where: str, word: str, start: int, stop: int) -> bool:
    """Say whether letters [start, stop) of a word stand where an alternation wants them."""
    before, after = word[:start], word[stop:]
    following = after[:1]
    if where.startswith("before-"):
        return following != "" and _before(where.removeprefix("before-"), following)
    places = {
        "any": True,
        "initial": start == 0,
        "prefix": start == 0 and len(after) > 2,
        "medial": start > 0 and after != "",
        "final": after == "",
        "ending": after == "" and not VOWELS.isdisjoint(before),
        "after-vowel": before[-1:] in VOWELS and before != "",
        "stressed": VOWELS.isdisjoint(before),
        "unstressed": not VOWELS.isdisjoint(before) and after != "" and following not in VOWELS,
        "between-vowel-and-er": before[-1:] in VOWELS and before != "" and after[:1] in ("e", "i", "u", "r"),
    }
    return places[where]


def _before(what: str, letter: str) -> bool:
    letters = {
        "consonant": letter not in VOWELS,
        "front-vowel": letter in "ei",
        "back-vowel": letter in "aou",
        "nasal": letter in "mn",
        "minim": letter in "mnuw",
        "r": letter == "r",
        "t": letter == "t",
    }
    return letters[what]
