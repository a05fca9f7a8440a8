"""What a witness's evidence comes to: evidence and the date of the hand in, intervals and conflicts out.

Bounds combine by intersection. What binds the wording from below binds the copy; what binds the copy
from above binds the wording. Where ends do not agree they are told in pairs, and nothing is chosen.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from collate.model.dates import Bounds, Day
from collate.model.days import end_said, start_said
from collate.model.edition import DateRange
from collate.model.evidence import Certainty, Evidence, EvidenceKind, Ground, Interval, Layer, Standing

_DATES = (EvidenceKind.REGNAL_DATE, EvidenceKind.CALENDAR_DATE)


@dataclass(frozen=True, slots=True)
class End:
    """A day that binds a layer from one side, and what sets it."""

    day: Day
    ground: Ground


def hand_bounds(hand: DateRange | None) -> Bounds:
    """Return the years of a hand as days; no bounds where it is not dated."""
    if hand is None:
        return Bounds()
    return Bounds(Day(hand.not_before, 1, 1), Day(hand.not_after, 12, 31))


def ground_of(evidence: Evidence) -> Ground:
    """Return evidence as what an end rests on."""
    return Ground(f"‘{evidence.text}’ ({evidence.item})", evidence)


def interval(
    layer: Layer, evidence: Sequence[Evidence], hand: DateRange | None, *, possible: bool = False
) -> Interval:
    """Return what the evidence and the hand come to for the wording or the copy.

    Only what is certain or likely is reckoned with, unless `possible` asks for the rest as well. Where
    one item of a book is older than words of another are, the book's parts are of different date: the
    wording as a whole then has no upper end but the copy's.
    """
    lower = list(_lower(layer, evidence, hand, possible=possible))
    upper = list(_upper(layer, evidence, hand, possible=possible))
    if _in_parts(lower, upper):
        upper = [end for end in upper if _of_copy(end)]
    first = max((end.day for end in lower), default=None)
    last = min((end.day for end in upper), default=None)
    by_first = tuple(end.ground for end in lower if end.day == first)
    by_last = tuple(end.ground for end in upper if end.day == last)
    if any(_clash(low, high) for low in lower for high in upper):
        return Interval(Bounds(), by_first, by_last, agree=False)
    return Interval(Bounds(first, last), by_first, by_last)


def _of_copy(end: End) -> bool:
    """Say whether an end binds the copy: the hand's, or that of a dated colophon."""
    evidence = end.ground.evidence
    return evidence is None or evidence.on(Layer.COPY).not_after is not None


def _in_parts(lower: Sequence[End], upper: Sequence[End]) -> bool:
    """Say whether ends that do not agree stand only in different items, so that each item agrees."""
    pairs = [(low, high) for low in lower for high in upper if _clash(low, high)]
    return bool(pairs) and all(_apart(low, high) for low, high in pairs)


def _clash(low: End, high: End) -> bool:
    """Say whether two ends cannot both hold: in days, or as words for one person dead and living."""
    if low.day > high.day:
        return True
    one, other = low.ground.evidence, high.ground.evidence
    if one is None or other is None or other.standing is not Standing.LIVING or len(one.lives) != 1:
        return False
    same = one.lives == other.lives
    former = one.standing is Standing.FORMER and low.day == high.day
    return same and (one.standing is Standing.DEAD or former)


def _apart(low: End, high: End) -> bool:
    one, other = low.ground.evidence, high.ground.evidence
    return one is not None and other is not None and not _of_copy(high) and one.item != other.item


def _counts(evidence: Evidence, *, possible: bool) -> bool:
    return possible or evidence.certainty is not Certainty.POSSIBLE


def _lower(
    layer: Layer, evidence: Sequence[Evidence], hand: DateRange | None, *, possible: bool
) -> Iterator[End]:
    if layer is Layer.COPY and hand is not None:
        yield End(Day(hand.not_before, 1, 1), Ground(f"the hand ({hand.stated})"))
    for each in evidence:
        day = each.on(layer).not_before
        if day is not None and (each.kind in _DATES or _counts(each, possible=possible)):
            yield End(day, ground_of(each))


def _upper(
    layer: Layer, evidence: Sequence[Evidence], hand: DateRange | None, *, possible: bool
) -> Iterator[End]:
    if hand is not None:
        yield End(Day(hand.not_after, 12, 31), Ground(f"the hand ({hand.stated})"))
    for each in evidence:
        for day in {each.on(layer).not_after, each.on(Layer.COPY).not_after} - {None}:
            if day is not None and _counts(each, possible=possible):
                yield End(day, ground_of(each))


def conflicts(evidence: Sequence[Evidence], hand: DateRange | None) -> tuple[str, ...]:
    """Return each pair of ends that do not agree, in a sentence; a pair is told once."""
    told: dict[tuple[str, str], str] = {}
    for layer in (Layer.COPY, Layer.WORDING):
        lower = list(_lower(layer, evidence, hand, possible=False))
        upper = list(_upper(layer, evidence, hand, possible=False))
        for low in lower:
            for high in upper:
                if _clash(low, high):
                    pair = (low.ground.said, high.ground.said)
                    told.setdefault(pair, _told(layer, low, high))
    return tuple(told.values())


def _told(layer: Layer, low: End, high: End) -> str:
    unless = ", unless these parts of the book are of different date" if _apart(low, high) else ""
    return (
        f"these do not agree{unless}: {low.ground.said} sets the {layer} not before {start_said(low.day)},"
        f" {high.ground.said} not after {end_said(high.day)}"
    )
