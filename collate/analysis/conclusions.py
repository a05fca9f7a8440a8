"""What evidence concludes, its wording left aside: evidence in, what can be held against another's out."""

from collections.abc import Iterable, Sequence

from collate.lexicon.words import key_of
from collate.model.division import one_wording
from collate.model.evidence import Evidence
from collate.model.form import Judge
from collate.model.witness import Token, without_points

Conclusion = tuple[object, ...]


def conclusion(each: Evidence) -> Conclusion:
    """Return all that evidence says, of whom, how surely and what it bounds: nothing of its words.

    Somebody who is unidentified is told from others by the name, in any spelling that has the same key.
    """
    who = each.lives or [key_of(part) for part in each.name.split()]
    return each.kind, each.says, each.standing, each.certainty, tuple(who), each.bounds


def conclusions(found: Iterable[Evidence]) -> frozenset[Conclusion]:
    """Return what several pieces of evidence conclude."""
    return frozenset(map(conclusion, found))


def same_text(one: Sequence[Token], other: Sequence[Token], judge: Judge) -> bool:
    """Say whether words are the same, in spelling, ending and points at most different."""
    return one_wording(without_points(one), without_points(other), judge)
