"""Doublings and skips, told by the repeated word."""

import pytest

from collate.model.apparatus import BASE_DOUBLES, VariantKind
from tests.making import found, substantives


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


def printed(texts: str) -> list[tuple[str, str, str, str]]:
    """Return what is printed of copies written as "A: one | B: two": lemma, reading, sigla, kind."""
    copies = dict(part.strip().split(": ", 1) for part in texts.split("|"))
    return substantives(found(copies))


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (
            "A: stampe it wel and wring it | B: stampe it wel and stampe it wel and wring it"
            " | C: stampe it wel and wring it and wring it",
            [("", "stampe it wel and", "B"), ("", "and wring it", "C")],
        ),
        (
            "A: ley hem in a clooth | B: ley ley hem in in a clooth | C: ley hem ley hem in a clooth clooth",
            [("", "ley", "B"), ("", "ley hem", "C"), ("", "in", "B"), ("", "clooth", "C")],
        ),
        (
            "A: strewe theron sauge | B: strewe strewe ther on ther on sauge",
            [("", "strewe", "B"), ("", "ther on", "B")],
        ),
        ("A: seth it wel and skome it | B: seth it wel wel wel and skome it", [("", "wel wel", "B")]),
        ("A: strewe theron sauge | B: strewe ther on theron sauge", [("", "theron", "B")]),
    ],
)
def test_doublings_of_several_copies_stand_apart(texts: str, expected: list[tuple[str, str, str]]) -> None:
    """Each is the second of two like runs, printed whole, whatever another copy has there."""
    told = printed(texts)
    assert [each[:3] for each in told] == expected
    assert {kind for *_, kind in told} == {"dittography"}


def test_a_doubling_beside_an_addition() -> None:
    """What another copy adds at the spot takes nothing from the doubling."""
    told = printed(
        "A: ley therto mynte and stere it | B: ley therto mynte ley therto mynte and stere it"
        " | C: ley therto rewe ley therto mynte and stere it"
    )
    assert told == [
        ("", "rewe ley therto", "C", "addition"),
        ("", "ley therto mynte", "B", "dittography"),
    ]


def test_what_varies_in_its_second_half_is_no_doubling() -> None:
    """Where no copy has the words once, the second are beside what the others have there."""
    told = printed("A: take sauge and take sauge and stampe hem | B: take sauge and take rewe and stampe hem")
    assert told == [("sauge", "rewe", "B", "substitution")]


def test_doublings_of_the_base_and_of_a_copy() -> None:
    """A word doubled here and another doubled there do not stand for one another."""
    item = found({"A": "ley hem in in a clooth", "C": "ley hem hem in a clooth"})
    (more,), (less,) = (entry.variants for entry in item.substantive)
    assert (more.reading.text, more.kind) == ("hem", VariantKind.DITTOGRAPHY)
    assert (less.kind, less.reason) == (VariantKind.OMISSION, "the base has in twice")


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (
            "A: take mynte and hony and rewe and hony and stere hem | B: take mynte and hony and stere hem"
            " | C: take rewe and hony and stere hem",
            [("mynte and hony and", "", "C"), ("rewe and hony and", "", "B")],
        ),
        (
            "A: seth it in ale and do therto mynte and seth it in mylk and do therto rewe"
            " | B: seth it in ale and do therto rewe | C: seth it in mylk and do therto rewe",
            [
                ("ale and do therto mynte and seth it in", "", "C"),
                ("mynte and seth it in mylk and do therto", "", "B"),
            ],
        ),
        (
            "A: stampe it and do therto hony and seth it and do therto mynte"
            " | B: stampe it and do therto fressh mynte",
            [("hony and seth it and do therto", "", "B"), ("", "fressh", "B")],
        ),
        (
            "A: wassh the fisch and scale the fyssh clene | B: wassh the fyssh clene",
            [("and scale the fyssh", "", "B")],
        ),
    ],
)
def test_copies_stand_under_the_half_they_have(texts: str, expected: list[tuple[str, str, str]]) -> None:
    """A copy that skipped is beside the words that it has, whatever another skipped."""
    assert [each[:3] for each in printed(texts)] == expected


@pytest.mark.parametrize(
    ("base", "other", "name"),
    [
        ("for the feuer take fenel and for the stone take rewe", "for the stone take rewe", "homoeoarchon"),
        ("ley it in a box and kepe it wel in a chiste", "ley it in a chiste", "homoeoarchon"),
        ("take two oynouns and two lekes and seth hem", "take ij lekes and seth hem", "homoeoarchon"),
        ("take ale and put therto mynte and put therto salt", "take ale and put therto salt", "homoeoarchon"),
        ("whan it is cold turne it and whan it is drye ley it vp", "whan it is drye ley it vp", "homoeoarchon"),
        ("stampe it with ale and seth it with ale and drinke it", "stampe it with ale and drinke it",
         "homoeoteleuton"),
        ("hakke the wortes smale and seth the wortes in broth", "hakke the wortes in broth", "homoeoteleuton"),
    ],
)  # fmt: skip
def test_repeated_words_open_or_close(base: str, other: str, name: str) -> None:
    """What leaves its noun to come, or begins a clause, opens; a noun, a whole phrase, closes."""
    (only,) = kinds(base, other)
    assert only[0] is VariantKind.EYE_SKIP
    assert only[2].endswith(f"({name})")


@pytest.mark.parametrize(
    ("base", "other"),
    [
        ("with must and an half of ale", "with must and half of ale"),
        ("take xx score whelkes", "take cccc whelkes"),
    ],
)
def test_what_may_be_meant_as_it_stands_is_no_doubling(base: str, other: str) -> None:
    """*An* is an article more often than *and*; *xx score* is four hundred (common practice)."""
    assert not any(reason.startswith(BASE_DOUBLES) for *_, reason in kinds(base, other))


def test_a_repeat_ends_with_its_text() -> None:
    found({"A": "take take", "B": "take take take take take take", "C": "take eyren"})
