"""Bad input: exit 2, one sentence that names the place and the remedy, nothing half written."""

import json
import os
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.making import ROOT, run

GOOD = "## 1 Tart\nTake figes and ale.\n"
EDITION = """title = "T"
base = "A"
[[witness]]
siglum = "A"
file = "A.txt"
[[witness]]
siglum = "B"
file = "B.txt"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "A.txt").write_text(GOOD, "utf-8")
    (tmp_path / "B.txt").write_text(GOOD, "utf-8")
    (tmp_path / "edition.toml").write_text(EDITION, "utf-8")
    return tmp_path


def write(name: str, data: bytes | str) -> Callable[[Path], list[str]]:
    def prepare(folder: Path) -> list[str]:
        (folder / name).write_bytes(data if isinstance(data, bytes) else data.encode())
        return ["apparatus", "A.txt", "B.txt"]

    return prepare


def edition(change: Callable[[str], str]) -> Callable[[Path], list[str]]:
    def prepare(folder: Path) -> list[str]:
        (folder / "edition.toml").write_text(change(EDITION), "utf-8")
        return ["apparatus", "."]

    return prepare


def arguments(*words: str) -> Callable[[Path], list[str]]:
    return lambda folder: list(words)


CASES: list[tuple[str, Callable[[Path], list[str]], str, str]] = [
    ("not UTF-8", write("A.txt", b"Take\nfig\xe8s"), "A.txt:2:4", "UTF-8"),
    ("NUL", write("A.txt", b"Take\nab\0c"), "A.txt:2:3", "NUL"),
    ("empty", write("A.txt", ""), "A.txt", "no text"),
    ("blank", write("A.txt", " \n\t\n"), "A.txt", "no text"),
    ("only marks", write("A.txt", "|f. 1r|\n# a remark\n"), "A.txt", "no text"),
    ("no label", write("A.txt", "## \nTake"), "A.txt:1:1", "number or a name"),
    ("label twice", write("A.txt", "## 12 Tart\na\n## xij Tart\nb\n"), "A.txt:3:1", "line 1"),
    ("never closed", write("A.txt", "Take wat(er\nand"), "A.txt:1:9", "never closed"),
    ("never opened", write("A.txt", "Take\nwater) and"), "A.txt:2:6", "never opened"),
    ("misnested", write("A.txt", "a [b (c] d)"), "A.txt:1:8", "nest"),
    ("unknown mark", write("A.txt", "a @rubrik{b}"), "A.txt:1:3", "@rubric"),
    ("page of many figures", write("A.txt", "Take\nfiges |f. 1234567r| and"), "A.txt:2:7", "|f. 7v|"),
    ("page without end", write("A.txt", f"Take\nfiges |f. {'9' * 5000}r| and"), "A.txt:2:7", "|f. 7v|"),
    ("page of raised figures", write("A.txt", "|f. ²r|\nTake"), "A.txt:1:1", "plain figures"),
    ("page in roman numbers", write("A.txt", "Take |f. xiiij v| and"), "A.txt:1:6", "plain figures"),
    ("page never closed", write("A.txt", "|f. 7r\nTake"), "A.txt:1:1", "two bars"),
    ("line of many figures", write("A.txt", "Take |l. 1234567| and"), "A.txt:1:6", "|l. 12|"),
    ("entries attached in text", arguments("apparatus", ".", "--attach", "inline"), "--attach", "TEI"),
    ("one witness", arguments("apparatus", "A.txt"), "", "two witnesses"),
    ("one siglum", arguments("apparatus", "A.txt", "./A.txt"), "A.txt", "both be witness A"),
    ("edition.toml for its folder", arguments("apparatus", "./edition.toml"), "", "name its folder, '.'"),
    ("edition.toml and items", arguments("apparatus", "edition.toml", "1"), "", "name its folder, '.'"),
    ("no name for a folder", arguments("new", ""), "", "empty name"),
    ("no name for a file", arguments("apparatus", "A.txt", ""), "", "empty name"),
    ("no name for the words", arguments("word", "sugre", "--edition", ""), "", "empty name"),
    ("nothing in edition.toml", edition(lambda text: "# later\n"), "edition.toml", "states nothing"),
    ("blank in a siglum", edition(lambda text: text.replace('"B"', '"B 1"')), "edition.toml:7", "'B_1'"),
    ("missing file", arguments("apparatus", "A.txt", "Z.txt"), "Z.txt", "no such file"),
    ("a folder among files", arguments("apparatus", "A.txt", "."), "", "a folder"),
    ("unknown format", arguments("apparatus", ".", "--format", "docx"), "", "docx"),
    ("unknown option", arguments("apparatus", ".", "--bass", "A"), "", "--bass"),
    ("unknown command", arguments("aparatus", "."), "", "aparatus"),
    ("unknown base", arguments("apparatus", ".", "--base", "Q"), "", "A, B"),
    ("unknown witness", arguments("apparatus", ".", "--witnesses", "A,Q"), "", "A, B"),
    ("base left out", arguments("apparatus", ".", "--witnesses", "A,B", "--base", "Q"), "", "'Q'"),
    ("unknown item", arguments("apparatus", ".", "77"), "", "the items are 1"),
    ("unwritable", arguments("apparatus", ".", "-o", "none/out.txt"), "none/out.txt", "written"),
    ("a folder to write to", arguments("apparatus", ".", "-o", "."), "", "folder"),
    ("broken TOML", edition(lambda text: text + "[["), "edition.toml:9", "TOML"),
    ("no witness", edition(lambda text: 'title = "T"'), "edition.toml", "[[witness]]"),
    ("unknown key", edition(lambda text: 'titel = "x"\n' + text), "edition.toml:1", "'title'"),
    ("key of a witness", edition(lambda text: text + 'nam = "x"\n'), "edition.toml:9", "'name'"),
    ("siglum twice", edition(lambda text: text.replace('"B"\n', '"A"\n')), "edition.toml:7", "'A'"),
    ("no title", edition(lambda text: text.replace('title = "T"\n', "")), "edition.toml", "title is missing"),
    ("wrong type", edition(lambda text: text.replace('"T"', "3")), "edition.toml:1", "quotation marks"),
    (
        "base no witness",
        edition(lambda text: text.replace('base = "A"', 'base = "Z"')),
        "edition.toml:2",
        "'Z'",
    ),
    ("file outside", edition(lambda text: text.replace('"B.txt"', '"../B.txt"')), "edition.toml", "outside"),
    ("file missing", edition(lambda text: text.replace('"B.txt"', '"C.txt"')), "edition.toml", "C.txt"),
    ("date", edition(lambda text: text + 'date = "lately"\n'), "edition.toml:9", "s. xv in."),
    ("scheme", edition(lambda text: 'date-scheme = "x"\n' + text), "edition.toml:1", "quarters"),
    ("rule", edition(lambda text: text + '[normalise]\noff = ["R99"]\n'), "edition.toml:10", "R99"),
    ("UTF-16", write("A.txt", GOOD.encode("utf-16")), "A.txt:1:1", "UTF-16"),
    (
        "UTF-16 without its mark",
        write("A.txt", GOOD.encode("utf-16-le")),
        "A.txt:1:1",
        "looks like UTF-16: open",
    ),
    (
        "UTF-16, big end first",
        write("A.txt", "Take þe ȝolkes".encode("utf-16-be")),
        "A.txt:1:1",
        "like UTF-16",
    ),
    ("RTF", write("A.txt", r"{\rtf1\ansi Take ale}"), "A.txt:1:1", "this is RTF, no plain text: save"),
    ("HTML", write("A.txt", "\n<!DOCTYPE html><p>Take ale"), "A.txt:1:1", "this is HTML"),
    ("word processor", write("A.txt", b"PK\x03\x04\x14\0\0\0"), "A.txt:1:1", "word processor"),
    ("few bytes with a NUL", write("A.txt", b"\x1e\0"), "A.txt:1:2", "NUL"),
    (
        "page before the name",
        write("A.txt", "## |f. 1r| Tart\nale"),
        "A.txt:1:4",
        "'## 3 |f. 7r| Tart of frut'",
    ),
    (
        "name struck out",
        write("A.txt", "ale\n##  [[3]] Tart\nale"),
        "A.txt:2:5",
        "cannot be an item's number",
    ),
    ("empty base", arguments("apparatus", ".", "--base", ""), "", "there is no witness ''"),
    ("words of no folder", arguments("word", "--edition", "A.txt", "ale"), "A.txt", "not an edition folder"),
    ("file twice by another way", edition(lambda t: t.replace('"B.txt"', '"./A.txt"')), ":8", "witness 1"),
    (
        "words in a hand",
        write("A.txt", "Take\nale @hand{and salt} forth"),
        "A.txt:2:5",
        "after it, not in it",
    ),
    ("a hand with a colon", write("A.txt", "Take @hand:2{ale}"), "A.txt:1:6", "after it, not in it"),
    ("item line set in", write("A.txt", "## 1 a\nale\n ## 2 b\nale"), "A.txt:3:1", "very beginning"),
    ("three signs", write("A.txt", "## 1 a\nale\n\n###2 b\nale"), "A.txt:4:1", "no third"),
    ("gap with blanks", write("A.txt", "Take\nale [. . .] and"), "A.txt:2:5", "[.6.]"),
    ("gap of other points", write("A.txt", "Take ale [..3..] and"), "A.txt:1:10", "with no blanks"),
    ("gap of a question", write("A.txt", "Take ale [?] and"), "A.txt:1:10", "[...]"),
    ("lines that end in CR", write("A.txt", "## 1 Tart\rTake ale\rand wyn\r"), "A.txt:1:10", "CR alone"),
    ("no list", edition(lambda text: "person = 3\n" + text), "edition.toml:1", "[[person]]"),
    ("one bracket", edition(lambda text: text + "[match]\n"), "edition.toml:9", "[[match]]"),
    ("no table", edition(lambda text: 'normalise = "x"\n' + text), "edition.toml:1", "[normalise]"),
    ("rule on and off", edition(lambda text: text + '[normalise]\non = ["R7"]\noff = ["R7"]\n'), ":11", "R7"),
    ("silence", edition(lambda text: text + '[silence]\n"Q lonely-spelling" = "x"\n'), ":10", "'Q'"),
    ("siglum", edition(lambda text: text.replace('siglum = "A"', "siglum = 3")), ":4", "quotation marks"),
    ("file twice", edition(lambda text: text.replace('"B.txt"', '"A.txt"')), "edition.toml:8", "witness 1"),
    (
        "no file name",
        edition(lambda text: text.replace('"A.txt"', '"A\\u0000"')),
        "edition.toml:5",
        "no file",
    ),
    ("file too long", edition(lambda text: text.replace("A.txt", "A" * 999)), "edition.toml:5", "no file"),
    ("where the file is named", edition(lambda text: text.replace('"B.txt"', '"."')), ":8", "no file '.'"),
    (
        "number for a date",
        edition(lambda text: text + '[[person]]\nname = "N"\ndied = 1418\n'),
        ":11",
        "died",
    ),
    ("name of points", edition(lambda text: text + '[[person]]\nname = "."\n'), ":10", "without a letter"),
    (
        "spelling of points",
        edition(lambda text: text + '[[person]]\nname = "N"\nwritten = ["N", "."]\n'),
        ":11",
        "without a letter",
    ),
    ("deep TOML", edition(lambda text: text + "x = " + "[" * 3000), "edition.toml", "deep"),
    ("new over what is there", arguments("new", "."), "", "never overwritten"),
    ("new under a file", arguments("new", "A.txt/x"), "A.txt/x", "cannot be made"),
    ("new with too long a name", arguments("new", "A" * 999), "AAA", "too long"),
    ("word without letters", arguments("word", ""), "", "name one spelling"),
    ("no name to write to", arguments("apparatus", ".", "-o", ""), "", "name a file"),
    ("practice", edition(lambda text: text + '[witness.practice]\n"%" = "x"\n'), "edition.toml", "'%'"),
]


def test_a_blank_in_the_name_of_a_file_is_a_low_line_in_its_siglum(tmp_path: Path) -> None:
    (tmp_path / "Hl 1.txt").write_text("Take ale", "utf-8")
    (tmp_path / "Hl.txt").write_text("Take wyn", "utf-8")
    done = run("apparatus", "Hl 1.txt", "Hl.txt", cwd=tmp_path)
    assert done.returncode == 0
    assert "In Hl Hl_1.\n" in done.stdout


@pytest.mark.parametrize(
    ("prepare", "place", "said"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)
def test_bad_input_is_told(folder: Path, prepare: Callable[[Path], list[str]], place: str, said: str) -> None:
    before = sorted(path.name for path in folder.iterdir())
    words = prepare(folder)
    done = run(*words, cwd=folder)
    assert done.returncode == 2, done.stderr + done.stdout
    assert done.stdout == ""
    lines = done.stderr.strip().split("\n")
    assert len(lines) == 1, done.stderr
    assert place in lines[0]
    assert said in lines[0]
    assert "Traceback" not in done.stderr
    assert sorted(path.name for path in folder.iterdir()) == before


def test_every_fault_of_an_edition_is_told_at_once(folder: Path) -> None:
    (folder / "edition.toml").write_text('titel = "T"\n[[witness]]\nsiglum = "A"\n', "utf-8")
    done = run("apparatus", ".", cwd=folder)
    assert done.returncode == 2
    assert len(done.stderr.strip().split("\n")) == 3  # titel, no title, no file


def test_an_empty_folder_has_no_edition(tmp_path: Path) -> None:
    done = run("apparatus", str(tmp_path))
    assert done.returncode == 2
    assert "collate new" in done.stderr


def test_a_symbolic_link_does_not_lead_out(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    outside = tmp_path_factory.mktemp("outside") / "secret.txt"
    outside.write_text(GOOD, "utf-8")
    (folder / "B.txt").unlink()
    (folder / "B.txt").symlink_to(outside)
    done = run("apparatus", ".", cwd=folder)
    assert done.returncode == 2
    assert "outside" in done.stderr


def test_no_control_character_reaches_the_terminal(folder: Path) -> None:
    (folder / "A.txt").write_bytes(b"## 1 Ta\x1b[31m]rt\nTake \x1b\\]0;x\x07 fig\xc2\x9bes\n")
    for form in ("text", "json"):
        done = run("apparatus", "A.txt", "B.txt", "--format", form, cwd=folder)
        assert done.returncode == 0, done.stderr
        for stream in (done.stdout, done.stderr):
            assert not [c for c in stream if (ord(c) < 32 and c not in "\n\t") or 0x7F <= ord(c) < 0xA0]
    done = run("apparatus", "A\x1b[31m.txt", "B.txt", cwd=folder)
    assert "\x1b" not in done.stderr


def test_output_is_whole(folder: Path) -> None:
    done = run("apparatus", ".", "-o", "out.txt", cwd=folder)
    assert done.returncode == 0
    assert done.stdout == ""
    assert (folder / "out.txt").read_text("utf-8").startswith("T\n")
    assert sorted(p.name for p in folder.iterdir()) == ["A.txt", "B.txt", "edition.toml", "out.txt"]


def test_an_edition_saved_with_a_byte_order_mark_is_read(folder: Path) -> None:
    (folder / "edition.toml").write_text("\ufeff" + EDITION.replace("\n", "\r\n"), "utf-8")
    assert run("apparatus", ".", cwd=folder).returncode == 0


def test_a_title_is_one_line(folder: Path) -> None:
    (folder / "edition.toml").write_text(EDITION.replace('"T"', '"T\\nU"'), "utf-8")
    assert run("apparatus", ".", cwd=folder).stdout.startswith("T U\n")


def test_numbers_without_end_are_no_fault_of_ours(folder: Path) -> None:
    nines = "9" * 5000
    text = f"## {nines} Tart\nTake {nines} egges and 1/{nines} ale and .{nines}. figes.\n"
    (folder / "A.txt").write_text(text, "utf-8")
    for command in ("check", "tokens", "apparatus", "concordance", "dating"):
        done = run(command, "A.txt", "B.txt", cwd=folder)
        assert done.returncode in (0, 1), done.stderr


def test_any_blank_divides_the_name_of_an_item_from_its_heading(folder: Path) -> None:
    (folder / "A.txt").write_text("##\u00a01\u2003Tart\nTake\u00a0figes and ale.\n", "utf-8")
    done = run("apparatus", "A.txt", "B.txt", cwd=folder)
    assert "1  Tart\n   In AB.\n   Substantive: none\n" in done.stdout


def test_large_numbers_of_items_are_told_apart(folder: Path) -> None:
    for name in ("A.txt", "B.txt"):
        (folder / name).write_text("## 1234567 Tart\nTake ale.\n## 1234568 Pye\nNym wyn.\n", "utf-8")
    done = run("apparatus", "A.txt", "B.txt", "--format", "json", cwd=folder)
    assert [item["item"] for item in json.loads(done.stdout)["items"]] == ["1234567", "1234568"]


def shell(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run a line of the shell in which `collate` is the command of this tree."""
    line = f'collate() {{ {shlex.quote(sys.executable)} -m collate "$@"; }}; {command}'
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run(
        ["bash", "-c", line], cwd=folder, env=env, capture_output=True, text=True, check=False
    )


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("collate tokens A.txt | true; echo ${PIPESTATUS[0]}", "0\n"),
        ("collate tokens A.txt >&-; echo $?", "0\n"),
        ("collate tokens A.txt >&- 2>&-; echo $?", "0\n"),
        ("collate tokens Z.txt 2>&-; echo $?", "2\n"),
    ],
)
def test_outputs_that_nobody_reads_are_no_fault(folder: Path, line: str, told: str) -> None:
    (folder / "A.txt").write_text(GOOD + "Take ale. " * 20000, "utf-8")
    done = shell(line, folder)
    assert (done.stdout, done.stderr) == (told, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device that is always full is needed")
def test_a_full_disk_is_told(folder: Path) -> None:
    done = shell("collate tokens A.txt > /dev/full", folder)
    assert done.returncode == 2
    assert done.stderr == "collate: the result cannot be written: no space left on device\n"


def test_a_device_is_written_to_and_a_link_is_followed(folder: Path) -> None:
    (folder / "link").symlink_to("real.txt")
    assert run("tokens", "A.txt", "-o", "link", cwd=folder).returncode == 0
    assert (folder / "link").is_symlink()
    os.mkfifo(folder / "pipe")
    done = shell("cat pipe & collate tokens A.txt -o pipe; wait", folder)
    assert done.stdout == (folder / "real.txt").read_text("utf-8")
    assert (folder / "pipe").is_fifo()


@pytest.mark.parametrize(
    "command", ["check", "tokens", "concordance", "apparatus", "synopsis", "graph", "dating"]
)
@pytest.mark.parametrize("base", ["B", "majority"])
def test_every_command_takes_the_common_options(folder: Path, command: str, base: str) -> None:
    common = ["--base", base, "--jobs", "2", "--witnesses", "A,B", "--quiet", "-o", "out"]
    done = run(command, "A.txt", "B.txt", *common, cwd=folder)
    assert (done.returncode, done.stderr) == (0, "")
    assert (folder / "out").read_text("utf-8")
    done = run(command, "A.txt", "B.txt", "--base", "Q", cwd=folder)
    assert done.returncode == 2
    assert "the sigla are A, B" in done.stderr
