"""A place in, its readings out: which witnesses have the same there, and what is told of them."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from collate.analysis.divisions import DivisionsAt, is_division
from collate.analysis.moves import Moves, MovesAt, is_move
from collate.analysis.repeats import Repeat, Slips, slip_at
from collate.analysis.tense_kinds import VerbKinds
from collate.model.apparatus import VariantKind
from collate.model.collation import Collation, Locus, Presence
from collate.model.form import Judge
from collate.model.transcript import Mark
from collate.model.witness import Token, TokenKind, shown


@dataclass(frozen=True, slots=True)
class Bench:
    """All that the reading of one item is held against."""

    collation: Collation
    base: str
    judge: Judge
    moves: Moves
    moves_at: MovesAt
    slips: Slips
    divided: DivisionsAt = field(default_factory=dict)
    verbs: VerbKinds = field(default_factory=VerbKinds)
    _touched: frozenset[int] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Keep the columns that moves, slips and divisions touch."""
        told = (*self.moves_at, *self.slips, *self.divided)
        object.__setattr__(self, "_touched", frozenset([column for _, column in told]))

    def touches(self, locus: Locus) -> bool:
        """Say whether a move, a slip or a division touches a place."""
        return not self._touched.isdisjoint(range(locus.first, locus.stop))


_EXPANDED = (Mark.EXPANDED,)


@dataclass(slots=True, eq=False)
class Group:
    """The witnesses of one reading, and what they share: words, presence, a move, a division (or a slip)."""

    sigla: list[str]
    words: tuple[Token, ...]
    presence: Presence
    moved: bool
    divided: bool


def groups_at(bench: Bench, locus: Locus) -> Collection[Group]:
    """Return the readings of a place in the order of their first witness."""
    collation = bench.collation
    firsts, lasts = collation.columns[locus.first].spans, collation.columns[locus.stop - 1].spans
    one, touched = locus.stop == locus.first + 1, bench.touches(locus)
    groups: dict[tuple[str, bool, bool, _Told], Group] = {}
    for w, (siglum, item) in enumerate(zip(collation.sigla, collation.items, strict=True)):
        words = item.tokens[firsts[w].start : lasts[w].stop]
        lost = firsts[w].presence is Presence.LACUNOSE if one else _lost(collation, w, locus)
        told = _told(bench, locus, siglum, words) if touched else _NOTHING_TOLD
        key = (wording(words, _EXPANDED), lost, bool(words) and not lost, told)
        if key in groups:
            groups[key].sigla.append(siglum)
        else:
            groups[key] = Group([siglum], words, _presence(words, lost=lost), told[0], told[1])
    return groups.values()


_Told = tuple[bool, bool, str]
"""Whether words are told as moved, or as divided otherwise; and the ground of a slip, or nothing."""

_NOTHING_TOLD: _Told = (False, False, "")


def _told(bench: Bench, locus: Locus, siglum: str, words: Sequence[Token]) -> _Told:
    """Return what is told of a witness at a place that moves, slips or divisions touch."""
    if is_move(bench.moves_at, locus, siglum):
        return True, False, ""
    return False, is_division(bench.divided, locus, siglum), _ground(slip_beside(bench, locus, siglum), words)


def slip_beside(bench: Bench, locus: Locus, siglum: str) -> Repeat | None:
    """Return the slip of a witness at a place where either it or the base has words, and the other none."""
    slip = slip_at(bench.slips, locus, siglum)
    if slip is None:
        return None
    collation = bench.collation
    one, other = (
        core(collation.tokens(collation.sigla.index(each), locus.first, locus.stop))
        for each in (bench.base, siglum)
    )
    return slip if bool(one) != bool(other) else None


def _ground(slip: Repeat | None, words: Sequence[Token]) -> str:
    """Return what keeps a slip apart: the ground of words that lack; of words that are there, a doubling.

    Where it is the base that skipped, the witnesses that did not have one reading, whatever their spelling.
    """
    if slip is None or (words and slip.kind is VariantKind.ADDITION):
        return ""
    return slip.kind if words else slip.reason


def _lost(collation: Collation, w: int, locus: Locus) -> bool:
    """Say whether a witness is lost in any column of a place."""
    columns = collation.columns[locus.first : locus.stop]
    return any(column.spans[w].presence is Presence.LACUNOSE for column in columns)


def _presence(words: Sequence[Token], *, lost: bool) -> Presence:
    if lost:
        return Presence.LACUNOSE
    return Presence.PRESENT if words else Presence.OMITTED


def wording(tokens: Sequence[Token], marks: Sequence[Mark] = tuple(Mark)) -> str:
    """Return words as they are shown, blanks single and where the copy has them."""
    if not tokens:
        return ""
    if len(tokens) == 1:
        (token,) = tokens
        plain = not token.marks and "……" not in token.expanded
        return (token.expanded if plain else shown(token, marks)).strip()
    parts = []
    for token in tokens:
        parts.append(shown(token, marks))
        if token.trail == " " or any(character.isspace() for character in token.trail):
            parts.append(" ")
    return "".join(parts).strip()


def core(tokens: Sequence[Token]) -> Sequence[Token]:
    """Return tokens without the points before the first word and after the last."""
    words = [at for at, token in enumerate(tokens) if token.kind is not TokenKind.PUNCTUATION]
    return tokens[words[0] : words[-1] + 1] if words else ()
