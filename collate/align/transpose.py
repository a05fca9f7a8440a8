"""Words that stand elsewhere in some witnesses: found by what crosses the alignment, each verified.

Where a word stands in one column in some witnesses and in another column in others, and neither side has
it in both, it may have been moved. Such crossings are drawn out to both sides as far as the witnesses
agree. A run counts if its words are too rare in the item to stand so twice by chance, and not all of them
are numbers or function words, which stand anywhere; a single word only if it stands nowhere else, over REACH
words, or over FAR_REACH where each side has nothing in the other's place.
"""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, replace
from itertools import combinations, product
from math import log

from collate.align.divide import is_word
from collate.model.bones import bones
from collate.model.collation import Column, Transposition
from collate.model.division import joined
from collate.model.form import Form, Judge, form_of, one_word
from collate.model.witness import Item, TokenKind

REACH = 3
"""Over how many words a single word is still seen to have moved."""

FAR_REACH = 20
"""The same, where each side has nothing at all in the other's place."""

CHANCE = 1.05
"""How much rarer than the item is long a run must be: the sum of ln(columns / places) over ln(columns)."""

MOST_PLACES = 8
"""A word that stands in more columns than this is too common to begin a crossing."""

_NONE = -1

_Cells = list[dict[int, tuple[Form, str]]]
"""For each column of words, the form and the identity of each witness that has one word there."""


@dataclass(frozen=True, slots=True)
class _Crossing:
    """Columns here and there that hold the same words, their identities, and the witnesses of each side.

    One identity for each column here. A word that one of theirs has in both places goes along, but its
    identity, left empty, counts for nothing; so does the second half of a word divided here and whole there.
    """

    here: tuple[int, ...]
    there: tuple[int, ...]
    words: tuple[str, ...]
    ours: frozenset[int]
    theirs: frozenset[int]


def transpositions(
    columns: Sequence[Column], sigla: Sequence[str], items: Sequence[Item], judge: Judge
) -> tuple[Transposition, ...]:
    """Return the words that were moved, by witness and place.

    The side of fewer witnesses is the one that moved; of equal sides, the one that stands later.
    """
    cells, numbers = _cells(columns, items, judge)
    found: list[Transposition] = []
    used: set[tuple[int, int]] = set()
    crossings = sorted(
        dict.fromkeys(_crossings(cells, judge)),
        key=lambda c: (-len(c.here), c.here, c.there, sorted(c.ours), sorted(c.theirs), c.words),
    )
    for each in crossings:
        crossing = _without(each, used)
        if not (crossing.ours and crossing.theirs):
            continue
        moved, home, witnesses = _sides(crossing)
        used |= {(w, c) for w in crossing.ours for c in crossing.here}
        used |= {(w, c) for w in crossing.theirs for c in crossing.there}
        for w in sorted(witnesses):
            start = columns[numbers[moved[0]]].spans[w].start
            stop = columns[numbers[moved[-1]]].spans[w].stop
            if start < stop:
                found.append(Transposition(sigla[w], start, stop, numbers[home[0]], numbers[home[-1]] + 1))
    return tuple(sorted(found, key=lambda t: (t.home, t.siglum, t.start)))


def _without(crossing: _Crossing, used: Set[tuple[int, int]]) -> _Crossing:
    """Return a crossing without the witnesses of which another has taken words."""
    ours = frozenset(w for w in crossing.ours if not any((w, c) in used for c in crossing.here))
    theirs = frozenset(w for w in crossing.theirs if not any((w, c) in used for c in crossing.there))
    return replace(crossing, ours=ours, theirs=theirs)


def _sides(crossing: _Crossing) -> tuple[tuple[int, ...], tuple[int, ...], frozenset[int]]:
    """Return the columns moved to, the columns at home, and the witnesses that moved."""
    if len(crossing.ours) < len(crossing.theirs):
        return crossing.here, crossing.there, crossing.ours
    return crossing.there, crossing.here, crossing.theirs


def _cells(columns: Sequence[Column], items: Sequence[Item], judge: Judge) -> tuple[_Cells, list[int]]:
    """Return the columns that hold words, and the number of each among all columns."""
    cells: _Cells = []
    numbers: list[int] = []
    known: dict[tuple[Form, ...], tuple[Form, str]] = {}
    for number, column in enumerate(columns):
        row: dict[int, tuple[Form, str]] = {}
        for w, span in enumerate(column.spans):
            tokens = items[w].tokens[span.start : span.stop]
            if forms := tuple([form_of(token) for token in tokens if is_word(token)]):
                if forms not in known:
                    whole = joined(forms)
                    known[forms] = whole, judge.keys(whole)[0]
                row[w] = known[forms]
        if row:
            cells.append(row)
            numbers.append(number)
    return _with_one_identity(cells, judge), numbers


def _with_one_identity(cells: _Cells, judge: Judge) -> _Cells:
    """Give forms that are one word one identity throughout: those of one column, and unlisted ones."""
    heads: dict[str, str] = {}

    def head(identity: str) -> str:
        while heads.get(identity, identity) != identity:
            identity = heads[identity]
        return identity

    for forms in (*(dict.fromkeys(row.values()) for row in cells), *_apart(cells)):
        for (a, ours), (b, theirs) in combinations(forms, 2):
            one, other = head(ours), head(theirs)
            if one != other and one and other and _same(a, b, judge):
                heads[max(one, other)] = min(one, other)
    return [{w: (form, head(identity)) for w, (form, identity) in row.items()} for row in cells]


def _apart(cells: _Cells) -> Iterator[dict[tuple[Form, str], None]]:
    """Yield groups of unlisted words of the same consonants, in whatever columns: *hullgand*, *hwlgand*.

    Only words that some witness has elsewhere or not at all may have moved.
    """
    every = max(map(len, cells), default=0)
    groups: dict[str, dict[tuple[Form, str], None]] = {}
    for row in cells:
        for form, identity in row.values() if len(row) < every else ():
            if identity.startswith("~"):
                groups.setdefault(bones(form.normal), {})[form, identity] = None
    yield from (group for group in groups.values() if len(group) > 1)


def _crossings(cells: _Cells, judge: Judge) -> Iterator[_Crossing]:
    places: dict[str, list[tuple[int, frozenset[int]]]] = {}
    for column, row in enumerate(cells):
        by_identity: dict[str, set[int]] = {}
        for w, (_, identity) in row.items():
            by_identity.setdefault(identity, set()).add(w)
        for identity, witnesses in by_identity.items():
            places.setdefault(identity, []).append((column, frozenset(witnesses)))
    places.pop("", None)
    for identity, held in places.items():
        if not 2 <= len(held) <= MOST_PLACES:
            continue
        for (here, ours), (there, theirs) in combinations(held, 2):
            if ours & theirs:
                continue
            crossing = _drawn_out(_Crossing((here,), (there,), (identity,), ours, theirs), cells, judge)
            if _counts(crossing, places, cells) and _has_content(crossing, cells, judge):
                yield crossing


def _counts(crossing: _Crossing, places: dict[str, list[tuple[int, frozenset[int]]]], cells: _Cells) -> bool:
    """Say whether a crossing is more than chance."""
    words = list(dict.fromkeys(filter(None, crossing.words)))
    often = [len(places.get(identity, ())) for identity in words]
    if len(often) == 1:
        reach = FAR_REACH if _is_pure(crossing, cells) else REACH
        held = [w for _, witnesses in places.get(words[0], ()) for w in witnesses]
        return len(held) == len(set(held)) and _between(crossing, cells) <= reach
    rarity = sum(log(len(cells) / max(times - 1, 1)) for times in often if times)
    return rarity >= CHANCE * log(max(len(cells), 2))


def _has_content(crossing: _Crossing, cells: _Cells, judge: Judge) -> bool:
    """Say whether a word that crossed is more than a number or a function word."""
    forms = {
        cells[column][w][0]
        for column, word in zip(crossing.here, crossing.words, strict=True)
        for w in crossing.ours
        if word and w in cells[column]
    }
    return any(form.kind is TokenKind.WORD and not judge.is_function(form) for form in forms)


def _is_pure(crossing: _Crossing, cells: _Cells) -> bool:
    """Say whether each side has the word where the other has nothing."""
    here, there = cells[crossing.here[0]], cells[crossing.there[0]]
    return crossing.ours.isdisjoint(there) and crossing.theirs.isdisjoint(here)


def _between(crossing: _Crossing, cells: _Cells) -> int:
    """Return how many words stand between the two places, in the witness that has most."""
    low, high = sorted((crossing.here[-1], crossing.there[-1]))
    return max(
        sum(w in cells[column] for column in range(low + 1, high)) for w in crossing.ours | crossing.theirs
    )


_Ahead = dict[int, int]
"""The column of the next word of each witness of a side, or _NONE."""


def _drawn_out(crossing: _Crossing, cells: _Cells, judge: Judge) -> _Crossing:
    """Add the words on both sides of a crossing as far as they are the same here and there."""
    for step in (1, -1):
        while added := _next(crossing, cells, judge, step):
            crossing = _joined(crossing, added) if step > 0 else _joined(added, crossing)
    return crossing


def _next(crossing: _Crossing, cells: _Cells, judge: Judge, step: int) -> _Crossing | None:
    """Return the crossing of the next word alone, None where here and there go on differently."""
    edge = -1 if step > 0 else 0
    ours = _ahead(crossing.here[edge], crossing.ours, cells, step)
    theirs = _ahead(crossing.there[edge], crossing.theirs, cells, step)
    word = _next_word(crossing, ours, theirs, cells, judge, step)
    return word or _next_divided(crossing, ours, theirs, cells, judge, step)


def _next_word(
    crossing: _Crossing, ours: _Ahead, theirs: _Ahead, cells: _Cells, judge: Judge, step: int
) -> _Crossing | None:
    """Return the next word, where one of ours and one of theirs agree in it; who lacks it stays."""
    pairs = [
        (here, there)
        for here in dict.fromkeys(ours.values())
        for there in dict.fromkeys(theirs.values())
        if here != _NONE != there and here not in crossing.there and there not in crossing.here
    ]
    for here, there in sorted(pairs, key=lambda pair: (step * pair[0], step * pair[1])):
        for form, word in dict.fromkeys(cells[here][w] for w, column in ours.items() if column == here):
            mine = _holding(form, ours, here, cells, judge)
            yours = _holding(form, theirs, there, cells, judge)
            if mine and yours and not _any_has(form, mine, cells[there], judge):
                twice = _any_has(form, yours, cells[here], judge)
                return _Crossing((here,), (there,), ("" if twice else word,), mine, yours)
    return None


def _next_divided(
    crossing: _Crossing, ours: _Ahead, theirs: _Ahead, cells: _Cells, judge: Judge, step: int
) -> _Crossing | None:
    """Return the next word, where one side has it in one column and the other in two."""
    taken = {*crossing.here, *crossing.there}
    words = (
        *_halved(ours, theirs, cells, judge, step),
        *map(_turned, _halved(theirs, ours, cells, judge, step)),
    )
    return next(
        (
            word
            for word in words
            if taken.isdisjoint((*word.here, *word.there)) and not {*word.here} & {*word.there}
        ),
        None,
    )


def _turned(crossing: _Crossing) -> _Crossing:
    """Return a crossing of one word with its sides exchanged: the word counts once."""
    words = (*crossing.words, "")[: len(crossing.there)]
    return _Crossing(crossing.there, crossing.here, words, crossing.theirs, crossing.ours)


def _halved(whole: _Ahead, parted: _Ahead, cells: _Cells, judge: Judge, step: int) -> Iterator[_Crossing]:
    """Yield the words that the next column of some has whole, and the next two of others in halves."""
    for at, near in product(dict.fromkeys(whole.values()), dict.fromkeys(parted.values())):
        low, high = sorted((near, near + step))
        if _NONE in (at, near, low) or high == len(cells):
            continue
        for form, word in dict.fromkeys(cells[at][w] for w, column in whole.items() if column == at):
            next_here = (w for w, column in parted.items() if column == near)
            halves = frozenset(w for w in next_here if _is_whole(form, cells, (low, high), w, judge))
            if halves:
                mine = _holding(form, whole, at, cells, judge)
                yield _Crossing((at,), (low, high), (word,), mine, halves)


def _is_whole(form: Form, cells: _Cells, columns: tuple[int, int], w: int, judge: Judge) -> bool:
    """Say whether a witness has a word divided in two columns."""
    if not all(w in cells[column] for column in columns):
        return False
    first, second = (cells[column][w][0] for column in columns)
    normal = first.normal + second.normal
    if bones(normal) != bones(form.normal):
        return False
    return _same(form, Form(first.folded + second.folded, normal), judge)


def _joined(first: _Crossing, second: _Crossing) -> _Crossing:
    ours, theirs = first.ours & second.ours, first.theirs & second.theirs
    here, there = first.here + second.here, first.there + second.there
    return _Crossing(here, there, first.words + second.words, ours, theirs)


def _holding(form: Form, ahead: _Ahead, column: int, cells: _Cells, judge: Judge) -> frozenset[int]:
    """Return who has this word next, with those that have no word there at all; nobody, if none has it."""
    held = {w for w, at in ahead.items() if at == column and _same(cells[column][w][0], form, judge)}
    return frozenset(held | {w for w in ahead if w not in cells[column]}) if held else frozenset()


def _any_has(form: Form, witnesses: frozenset[int], row: dict[int, tuple[Form, str]], judge: Judge) -> bool:
    return any(w in row and _same(row[w][0], form, judge) for w in witnesses)


def _ahead(column: int, witnesses: frozenset[int], cells: _Cells, step: int) -> _Ahead:
    """Return the column of the next word of each witness, or _NONE."""
    found: dict[int, int] = {}
    column += step
    while 0 <= column < len(cells) and len(found) < len(witnesses):
        for w in sorted(witnesses):
            if w not in found and w in cells[column]:
                found[w] = column
        column += step
    return {w: found.get(w, _NONE) for w in sorted(witnesses)}


def _same(a: Form, b: Form, judge: Judge) -> bool:
    return a == b or one_word(judge(a, b))
