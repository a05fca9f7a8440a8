"""Likely misreadings: from the printed examples of the table, and what is none."""

import pytest

from collate.lexicon.causes import in_expansion, likely_cause, likely_cause_of_number


@pytest.mark.parametrize(
    ("ours", "theirs", "kind", "name"),
    [
        # T. Austin, EETS OS 91 (1888): misreadings as his notes and glossary name them
        ("lyne", "lyve", "minim", "n/v"),
        ("malasade", "malafade", "long-s", "s/f"),
        ("scocche", "scorche", "shape", "c/r"),
        ("caste", "taste", "shape", "c/t"),
        ("cremes", "cromes", "shape", "e/o"),
        ("pike", "pile", "shape", "k/l"),
        ("dene", "clene", "shape", "d/cl"),
        ("theme", "thee", "bar", "m/–"),
        # from memory
        ("pynes", "pyues", "minim", "n/u"),
        ("faundrys", "saundres", "long-s", "f/s"),
    ],
)
def test_a_misreading_is_named(ours: str, theirs: str, kind: str, name: str) -> None:
    cause = likely_cause(ours, theirs)
    assert cause is not None
    assert (cause.kind, cause.name) == (kind, name)
    assert cause.authority


@pytest.mark.parametrize(
    ("ours", "theirs"), [("salt", "sugre"), ("pork", "veel"), ("hem", "it"), ("of", "or"), ("wyn", "wyn")]
)
def test_unlike_words_are_no_misreading(ours: str, theirs: str) -> None:
    assert likely_cause(ours, theirs) is None


def test_numbers_one_stroke_apart() -> None:
    cause = likely_cause_of_number(".iij.", "iiij")
    assert cause is not None
    assert cause.kind == "numeral"
    assert cause.name == "iij/iiij"
    assert "iij/iiij, one stroke" in cause.said
    assert likely_cause_of_number(".iij.", "xx") is None


def test_what_an_abbreviation_stands_for() -> None:
    assert in_expansion("person", "parson", [(1, 3)])
    assert not in_expansion("person", "persoun", [(1, 3)])
