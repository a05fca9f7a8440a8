"""Bounds combine by intersection, whatever the evidence: nothing is chosen where they do not agree."""

from hypothesis import given
from hypothesis import strategies as st

from collate.analysis.resolve import conflicts, interval
from collate.model.dates import Bounds, Day
from collate.model.edition import DateRange
from collate.model.evidence import Certainty, Evidence, EvidenceKind, Layer

DAYS = st.builds(Day, st.integers(1380, 1480), st.integers(1, 12), st.integers(1, 28))
HANDS = st.none() | st.builds(
    lambda first, length: DateRange("s. xv", first, first + length, "quarters"),
    st.integers(1380, 1470),
    st.integers(0, 60),
)


@st.composite
def pieces(draw: st.DrawFn) -> Evidence:
    """Draw a piece of evidence that bounds the wording, the copy, or both, as the rules allow."""
    low, high = draw(st.none() | DAYS), draw(st.none() | DAYS)
    low, high = (high, low) if low and high and low > high else (low, high)
    of_copy = draw(st.booleans())
    layers = (
        ((Layer.COPY, Bounds(low, high)),)
        if of_copy
        else ((Layer.WORDING, Bounds(low, high)), (Layer.COPY, Bounds(low)))
    )
    certainty = draw(st.sampled_from(Certainty))
    item = draw(st.sampled_from(("preface", "explicit")))
    return Evidence("A", item, EvidenceKind.FORMULA, "words", "said", "why", certainty, bounds=layers)


MANY = st.lists(pieces(), max_size=6)


def wider(outer: Bounds, inner: Bounds) -> bool:
    """Say whether one interval holds the other."""
    low = outer.not_before is None or (inner.not_before is not None and outer.not_before <= inner.not_before)
    high = outer.not_after is None or (inner.not_after is not None and outer.not_after >= inner.not_after)
    return low and high


@given(MANY, HANDS)
def test_the_order_of_the_evidence_does_not_matter(found: list[Evidence], hand: DateRange | None) -> None:
    for layer in (Layer.WORDING, Layer.COPY):
        assert interval(layer, found, hand).bounds == interval(layer, found[::-1], hand).bounds


@given(MANY, HANDS)
def test_no_interval_ends_before_it_begins(found: list[Evidence], hand: DateRange | None) -> None:
    for layer in (Layer.WORDING, Layer.COPY):
        bounds = interval(layer, found, hand).bounds
        assert bounds.not_before is None or bounds.not_after is None or bounds.not_before <= bounds.not_after


@given(MANY, HANDS)
def test_what_does_not_agree_is_always_told(found: list[Evidence], hand: DateRange | None) -> None:
    for layer in (Layer.WORDING, Layer.COPY):
        made = interval(layer, found, hand)
        if not made.agree:
            assert made.bounds == Bounds()
            assert conflicts(found, hand)


@given(MANY, HANDS)
def test_what_is_only_possible_sets_no_end(found: list[Evidence], hand: DateRange | None) -> None:
    sure = [each for each in found if each.certainty is not Certainty.POSSIBLE]
    for layer in (Layer.WORDING, Layer.COPY):
        assert interval(layer, found, hand) == interval(layer, sure, hand)


@given(MANY, pieces(), HANDS)
def test_more_evidence_never_widens_the_copy(
    found: list[Evidence], more: Evidence, hand: DateRange | None
) -> None:
    before, after = interval(Layer.COPY, found, hand), interval(Layer.COPY, [*found, more], hand)
    if before.agree and after.agree:
        assert wider(before.bounds, after.bounds)


@given(MANY, HANDS)
def test_the_copy_is_not_before_its_wording_nor_the_wording_after_the_copy(
    found: list[Evidence], hand: DateRange | None
) -> None:
    wording, copy = interval(Layer.WORDING, found, hand), interval(Layer.COPY, found, hand)
    if not (wording.agree and copy.agree):
        return
    if wording.bounds.not_before is not None:
        assert copy.bounds.not_before is not None
        assert copy.bounds.not_before >= wording.bounds.not_before
    if copy.bounds.not_after is not None:
        assert wording.bounds.not_after is not None
        assert wording.bounds.not_after <= copy.bounds.not_after
