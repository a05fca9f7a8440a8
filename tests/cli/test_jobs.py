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
from collate.files import write
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


FORMS = [
    *(("apparatus", form) for form in ("json", "text", "markdown", "csv", "tei", "latex")),
    *(("synopsis", form) for form in ("text", "markdown", "csv", "html")),
]


@pytest.mark.parametrize(("command", "form"), FORMS)
def test_any_number_of_processes_gives_the_same_bytes(tmp_path: Path, command: str, form: str) -> None:
    paths = written(tmp_path, SMALL)
    one, *more = [run(command, *paths, "--format", form, "--jobs", jobs).stdout for jobs in ("1", "3")]
    assert one
    assert more == [one]


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


AT_A_FORK = """
import os, signal
from collate.cli.start import main
os.register_at_fork({when}=lambda: os.kill(os.getpid(), {sent}))
main()
"""


@pytest.mark.skipif(not hasattr(os, "register_at_fork"), reason="processes are not forked there")
@pytest.mark.parametrize(("sent", "status", "words"), [(2, 130, "collate: stopped"), (15, 143, "")])
@pytest.mark.parametrize("when", ["before", "after_in_parent"])
def test_a_stop_while_processes_are_started_is_heard(
    tmp_path: Path, when: str, sent: int, status: int, words: str
) -> None:
    """What is raised in a hook of a fork is dropped by Python: a stop that came then went unheard."""
    script = AT_A_FORK.format(when=when, sent=sent)
    command = [sys.executable, "-c", script, "apparatus", *written(tmp_path, SMALL), "--jobs", "2"]
    done = subprocess.run(
        command, capture_output=True, text=True, timeout=60, cwd=ROOT, check=False, preexec_fn=_heard
    )
    assert (done.returncode, done.stderr.strip()) == (status, words)


DROPPED = """
import os, signal, time
from collate.cli import main, start

class Gone:
    def __del__(self):
        os.kill(os.getpid(), {sent})

def run(arguments):
    Gone()
    time.sleep(30)
    return 0

main.run = run
start.main()
"""


@pytest.mark.skipif(not hasattr(signal, "setitimer"), reason="no signal can be had later there")
@pytest.mark.parametrize(("sent", "status", "words"), [(2, 130, "collate: stopped"), (15, 143, "")])
def test_a_stop_that_python_drops_is_told_again(sent: int, status: int, words: str) -> None:
    """What is raised in a finaliser, or in a callback of the import system, is dropped by Python."""
    command = [sys.executable, "-c", DROPPED.format(sent=sent)]
    done = subprocess.run(
        command, capture_output=True, text=True, timeout=60, cwd=ROOT, check=False, preexec_fn=_heard
    )
    assert (done.returncode, done.stderr.strip()) == (status, words)


SPAWNED = """
import multiprocessing
from collate.cli.start import main
if __name__ == "__main__":
    multiprocessing.set_start_method("spawn")
    main()
"""


def test_processes_that_are_not_forked_give_the_same_bytes(tmp_path: Path) -> None:
    paths = written(tmp_path, SMALL)
    script = tmp_path / "spawned.py"
    script.write_text(SPAWNED, "utf-8")
    command = [sys.executable, str(script), "apparatus", *paths, "--jobs", "2"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120, cwd=ROOT, check=True)
    assert done.stdout == run("apparatus", *paths, "--jobs", "1").stdout


def test_a_stop_while_a_file_is_begun_leaves_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    really = os.open

    def stopped(path: str, flags: int, mode: int = 0o777) -> int:
        os.close(really(path, flags, mode))
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "open", stopped)
    with pytest.raises(KeyboardInterrupt):
        write(str(tmp_path / "o"), "text")
    assert list(tmp_path.iterdir()) == []


def breaks(found: ItemFindings) -> str:
    raise LookupError(found.collation.key)


def test_a_fault_in_a_process_is_raised_here() -> None:
    text = b"## 1\nTake figes.\n## 2\nNym ale.\n"
    edition = pipeline.edition_of_files(["A.txt", "B.txt"])
    edition, texts = pipeline.texts(edition, [Source("A.txt", text), Source("B.txt", text)], Settings())
    matches = pipeline.matches(edition, texts, ())
    with pytest.raises(LookupError, match="1"):
        list(pipeline.each(edition, matches, breaks, Settings(jobs=2)))


def dies(found: ItemFindings) -> str:
    os._exit(1)


def test_a_process_that_dies_is_told() -> None:
    text = b"## 1\nTake figes.\n## 2\nNym ale.\n"
    edition = pipeline.edition_of_files(["A.txt", "B.txt"])
    edition, texts = pipeline.texts(edition, [Source("A.txt", text), Source("B.txt", text)], Settings())
    matches = pipeline.matches(edition, texts, ())
    with pytest.raises(WorkersError, match="fewer --jobs"):
        list(pipeline.each(edition, matches, dies, Settings(jobs=2)))


@pytest.mark.parametrize(("command", "form"), FORMS)
def test_progress_shows_on_a_terminal(tmp_path: Path, command: str, form: str) -> None:
    paths = written(tmp_path, SMALL)
    ours, theirs = pty.openpty()
    done = subprocess.run(
        [sys.executable, "-m", "collate", command, *paths, "--format", form],
        stdout=subprocess.PIPE,
        stderr=theirs,
        check=True,
    )
    os.close(theirs)
    shown = os.read(ours, 100_000).decode()
    os.close(ours)
    assert "items" in shown
    assert "8/8" in shown
    assert done.stdout.decode().replace("\r\n", "\n") == run(command, *paths, "--format", form).stdout


def test_no_progress_in_a_pipe(tmp_path: Path) -> None:
    assert run("apparatus", *written(tmp_path, SMALL), "--jobs", "2").stderr == ""
