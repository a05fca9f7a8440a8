"""The sample edition as TEI: valid by the whole schema, faultless by the rules, read out again as it was."""

import pytest

from collate import pipeline
from collate.model.source import Source
from collate.reports.tei import tei
from tests.making import ROOT
from tests.reports.tei_reading import Texts, found_of, read_again, told
from tests.tei_rules import faults
from tests.tei_schema import errors, reduced, whole

SAMPLE = ROOT / "samples" / "eldernesse"


@pytest.fixture(scope="module")
def sample() -> tuple[Texts, str]:
    """Return the sample's witnesses, and its TEI document."""
    edition = pipeline.edition(Source("edition.toml", (SAMPLE / "edition.toml").read_bytes()))
    sources = [Source(witness.file, (SAMPLE / witness.file).read_bytes()) for witness in edition.witnesses]
    cut, found = found_of(edition, sources)
    return cut, "".join(tei(found))


def test_the_whole_schema_takes_the_sample(sample: tuple[Texts, str]) -> None:
    assert errors(sample[1], whole()) == []


def test_the_whole_schema_refuses_what_is_wrong(sample: tuple[Texts, str]) -> None:
    """If the schema took this as well, the test above would say nothing."""
    wrong = sample[1].replace('<rdg wit="#B" type=', '<rdg wit="#B" sort=', 1)
    assert wrong != sample[1]
    assert errors(wrong, whole()) != []
    assert errors(wrong, reduced()) != []


def test_the_sample_keeps_the_rules(sample: tuple[Texts, str]) -> None:
    assert faults(sample[1]) == []


def test_every_witness_of_the_sample_is_read_out_again_as_it_was(sample: tuple[Texts, str]) -> None:
    before, after = told(sample[0]), told(read_again(sample[1]))
    assert list(before) == ["A", "B", "C", "D", "L", "M"]
    for siglum, items in before.items():
        assert after[siglum] == items


def test_the_same_findings_give_the_same_document(sample: tuple[Texts, str]) -> None:
    edition = pipeline.edition(Source("edition.toml", (SAMPLE / "edition.toml").read_bytes()))
    sources = [Source(witness.file, (SAMPLE / witness.file).read_bytes()) for witness in edition.witnesses]
    assert "".join(tei(found_of(edition, sources)[1])) == sample[1]
