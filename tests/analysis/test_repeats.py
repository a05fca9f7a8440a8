"""Doublings and skips, told by the repeated word."""

import pytest

from collate.model.apparatus import VariantKind
from tests.making import found


def kinds(base: str, other: str) -> list[tuple[VariantKind, str, str]]:
    """Return the kind, text and reason of every substantive variant of a second copy."""
    item = found({"A": base, "B": other})
    return [
        (variant.kind, variant.reading.text, variant.reason)
        for entry in item.substantive
        for variant in entry.variants
        if variant.weight == "substantive"
    ]


def test_words_written_twice() -> None:
    """West 1973 (from memory): dittography is the writing twice of what should stand once."""
    (only,) = kinds("lat hit boyle a whyle", "lat hit lat hit boyle a whyle")
    assert only[0] is VariantKind.DITTOGRAPHY
    assert only[2] == "lat hit stands twice"


def test_what_the_base_has_twice_is_said_of_the_base() -> None:
    """A witness does not omit by mistake what the base doubles by mistake."""
    (only,) = kinds("lat hit lat hit boyle", "lat hit boyle")
    assert only[0] is VariantKind.OMISSION
    assert only[2] == "the base has lat hit twice"


@pytest.mark.parametrize(
    ("base", "other", "name"),
    [
        (
            "take hem out of þe broth and ley hem in þe broth and serue forth",
            "take hem out of þe broth and serue forth",
            "homoeoteleuton",
        ),
        (
            "do þerto poudre of gynger and poudre of canel and salt",
            "do þerto poudre of canel and salt",
            "homoeoarchon",
        ),
    ],
)
def test_skips_by_their_ends_and_by_their_beginnings(base: str, other: str, name: str) -> None:
    """West 1973 (from memory): homoeoteleuton and homoeoarchon."""
    told = kinds(base, other)
    assert {kind for kind, _, _ in told} == {VariantKind.EYE_SKIP}
    assert all(reason.endswith(f"({name})") for _, _, reason in told)


def test_a_skip_of_the_base_is_only_a_possibility() -> None:
    """What only the other has may have been skipped by the base; it stays an addition."""
    told = kinds(
        "sethe hem in þe broth and serue forth",
        "sethe hem in þe broth and ley hem in þe broth and serue forth",
    )
    assert {kind for kind, _, _ in told} == {VariantKind.ADDITION}
    assert "the base may have skipped" in told[0][2]


@pytest.mark.parametrize(
    ("base", "other"),
    [
        ("caste þerto þe salt and serue forth", "caste þerto and serue forth"),
        ("take þe pyke and þe tenche and sethe hem", "take þe pyke and sethe hem"),
    ],
)
def test_a_common_little_word_is_no_ground(base: str, other: str) -> None:
    """An omission between two ands is an omission."""
    assert {kind for kind, _, _ in kinds(base, other)} == {VariantKind.OMISSION}
