"""Gaps: what survives beside one stays with its like, and one of known extent holds no more than it may."""

import pytest

from collate.align.gaps import letters_lost, lost_in
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
    assert lost_in(sizes, letters) == gone


def test_an_extent_is_known_if_every_gap_states_it() -> None:
    tokens = [
        token
        for token in witness_text("nym [.4.] ele +++ and [...] ale", "A").items[0].tokens
        if "…" in token.expanded
    ]
    assert letters_lost(tokens[:2]) == 7
    assert letters_lost(tokens) is None
