"""Short ways to TEI documents of editions, and to what is read out of them again."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from collate import pipeline
from collate.model.edition import Edition, LineMode
from collate.model.findings import Findings
from collate.model.source import Source
from collate.model.witness import Item, Token, WitnessText
from collate.reports.tei import tei
from collate.settings import Attachment, Settings
from tests.making import ROOT

Texts = tuple[WitnessText, ...]
SAMPLE = ROOT / "samples" / "eldernesse"


def edition_of(texts: Mapping[str, str], lined: str = "", base: str = "") -> Edition:
    """Return an edition of texts; the witnesses in `lined` (divided by bars) are typed line for line."""
    blocks = "".join(f'[[witness]]\nsiglum = "{s}"\nfile = "{at}.txt"\n' for at, s in enumerate(texts))
    edition = pipeline.edition(Source("edition.toml", f'title = "T"\n{blocks}'.encode()))
    witnesses = tuple(
        replace(w, lines=LineMode.MANUSCRIPT) if w.siglum in lined.split("|") else w
        for w in edition.witnesses
    )
    return replace(edition, witnesses=witnesses, base=base or edition.base)


def opened(texts: Mapping[str, str], lined: str = "", base: str = "") -> tuple[Texts, Findings]:
    """Cut the texts of an edition and go the whole road with them."""
    edition = edition_of(texts, lined, base)
    sources = [Source(f"{at}.txt", text.encode()) for at, text in enumerate(texts.values())]
    return found_of(edition, sources)


def found_of(edition: Edition, sources: list[Source]) -> tuple[Texts, Findings]:
    edition, cut = pipeline.texts(edition, sources, Settings())
    found = pipeline.findings(edition, cut, (), Settings())
    return cut, replace(found, items=tuple(found.items))


@cache
def sample() -> tuple[Texts, Findings]:
    """Return the sample edition's witnesses, and what is found of them."""
    edition = pipeline.edition(Source("edition.toml", (SAMPLE / "edition.toml").read_bytes()))
    sources = [Source(witness.file, (SAMPLE / witness.file).read_bytes()) for witness in edition.witnesses]
    return found_of(edition, sources)


@cache
def sample_document(attachment: Attachment = Attachment.INLINE) -> str:
    """Return the sample edition as TEI."""
    return "".join(tei(sample()[1], attachment))


def document(
    texts: Mapping[str, str], lined: str = "", base: str = "", attachment: Attachment = Attachment.INLINE
) -> str:
    return "".join(tei(opened(texts, lined, base)[1], attachment))


def read_again(document: str) -> Texts:
    """Read the witnesses of a document and cut them into words."""
    return found_again(document)[0]


def found_again(document: str) -> tuple[Texts, Findings]:
    """Read a document and go the whole road with its witnesses; items are found when they are asked for."""
    source = Source("again.xml", document.encode())
    edition, sources = pipeline.opened(pipeline.edition_of_files(["again.xml"]), [source])
    edition, cut = pipeline.texts(edition, sources, Settings())
    return cut, pipeline.findings(edition, cut, (), Settings())


def told(texts: Texts) -> dict[str, list[object]]:
    """Return all that is to come back of each witness's items that have any words, in their order."""
    return {
        text.siglum: [
            (item.label, _item(item))
            for item in text.items
            if item.tokens or item.heading_tokens or item.asides
        ]
        for text in texts
    }


def told_as_collated(findings: Findings) -> dict[str, list[object]]:
    """Return the same of the items as they were collated, in which parts of one item stand together."""
    found: dict[str, list[Item]] = {}
    for each in findings.items:
        for siglum, item in zip(each.collation.sigla, each.collation.items, strict=True):
            if item.tokens or item.heading_tokens or item.asides:
                found.setdefault(siglum, []).append(item)
    return {
        siglum: [
            (item.label, _item(item))
            for item in sorted(items, key=lambda item: (item.place.line, item.place.column))
        ]
        for siglum, items in found.items()
    }


def _item(item: Item) -> object:
    asides = [(a.mark, a.text, a.at, a.note, a.letter, a.place.folio) for a in item.asides]
    return [token(t) for t in item.heading_tokens], [token(t) for t in item.tokens], asides


def token(token: Token) -> object:
    """Return a word's letters, each with its marks (two of a kind count as one), and where it stands."""
    place = token.place.folio, token.place.ms_line, token.place.hand
    marks = [
        sorted({str(mark.mark) for mark in token.marks if mark.start <= at < mark.stop})
        for at in range(len(token.expanded))
    ]
    breaks = [(b.at, b.place.folio, b.place.ms_line, b.place.hand) for b in token.breaks]
    return token.expanded, marks, token.kind, place, breaks
