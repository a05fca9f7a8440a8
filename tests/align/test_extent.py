"""Fragments: what is lost at a torn end is absent, what a copy passes over is omitted, also at its ends."""

from dataclasses import replace

import pytest

from collate.align.collate import collate
from collate.align.extent import Ends
from collate.align.together import finished
from collate.lexicon.judge import shipped_judge
from collate.model.apparatus import VariantKind
from collate.model.collation import Collation, Presence
from collate.settings import Aligning
from tests.bench.alignment import counts, f1
from tests.making import all_found, found, substantives, witness_text
from tests.scribes import Tradition, tradition


def torn(seed: int, start: int, stop: int) -> Tradition:
    made = tradition(6, 150, seed)
    kept = dict(made.witnesses)
    kept["W02"] = kept["W02"][start : len(kept["W02"]) - stop]
    return replace(made, witnesses=kept)


def silent(collation: Collation, siglum: str, presence: Presence) -> int:
    w = collation.sigla.index(siglum)
    return sum(column.spans[w].presence is presence for column in collation.columns)


def torn_collation(made: Tradition, ends: Ends) -> Collation:
    members = [(siglum, witness_text(made.text(siglum), siglum).items[0]) for siglum in made.witnesses]
    return finished(collate("1", members, shipped_judge(), Aligning(), {"W02": ends}))


@pytest.mark.parametrize(("seed", "start", "stop"), [(1, 60, 0), (2, 0, 50), (3, 45, 45)])
def test_a_fragment_lacks_what_is_lost_at_its_torn_ends(seed: int, start: int, stop: int) -> None:
    made = torn(seed, start, stop)
    collation = torn_collation(made, Ends(start=start > 0, stop=stop > 0))
    assert silent(collation, "W02", Presence.LACUNOSE) >= start + stop - 10
    for siglum in set(collation.sigla) - {"W02"}:
        assert silent(collation, siglum, Presence.LACUNOSE) == 0
    assert f1(counts(made, collation)) > 0.97


@pytest.mark.parametrize(("seed", "start", "stop"), [(1, 60, 0), (2, 0, 50), (3, 45, 45)])
def test_where_nothing_says_that_text_is_lost_silence_is_omission(seed: int, start: int, stop: int) -> None:
    made = torn(seed, start, stop)
    collation = torn_collation(made, Ends())
    assert silent(collation, "W02", Presence.LACUNOSE) == 0
    assert silent(collation, "W02", Presence.OMITTED) >= start + stop - 10
    assert f1(counts(made, collation)) > 0.97


def test_a_copy_that_begins_as_another_does_has_its_beginning() -> None:
    made = torn(1, 0, 50)
    collation = torn_collation(made, Ends(start=True))
    assert silent(collation, "W02", Presence.LACUNOSE) == 0


WHOLE = " ".join(
    f"take {word} and sethe it wel" for word in ["porke", "veel", "motoun", "beef", "capoun", "conyng"]
)


def test_the_reason_says_that_the_copy_is_torn() -> None:
    book = "## 1 Pye\n{}\n## 2\n{}"
    texts = {siglum: book.format(WHOLE, "cast mylk to the rys") for siglum in "AB"}
    texts["C"] = book.format(" ".join(WHOLE.split()[:10]), "[...] to the rys")
    item = next(iter(all_found(texts).items))
    variants = [v for entry in item.entries for v in entry.variants]
    assert [v.kind for v in variants] == [VariantKind.LACUNA] * len(variants)
    assert all("breaks off" in v.reason for v in variants)


@pytest.mark.parametrize(
    ("end", "head", "lost"),
    [("[...]", "", True), ("", "", False), ("[...]", "Pye", False)],
    ids=["after a gap", "after a whole item", "with its heading"],
)
def test_an_item_without_heading_after_one_that_breaks_off_may_have_lost_its_beginning(
    end: str, head: str, lost: bool
) -> None:
    book = "## 1 Tart\nnym figes and ale {}\n## 2 {}\n{}\n## 3 Gely\ncast mylk to the rys\n"
    texts = {"A": book.format("", "Pye", WHOLE), "B": book.format("", "Pye", WHOLE)}
    texts["C"] = book.format(end, head, " ".join(WHOLE.split()[24:]))
    item = tuple(all_found(texts).items)[1]
    assert [v.kind for entry in item.substantive for v in entry.variants] == [
        VariantKind.LACUNA if lost else VariantKind.EYE_SKIP
    ]


def test_a_short_omission_at_the_end_is_an_omission() -> None:
    whole = "take porke and veel and sethe hem wel and serue it forth"
    item = found({"A": whole, "B": whole, "C": "take porke and veel and sethe hem wel"})
    assert [v.kind for entry in item.entries for v in entry.variants] == [VariantKind.OMISSION]


FIGS = (
    "Take gode figes and wasshe hem clene in water and hewe hem smal and do hem in a potte with wyn and sugre"
    " and poudre of canel and hony and serue hem forth"
)
STEPS = "Take figes and wyn and sethe hem wel togydre and do þerto sugre and safroun and salt and serue hem forth hote"
POTTE = "Take wyn and boyle it in a potte and caste þerto sugre in a potte and serue it"


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (
            [STEPS, "Take figes and serue hem forth hote"],
            [("B", "wyn and sethe hem wel togydre and do þerto sugre and safroun and salt and")],
        ),
        (
            ["Take it and grynde it and boyle it and serue it and ete it with brede", "Take it with brede"],
            [("B", "and grynde it and boyle it and serue it and ete it")],
        ),
        (
            [POTTE, POTTE.replace(" and caste þerto sugre in a potte", ""), "Take wyn and serue it"],
            [
                ("C", "boyle it in a potte and caste þerto sugre in a potte and"),
                ("B", "caste þerto sugre in a potte and"),
            ],
        ),
        (
            [FIGS, "Take figes and hony and serue hem"],
            [("B", "gode"), ("B", " ".join(FIGS.split()[4:28])), ("B", "forth")],
        ),
        ([FIGS, "Take gode figes and wasshe hem"], [("B", " ".join(FIGS.split()[6:]))]),
        (
            [FIGS, "do hem in a potte and serue hem forth"],
            [("B", " ".join(FIGS.split()[:14])), ("B", "with wyn and sugre and poudre of canel and hony")],
        ),
    ],
    ids=[
        "one long gap",
        "one word repeated",
        "two short copies",
        "much shorter",
        "the rest",
        "the beginning",
    ],
)
def test_the_first_and_last_words_of_a_short_copy_are_held_to_the_ends(
    texts: list[str], told: list[tuple[str, str]]
) -> None:
    said = substantives(found(dict(zip("ABC", texts, strict=False))))
    assert [(sigla, lemma) for lemma, _, sigla, _ in said] == told
    assert {reading for _, reading, _, _ in said} == {""}
    assert {kind for _, _, _, kind in said} <= {"omission", "eye-skip"}
