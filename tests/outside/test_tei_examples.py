"""TEI P5 Guidelines, chapter Critical Apparatus (4.9.0a): the Wife of Bath's first line in four
manuscripts, and her line 117 in three."""

import json

import pytest

from tests.making import DATA, collated, words

EXAMPLES = DATA / "tei" / "tei_examples.json"
needs_data = pytest.mark.skipif(not EXAMPLES.exists(), reason="the shared data folder is not here")

PROLOGUE = {
    "El": "Experience though noon Auctoritee Were in this world, were right ynogh to me",
    "Hg": "Experience thogh noon Auctoritee Were in this world, is right ynogh for me",
    "La": "Experiment thouh none auctorite Were in this world, is right ynohe for me",
    "Ra2": "Eryment though none auctorite Were in this world, it is right ynow for me",
}


def test_the_first_lines_stand_word_by_word() -> None:
    collation = collated(PROLOGUE)
    columns = [
        [words(collation, siglum, number) for siglum in PROLOGUE] for number in range(len(collation.columns))
    ]
    expected = [
        ["Experience", "Experience", "Experiment", "Eryment"],
        ["though", "thogh", "thouh", "though"],
        ["noon", "noon", "none", "none"],
        ["Auctoritee", "Auctoritee", "auctorite", "auctorite"],
        ["Were"] * 4,
        ["in"] * 4,
        ["this"] * 4,
        ["world"] * 4,
        [","] * 4,
        ["", "", "", "it"],
        ["were", "is", "is", "is"],
        ["right"] * 4,
        ["ynogh", "ynogh", "ynohe", "ynow"],
        ["to", "for", "for", "for"],
        ["me"] * 4,
    ]
    assert columns == expected


@needs_data
def test_the_readings_of_the_guidelines_stand_together() -> None:
    example = next(e for e in json.loads(EXAMPLES.read_text("utf-8")) if e["id"] == "TCAPPS-egXML-fy")
    texts = {siglum: text for siglum, text in example["witnesses"].items() if siglum != "Chi3"}
    collation = collated(texts)
    for group in example["groups"]:
        for reading, sigla in group:
            for siglum in sigla:
                at = [
                    n
                    for n in range(len(collation.columns))
                    if words(collation, siglum, n) == reading.split()[0]
                ]
                others = {words(collation, s, at[0]) for s in texts}
                assert others <= {r.split()[0] for r, _ in group}


@needs_data
def test_line_117_shares_what_all_have() -> None:
    example = next(e for e in json.loads(EXAMPLES.read_text("utf-8")) if e["id"] == "TCAPDE-egXML-oc")
    collation = collated(example["witnesses"])
    rows = [
        tuple(words(collation, s, n) for s in example["witnesses"]) for n in range(len(collation.columns))
    ]
    for word in ("And", "a", "wight", "ywroght"):
        assert (word,) * 3 in rows
    el, ha4 = list(example["witnesses"]).index("El"), list(example["witnesses"]).index("Ha4")
    for word in ("what", "was"):
        assert any(row[el] == word and row[ha4] == word for row in rows)
