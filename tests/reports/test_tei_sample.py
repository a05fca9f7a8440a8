"""The sample edition as TEI: valid by the whole schema, faultless by the rules, read out again as it was."""

from pathlib import Path

import pytest

from collate.reports.text import apparatus
from collate.settings import Attachment, Printing
from tests.making import run
from tests.reports.tei_reading import found_again, read_again, sample, sample_document, told, told_as_collated
from tests.tei_rules import faults
from tests.tei_schema import errors, reduced, whole

every_attachment = pytest.mark.parametrize("attachment", list(Attachment))


@every_attachment
def test_the_whole_schema_takes_the_sample(attachment: Attachment) -> None:
    assert errors(sample_document(attachment), whole()) == []


def test_the_whole_schema_refuses_what_is_wrong() -> None:
    """If the schema took this as well, the test above would say nothing."""
    wrong = sample_document().replace('<rdg wit="#B" type=', '<rdg wit="#B" sort=', 1)
    assert wrong != sample_document()
    assert errors(wrong, whole()) != []
    assert errors(wrong, reduced()) != []


@every_attachment
def test_the_sample_keeps_the_rules(attachment: Attachment) -> None:
    assert faults(sample_document(attachment)) == []


@every_attachment
def test_every_witness_of_the_sample_is_read_out_again_as_it_was(attachment: Attachment) -> None:
    """B has in two items what the others have in one: as 12+12b it is collated, and comes back."""
    before, after = told_as_collated(sample()[1]), told(read_again(sample_document(attachment)))
    assert sorted(before) == ["A", "B", "C", "D", "L", "M"]
    assert {s: len(each) for s, each in before.items()} == {
        s: len(each) - (s == "B") for s, each in told(sample()[0]).items()
    }
    for siglum, items in before.items():
        assert after[siglum] == items


@every_attachment
def test_the_apparatus_of_what_is_read_again_is_the_same(attachment: Attachment) -> None:
    _, found = found_again(sample_document(attachment))
    assert list(apparatus(found, Printing())) == list(apparatus(sample()[1], Printing()))


@pytest.mark.parametrize("form", ["tei", "latex"])
def test_the_command_writes_the_same_bytes_every_time(
    form: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, text in {"A": "boyle hem wel in wyn", "B": "boile wel in wyn", "C": "in wyn sethe hem"}.items():
        (tmp_path / f"{name}.txt").write_text(text, "utf-8")
    said = []
    for seed in ("1", "2"):
        monkeypatch.setenv("PYTHONHASHSEED", seed)
        done = run("apparatus", "A.txt", "B.txt", "C.txt", "--format", form, cwd=tmp_path)
        assert (done.returncode, done.stderr) == (0, "")
        said.append(done.stdout)
    assert said[0] == said[1]
    assert said[0].startswith({"tei": "<?xml", "latex": "%"}[form])
