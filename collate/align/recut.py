"""Columns drawn together where copies divide their words across them: *a nother* beside *an other*.

The alignment goes word by word. Where the words of two neighbouring columns (or three) are one text in two
copies, but stand in them divided otherwise, there is one column, as no word answers to a word.
"""

from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import dataclass
from itertools import combinations

from collate.align.divide import Cell, Parted, is_word
from collate.model.division import divided, letters, loosened, one_text, single
from collate.model.form import Form, Judge, form_of, one_word, same_forms
from collate.model.witness import Token

_WIDEST = 5


def recut(
    columns: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]], judge: Judge
) -> tuple[list[list[Cell]], tuple[Parted, ...]]:
    """Return columns of words, those drawn together whose words are only divided otherwise.

    They are drawn together only if every copy's words fit: they are the same text, or one other word for all
    of it, or none. Where they do not, the columns stay, and the words so divided are returned besides.
    """
    found: list[list[Cell]] = []
    parted: list[Parted] = []
    at = 0
    for group in _overlapping(_mated(columns, texts, judge)):
        span = slice(group[0].start, max(each.stop for each in group))
        found.extend([*row] for row in columns[at : span.start])
        if _all_fit(columns[span], {w for each in group for w in each.mates}, texts, judge):
            found.append(_together(columns[span]))
        else:
            found.extend([*row] for row in columns[span])
            parted.extend(_parted(columns, each) for each in group)
        at = span.stop
    found.extend([*row] for row in columns[at:])
    return found, tuple(parted)


@dataclass(frozen=True, slots=True)
class _Mated:
    """Columns [start, stop) in which some copies have one text, two of them divided across them otherwise."""

    start: int
    stop: int
    mates: frozenset[int]


def _mated(
    columns: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]], judge: Judge
) -> Iterator[_Mated]:
    """Yield the fewest columns from each on in which two copies are mates."""
    written = [[letters(token.expanded.casefold()) for token in text] for text in texts]
    copies = [
        ["".join(text[cell[0] : cell[1]]) if (cell := row[w]) else "" for row in columns]
        for w, text in enumerate(written)
    ]
    spelled = list(zip(*copies, strict=True))
    varied = [len(set(map(loosened, set(row)))) > 1 for row in spelled]
    runs = [_run(cells) for cells in copies]
    for at in range(len(columns) - 1):
        if varied[at] and _may_go_on(at, spelled[at], runs):
            for stop in range(at + 2, min(at + _WIDEST, len(columns)) + 1):
                if varied[stop - 1]:
                    mates = _mates(columns[at:stop], spelled[at:stop], texts, judge)
                    if mates:
                        yield _Mated(at, stop, mates)
                        break


_Run = tuple[str, list[int]]
"""The letters of a copy, none doubled, and where in them those of each of its cells begin."""


def _run(cells: Sequence[str]) -> _Run:
    pieces: list[str] = []
    sizes: list[int] = []
    size, after = 0, ""
    for cell in reversed(cells):
        if cell:
            written = single(cell)
            pieces.append(written[:-1] if written[-1] == after else written)
            size, after = size + len(pieces[-1]), written[0]
        sizes.append(size)
    return "".join(reversed(pieces)), [size - left for left in reversed(sizes)]


def _may_go_on(at: int, cells: Sequence[str], runs: Sequence[_Run]) -> bool:
    """Say whether a copy that goes on from a column writes what another has in it, as a mate must."""
    distinct = set(map(loosened, set(cells)))
    for cell, (written, begins) in zip(cells, runs, strict=True):
        size = len(loosened(cell))
        for other in distinct:
            if len(other) > size and written.startswith(other, begins[at]):
                return True
    return False


def _overlapping(spans: Iterable[_Mated]) -> Iterator[list[_Mated]]:
    """Yield spans, in order, in groups that have columns in common."""
    held: list[_Mated] = []
    for span in spans:
        if held and span.start >= max(each.stop for each in held):
            yield held
            held = []
        held.append(span)
    if held:
        yield held


def _all_fit(
    columns: Sequence[Sequence[Cell]], mates: Set[int], texts: Sequence[Sequence[Token]], judge: Judge
) -> bool:
    """Say whether the words of every copy in some columns suit one column."""
    copies = [tuple(_forms(text, row)) for text, row in zip(texts, zip(*columns, strict=True), strict=True)]
    ours = {copies[w] for w in mates}
    first = min(ours, key=lambda words: [form.folded for form in words])
    parts = {form for words in ours if len(words) > 1 for form in words}
    whole = all(_unbroken(columns, texts, w) for w in range(len(texts)))
    return whole and all(
        one_text(first, words, judge)
        or (len(words) == 1 and words not in ours and not any(one_word(judge(words[0], p)) for p in parts))
        for words in dict.fromkeys(copies)
        if words
    )


def _parted(columns: Sequence[Sequence[Cell]], span: _Mated) -> Parted:
    """Return the words of a span in its first and last column."""
    ends = [
        next((w, cell[0]) for w in sorted(span.mates) if (cell := columns[at][w]))
        for at in (span.start, span.stop - 1)
    ]
    return Parted(*ends)


def _together(columns: Sequence[Sequence[Cell]]) -> list[Cell]:
    rows = [[cell for cell in row if cell] for row in zip(*columns, strict=True)]
    return [(row[0][0], row[-1][1]) if row else None for row in rows]


def _mates(
    columns: Sequence[Sequence[Cell]],
    spelled: Sequence[Sequence[str]],
    texts: Sequence[Sequence[Token]],
    judge: Judge,
) -> frozenset[int]:
    """Return the copies that have one text in some columns, if two of them divide it otherwise."""
    copies = [*zip(*spelled, strict=True)]
    kinds = set(copies)
    if len({loosened("".join(kind)) for kind in kinds}) == len(kinds):
        return frozenset()
    wholes: dict[str, list[int]] = {}
    for w, kind in enumerate(copies):
        wholes.setdefault(loosened("".join(kind)), []).append(w)
    rows = [*zip(*columns, strict=True)]
    return frozenset(
        w
        for group in wholes.values()
        if len({copies[w] for w in group}) > 1
        and _cross([w for w in group if _unbroken(columns, texts, w)], copies, rows, texts, judge)
        for w in group
    )


def _cross(
    group: Sequence[int],
    copies: Sequence[Sequence[str]],
    rows: Sequence[Sequence[Cell]],
    texts: Sequence[Sequence[Token]],
    judge: Judge,
) -> bool:
    """Say whether two copies divide one text otherwise, and nowhere both between two of the columns."""
    firsts = {copies[w]: w for w in reversed(group)}
    for (ours, w), (theirs, v) in combinations(firsts.items(), 2):
        if not _share_a_border(ours, theirs):
            one, two = _forms(texts[w], rows[w]), _forms(texts[v], rows[v])
            same = len(one) == len(two) and "".join(ours) != "".join(theirs) and same_forms(one, two, judge)
            if not same and divided(one, two, judge):
                return True
    return False


def _share_a_border(ours: Sequence[str], theirs: Sequence[str]) -> bool:
    return any(loosened("".join(ours[:at])) == loosened("".join(theirs[:at])) for at in range(1, len(ours)))


def _forms(text: Sequence[Token], row: Sequence[Cell]) -> list[Form]:
    return [form_of(token) for cell in row if cell for token in text[cell[0] : cell[1]]]


def _unbroken(columns: Sequence[Sequence[Cell]], texts: Sequence[Sequence[Token]], copy: int) -> bool:
    """Say whether the words of a copy in some columns follow one another, with no point or gap between."""
    held = [cell for row in columns if (cell := row[copy])]
    return not held or all(is_word(token) for token in texts[copy][held[0][0] : held[-1][1]])
