"""Moved words as an editor tells them: who has the very words of the base in another place.

What each witness moved is looked for in the columns of the base and of it alone, whatever others have there.
Two neighbours may have changed places, with a word between them that stayed; or words may stand elsewhere,
and be lacking where the base has them. Of any other witness the words are printed as they stand: together,
where some few changed places and are not the very same. Last come words that others than the base have in
several places, of which nothing is told beside the base.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from itertools import pairwise

from collate.analysis.cells import LOST, Keys, by_siglum, keys_of, text_of
from collate.analysis.elsewhere import Block, Found, Sides, blocks
from collate.analysis.exchanges import FEW, Exchange, exchanges
from collate.analysis.set_apart import Seat, reseated, seats
from collate.analysis.transfers import Change, transfers
from collate.model.collation import Collation, Locus, Transposition, columns_of
from collate.model.form import Judge, same_word
from collate.model.witness import Token, has_gap, without_points


@dataclass(frozen=True, slots=True)
class Move:
    """What one witness moved: `lemma` are the columns of the base's words.

    `at` is the token of the base before which the witness has them; None where the words of the lemma have
    only changed places among themselves: two parts of them, or all as they stand in `order`. All that differs
    in `columns` between it and the base is told by that, and by the `changes`.
    """

    siglum: str
    lemma: Locus
    at: int | None
    columns: frozenset[int]
    order: tuple[Token, ...] = ()
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class Reworded:
    """Few words of one witness, some in another place than in the base, some not the very same.

    `lemma` are the columns of the base's words, `columns` all in which the two differ.
    """

    siglum: str
    lemma: Locus
    words: tuple[Token, ...]
    columns: Locus


@dataclass(frozen=True, slots=True)
class Moves:
    """The moves of a collation, and what is printed together besides.

    `collation` is that in which the moves stand: its columns are those of the alignment, but for words that
    had to be set apart. Of each transposition it is said of which witnesses it is told.
    """

    collation: Collation
    told: tuple[Move, ...]
    transpositions: Mapping[Transposition, tuple[str, ...]]
    reworded: tuple[Reworded, ...]


MovesAt = Mapping[tuple[str, int], Move]
"""The move of a witness that a column belongs to."""


@dataclass(frozen=True, slots=True)
class PrintedMove:
    """A move as printed, with all witnesses of which it is told."""

    lemma: Locus
    at: int | None
    sigla: tuple[str, ...]
    order: tuple[Token, ...] = ()


@dataclass(frozen=True, slots=True)
class _Pair:
    """The base and one witness: what changed places between them, what the one has elsewhere."""

    w: int
    exchanges: tuple[Exchange, ...]
    sides: Sides
    found: Found

    def free(self, columns: Sequence[int] | frozenset[int]) -> bool:
        """Say whether no exchange is told of some columns."""
        windows = [each.window for each in self.exchanges]
        return not any(window.first <= at < window.stop for at in columns for window in windows)


@dataclass(frozen=True, slots=True)
class _Told:
    """A move with its transposition, and where the words stand: whoever has them so has moved the same."""

    move: Move
    moved: Transposition
    away: Locus | None


def moves(collation: Collation, base: str, judge: Judge) -> Moves:
    """Return what each witness moved beside the base, in the order of the base; no column is told twice.

    What changed places comes first, then what a witness lacks here and has there. Moved words that stand
    beside others are set apart before that is told.
    """
    b = collation.sigla.index(base)
    keys = keys_of(collation, judge)
    pairs = [*_pairs(collation, keys, b, judge)]
    asked = [*_asked(pairs)]
    if asked:
        collation = reseated(collation, asked)
        keys = keys_of(collation, judge)
        pairs = [*_pairs(collation, keys, b, judge)]
    told: list[_Told] = []
    reworded: list[Reworded] = []
    for pair in pairs:
        own = [*_told(collation, b, pair, keys)]
        told += own
        taken = {column for each in own for column in each.move.columns}
        for whole in _hulls(pair, own):
            columns = range(whole.first, whole.stop)
            if taken.isdisjoint(columns) and pair.free(columns):
                words = _reworded(collation, (b, pair.w), whole, judge)
                if words is not None:
                    taken.update(columns)
                    reworded.append(words)
    in_order = sorted((each.move for each in told), key=lambda m: (m.lemma.first, m.lemma.stop, m.siglum))
    held = {(each.moved.siglum, at) for each in told for at in range(each.moved.start, each.moved.stop)}
    others = (*_untold(collation, pairs), *_beside_the_base(collation, b, keys))
    all_told = _transpositions(collation, b, told, [*_apart(others, held)])
    return Moves(collation, tuple(in_order), all_told, tuple(reworded))


def _pairs(collation: Collation, keys: Keys, b: int, judge: Judge) -> Iterator[_Pair]:
    """Yield the base and each witness that has a word elsewhere which it lacks here."""
    for w in range(len(collation.sigla)):
        common = keys.common((b, w)) if w != b else ()
        if common:
            changed = tuple(exchanges(collation, keys, (b, w), judge))
            sides = Sides(text_of(collation, b, keys), text_of(collation, w, keys), keys)
            for each in changed:
                sides.close(each.window)
            yield _Pair(w, changed, sides, blocks(sides) if keys.content(common) else Found(()))


def _asked(pairs: Sequence[_Pair]) -> Iterator[Seat]:
    for pair in pairs:
        for block in pair.found.moved:
            yield from seats(pair.w, pair.sides, block)


def _told(collation: Collation, b: int, pair: _Pair, keys: Keys) -> Iterator[_Told]:
    """Yield what is told of a witness."""
    siglum = collation.sigla[pair.w]
    last = -1
    for exchange in pair.exchanges:
        yield _exchanged(siglum, exchange, keys, (b, pair.w), first=exchange.window.first != last)
        last = exchange.window.first
    for each in transfers(collation, b, pair.sides, pair.found.moved):
        move = Move(siglum, each.lemma, each.at, each.columns, changes=each.changes)
        _, away = pair.sides.columns(each.block)
        yield _Told(move, _transposition(siglum, pair.sides, each.block), away)


def _transposition(siglum: str, sides: Sides, block: Block) -> Transposition:
    """Return words that stand elsewhere as a transposition."""
    home, _ = sides.columns(block)
    start, stop = (sides.theirs[block.theirs[at]].words[at].index for at in (0, -1))
    return Transposition(siglum, start, stop + 1, home.first, home.stop)


def _exchanged(siglum: str, exchange: Exchange, keys: Keys, pair: tuple[int, int], *, first: bool) -> _Told:
    """Return an exchange as a move; of several in one window the first tells all that differs there."""
    window, (a, b), rows = range(exchange.window.first, exchange.window.stop), pair, keys.rows
    columns = [at for at in window if at in rows and rows[at][a] != rows[at][b]] if first else []
    lemma = Locus(exchange.ours[0].column, exchange.ours[-1].column + 1)
    order = () if exchange.parts else tuple(word for cell in exchange.theirs for word in cell.words)
    start, stop = exchange.mover[0].words[0].index, exchange.mover[-1].words[-1].index + 1
    moved = Transposition(siglum, start, stop, exchange.home.first, exchange.home.stop)
    away = Locus(exchange.mover[0].column, exchange.mover[-1].column + 1)
    return _Told(Move(siglum, lemma, None, frozenset(columns), order), moved, away)


def _hulls(pair: _Pair, told: Sequence[_Told]) -> Iterator[Locus]:
    """Yield the columns about words that stand elsewhere, of which nothing is told, in their order."""
    for block in (*pair.found.moved, *pair.found.loose):
        home, away = pair.sides.columns(block)
        yield Locus(min(home.first, away.first), max(home.stop, away.stop))


def _untold(collation: Collation, pairs: Sequence[_Pair]) -> Iterator[Transposition]:
    """Yield all that witnesses have elsewhere than the base, be it told or not."""
    for pair in pairs:
        for block in pair.found.moved:
            yield _transposition(collation.sigla[pair.w], pair.sides, block)


def _beside_the_base(collation: Collation, b: int, keys: Keys) -> Iterator[Transposition]:
    """Yield what witnesses have in another place than the first that has it, where the base has nothing.

    The first is that whose siglum comes first.
    """
    lacking = {column for column, row in keys.rows.items() if not row[b]}
    witnesses = [w for w in by_siglum(collation) if w != b]
    for other, w in _with_words_elsewhere(keys, witnesses, lacking):
        sides = Sides(text_of(collation, other, keys), text_of(collation, w, keys), keys)
        for block in blocks(sides, lacking).moved:
            yield _transposition(collation.sigla[w], sides, block)


def _with_words_elsewhere(
    keys: Keys, witnesses: Sequence[int], lacking: Set[int]
) -> Sequence[tuple[int, int]]:
    """Return pairs of witnesses, in order: the first that has a word of content, and who has it elsewhere."""
    places: dict[str, dict[int, set[int]]] = {}
    for column in sorted(lacking):
        row = keys.rows[column]
        for w in witnesses:
            if row[w] and row[w] != LOST:
                places.setdefault(row[w], {}).setdefault(w, set()).add(column)
    order = {w: at for at, w in enumerate(witnesses)}
    found: set[tuple[int, int]] = set()
    for key, held in places.items():
        if len(held) > 1 and keys.of.has_content(key):
            first = min(held, key=order.__getitem__)
            home = held[first]
            found |= {(order[first], order[w]) for w, at in held.items() if at - home and home - at}
    return [(witnesses[a], witnesses[c]) for a, c in sorted(found)]


def _apart(others: Iterable[Transposition], held: set[tuple[str, int]]) -> Iterator[Transposition]:
    """Yield transpositions of which no word is in one before, or among some words."""
    for moved in others:
        tokens = {(moved.siglum, at) for at in range(moved.start, moved.stop)}
        if held.isdisjoint(tokens):
            held |= tokens
            yield moved


def _transpositions(
    collation: Collation, b: int, told: Sequence[_Told], others: Sequence[Transposition]
) -> Mapping[Transposition, tuple[str, ...]]:
    """Return all transpositions, each with the witnesses of which it is told, in the order of their homes.

    Where the base stands alone against several that all have moved the same, that is one transposition.
    """
    found: dict[Transposition, set[str]] = {each: set() for each in others}
    places: dict[tuple[Locus, Locus], list[_Told]] = {}
    for each in told:
        home = Locus(each.moved.home, each.moved.home_stop)
        places.setdefault((home, each.away or home), []).append(each)
    for (home, away), several in places.items():
        if len(several) > 1 and _alone(collation, b, (home, away), len(several)):
            tokens = without_points(collation.tokens(b, home.first, home.stop))
            span = tokens[0].index, tokens[-1].index + 1
            moved = Transposition(collation.sigla[b], *span, away.first, away.stop)
            found.setdefault(moved, set()).update(each.move.siglum for each in several)
        else:
            for each in several:
                found.setdefault(each.moved, set()).add(each.move.siglum)
    in_order = sorted(found, key=lambda t: (t.home, t.siglum, t.start))
    return {moved: tuple(s for s in collation.sigla if s in found[moved]) for moved in in_order}


def _alone(collation: Collation, b: int, places: Sequence[Locus], count: int) -> bool:
    """Say whether no more witnesses than some, and the base, have words in one of some places."""
    others = [w for w in range(len(collation.sigla)) if w != b]
    return sum(any(_words(collation, w, place) for place in places) for w in others) == count


def _cores(
    collation: Collation, pair: tuple[int, int], whole: Locus, judge: Judge
) -> tuple[Sequence[Token], Sequence[Token]]:
    """Return the words of two witnesses in some columns, less what they have alike before and behind."""
    words, others = (_words(collation, w, whole) for w in pair)
    start, ends = 0, (len(words), len(others))
    while start < min(ends) and same_word(words[start], others[start], judge):
        start += 1
    while start < min(ends) and same_word(words[ends[0] - 1], others[ends[1] - 1], judge):
        ends = ends[0] - 1, ends[1] - 1
    return words[start : ends[0]], others[start : ends[1]]


def _reworded(collation: Collation, pair: tuple[int, int], whole: Locus, judge: Judge) -> Reworded | None:
    """Return what is printed together of a witness, if both it and the base have words there, and few."""
    words, others = _cores(collation, pair, whole, judge)
    if has_gap((*words, *others)) or not words or not others or max(len(words), len(others)) > FEW:
        return None
    lemma = columns_of(collation.columns, pair[0], words[0].index, words[-1].index + 1)
    return Reworded(collation.sigla[pair[1]], lemma, tuple(others), whole)


def _words(collation: Collation, w: int, locus: Locus) -> tuple[Token, ...]:
    return without_points(collation.tokens(w, locus.first, locus.stop))


def by_column(found: Sequence[Move]) -> MovesAt:
    """Return moves by their witness and each of their columns."""
    return {(move.siglum, column): move for move in found for column in move.columns}


def is_move(found: MovesAt, locus: Locus, siglum: str) -> bool:
    """Say whether what a witness has at a place, beside the base, is told by a move."""
    if locus.stop == locus.first + 1:
        return (siglum, locus.first) in found
    return any((siglum, column) in found for column in range(locus.first, locus.stop))


def printed(collation: Collation, found: Sequence[Move]) -> Iterator[PrintedMove]:
    """Yield the moves as printed: those of one lemma and one place are one."""
    grouped: dict[tuple[Locus, int | None, tuple[str, ...]], list[Move]] = {}
    for move in found:
        order = tuple(token.normal for token in move.order)
        grouped.setdefault((move.lemma, move.at, order), []).append(move)
    for (lemma, at, _), several in grouped.items():
        sigla = {move.siglum for move in several}
        in_order = tuple(siglum for siglum in collation.sigla if siglum in sigla)
        yield PrintedMove(lemma, at, in_order, several[0].order)


@dataclass(frozen=True, slots=True)
class Changed:
    """Words that some witnesses have for others within what they moved, or passed."""

    words: tuple[Token, ...]
    sigla: tuple[str, ...]


def changed(found: Sequence[Move]) -> Mapping[Locus, tuple[Changed, ...]]:
    """Return what differs within moved words, by the columns of the base's words."""
    held: dict[Locus, dict[tuple[str, ...], Changed]] = {}
    for move in found:
        for change in move.changes:
            at = held.setdefault(change.locus, {})
            text = tuple(word.expanded for word in change.words)
            before = at.get(text, Changed(change.words, ()))
            at[text] = replace(before, sigla=(*before.sigla, move.siglum))
    return {locus: tuple(readings.values()) for locus, readings in held.items()}


def parted(found: Moves) -> Collation:
    """Return a collation with the places of variation cut where moved words begin and end, and its moves."""
    collation = found.collation
    held = [move.columns for move in found.told]
    held += [frozenset(range(each.columns.first, each.columns.stop)) for each in found.reworded]
    borders = sorted(
        {at for columns in held for at in columns if at - 1 not in columns}
        | {at + 1 for columns in held for at in columns if at + 1 not in columns}
    )
    places: list[Locus] = []
    for locus in collation.loci:
        within = borders[bisect_right(borders, locus.first) : bisect_left(borders, locus.stop)]
        cuts = [locus.first, *within, locus.stop]
        places.extend(Locus(*pair) for pair in pairwise(cuts))
    return replace(collation, loci=tuple(places), transpositions=tuple(found.transpositions))
