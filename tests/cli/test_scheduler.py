"""Items shared by a real Dask scheduler and two worker processes on the loopback."""

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

import pytest

from tests.cli.test_jobs import SMALL, written
from tests.making import ROOT, run

needs_dask = pytest.mark.skipif(find_spec("distributed") is None, reason="collate[cluster] is not installed")

SLOW = """import time
def slowly(found):
    time.sleep(0.5)
    return found.collation.key
"""

RUN = """import sys
from slow import slowly
from collate import pipeline
from collate.cli.scheduler import crew
from collate.errors import CollateError
from collate.files import load
from collate.settings import Settings
if __name__ == "__main__":
    address, *paths = sys.argv[1:]
    edition = pipeline.edition_of_files(paths)
    edition, texts = pipeline.texts(edition, [load(w.file) for w in edition.witnesses], Settings())
    try:
        with crew(address) as held:
            for key in pipeline.each(edition, pipeline.matches(edition, texts, ()), slowly, Settings(), held):
                print(key, flush=True)
    except CollateError as error:
        print(error)
"""


@pytest.fixture
def cluster(tmp_path: Path) -> Iterator[tuple[str, list[subprocess.Popen[bytes]]]]:
    """Start a scheduler and two workers; give its address, and the workers."""
    (tmp_path / "slow.py").write_text(SLOW, "utf-8")
    (tmp_path / "run.py").write_text(RUN, "utf-8")
    told = tmp_path / "scheduler.json"
    env = {**os.environ, "PYTHONPATH": f"{ROOT}{os.pathsep}{tmp_path}"}

    def begin(*words: str) -> subprocess.Popen[bytes]:
        quiet = subprocess.DEVNULL
        return subprocess.Popen(
            [sys.executable, "-m", *words], env=env, cwd=tmp_path, stdout=quiet, stderr=quiet
        )

    scheduler = begin(
        "distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", "0", "--no-dashboard",
        "--scheduler-file", str(told),
    )  # fmt: skip
    while not (told.exists() and told.stat().st_size):
        assert scheduler.poll() is None
        time.sleep(0.05)
    address = str(json.loads(told.read_text("utf-8"))["address"])
    workers = [
        begin("distributed.cli.dask_worker", address, "--no-nanny", "--nthreads", "1", "--no-dashboard")
        for _ in range(2)
    ]
    try:
        yield address, workers
    finally:
        for process in (*workers, scheduler):
            process.kill()
            process.wait()


@needs_dask
def test_a_cluster_gives_the_same_bytes(
    tmp_path: Path, cluster: tuple[str, list[subprocess.Popen[bytes]]]
) -> None:
    paths = written(tmp_path, SMALL)
    shared = run("apparatus", *paths, "--format", "json", "--scheduler", cluster[0])
    assert shared.stdout == run("apparatus", *paths, "--format", "json").stdout
    assert (shared.stderr, shared.returncode) == ("", 0)


@needs_dask
@pytest.mark.parametrize("lost", [1, 2])
def test_workers_that_die_mid_run(
    tmp_path: Path, cluster: tuple[str, list[subprocess.Popen[bytes]]], lost: int
) -> None:
    """While one is left the result is the same; with none it is an error."""
    address, workers = cluster
    paths = written(tmp_path, SMALL)
    whole = [
        item["item"] for item in json.loads(run("apparatus", *paths, "--format", "json").stdout)["items"]
    ]
    env = {**os.environ, "PYTHONPATH": f"{ROOT}{os.pathsep}{tmp_path}"}
    begun = subprocess.Popen(
        [sys.executable, str(tmp_path / "run.py"), address, *paths],
        stdout=subprocess.PIPE,
        text=True,
        env=env,
    )
    assert begun.stdout is not None
    first = begun.stdout.readline().strip()
    for worker in workers[:lost]:
        worker.kill()
    rest = begun.communicate()[0].split("\n")[:-1]
    if lost == 1:
        assert [first, *rest] == whole
    else:
        assert "no worker left" in rest[-1]
        assert len(rest) < len(whole)


@needs_dask
@pytest.mark.parametrize("address", ["tcp://127.0.0.1:1", "nonsense", ""])
def test_a_scheduler_that_does_not_answer(tmp_path: Path, address: str) -> None:
    paths = written(tmp_path, SMALL)
    result = run("apparatus", *paths, "--scheduler", address, "-o", str(tmp_path / "out"))
    assert result.returncode == 2
    assert result.stderr.startswith(f"collate: no scheduler answers at {address!r}")
    assert result.stderr.count("\n") == 1
    assert not (tmp_path / "out").exists()


def test_without_dask_it_is_said_how_to_get_it(tmp_path: Path) -> None:
    paths = written(tmp_path, SMALL)
    (tmp_path / "hidden").mkdir()
    (tmp_path / "hidden" / "dask.py").write_text("raise ImportError", "utf-8")
    result = subprocess.run(
        [sys.executable, "-m", "collate", "apparatus", *paths, "--scheduler", "tcp://127.0.0.1:1"],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": f"{tmp_path / 'hidden'}{os.pathsep}{ROOT}"},
    )
    assert result.returncode == 2
    assert "pip install 'collate[cluster]'" in result.stderr
