"""Moved words as an editor tells them: who has the very words of the base in another place.

A transposition of the alignment says where words of some witnesses stand in others. It is told of a witness
only where that tells all that the witness has there: its words at one end are those of the base at the
other. Two neighbours may have changed places, with a word between them that stayed; or words may stand
elsewhere, where the base has nothing, and be lacking where the base has them. Of any other witness the words
are printed as they stand: together, where some few changed places and are not the very same.
"""

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from itertools import pairwise

from collate.analysis.cells import Keys, keys_of
from collate.analysis.elsewhere import Removal, removals
from collate.analysis.exchanges import SHORT, Exchange, exchanges
from collate.model.collation import Collation, Locus, Transposition, columns_of
from collate.model.division import one_wording
from collate.model.form import Judge, Relation, form_of, one_word
from collate.model.witness import Token, TokenKind, without_points

FEW = 8
"""How many words, at most, are printed together because some of them changed places."""


@dataclass(frozen=True, slots=True)
class Move:
    """What one witness moved: `lemma` are the columns of the base's words.

    `away` are the columns where the witness has them; None where the words of the lemma have only changed
    places among themselves: two parts of them, or all as they stand in `order`. All that differs in
    `columns` between it and the base is told by that.
    """

    siglum: str
    lemma: Locus
    away: Locus | None
    columns: frozenset[int]
    order: tuple[Token, ...] = ()


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

    `transpositions` are those of the alignment and those found here, each with the witnesses of which it
    is told.
    """

    told: tuple[Move, ...]
    transpositions: Mapping[Transposition, tuple[str, ...]]
    reworded: tuple[Reworded, ...]


MovesAt = Mapping[tuple[str, int], Move]
"""The move of a witness that a column belongs to."""


@dataclass(frozen=True, slots=True)
class PrintedMove:
    """A move as printed, with all witnesses of which it is told."""

    lemma: Locus
    away: Locus | None
    sigla: tuple[str, ...]
    order: tuple[Token, ...] = ()


@dataclass(frozen=True, slots=True)
class _Found:
    """A move found in the columns of two witnesses, as a transposition, and all columns it lies in.

    `parts` are the columns of what moved, in the base: of two parts that were exchanged, of both.
    """

    move: Move
    moved: Transposition
    spread: frozenset[int]
    parts: tuple[Locus, ...]


@dataclass(frozen=True, slots=True)
class _Sides:
    """The columns of some moved words in the base, and in another witness."""

    ours: Locus
    theirs: Locus


def moves(collation: Collation, base: str, judge: Judge) -> Moves:
    """Return what each witness moved beside the base, in the order of the base; no column is told twice.

    What changed places in the columns of the base and one witness alone comes first, then what that witness
    lacks here and has there, and last the transpositions of the alignment that these have left.
    """
    every = [*_by_witness(collation, base, judge)]
    found = [each for each in every if isinstance(each, _Found)]
    spread = {(each.move.siglum, column) for each in found for column in each.spread}
    taken = {(each.move.siglum, column) for each in found for column in each.move.columns}
    told = {each.move: None for each in found}
    true: dict[Transposition, set[str]] = {}
    rest = [each for each in every if not isinstance(each, _Found)]
    for moved in collation.transpositions:
        for siglum, sides in _pairs(collation, moved, base):
            if not spread.isdisjoint((siglum, column) for column in _columns(sides)):
                continue
            move = _move(collation, base, siglum, sides, judge)
            columns = {(siglum, column) for column in move.columns} if move else set()
            if move is None:
                if _answer(collation, base, siglum, sides, judge):
                    rest.append((siglum, _whole(sides)))
            elif move in told or taken.isdisjoint(columns):
                taken |= columns
                told[move] = None
                true.setdefault(moved, set()).add(siglum)
    reworded = []
    for siglum, whole in rest:
        columns = {(siglum, column) for column in range(whole.first, whole.stop)}
        words = _reworded(collation, (base, siglum), whole, judge) if taken.isdisjoint(columns) else None
        if words is not None:
            taken |= columns
            reworded.append(words)
    in_order = sorted(told, key=lambda m: (m.lemma.first, m.lemma.stop, m.siglum))
    return Moves(tuple(in_order), _transpositions(collation, base, found, true), tuple(reworded))


def _by_witness(collation: Collation, base: str, judge: Judge) -> Iterator[_Found | tuple[str, Locus]]:
    """Yield the moves that are found in the columns of the base and one witness alone.

    Of words among which others were put, or that are not the same, where they are: they are printed together.
    """
    keys = keys_of(collation, judge)
    for w, siglum in enumerate(collation.sigla):
        if siglum == base:
            continue
        pair = collation.sigla.index(base), w
        taken: set[int] = set()
        for exchange in exchanges(collation, keys, pair, judge):
            found = _exchanged(siglum, exchange, keys, pair, first=exchange.window.first not in taken)
            taken |= found.spread
            yield found
        for removal in removals(collation, keys, pair, judge):
            found = _removed(siglum, removal)
            if not taken.isdisjoint(found.spread):
                continue
            if removal.loose or not (removal.clear or _is_long(collation, pair, _hull(found.spread))):
                yield siglum, _hull(found.spread)
            else:
                taken |= found.spread
                yield found


def _exchanged(siglum: str, exchange: Exchange, keys: Keys, pair: tuple[int, int], *, first: bool) -> _Found:
    """Return an exchange as a move; of several in one window the first tells all that differs there."""
    window, (a, b), rows = range(exchange.window.first, exchange.window.stop), pair, keys.rows
    columns = [at for at in window if at in rows and rows[at][a] != rows[at][b]] if first else []
    lemma = Locus(exchange.ours[0].column, exchange.ours[-1].column + 1)
    order = () if exchange.parts else tuple(word for cell in exchange.theirs for word in cell.words)
    move = Move(siglum, lemma, None, frozenset(columns), order)
    start, stop = exchange.mover[0].words[0].index, exchange.mover[-1].words[-1].index + 1
    moved = Transposition(siglum, start, stop, exchange.home.first, exchange.home.stop)
    return _Found(move, moved, frozenset(window), exchange.parts)


def _removed(siglum: str, removal: Removal) -> _Found:
    home, away = (Locus(side[0].column, side[-1].column + 1) for side in (removal.home, removal.away))
    start, stop = removal.away[0].words[0].index, removal.away[-1].words[-1].index + 1
    moved = Transposition(siglum, start, stop, home.first, home.stop)
    spread = removal.columns.union(_columns(_Sides(home, away)))
    return _Found(Move(siglum, home, away, removal.columns), moved, spread, (home,))


def _transpositions(
    collation: Collation, base: str, found: Sequence[_Found], true: Mapping[Transposition, Set[str]]
) -> Mapping[Transposition, tuple[str, ...]]:
    """Return all transpositions, each with the witnesses of which it is told, in the order of their homes.

    What is found of the base and one witness alone takes the place of what the alignment says of the two; but
    where the base stands alone against several, that is one transposition.
    """
    told: dict[Transposition, set[str]] = {}
    own = list(found)
    for moved in collation.transpositions:
        of = set(true.get(moved, ()))
        sides = dict(_pairs(collation, moved, base))
        touched = [
            each
            for each in found
            if each.move.siglum in sides and not each.spread.isdisjoint(_columns(sides[each.move.siglum]))
        ]
        same = [each for each in touched if sides[each.move.siglum].ours in each.parts]
        several = {each.move.siglum for each in same}
        if moved.siglum == base and len(several) > 1:
            of |= several
            own = [each for each in own if each not in same]
        if of or not touched:
            told[moved] = of
    for each in own:
        told.setdefault(each.moved, set()).add(each.move.siglum)
    in_order = sorted(told, key=lambda t: (t.home, t.siglum, t.start))
    return {moved: tuple(s for s in collation.sigla if s in told[moved]) for moved in in_order}


def _hull(columns: Set[int]) -> Locus:
    return Locus(min(columns), max(columns) + 1)


def _is_long(collation: Collation, pair: tuple[int, int], whole: Locus) -> bool:
    """Say whether one of two witnesses has more words in some columns than are printed together."""
    return max(len(_words(collation, w, whole)) for w in pair) > FEW


def _columns(sides: _Sides) -> set[int]:
    return {*range(sides.ours.first, sides.ours.stop), *range(sides.theirs.first, sides.theirs.stop)}


def _pairs(collation: Collation, moved: Transposition, base: str) -> Iterator[tuple[str, _Sides]]:
    """Yield the witnesses that a transposition may part from the base, each with the columns of both."""
    away = columns_of(collation.columns, collation.sigla.index(moved.siglum), moved.start, moved.stop)
    home = Locus(moved.home, moved.home_stop)
    if moved.siglum != base:
        yield moved.siglum, _Sides(home, away)
        return
    for siglum in collation.sigla:
        if siglum != base:
            yield siglum, _Sides(away, home)


def _move(collation: Collation, base: str, siglum: str, sides: _Sides, judge: Judge) -> Move | None:
    """Return the move of a witness, if its own words bear it out."""
    ours, theirs = collation.sigla.index(base), collation.sigla.index(siglum)
    words, others = _words(collation, ours, sides.ours), _words(collation, theirs, sides.theirs)
    if not words or not _alike(words, others, judge):
        return None
    whole = _whole(sides)
    inverted = _inverted(collation, (ours, theirs), whole, judge)
    if inverted is not None:
        return Move(siglum, inverted, None, _differing(collation, (ours, theirs), whole, judge))
    if _words(collation, theirs, sides.ours) or not _stands_alone(collation, (ours, theirs), sides.theirs):
        return None
    columns = [*range(sides.ours.first, sides.ours.stop), *range(sides.theirs.first, sides.theirs.stop)]
    return Move(siglum, sides.ours, sides.theirs, frozenset(columns))


def _answer(collation: Collation, base: str, siglum: str, sides: _Sides, judge: Judge) -> bool:
    """Say whether the words of two witnesses on the two sides are, one by one, forms of one word."""
    words = _words(collation, collation.sigla.index(base), sides.ours)
    others = _words(collation, collation.sigla.index(siglum), sides.theirs)
    pairs = zip(words, others, strict=False)
    different = (judge(form_of(a), form_of(b)).relation is Relation.DIFFERENT for a, b in pairs)
    return len(words) == len(others) > 0 and not any(different)


def _stands_alone(collation: Collation, pair: tuple[int, int], locus: Locus) -> bool:
    """Say whether a witness has words in some columns, and between those two words of the base no others.

    Of what it added there too it could not be told whether that comes before or after the moved words.
    """
    first, stop = locus.first, locus.stop
    while first and not _words(collation, pair[0], Locus(first - 1, first)):
        first -= 1
    while stop < len(collation.columns) and not _words(collation, pair[0], Locus(stop, stop + 1)):
        stop += 1
    wide = Locus(first, stop)
    alone = len(_words(collation, pair[1], wide)) == len(_words(collation, pair[1], locus))
    return alone and not _words(collation, pair[0], wide)


def _whole(sides: _Sides) -> Locus:
    return Locus(min(sides.ours.first, sides.theirs.first), max(sides.ours.stop, sides.theirs.stop))


def _inverted(collation: Collation, pair: tuple[int, int], whole: Locus, judge: Judge) -> Locus | None:
    """Return the columns of the base's words that have changed places within some columns, or None."""
    words, others = _cores(collation, pair, whole, judge)
    if len(words) != len(others) or len(words) > SHORT or not _swapped(words, others, judge):
        return None
    return columns_of(collation.columns, pair[0], words[0].index, words[-1].index + 1)


def _cores(
    collation: Collation, pair: tuple[int, int], whole: Locus, judge: Judge
) -> tuple[Sequence[Token], Sequence[Token]]:
    """Return the words of two witnesses in some columns, less what they have alike before and behind."""
    words, others = (_words(collation, w, whole) for w in pair)
    start, ends = 0, (len(words), len(others))
    while start < min(ends) and _same(words[start], others[start], judge):
        start += 1
    while start < min(ends) and _same(words[ends[0] - 1], others[ends[1] - 1], judge):
        ends = ends[0] - 1, ends[1] - 1
    return words[start : ends[0]], others[start : ends[1]]


def _reworded(collation: Collation, sigla: tuple[str, str], whole: Locus, judge: Judge) -> Reworded | None:
    """Return what is printed together of a witness, if both it and the base have words there, and few."""
    pair = collation.sigla.index(sigla[0]), collation.sigla.index(sigla[1])
    words, others = _cores(collation, pair, whole, judge)
    lost = any(token.kind is TokenKind.GAP for token in (*words, *others))
    if lost or not words or not others or max(len(words), len(others)) > FEW:
        return None
    lemma = columns_of(collation.columns, pair[0], words[0].index, words[-1].index + 1)
    return Reworded(sigla[1], lemma, tuple(others), whole)


def _swapped(words: Sequence[Token], others: Sequence[Token], judge: Judge) -> bool:
    """Say whether some words are others with two parts changed about; what is between the two may stay."""
    if any(token.kind is TokenKind.GAP for token in (*words, *others)):
        return False
    count = len(words)
    return any(
        one_wording([*words[second:], *words[first:second], *words[:first]], others, judge)
        for first in range(1, count)
        for second in range(first, count)
    )


def _differing(collation: Collation, pair: tuple[int, int], whole: Locus, judge: Judge) -> frozenset[int]:
    """Return the columns in which the words of two witnesses are not the same."""
    found = []
    for column in range(whole.first, whole.stop):
        ours, theirs = (_words(collation, w, Locus(column, column + 1)) for w in pair)
        if not one_wording(ours, theirs, judge):
            found.append(column)
    return frozenset(found)


def _words(collation: Collation, w: int, locus: Locus) -> tuple[Token, ...]:
    return without_points(collation.tokens(w, locus.first, locus.stop))


def _alike(words: Sequence[Token], others: Sequence[Token], judge: Judge) -> bool:
    """Say whether two runs are the same words, none of them lost."""
    lost = any(token.kind is TokenKind.GAP for token in (*words, *others))
    return not lost and one_wording(words, others, judge)


def _same(a: Token, b: Token, judge: Judge) -> bool:
    return one_word(judge(form_of(a), form_of(b)))


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
    grouped: dict[tuple[Locus, Locus | None, tuple[str, ...]], list[Move]] = {}
    for move in found:
        order = tuple(token.normal for token in move.order)
        grouped.setdefault((move.lemma, move.away, order), []).append(move)
    for (lemma, away, _), several in grouped.items():
        sigla = {move.siglum for move in several}
        in_order = tuple(siglum for siglum in collation.sigla if siglum in sigla)
        yield PrintedMove(lemma, away, in_order, several[0].order)


def parted(collation: Collation, found: Moves) -> Collation:
    """Return a collation with the places of variation cut where moved words begin and end, and its moves."""
    held = [move.columns for move in found.told]
    held += [frozenset(range(each.columns.first, each.columns.stop)) for each in found.reworded]
    borders = sorted(
        {at for columns in held for at in columns if at - 1 not in columns}
        | {at + 1 for columns in held for at in columns if at + 1 not in columns}
    )
    places: list[Locus] = []
    for locus in collation.loci:
        cuts = [locus.first, *(at for at in borders if locus.first < at < locus.stop), locus.stop]
        places.extend(Locus(*pair) for pair in pairwise(cuts))
    return replace(collation, loci=tuple(places), transpositions=tuple(found.transpositions))
