import re
import unicodedata
from importlib.resources import files

import pytest

from collate.lexicon.compile import compiled, rows
from collate.lexicon.context import cues
from collate.lexicon.date_numbers import number_words
from collate.lexicon.spelling import rule_names
from collate.lexicon.tables import compiled_list, spelling_rules
from collate.lexicon.words import COLUMNS, TABLES, lexicon, senses

DATA = files("collate.lexicon").joinpath("data")
NAMES = sorted(entry.name for entry in DATA.iterdir() if entry.name.endswith(".tsv"))
FEATURES = {
    "-", "singular", "plural", "genitive", "infinitive", "imperative", "imperative-plural", "present", "present-3s",
    "present-plural", "subjunctive", "past-subjunctive", "preterite", "preterite-plural", "past-participle",
    "present-participle", "positive", "inflected", "comparative", "superlative", "subject", "object", "possessive",
    "cardinal", "ordinal",
}  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_its_columns_and_its_authority(name: str) -> None:
    text = DATA.joinpath(name).read_text("utf-8")
    head, *lines = text.rstrip("\n").split("\n")
    columns = head.split("\t")
    assert "authority" in columns, name
    for line in lines:
        fields = line.split("\t")
        assert len(fields) == len(columns), line
        assert fields[columns.index("authority")], line
        assert all(field == field.strip() for field in fields), line


def test_the_compiled_lists_are_fresh() -> None:
    head, forms = compiled(rows())
    assert compiled_list("headwords") == head, "run python -m collate.lexicon.compile"
    assert compiled_list("forms") == forms, "run python -m collate.lexicon.compile"
    assert compiled_list("number_words") == number_words(), "run python -m collate.lexicon.compile"


def test_the_lexicon_is_large_enough() -> None:
    assert len(lexicon().headwords) >= 900


@pytest.mark.parametrize("name", TABLES)
def test_a_table_of_headwords_is_well_kept(name: str) -> None:
    text = DATA.joinpath(f"{name}.tsv").read_text("utf-8")
    seen = set()
    for line in text.rstrip("\n").split("\n")[1:]:
        row = dict(zip(COLUMNS, line.split("\t"), strict=True))
        key = (row["headword"], row["class"], row["features"], row["authority"])
        assert key not in seen, key
        seen.add(key)
        features = {f for f in row["features"].split(",") if not f.startswith("value=")}
        assert features <= FEATURES, line
        forms = row["forms"].split(" ")
        assert len(forms) == len(set(forms)), line
        assert all(
            form and unicodedata.normalize("NFC", form) == form and form == form.lower() for form in forms
        ), line
        assert row["gloss"], line


def test_every_cue_is_about_a_headword_and_a_form_that_there_are() -> None:
    identities = {"{} ({})".format(*line.split("\t")[:2]) for line in lexicon().headwords}
    for identity, found in cues().items():
        assert identity in identities, identity
        for cue in found:
            if cue.what == "word":
                assert senses(cue.text, lexicon()), (identity, cue)


def test_the_rules_are_the_fifteen_and_the_folding() -> None:
    assert rule_names() == tuple(f"R{number}" for number in range(16))
    assert all(isinstance(rule.pattern, re.Pattern) for rule in spelling_rules())


def test_a_listed_form_is_taken_before_a_derived_one() -> None:
    assert all(not sense.rule for sense in senses("saffroun", lexicon()))
    assert {sense.rule for sense in senses("saundreth", lexicon())} != {""}
