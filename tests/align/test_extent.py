"""Fragments: what a copy does not reach is absent, what it passes over is omitted."""

from dataclasses import replace

import pytest

from collate.align.collate import collate
from collate.align.extent import Ends
from collate.lexicon.judge import shipped_judge
from collate.model.apparatus import VariantKind
from collate.model.collation import Collation, Presence
from collate.settings import Aligning
from tests.bench.alignment import aligned, counts, f1
from tests.making import all_found, found, witness_text
from tests.scribes import Tradition, tradition


def torn(seed: int, start: int, stop: int) -> Tradition:
    made = tradition(6, 150, seed)
    kept = dict(made.witnesses)
    kept["W02"] = kept["W02"][start : len(kept["W02"]) - stop]
    return replace(made, witnesses=kept)


def silent(collation: Collation, siglum: str, presence: Presence) -> int:
    w = collation.sigla.index(siglum)
    return sum(column.spans[w].presence is presence for column in collation.columns)


@pytest.mark.parametrize(("seed", "start", "stop"), [(1, 60, 0), (2, 0, 50), (3, 45, 45)])
def test_a_fragment_lacks_what_it_does_not_reach(seed: int, start: int, stop: int) -> None:
    made = torn(seed, start, stop)
    collation = aligned(made, shipped_judge(), Aligning())
    assert silent(collation, "W02", Presence.LACUNOSE) >= start + stop - 10
    for siglum in set(collation.sigla) - {"W02"}:
        assert silent(collation, siglum, Presence.LACUNOSE) == 0
    assert f1(counts(made, collation)) > 0.97


def test_where_the_copy_goes_on_silence_is_omission() -> None:
    made = torn(2, 0, 50)
    members = [(siglum, witness_text(made.text(siglum), siglum).items[0]) for siglum in made.witnesses]
    ends = {siglum: Ends(start=False, stop=False) for siglum in made.witnesses}
    collation = collate("1", members, shipped_judge(), Aligning(), ends)
    assert silent(collation, "W02", Presence.LACUNOSE) == 0
    assert silent(collation, "W02", Presence.OMITTED) >= 40


def test_the_reason_names_the_fragment() -> None:
    whole = " ".join(
        f"take {word} and sethe it wel" for word in ["porke", "veel", "motoun", "beef", "capoun", "conyng"]
    )
    item = found({"A": whole, "B": whole, "C": " ".join(whole.split()[:10])})
    variants = [v for entry in item.entries for v in entry.variants]
    assert [v.kind for v in variants] == [VariantKind.LACUNA] * len(variants)
    assert all("begins or ends within the item" in v.reason for v in variants)


@pytest.mark.parametrize(
    ("end", "head", "lost"),
    [("[...]", "", True), ("", "", False), ("[...]", "Pye", False)],
    ids=["after a gap", "after a whole item", "with its heading"],
)
def test_an_item_without_heading_after_one_that_breaks_off_may_have_lost_its_beginning(
    end: str, head: str, lost: bool
) -> None:
    whole = " ".join(
        f"take {word} and sethe it wel" for word in ["porke", "veel", "motoun", "beef", "capoun", "conyng"]
    )
    book = "## 1 Tart\nnym figes and ale {}\n## 2 {}\n{}\n## 3 Gely\ncast mylk to the rys\n"
    texts = {"A": book.format("", "Pye", whole), "B": book.format("", "Pye", whole)}
    texts["C"] = book.format(end, head, " ".join(whole.split()[24:]))
    item = tuple(all_found(texts).items)[1]
    assert [v.kind for entry in item.substantive for v in entry.variants] == [
        VariantKind.LACUNA if lost else VariantKind.EYE_SKIP
    ]


def test_a_short_omission_at_the_end_is_an_omission() -> None:
    whole = "take porke and veel and sethe hem wel and serue it forth"
    item = found({"A": whole, "B": whole, "C": "take porke and veel and sethe hem wel"})
    assert [v.kind for entry in item.entries for v in entry.variants] == [VariantKind.OMISSION]
