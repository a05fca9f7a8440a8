"""Every fault that `collate check` knows is found, with its place, and can be silenced."""

import json
from pathlib import Path

import pytest

from collate import pipeline
from collate.model.notice import CODES, Checked
from collate.model.source import Source
from collate.settings import Settings
from tests.making import ROOT, run


def faults(texts: dict[str, str], extra: str = "", lines: str = "free") -> list[Checked]:
    blocks = "".join(f'[[witness]]\nsiglum = "{s}"\nfile = "{s}.txt"\nlines = "{lines}"\n' for s in texts)
    edition = pipeline.edition(Source("edition.toml", f'title = "T"\n{blocks}{extra}'.encode()))
    sources = [Source(w.file, texts[w.siglum].encode()) for w in edition.witnesses]
    return list(pipeline.checked(edition, sources, Settings()))


COMMON = "take ale and take ale with sugre. take sugre in sugre with sugre\n"

CASES = [
    ("unreadable", "## 1 a\nwat(er\n", "1:4"),
    ("item-twice", "## 1 a\nale\n## j b\nale\n", "3:1"),
    ("item-order", "## 2 a\nale\n## 1 b\nale\n", "3:1"),
    ("empty-item", "## 1 a\nale\n## 2 b\n", "3:1"),
    ("folio-order", "|f. 2r| ale |f. 1v| ale\n", "1:21"),
    ("line-order", "|f. 1r| |l. 5| ale |l. 3| wyn\n", "1:27"),
    ("control-character", "ale \x07\n", "1:5"),
    ("unknown-sign", "ale ☃ wyn\n", "1:5"),
    ("unknown-sign", "ale $X wyn\n", "1:5"),
    ("unknown-sign", "ale a$X wyn\n", "1:6"),
    ("unknown-sign", "ale $ wyn\n", "1:5"),
    ("doubtful-gap", "ale [.x.] wyn\n", "1:6"),
    ("doubtful-gap", "ale [.n.] wyn\n", "1:6"),
    ("broken-word", "Take ¬ wyn\n", "1:1"),
    ("broken-word", "strey ¬\nnour\n", "1:1"),
    ("broken-word", "strey¬ nour\n", "1:1"),
    ("broken-word", "strey¬nour\n", "1:1"),
    ("three-for-yogh", "take 3olkes\n", "1:6"),
    ("mixed-yogh", "ȝolkes and ʒolkes\n", "1:12"),
    ("roman-numeral", "take .iiiix. figes\n", "1:7"),
    ("doubled-word", "take ale ale and\n", "1:10"),
    ("lonely-spelling", COMMON + "and xugre\n", "2:5"),
    ("modern-spelling", "take parsley and\n", "1:6"),
    ("unraised-letters", "take ale wt wyn wt\n", "1:10"),
    ("open-expansion", "take zap͛\n", "1:6"),
]


@pytest.mark.parametrize(("code", "text", "place"), CASES, ids=[case[1] for case in CASES])
def test_a_fault_is_found_in_its_place(code: str, text: str, place: str) -> None:
    found = [each for each in faults({"A": text}) if each.notice.code == code]
    assert found, code
    where = str(found[0].notice.place).removeprefix("A.txt:")
    assert where == place if code != "unreadable" else where == "2:4"
    assert found[0].stands


@pytest.mark.parametrize(
    ("heading", "code", "place"),
    [
        ("Tart ☃", "unknown-sign", "1:11"),
        ("Tart of 3olkes", "three-for-yogh", "1:14"),
        ("zap͛", "open-expansion", "1:6"),
        ("Tart Tart", "doubled-word", "1:11"),
        ("ȝolkes ʒolkes", "mixed-yogh", "1:13"),
    ],
)
def test_headings_are_looked_at_too(heading: str, code: str, place: str) -> None:
    found = [each.notice for each in faults({"A": f"## 1 {heading}\ntake ale\n"})]
    assert [(each.code, str(each.place)) for each in found] == [(code, f"A.txt:{place}")]


def test_lines_begin_anew_at_the_first_page_mark() -> None:
    text = "## 1 a\ntake ale\nand wyn |f. 2r| now\nfor al\n"
    assert [each.notice.code for each in faults({"A": text}, lines="manuscript")] == []


@pytest.mark.parametrize(("code", "text", "place"), CASES, ids=[case[1] for case in CASES])
def test_a_fault_can_be_silenced_with_a_reason(code: str, text: str, place: str) -> None:
    for key in (code, f"A {code}"):
        found = [
            each
            for each in faults({"A": text}, f'[silence]\n"{key}" = "looked at"\n')
            if each.notice.code == code
        ]
        assert all(each.silenced == "looked at" and not each.stands for each in found)


def test_a_word_broken_without_its_mark_is_found() -> None:
    found = faults({"A": "take vy\nnegre with ale\n"}, lines="manuscript")
    assert [each.notice.code for each in found] == ["broken-word"]
    assert not faults({"A": "take vy¬\nnegre with ale\n"}, lines="manuscript")


@pytest.mark.parametrize(
    "text",
    [
        "strey¬\nnour", "strey¬ \n nour", "strey¬\n|f. 1v|nour", "strey¬|nour", r"ale \$X and \$", "w[.3.]n and [.6]",
        r"ale [\.x.] wyn", "[.x. egges] and ale",
    ],
)  # fmt: skip
def test_marks_that_are_as_they_should_be_are_no_faults(text: str) -> None:
    assert not faults({"A": text})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("|f. 1r|f. 1v| x", "looks like a page mark"),
        ("|l. x|", "looks like a page mark"),
        ("|l. 3|l. 4| x", "looks like a page mark"),
        ("|f.| x", "looks like a page mark"),
        ("@margin wyn", "in braces"),
        ("@margin {wyn}", "in braces"),
        ("@hand2 wyn", "in braces"),
        ("@Margin{wyn}", "there is no mark @Margin"),
        ("[.0.]", "looks like a gap"),
        ("@space{-3}", "number of letters"),
        ("@space{0}", "number of letters"),
        ("@space{}", "number of letters"),
    ],
)
def test_a_mark_that_is_not_as_it_should_be_is_told(text: str, said: str) -> None:
    (found,) = faults({"A": f"## 1 a\nTake {text} and\n"})
    assert found.notice.code == "unreadable"
    assert said in found.notice.message
    assert str(found.notice.place) == f"A.txt:2:{13 if '|f. 1r|' in text else 12 if '|l. 3|' in text else 6}"


def test_a_doubled_word_marked_superfluous_is_no_fault() -> None:
    assert not faults({"A": "take ale {ale} and\n"})


def test_one_unsound_item_does_not_hide_the_others() -> None:
    found = faults({"A": "## 1 a\nwat(er\n## 2 b\ntake ale ale\n"})
    assert [each.notice.code for each in found] == ["unreadable", "doubled-word"]


def test_every_code_but_those_of_tei_has_a_case() -> None:
    tested = {case[0] for case in CASES}
    assert {code for code in CODES if not code.startswith("tei-")} == tested


def test_the_sample_is_clean_but_for_what_is_planted() -> None:
    done = run("check", str(ROOT / "samples" / "eldernesse"), "--format", "json")
    found = [fault for fault in json.loads(done.stdout)["faults"] if not fault["silenced"]]
    assert [(fault["code"], Path(fault["file"]).name) for fault in found] == [("lonely-spelling", "D.txt")]
    assert "fugre" in found[0]["message"]
    assert done.returncode == 1


def test_a_caret_stands_under_the_fault(tmp_path: Path) -> None:
    (tmp_path / "A.txt").write_text("take $tis ale ale\n", "utf-8")
    done = run("check", "A.txt", cwd=tmp_path)
    assert done.returncode == 1
    lines = done.stdout.split("\n")
    assert lines[0].startswith("A.txt:1:15: warning:")
    assert lines[1].index("take") + 14 == lines[2].index("^")


def test_no_faults_is_said(tmp_path: Path) -> None:
    (tmp_path / "A.txt").write_text("take figes and ale\n", "utf-8")
    done = run("check", "A.txt", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, "no faults\n")


def test_a_second_pass_is_compared(tmp_path: Path) -> None:
    (tmp_path / "A.txt").write_text("## 1 Tart\ntake wat(er) and ale\n", "utf-8")
    (tmp_path / "A2.txt").write_text("## 1 Tart\ntake water and\nale\n", "utf-8")
    done = run("check", "A.txt", "--against", "A2.txt", cwd=tmp_path)
    assert done.returncode == 1
    assert "A.txt:2:6: item 1: wat(er)" in done.stdout
    assert "A2.txt:2:6: item 1: water" in done.stdout
    assert done.stdout.endswith("1 difference\n")
    same = run("check", "A.txt", "--against", "A.txt", cwd=tmp_path)
    assert (same.returncode, same.stdout) == (0, "identical, 4 words\n")
