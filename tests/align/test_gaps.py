"""Gaps: what survives beside one stays with its like, and one of known extent holds no more than it may."""

import pytest

from collate.align.gaps import extent_of, lost_in
from collate.model.extents import Extent, Unit
from collate.model.witness import TokenKind
from tests.making import found, substantives, witness_text

REST = "and kerue hym thynne and stewe hym in ale and brede"
EEL = f"nym the ele and flee hym {REST}"


@pytest.mark.parametrize(
    ("whole", "torn", "told"),
    [
        (EEL, "nym the ele [...] and flee hym", [("", "lacuna"), (REST, "omission")]),
        (EEL, "[...] and flee hym", [("nym the ele", "lacuna"), (REST, "omission")]),
        (
            EEL,
            "and kerue hym [...]",
            [("nym the ele and flee hym", "omission"), ("thynne and stewe hym in ale and brede", "lacuna")],
        ),
        (
            "stampe hem wel and medle hem with hony and messe hem",
            "stampe hem [...] and medle hem",
            [("wel", "lacuna"), ("with hony and messe hem", "omission")],
        ),
        (
            "Nym plomes and boyle hem in swete mylke and mynce hem smale and cast therto galyngale",
            "Nym plomes and boyle hem in [.5.] mylke",
            [("swete", "lacuna"), ("and mynce hem smale and cast therto galyngale", "omission")],
        ),
    ],
    ids=["nothing wanting", "at the head", "at the tail", "one word", "five letters"],
)
def test_words_that_survive_beside_a_gap_stay_with_their_like(
    whole: str, torn: str, told: list[tuple[str, str]]
) -> None:
    said = substantives(found({"A": whole, "C": torn}))
    assert [(lemma, kind) for lemma, _, _, kind in said] == told


@pytest.mark.parametrize("gap", ["[...]", "[.200.]"])
def test_a_long_loss_within_an_item_is_bridged_at_its_place(gap: str) -> None:
    middle = " ".join(
        ["and kerue hym thynne and do hym in a potte and cast therto ale and hony and saffron"] * 2
    )
    whole = f"nym the ele and flee hym {middle} and stewe hym wel and messe hym forth"
    said = substantives(
        found({"A": whole, "C": f"nym the ele and flee hym {gap} and stewe hym wel and messe hym forth"})
    )
    assert {kind for *_, kind in said} == {"lacuna"}
    assert " ".join(lemma for lemma, *_ in said) == middle


def test_a_gap_of_known_extent_does_not_account_for_a_longer_silence() -> None:
    whole = "nym the ele and kerue hym thynne in ale and messe it forth"
    said = substantives(found({"A": whole, "C": "nym the ele [.3.] messe it forth"}))
    assert [(lemma, kind) for lemma, _, _, kind in said] == [
        ("and", "lacuna"),
        ("kerue hym thynne in ale and", "omission"),
    ]


@pytest.mark.parametrize(
    ("sizes", "letters", "gone"),
    [
        ([3, 5, 4], None, range(3)),
        ([3, 5, 4], 8, range(3)),
        ([3, 5, 4], 5, range(1, 2)),
        ([4, 5, 4, 20], 4, range(1)),
        ([9, 9, 9], 2, range(1)),
        ([2, 3, 9, 4, 4], 8, range(3, 5)),
    ],
    ids=["not stated", "half as much more", "one fits", "the first that fits", "none fits", "two fit"],
)
def test_the_run_of_words_nearest_to_the_extent_is_lost(
    sizes: list[int], letters: int | None, gone: range
) -> None:
    assert lost_in(sizes, Extent(letters) if letters else None) == gone


def test_an_extent_is_known_if_every_gap_states_it() -> None:
    tokens = [
        token
        for token in witness_text("nym [.4.] ele +++ and [...] ale", "A").items[0].tokens
        if "…" in token.expanded
    ]
    assert extent_of(tokens[:2], tokens) == Extent(7)
    assert extent_of(tokens, tokens) is None


LINES = "nym the ele and flee |hym and kerue hym in |fayre gobettes and do |hem in a potte and"


@pytest.mark.parametrize(
    ("gap", "extent"),
    [
        ("[.3 words.]", Extent(3, Unit.WORD)),
        ("[.1 word.]", Extent(1, Unit.WORD)),
        ("[.4 letters.]", Extent(4)),
        ("[.2 lines.]", Extent(10, Unit.WORD)),
        ("[.2 words.] [.3 words.]", Extent(5, Unit.WORD)),
        ("[.2 words.] [.3.]", None),
    ],
)
def test_words_and_lines_are_heard_as_an_extent(gap: str, extent: Extent | None) -> None:
    text = f"{LINES} |seth {gap} it forth"
    tokens = witness_text(text).items[0].tokens
    assert extent_of([token for token in tokens if token.kind is TokenKind.GAP], tokens) == extent


def test_lines_of_a_copy_without_lines_are_no_bound() -> None:
    tokens = witness_text("nym the ele and [.2 lines.] it forth").items[0].tokens
    assert extent_of([token for token in tokens if token.kind is TokenKind.GAP], tokens) is None


@pytest.mark.parametrize(
    ("gap", "lacunose", "omitted"),
    [
        ("[.2 words.]", "and kerue", "hym thynne in ale and"),
        ("[.3 words.]", "and kerue hym", "thynne in ale and"),
        ("[.7 words.]", "and kerue hym thynne in ale and", ""),
        ("[.5 words.]", "and kerue hym thynne in ale and", ""),
        ("[.1 line.]", "and kerue hym thynne in ale and", ""),
    ],
)
def test_a_gap_of_so_many_words_holds_no_more(gap: str, lacunose: str, omitted: str) -> None:
    whole = "nym the ele and kerue hym thynne in ale and messe it forth"
    said = substantives(found({"A": whole, "C": f"nym the ele {gap} messe it forth"}))
    wanted = [(lacunose, "lacuna"), (omitted, "omission")]
    assert [(lemma, kind) for lemma, _, _, kind in said] == [each for each in wanted if each[0]]


def test_lines_are_so_many_usual_words_of_the_copy() -> None:
    rest = "and boyle it and streyne it and salt it and stere it and colour it with saffron and messe it"
    whole = f"{LINES.replace('|', '')} {rest}"
    torn = f"{LINES} |[.1 line.] |and messe it"
    said = substantives(found({"A": whole, "C": torn}))
    assert [kind for *_, kind in said] == ["lacuna", "omission"]
    assert len(said[0][0].split()) in (4, 5)
