"""How far two spellings are apart, counted in the alternations of Middle English spelling.

The method is the edit distance of R. A. Wagner and M. J. Fischer, "The string-to-string correction
problem", Journal of the ACM 21 (1974) 168-73, with moves of several letters: a move that the table of
alternations knows costs what the table says, any other letter costs a whole step.
"""

import re
from collections.abc import Callable, Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from heapq import heappop, heappush
from types import MappingProxyType
from typing import NamedTuple

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
    """Return the cheapest way from `a` to `b`, both lexicon keys, or FAR beyond `limit`.

    It is the cheaper of the way there and the way back: a letter may stand where it changes in one word only.
    Only cells within the limit are ever opened, so that unlike forms are done with at once.
    """
    if a == b:
        return Distance(0.0)
    if limit < 1.0 and not (_fast(b) <= _letters_of(a) and _fast(a) <= _letters_of(b)):
        return _FARTHER
    there = _one_way(a, b, limit)
    if there.cost == 0.0:
        return there
    back = _one_way(b, a, min(limit, there.cost))
    return there if there.cost <= back.cost else Distance(back.cost, tuple(map(_turned, back.moves)))


def _one_way(a: str, b: str, limit: float) -> Distance:
    """Return the cheapest way on which every move stands where it wants to in the word it comes from."""
    reached: dict[tuple[int, int], _Cell] = {(0, 0): _Cell(0.0, ())}
    waiting = [(0, 0)]
    while waiting:
        i, j = heappop(waiting)
        for to, cell in _onward(a, b, i, j, reached[i, j], limit):
            known = reached.get(to)
            if known is None:
                heappush(waiting, to)
            if known is None or cell.cost < known.cost - 1e-9:
                reached[to] = cell
    end = reached.get((len(a), len(b)))
    return Distance(round(end.cost, 3), end.way) if end else _FARTHER


def _turned(move: str) -> str:
    """Return the name of a move taken the other way."""
    if found := re.fullmatch("(.) (lacking|more)", move):
        return f"{found[1]} {'more' if found[2] == 'lacking' else 'lacking'}"
    found = re.fullmatch("(.) for (.)", move)
    return f"{found[2]} for {found[1]}" if found else move


_FARTHER = Distance(FAR)


@lru_cache(maxsize=65536)
def _letters_of(word: str) -> frozenset[str]:
    return frozenset(word)


@lru_cache(maxsize=65536)
def _fast(word: str) -> frozenset[str]:
    """Return the consonants of a word that no alternation takes away where they stand."""
    return frozenset(
        letter
        for letter, loose in _loose().items()
        if letter in word and word.count(letter) > len(_covered(word, letter, loose))
    )


def _covered(word: str, letter: str, loose: tuple[str, ...]) -> set[int]:
    """Return where a letter stands within letters that may change into others without it."""
    covered: set[int] = set()
    for start in loose:
        at = word.find(start)
        while at >= 0:
            covered.update(at + k for k, other in enumerate(start) if other == letter)
            at = word.find(start, at + 1)
    return covered


@cache
def _loose() -> dict[str, tuple[str, ...]]:
    """Return, for the consonants that seldom come or go, the letters among which they do."""
    return {
        letter: tuple({row.start for row in alternations() if letter in row.start and letter not in row.end})
        for letter in "bflmnprt"
    }


class _Cell(NamedTuple):
    """The cheapest cost of reaching a cell, and the names of the moves that led there."""

    cost: float
    way: tuple[str, ...]


def _moves(a: str, i: int) -> tuple[Alternation, ...]:
    """Return the alternations that may begin at letter i of a word, in their places."""
    starts, before = _by_start(), a[:i]
    rows = [*starts.get("", ())]
    for length in range(1, min(_longest(), len(a) - i) + 1):
        if starting := starts.get(a[i : i + length]):
            after = a[i + length :]
            rows.extend([row for row in starting if row.where == "any" or _PLACES[row.where](before, after)])
    return tuple(rows)


_ByLetter = Mapping[str, Sequence[Alternation]]
"""Alternations by the first letter of what they lead to, "" where they only take letters away."""


@cache
def _added() -> _ByLetter:
    """Return the alternations that put letters in."""
    return _by_letter(_by_start().get("", ()))


@lru_cache(maxsize=65536)
def _changed(a: str, i: int) -> _ByLetter:
    """Return the alternations that may take or change letter i of a word, in their places."""
    return _by_letter([row for row in _moves(a, i) if row.start])


def _by_letter(rows: Iterable[Alternation]) -> _ByLetter:
    found: dict[str, list[Alternation]] = {}
    for row in rows:
        found.setdefault(row.end[:1], []).append(row)
    return found


def _onward(a: str, b: str, i: int, j: int, here: _Cell, limit: float) -> list[tuple[tuple[int, int], _Cell]]:
    """Return the cells that a cell leads to within the limit, by every move that fits there.

    Cells are opened in the order of their letters, so that each is reached by all its ways before it
    is left.
    """
    room = limit - here.cost + 1e-9
    found: list[tuple[tuple[int, int], _Cell]] = []
    if i < len(a) and j < len(b) and a[i] == b[j]:
        found.append(((i + 1, j + 1), here))
    elif room >= _VOWEL_STEP:
        found.extend(_plain_steps(a, b, i, j, here, room))
    letter, moves = b[j : j + 1], _changed(a, i)
    fitting = (*_added().get(letter, ()), *moves.get(letter, ())) if letter else ()
    for row in (*moves.get("", ()), *fitting):
        if row.cost <= room and b.startswith(row.end, j):
            if not row.start and not _stands(row.where, b, j, j + len(row.end)):
                continue
            to = (i + len(row.start), j + len(row.end))
            found.append((to, _Cell(here.cost + row.cost, (*here.way, row.name))))
    return found


def _plain_steps(
    a: str, b: str, i: int, j: int, here: _Cell, room: float
) -> Iterator[tuple[tuple[int, int], _Cell]]:
    """Yield the single letters that may be passed over or exchanged at their full cost."""
    steps = []
    if i < len(a):
        steps.append(((i + 1, j), _step(a[i]), f"{a[i]} lacking"))
    if j < len(b):
        steps.append(((i, j + 1), _step(b[j]), f"{b[j]} more"))
    if i < len(a) and j < len(b):
        vowels = a[i] in VOWELS and b[j] in VOWELS
        steps.append(((i + 1, j + 1), _VOWEL_STEP if vowels else _STEP, f"{a[i]} for {b[j]}"))
    for to, cost, name in steps:
        if cost <= room:
            yield to, _Cell(here.cost + cost, (*here.way, name))


def _step(letter: str) -> float:
    return _VOWEL_STEP if letter in VOWELS else _STEP


def _stands(where: str, word: str, start: int, stop: int) -> bool:
    """Say whether letters [start, stop) of a word stand where an alternation wants them."""
    return where == "any" or _PLACES[where](word[:start], word[stop:])


_FRONT, _BACK, _NASAL, _MINIM = map(frozenset, ("ei", "aou", "mn", "mnuw"))
_OF_ER = frozenset("eiur")
_PLACES: Mapping[str, Callable[[str, str], bool]] = MappingProxyType(
    {
        "initial": lambda before, after: before == "",
        "prefix": lambda before, after: before == "" and len(after) > 2,
        "medial": lambda before, after: before != "" and after != "",
        "final": lambda before, after: after == "",
        "ending": lambda before, after: after == "" and not VOWELS.isdisjoint(before),
        "after-vowel": lambda before, after: before[-1:] in VOWELS,
        "stressed": lambda before, after: VOWELS.isdisjoint(before),
        "unstressed": lambda before, after: (
            after != "" and after[0] not in VOWELS and not VOWELS.isdisjoint(before)
        ),
        "between-vowel-and-er": lambda before, after: before[-1:] in VOWELS and after[:1] in _OF_ER,
        "before-consonant": lambda before, after: after != "" and after[0] not in VOWELS,
        "before-front-vowel": lambda before, after: after[:1] in _FRONT,
        "before-back-vowel": lambda before, after: after[:1] in _BACK,
        "before-nasal": lambda before, after: after[:1] in _NASAL,
        "before-minim": lambda before, after: after[:1] in _MINIM,
        "before-r": lambda before, after: after[:1] == "r",
        "before-t": lambda before, after: after[:1] == "t",
    }
)
"""Whether letters stand in each place of the table, by those before them in their word and those after."""


def one_move_away(word: str, limit: float, wanted: Container[str]) -> tuple[tuple[str, str], ...]:
    """Return the wanted forms that one alternation of at most `limit` makes of a key, the cheapest first.

    Each comes with the name of its row.
    """
    found: dict[str, tuple[float, str]] = {}
    for at in range(len(word) + 1):
        for row in _moves(word, at):
            if row.cost > limit or not (row.start or at):
                continue
            other = word[:at] + row.end + word[at + len(row.start) :]
            if other == word or other not in wanted:
                continue
            fits = row.start or _stands(row.where, other, at, at + len(row.end))
            if fits and row.cost < found.get(other, (FAR, ""))[0]:
                found[other] = (row.cost, row.name)
    ordered = sorted(found.items(), key=lambda item: (item[1][0], item[0]))
    return tuple((other, name) for other, (_, name) in ordered)
