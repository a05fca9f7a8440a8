"""Caedmon's Hymn in 21 manuscripts (D. P. O'Donnell, SEENET 2005; repository of 2018, CC BY 4.0):
the editor's word places against our columns."""

import json
from collections import Counter
from collections.abc import Iterator
from itertools import combinations

import pytest

from collate.model.apparatus import Weight
from tests.making import DATA, collated, found

APPARATUS = DATA / "caedmons-hymn" / "caedmon_apps.json"
pytestmark = pytest.mark.skipif(not APPARATUS.exists(), reason="the shared data folder is not here")


def witnesses() -> dict[str, list[tuple[str, str]]]:
    """Return the words of each witness, each with the editor's place."""
    texts: dict[str, list[tuple[str, str]]] = {}
    for app in json.loads(APPARATUS.read_text("utf-8"))["originalAnalyticWitness"]:
        for reading in app["rdgs"]:
            siglum = reading["wit"].replace(" (Pre-Correction)", "1").replace(" (Post-Correction)", "c")
            if reading["text"] != "--":
                texts.setdefault(siglum, []).extend(
                    (word, app["id"]) for word in bare(reading["text"]).split()
                )
    return texts


def bare(text: str) -> str:
    """Take the scribes' points out: the editor counts words."""
    return "".join(character for character in text if character not in "·:‑")


def pairs(columns: list[dict[str, tuple[int, int]]]) -> Iterator[tuple[tuple[str, int], tuple[str, int]]]:
    for column in columns:
        held = [(siglum, at) for siglum, (start, stop) in sorted(column.items()) for at in range(start, stop)]
        yield from combinations(held, 2)


def test_our_columns_are_the_editors_places() -> None:
    texts = witnesses()
    assert len(texts) == 22  # O stands twice, before and after correction
    collation = collated({siglum: " ".join(word for word, _ in words) for siglum, words in texts.items()})
    columns = [
        {s: (column.spans[w].start, column.spans[w].stop) for w, s in enumerate(collation.sigla)}
        for column in collation.columns
    ]
    place = {(siglum, at): app for siglum, words in texts.items() for at, (_, app) in enumerate(words)}
    ours = [(a, b) for a, b in pairs(columns) if a[0] != b[0]]
    right = sum(place[a] == place[b] for a, b in ours)
    alone = {
        (siglum, at)
        for siglum, words in texts.items()
        for at, (_, app) in enumerate(words)
        if sum(other == app for _, other in words) == 1
    }
    wanted = {(a, b) for a, b in combinations(sorted(alone), 2) if a[0] != b[0] and place[a] == place[b]}
    met = len(wanted & {(min(a, b), max(a, b)) for a, b in ours})
    assert right / len(ours) >= 0.985
    assert met / len(wanted) >= 0.98


def label(ours: str, theirs: str) -> str:
    """Return the weight of the gravest difference between two readings of a place."""
    item = found({"A": f"x {ours} z", "B": f"x {theirs} z"})
    weights = {variant.weight for entry in item.entries for variant in entry.variants}
    return "substantive" if Weight.SUBSTANTIVE in weights else "accidental"


def test_accidental_and_substantive_beside_the_editors_groups() -> None:
    """His readings of one substantive group differ in spelling only: the matrix is printed (pytest -n 0 -s)."""
    matrix: Counter[tuple[str, str]] = Counter()
    for app in json.loads(APPARATUS.read_text("utf-8"))["originalAnalyticWitness"]:
        readings = {(bare(r["text"]).strip().replace("--", ""), r["group"][1]) for r in app["rdgs"]}
        for (ours, group), (theirs, other) in combinations(sorted(readings), 2):
            if ours != theirs:
                editor = "orthographic" if group == other else "substantive"
                matrix[editor, label(ours, theirs)] += 1
    for editor in ("orthographic", "substantive"):
        print(f"{editor:13}", *(f"{ours} {matrix[editor, ours]:4}" for ours in ("accidental", "substantive")))  # noqa: T201  the matrix is for the reader
    substantive = matrix["substantive", "substantive"], matrix["substantive", "accidental"]
    assert substantive[0] / sum(substantive) >= 0.94
    right = substantive[0] + matrix["orthographic", "accidental"]
    assert right / matrix.total() >= 0.74
