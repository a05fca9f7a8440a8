"""Measure the alignment against general aligners on the same words: `python -m tests.bench.aligners [RUNS]`.

Each aligner is given the words as symbols, one symbol for each distinct spelling (casefolded). Its pairs of
words are held against the truth of the tradition as ours are. MAFFT (Debian's package; K. Katoh and D. M.
Standley, Molecular Biology and Evolution 30 (2013) 772-80) takes 248 symbols in its text mode: the rarest
spellings share the last ones. The star of edit scripts aligns each witness with the first.
"""

import difflib
import shutil
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path

from rapidfuzz.distance import Levenshtein

from collate.align.collate import collate
from collate.align.together import finished
from collate.lexicon.judge import shipped_judge
from collate.model.collation import Collation, Column, Presence, Span
from collate.model.witness import Item
from collate.settings import Aligning
from tests.bench.alignment import SIZES, counts, f1
from tests.making import ROOT, witness_text
from tests.scribes import Tradition, tradition

Grid = list[list[int]]
"""For each column, the word of each witness, or -1."""

SYMBOLS = [chr(code) for code in range(1, 256) if code not in (0x0A, 0x0D, 0x20, 0x2D, 0x3C, 0x3D, 0x3E)]


def items_of(made: Tradition) -> list[tuple[str, Item]]:
    """Return the members of a tradition, as `collate` takes them."""
    return [(siglum, witness_text(made.text(siglum), siglum).items[0]) for siglum in made.witnesses]


def numbered(members: Sequence[tuple[str, Item]]) -> list[list[int]]:
    """Return the words of each witness as numbers of their spellings, the commonest first."""
    words = [[token.expanded.casefold() for token in item.tokens] for _, item in members]
    ranked = Counter(word for text in words for word in text).most_common()
    number = {word: index for index, (word, _) in enumerate(ranked)}
    return [[number[word] for word in text] for text in words]


def as_collation(members: Sequence[tuple[str, Item]], grid: Grid) -> Collation:
    """Return a grid of words as a collation, so that it is counted as ours is."""
    at = [0] * len(members)
    columns = []
    for row in grid:
        spans = []
        for w, word in enumerate(row):
            stop = at[w] + (word >= 0)
            spans.append(Span(at[w], stop, Presence.PRESENT if word >= 0 else Presence.OMITTED))
            at[w] = stop
        columns.append(Column(tuple(spans)))
    return Collation("1", tuple(s for s, _ in members), tuple(i for _, i in members), tuple(columns), ())


def star(
    texts: Sequence[Sequence[int]], pairs: Callable[[Sequence[int], Sequence[int]], list[tuple[int, int]]]
) -> Grid:
    """Align each text with the first; what the first lacks goes to columns of its own."""
    count, length = len(texts), len(texts[0])
    held: list[list[int]] = [[at] + [-1] * (count - 1) for at in range(length)]
    lone: list[list[list[int]]] = [[] for _ in range(length + 1)]
    for w in range(1, count):
        mate = dict(pairs(texts[0], texts[w]))
        back = {there: here for here, there in mate.items()}
        slot = 0
        for at in range(len(texts[w])):
            if at in back:
                held[back[at]][w] = at
                slot = back[at] + 1
            else:
                lone[slot].append([-1] * w + [at] + [-1] * (count - w - 1))
    grid: Grid = list(lone[0])
    for at in range(length):
        grid.append(held[at])
        grid.extend(lone[at + 1])
    return grid


def by_difflib(a: Sequence[int], b: Sequence[int]) -> list[tuple[int, int]]:
    """Return the pairs of Python's own sequence matcher; unlike blocks of one length pair word by word."""
    found: list[tuple[int, int]] = []
    for tag, i, i_stop, j, j_stop in difflib.SequenceMatcher(None, a, b, autojunk=False).get_opcodes():
        if tag == "equal" or (tag == "replace" and i_stop - i == j_stop - j):
            found.extend(zip(range(i, i_stop), range(j, j_stop), strict=True))
    return found


def by_edits(a: Sequence[int], b: Sequence[int]) -> list[tuple[int, int]]:
    """Return the pairs of a least edit script."""
    found: list[tuple[int, int]] = []
    for block in Levenshtein.opcodes(a, b):
        if block.tag in ("equal", "replace"):
            found.extend(
                zip(
                    range(block.src_start, block.src_end),
                    range(block.dest_start, block.dest_end),
                    strict=True,
                )
            )
    return found


def by_mafft(texts: Sequence[Sequence[int]], folder: Path) -> Grid:
    """Run MAFFT in its text mode and read its columns back."""
    source = folder / "words.txt"
    body = b"".join(
        f">{w}\n".encode()
        + "".join(SYMBOLS[min(n, len(SYMBOLS) - 1 - n % 8)] for n in text).encode("latin-1")
        + b"\n"
        for w, text in enumerate(texts)
    )
    source.write_bytes(body)
    command = [
        "mafft",
        "--text",
        "--globalpair",
        "--maxiterate",
        "100",
        "--quiet",
        "--thread",
        "1",
        str(source),
    ]
    told = subprocess.run(command, capture_output=True, check=True).stdout.decode("latin-1")
    rows = [part.split("\n", 1)[1].replace("\n", "") for part in told.split(">")[1:]]
    at = [0] * len(rows)
    grid: Grid = []
    for column in range(max(map(len, rows))):
        cells = []
        for w, row in enumerate(rows):
            gap = row[column] == "-"
            cells.append(-1 if gap else at[w])
            at[w] += not gap
        grid.append(cells)
    return grid


def ways(made: Tradition, folder: Path) -> dict[str, Callable[[], Collation]]:
    """Return every way to align a tradition."""
    members, judge = items_of(made), shipped_judge()
    texts = numbered(members)
    found: dict[str, Callable[[], Collation]] = {
        "collate": lambda: finished(collate("1", members, judge, Aligning())),
        "difflib, star": lambda: as_collation(members, star(texts, by_difflib)),
        "edit scripts, star": lambda: as_collation(members, star(texts, by_edits)),
        "edit scripts alone": lambda: edits_alone(members, texts),
    }
    if shutil.which("mafft"):
        found["mafft --text"] = lambda: as_collation(members, by_mafft(texts, folder))
    return found


def edits_alone(members: Sequence[tuple[str, Item]], texts: Sequence[Sequence[int]]) -> Collation:
    """Make the N - 1 edit scripts and nothing else: for their time only."""
    for text in texts[1:]:
        Levenshtein.editops(texts[0], text)
    return as_collation(members, [])


def measure(witnesses: int, length: int, runs: int) -> None:
    """Print F1 and seconds of each aligner on one size of tradition."""
    total: dict[str, Counter[int]] = {}
    spent: dict[str, float] = {}
    for seed in range(runs):
        made = tradition(witnesses, length, seed)
        with tempfile.TemporaryDirectory() as folder:
            for name, way in ways(made, Path(folder)).items():
                start = time.perf_counter()
                found = way()
                spent[name] = spent.get(name, 0.0) + time.perf_counter() - start
                if found.columns:
                    total.setdefault(name, Counter()).update(dict(enumerate(counts(made, found))))
    for name, seconds in spent.items():
        share = f"F1 {f1((total[name][0], total[name][1], total[name][2])):.4f}" if name in total else " " * 9
        print(f"{witnesses:3} x {length:4}  {name:20} {share}  {seconds / runs:8.4f} s")


def whole_process(witnesses: int, length: int) -> None:
    """Print what whole processes take, start-up counted, on the same words."""
    made = tradition(witnesses, length, 1)
    members = items_of(made)
    texts = numbered(members)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        files = []
        for siglum in made.witnesses:
            files.append(folder / f"{siglum}.txt")
            files[-1].write_text(made.text(siglum), "utf-8")
        command = [sys.executable, "-m", "collate", "apparatus", *map(str, files), "--format", "json"]
        subprocess.run(command, capture_output=True, check=True, cwd=ROOT)
        start = time.perf_counter()
        subprocess.run(command, capture_output=True, check=True, cwd=ROOT)
        ours = time.perf_counter() - start
        print(f"{witnesses} x {length}, whole process: collate apparatus {ours:.2f} s")
        if shutil.which("mafft"):
            start = time.perf_counter()
            by_mafft(texts, folder)
            theirs = time.perf_counter() - start
            print(
                f"{witnesses} x {length}, whole process: mafft --text --globalpair {theirs:.2f} s: {theirs / ours:.1f} times ours"
            )


if __name__ == "__main__":
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    for size in SIZES:
        measure(*size, times)
    whole_process(9, 300)
