"""Measure whole runs, start and all: `python -m tests.bench.speed [CASE ...]`.

Each case is written out as files and goes through the command in a process of its own: seconds, processor time of
it and its children, and the largest memory of one process. The last column is the processor time over that
of the first case, which is little more than the start: so runs on different machines may be compared.
"""

import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.books import Shape, book
from tests.making import ROOT
from tests.scribes import tradition

Texts = Mapping[str, str]


def long(witnesses: int, words: int) -> Texts:
    """Return one item in several copies."""
    made = tradition(witnesses, words, 3)
    return {siglum: f"## 1\n{made.text(siglum)}\n" for siglum in made.witnesses}


def whole(items: int, copies: int) -> Texts:
    """Return a book in several copies, 75 words an item."""
    made = book(5, Shape(items=items, copies=copies))
    return {siglum: made.text(siglum) + "\n" for siglum in made.copies}


CASES: Mapping[str, tuple[Callable[[], Texts], Sequence[str]]] = {
    "2 x 80": (lambda: long(2, 80), ("apparatus", "--format", "json")),
    "9 x 300": (lambda: long(9, 300), ("apparatus", "--format", "json")),
    "100 x 400": (lambda: long(100, 400), ("apparatus", "--format", "json")),
    "4 x 50,000": (lambda: long(4, 50_000), ("apparatus", "--format", "json")),
    "4 x 50,000 as TEI": (lambda: long(4, 50_000), ("apparatus", "--format", "tei")),
    "book of 190 x 9": (lambda: whole(190, 9), ("apparatus", "--format", "json")),
    "book of 190 x 9, one process": (
        lambda: whole(190, 9),
        ("apparatus", "--format", "json", "--jobs", "1"),
    ),
    "book of 190 x 9, matched": (lambda: whole(190, 9), ("concordance",)),
}


@dataclass(frozen=True, slots=True)
class Spent:
    """What a run took: seconds, processor time in seconds, megabytes."""

    seconds: float
    processor: float
    memory: float


def spent(texts: Texts, arguments: Sequence[str]) -> Spent:
    """Run the command on some texts."""
    with tempfile.TemporaryDirectory() as folder:
        for siglum, text in texts.items():
            (Path(folder) / f"{siglum}.txt").write_text(text, "utf-8")
        paths = [str(Path(folder) / f"{siglum}.txt") for siglum in texts]
        command = [sys.executable, "-m", "tests.bench.speed", "--run", *arguments, *paths]
        begun = time.perf_counter()
        told = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stderr
        seconds = time.perf_counter() - begun
    processor, memory = map(float, told.split()[-2:])
    return Spent(seconds, processor, memory)


def run(arguments: Sequence[str]) -> None:
    """Run the command in this place, and tell on stderr what it took."""
    subprocess.run([sys.executable, "-m", "collate", *arguments], check=True, stdout=subprocess.DEVNULL)
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, file=sys.stderr)


def main(wanted: Sequence[str]) -> None:
    """Print a line for each case."""
    first = 0.0
    for name, (made, arguments) in CASES.items():
        if wanted and name not in wanted:
            continue
        took = spent(made(), arguments)
        first = first or took.processor
        print(
            f"{name:30} {took.seconds:7.1f} s {took.processor:7.1f} s of processor {took.memory:6.0f} MB"
            f" {took.processor / first:6.1f} x",
            flush=True,
        )


if __name__ == "__main__":
    if sys.argv[1:2] == ["--run"]:
        run(sys.argv[2:])
    else:
        main(sys.argv[1:])
