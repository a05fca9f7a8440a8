"""Words of the base that one witness lacks, and has in another place: found in the columns of the two alone.

All that it lacks in one place is all that it has more in another, or what it has there first; or the one is
part of the other. Where the same word stands before or after, it cannot be said which of the two is wanting
(*and X and Y*: *and Y and X*): each is tried.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from collate.analysis.cells import Cell, Keys, all_cells, is_content
from collate.model.collation import Collation
from collate.model.division import one_wording
from collate.model.form import Judge

NEAR = 20
"""Over how many columns a single word is seen to have moved."""

NEXT = 10
"""Over how many columns words are looked for that moved and are not the very same."""

FAR = 80
"""The same of a phrase."""

SLIDE = 2
"""By how many words a place may be shifted to one side."""


@dataclass(frozen=True, slots=True)
class Removal:
    """What the base has at home and a witness elsewhere, and the columns that differ by it.

    It is `clear` where the witness has nothing else there. A `loose` one only has some word in common.
    """

    home: tuple[Cell, ...]
    away: tuple[Cell, ...]
    columns: frozenset[int]
    clear: bool
    loose: bool = False


@dataclass(frozen=True, slots=True)
class _Run:
    """Words [start, stop) of one of two witnesses, in the order of its words, where the other has none."""

    start: int
    stop: int


def removals(collation: Collation, keys: Keys, pair: tuple[int, int], judge: Judge) -> Iterator[Removal]:
    """Yield the words of the first of two witnesses that the second has elsewhere, the longest first.

    Of those of one length what stands first in the base, and then nearest.
    """
    if not _common(keys, pair):
        return
    ours, theirs = (all_cells(collation, w, keys) for w in pair)
    lacking, more = (list(_runs(*sides)) for sides in ((ours, theirs), (theirs, ours)))
    found = [
        removal
        for lack in lacking
        for add in more
        if (removal := _removal((ours, theirs), lack, add, judge)) is not None
    ]
    found.sort(
        key=lambda r: (r.loose, -len(r.home), r.home[0].column, abs(r.home[0].column - r.away[0].column))
    )
    taken: set[int] = set()
    for removal in found:
        if taken.isdisjoint(removal.columns):
            taken |= removal.columns
            yield removal


def _common(keys: Keys, pair: tuple[int, int]) -> bool:
    """Say whether a word of content that one of two has alone is also one that the other has alone."""
    a, b = pair
    ours = {row[a] for row in keys.rows.values() if not row[b]}
    theirs = {row[b] for row in keys.rows.values() if not row[a]}
    return any(keys.of.has_content(key) for key in ours & theirs)


def _runs(cells: Sequence[Cell], others: Sequence[Cell]) -> Iterator[_Run]:
    """Yield the runs of words of the one that stand between two neighbouring words of the other."""
    beside = {cell.column for cell in others}
    bounds = sorted(beside)
    start, at = 0, 0
    between: int | None = None
    for place, cell in enumerate(cells):
        while at < len(bounds) and bounds[at] < cell.column:
            at += 1
        alone = cell.column not in beside
        if between is not None and (not alone or at != between):
            yield _Run(start, place)
            between = None
        if alone and between is None:
            start, between = place, at
    if between is not None:
        yield _Run(start, len(cells))


def _removal(
    cells: tuple[Sequence[Cell], Sequence[Cell]], lack: _Run, add: _Run, judge: Judge
) -> Removal | None:
    """Return the words that one witness lacks in one place and has in another, None if they are not so."""
    ours, theirs = cells
    apart = abs(ours[lack.start].column - theirs[add.start].column)
    if apart > FAR:
        return None
    for home, away in _ways(ours, theirs, lack, add):
        at_home, elsewhere = ours[home.start : home.stop], theirs[away.start : away.stop]
        content = sum(is_content(cell, judge) for cell in at_home)
        if not content or (len(at_home) == 1 and apart > NEAR):
            continue
        words, others = ([word for cell in side for word in cell.words] for side in (at_home, elsewhere))
        if one_wording(words, others, judge):
            columns = {cell.column for cell in _inside(ours, home, lack)}
            columns |= {cell.column for cell in _inside(theirs, away, add)}
            clear = away.stop - away.start == add.stop - add.start
            return Removal(tuple(at_home), tuple(elsewhere), frozenset(columns), clear)
    return _loose(ours[lack.start : lack.stop], theirs[add.start : add.stop], judge)


def _loose(lacking: Sequence[Cell], more: Sequence[Cell], judge: Judge) -> Removal | None:
    """Return words that are near one another and not the same, if a word of content is in both."""
    if abs(lacking[0].column - more[0].column) > NEXT:
        return None
    held = {cell.key for cell in lacking if is_content(cell, judge)}
    if not any(cell.key in held for cell in more):
        return None
    columns = frozenset(cell.column for cell in (*lacking, *more))
    return Removal(tuple(lacking), tuple(more), columns, clear=False, loose=True)


def _inside(cells: Sequence[Cell], shifted: _Run, run: _Run) -> Sequence[Cell]:
    """Return the words of a run that are told: of one that was shifted, all."""
    if shifted.stop - shifted.start == run.stop - run.start:
        return cells[run.start : run.stop]
    return cells[shifted.start : shifted.stop]


def _ways(ours: Sequence[Cell], theirs: Sequence[Cell], lack: _Run, add: _Run) -> Iterator[tuple[_Run, _Run]]:
    """Yield the pairs of places that have the same words: all of both, else of one two words that come first.

    Or all that is more in a place, and part of what is lacking in the other.
    """
    homes, aways = [*_slides(ours, lack)], [*_slides(theirs, add)]
    for home in homes:
        for away in aways:
            if _keys(ours, home) == _keys(theirs, away):
                yield home, away
    for home in homes:
        first = _Run(add.start, add.start + home.stop - home.start)
        if first.start + 1 < first.stop < add.stop and _keys(ours, home) == _keys(theirs, first):
            yield home, first
    for away in aways:
        count = away.stop - away.start
        for start in range(lack.start, lack.stop - count + 1):
            piece = _Run(start, start + count)
            if piece != lack and _keys(ours, piece) == _keys(theirs, away):
                yield piece, away


def _slides(cells: Sequence[Cell], run: _Run) -> Iterator[_Run]:
    """Yield a run, and it shifted to either side past words that are the same as those it ends in."""
    yield run
    for step in (-1, 1):
        start, stop = run.start, run.stop
        for _ in range(SLIDE):
            gone, come = (stop - 1, start - 1) if step < 0 else (start, stop)
            if not 0 <= come < len(cells) or cells[come].key != cells[gone].key:
                break
            start, stop = start + step, stop + step
            yield _Run(start, stop)


def _keys(cells: Sequence[Cell], run: _Run) -> list[str]:
    return [cell.key for cell in cells[run.start : run.stop]]
