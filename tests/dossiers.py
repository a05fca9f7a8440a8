"""Short ways to a dossier: words and persons in, what bears on date out."""

from collections.abc import Mapping
from pathlib import Path

from collate import pipeline
from collate.model.edition import Edition
from collate.model.evidence import Dating, Dossier, Evidence, Layer
from collate.model.source import Source
from collate.settings import Settings

PERSONS = """
[[person]]
name = "Symond Harcastel"
written = ["Symond Harcastel"]
office = "abbot of Eldernesse"
from = "1391"
to = "1418"
died = "1418-03-02"
authority = "invented"
[[person]]
name = "Alyson Perwich"
written = ["Alyson Perwich"]
office = "duchess of Wolmere"
from = "1402"
died = "1441-06-10"
authority = "invented"
[[person]]
name = "Robert Dunmoor"
written = ["Robert Dunmoor"]
office = "bishop of Solwick"
from = "1425"
to = "1443"
died = "1452"
authority = "invented"
[[person]]
name = "Robert Dunmoor"
written = ["Robert Dunmoor"]
office = "archbishop of Norwold"
from = "1443"
to = "1452"
died = "1452"
authority = "invented"
[[person]]
name = "Maud Thornholt"
written = ["Maud Thornholt"]
office = "abbess of Wenlow"
from = "1398"
to = "1427"
died = "1430-05-09"
authority = "invented"
[[person]]
name = "William Brakstow"
written = ["William Brakstow"]
office = "lord of Brakstow"
from = "1405"
died = "1449-01-12"
authority = "invented"
[[person]]
name = "Elyn Brakstow"
written = ["Elyn Brakstow"]
died = "1462-08-01"
authority = "invented"
"""


def edition_of(
    texts: Mapping[str, str], persons: str = PERSONS, hands: Mapping[str, str] | None = None
) -> Edition:
    """Return an edition of some texts; `hands` are catalogue dates by siglum."""
    blocks = ""
    for siglum in texts:
        date = f'date = "{hands[siglum]}"\n' if hands and siglum in hands else ""
        blocks += f'[[witness]]\nsiglum = "{siglum}"\nfile = "{siglum}.txt"\n{date}'
    head = 'title = "T"\ndate-scheme = "quarters"\n'
    return pipeline.edition(Source("edition.toml", f"{head}{blocks}{persons}".encode()))


def dated(texts: Mapping[str, str], persons: str = PERSONS, hands: Mapping[str, str] | None = None) -> Dating:
    """Return all that bears on date in an edition of some texts."""
    edition = edition_of(texts, persons, hands)
    return _dated(edition, texts)


def dated_bare(texts: Mapping[str, str]) -> Dating:
    """Return all that bears on date in files alone, without an edition.toml."""
    return _dated(pipeline.edition_of_files([f"{siglum}.txt" for siglum in texts]), texts)


def _dated(edition: Edition, texts: Mapping[str, str]) -> Dating:
    sources = [Source(witness.file, texts[witness.siglum].encode()) for witness in edition.witnesses]
    edition, cut = pipeline.texts(edition, sources, Settings())
    return pipeline.dating(edition, cut, Settings())


def dossier(preface: str, persons: str = PERSONS, hand: str = "") -> Dossier:
    """Return the dossier of one copy that has a preface and nothing else."""
    return dated({"A": f"## preface\n{preface}\n"}, persons, {"A": hand} if hand else None).dossiers[0]


def formulas(found: Dossier) -> set[str]:
    """Return the numbers of the formulas in a dossier."""
    return {each.formula for each in (*found.evidence, *found.additions)} - {""}


def span(found: Dossier | Evidence, layer: Layer) -> str:
    """Return what is set on a layer as "1418-03-02/", "/1418-03-02", "/" for no bounds."""
    if isinstance(found, Evidence):
        bounds = found.on(layer)
    else:
        bounds = (found.copy if layer is Layer.COPY else found.wording).bounds
    return f"{bounds.not_before or ''}/{bounds.not_after or ''}"


def spans(found: Dossier) -> str:
    """Return the intervals of a dossier: wording, then copy."""
    return f"{span(found, Layer.WORDING)} {span(found, Layer.COPY)}"


def rows(name: str) -> list[tuple[str, ...]]:
    """Return the rows of a table of cases, without its head."""
    text = (Path(__file__).parent / "cases" / name).read_text("utf-8")
    return [tuple(line.split("\t")) for line in text.rstrip("\n").split("\n")[1:]]
