"""Items shared by processes: the same bytes for any number of them, and nothing left behind."""

import os
import pty
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from collate import pipeline
from collate.errors import WorkersError
from collate.model.findings import ItemFindings
from collate.model.source import Source
from collate.settings import Settings
from tests.books import Shape, book
from tests.making import ROOT, run

SMALL = Shape(items=8, copies=3, words=25, twins=1, splits=1, joins=0)
LARGE = Shape(items=60, copies=6, words=120, twins=0)


def written(folder: Path, shape: Shape) -> list[str]:
    made = book(3, shape)
    for siglum in made.copies:
        (folder / f"{siglum}.txt").write_text(made.text(siglum) + "\n", "utf-8")
    return [str(folder / f"{siglum}.txt") for siglum in made.copies]


@pytest.mark.parametrize("form", ["json", "text"])
def test_any_number_of_processes_gives_the_same_bytes(tmp_path: Path, form: str) -> None:
    paths = written(tmp_path, SMALL)
    one, *more = [
        run("apparatus", *paths, "--format", form, "--jobs", jobs).stdout for jobs in ("1", "2", "5")
    ]
    assert one
    assert more == [one, one]


def _heard() -> None:
    """Have the command hear Ctrl-C, even where the tests run behind a shell that has it ignored."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def children(pid: int) -> list[int]:
    listed = subprocess.run(["ps", "-eo", "pid,ppid"], capture_output=True, text=True, check=True).stdout
    rows = [tuple(map(int, line.split())) for line in listed.split("\n")[1:] if line.strip()]
    return [child for child, parent in rows if parent == pid]


@pytest.mark.skipif(not Path("/proc").exists(), reason="processes are looked up in /proc")
@pytest.mark.parametrize(
    ("sent", "to_all", "status", "words"),
    [
        (signal.SIGINT, True, 130, "collate: stopped"),
        (signal.SIGINT, False, 130, "collate: stopped"),
        (signal.SIGTERM, False, 143, ""),
    ],
)
@pytest.mark.parametrize("after", [0.0, 0.3])
def test_a_stop_leaves_no_process_and_no_file(
    tmp_path: Path, sent: signal.Signals, to_all: bool, status: int, words: str, after: float
) -> None:
    paths = written(tmp_path, LARGE)
    command = [sys.executable, "-m", "collate", "apparatus", *paths, "--jobs", "2", "-o", str(tmp_path / "o")]
    begun = subprocess.Popen(
        command,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        env={**os.environ},
        cwd=ROOT,
        preexec_fn=_heard,
    )
    while not children(begun.pid):
        assert begun.poll() is None, "it was done before it could be stopped"
        time.sleep(0.01)
    time.sleep(after)
    held = children(begun.pid)
    (os.killpg if to_all else os.kill)(begun.pid, sent)
    _, told = begun.communicate(timeout=60)
    assert begun.returncode == status
    assert told.strip() == words
    assert not [pid for pid in held if Path(f"/proc/{pid}").exists()]
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(Path(path).name for path in paths)


def dies(found: ItemFindings) -> str:
    os._exit(1)


def test_a_process_that_dies_is_told() -> None:
    text = b"## 1\nTake figes.\n## 2\nNym ale.\n"
    edition = pipeline.edition_of_files(["A.txt", "B.txt"])
    edition, texts = pipeline.texts(edition, [Source("A.txt", text), Source("B.txt", text)], Settings())
    matches = pipeline.matches(edition, texts, ())
    with pytest.raises(WorkersError, match="fewer --jobs"):
        list(pipeline.each(edition, matches, dies, Settings(jobs=2)))


def test_progress_shows_on_a_terminal(tmp_path: Path) -> None:
    paths = written(tmp_path, SMALL)
    ours, theirs = pty.openpty()
    done = subprocess.run(
        [sys.executable, "-m", "collate", "apparatus", *paths],
        stdout=subprocess.PIPE,
        stderr=theirs,
        check=True,
    )
    os.close(theirs)
    shown = os.read(ours, 100_000).decode()
    os.close(ours)
    assert "items" in shown
    assert "8/8" in shown
    assert done.stdout.decode() == run("apparatus", *paths).stdout


def test_no_progress_in_a_pipe(tmp_path: Path) -> None:
    assert run("apparatus", *written(tmp_path, SMALL), "--jobs", "2").stderr == ""
