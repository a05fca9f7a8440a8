"""Bad input: exit 2, one sentence that names the place and the remedy, nothing half written."""

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.making import run

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
    ("one witness", arguments("apparatus", "A.txt"), "", "two witnesses"),
    ("one siglum", arguments("apparatus", "A.txt", "./A.txt"), "A.txt", "both be witness A"),
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
    ("practice", edition(lambda text: text + '[witness.practice]\n"%" = "x"\n'), "edition.toml", "'%'"),
]


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
