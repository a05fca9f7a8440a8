"""Short ways to what the tests need: texts, collations, the command itself."""

import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from collate import pipeline
from collate.align.collate import collate
from collate.align.together import finished
from collate.lexicon.letters import letters_judge
from collate.model.collation import Collation
from collate.model.edition import LineMode, Witness
from collate.model.findings import Findings, ItemFindings
from collate.model.form import Judge
from collate.model.source import Source
from collate.model.witness import WitnessText
from collate.settings import Aligning, Settings

ROOT = Path(__file__).parent.parent
SHARED = Path(os.environ.get("COLLATE_SHARED", ROOT.parent / "shared"))
DATA = SHARED / "data"


def witness_text(text: str, siglum: str = "A", lines: LineMode = LineMode.FREE) -> WitnessText:
    """Cut one transcription into words."""
    witness = Witness(siglum, siglum, f"{siglum}.txt", lines=lines)
    edition = pipeline.edition_of_files([f"{siglum}.txt"])
    edition = type(edition)(edition.title, siglum, (witness,))
    return pipeline.texts(edition, [Source(f"{siglum}.txt", text.encode())], Settings())[1][0]


def collated(texts: Mapping[str, str], judge: Judge = letters_judge) -> Collation:
    """Align witnesses of one item each, judged by letters alone unless another judge is given."""
    members = [(siglum, witness_text(text, siglum).items[0]) for siglum, text in texts.items()]
    return finished(collate("1", members, judge, Aligning()))


def found(texts: Mapping[str, str], base: str = "") -> ItemFindings:
    """Go the whole road with texts of one item each."""
    (item,) = all_found(texts, base).items
    return item


def all_found(texts: Mapping[str, str], base: str = "") -> Findings:
    """Go the whole road with texts of any number of items."""
    edition = pipeline.edition_of_files([f"{siglum}.txt" for siglum in texts])
    edition = replace(edition, base=base or edition.base)
    sources = [Source(w.file, texts[w.siglum].encode()) for w in edition.witnesses]
    edition, cut = pipeline.texts(edition, sources, Settings())
    findings = pipeline.findings(edition, cut, (), Settings())
    return replace(findings, items=tuple(findings.items))


def substantives(item: ItemFindings) -> list[tuple[str, str, str, str]]:
    """Return (lemma, reading, sigla, kind) of each substantive variant as printed."""
    return [
        (entry.lemma.text, variant.reading.text, "".join(variant.reading.sigla), str(variant.kind))
        for entry in item.substantive
        for variant in entry.variants
    ]


def road(texts: Mapping[str, str], extra: str = "") -> tuple[WitnessText, ...]:
    """Cut the texts of an edition whose edition.toml ends in `extra`."""
    blocks = "".join(f'[[witness]]\nsiglum = "{siglum}"\nfile = "{siglum}.txt"\n' for siglum in texts)
    edition = pipeline.edition(Source("edition.toml", f'title = "T"\n{blocks}{extra}'.encode()))
    sources = [Source(witness.file, texts[witness.siglum].encode()) for witness in edition.witnesses]
    return pipeline.texts(edition, sources, Settings(normalising=pipeline.normalising(edition)))[1]


def words(collation: Collation, siglum: str, column: int) -> str:
    """Return what a witness has in a column."""
    tokens = collation.tokens(collation.sigla.index(siglum), column, column + 1)
    return " ".join(token.expanded for token in tokens)


def run(*arguments: str, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "collate", *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=cwd,
        check=False,
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
    )
