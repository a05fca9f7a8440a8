"""TEI P5 files: bytes in, the transcript of a copy (or of each witness of an apparatus) out."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from lxml.etree import _Element

from collate.model.edition import Edition, Witness
from collate.model.notice import Notice, Severity
from collate.model.source import Place, Source
from collate.model.transcript import Transcript
from collate.readers.plain import has_text
from collate.readers.tei_apparatus import read_tei_witnesses, readings
from collate.readers.tei_attached import detach, is_attached
from collate.readers.tei_header import copies, described, glyphs, hands
from collate.readers.tei_items import Items, labels
from collate.readers.tei_positions import Positions
from collate.readers.tei_runs import Writer
from collate.readers.tei_walk import Walker
from collate.readers.tei_witnesses import title_and_base
from collate.readers.tei_xml import find, line_of, name, only_text, parse, textless

__all__ = ["has_apparatus", "read_tei", "read_tei_witnesses", "several"]


def has_apparatus(source: Source) -> bool:
    """Say whether a TEI file holds several witnesses: an apparatus whose readings name them.

    A file that says how variants are encoded and lists several witnesses has one too, even if there
    are none. Raises InputError for what `parse` refuses.
    """
    root = parse(source)
    named = (reading.get("wit") for app in find(root, "app") for reading in readings(app))
    return any(named) or (
        any(True for _ in find(root, "variantEncoding")) and sum(1 for _ in find(root, "witness")) > 1
    )


def several(edition: Edition, source: Source) -> tuple[Edition, tuple[Source, ...]]:
    """Open a TEI file: where it holds several witnesses, one witness and the same source for each."""
    if not has_apparatus(source):
        return edition, (source,)
    witnesses = tuple(transcript.witness for transcript in read_tei_witnesses(source))
    title, base = title_and_base(source)
    opened = replace(edition, title=title or edition.title, base=base, witnesses=witnesses)
    return opened, (source,) * len(witnesses)


def read_tei(source: Source, witness: Witness) -> Transcript:
    """Read the transcription of one copy.

    The header gives the witness its name and date where it has none of its own. Raises InputError
    for what `parse` refuses, and for a file without text.
    """
    root = parse(source)
    text = only_text(root, source)
    stated, notices = _described(root, witness, source)
    notices.extend(_apart(root, source))
    detach(text)
    writer = Writer(source.name, counts=any(True for _ in find(text, "lb")))
    followed = _Only(writer, notices)
    walker = Walker(writer, followed, glyphs(root), notices, hands(root), Positions(source.data, root).of)
    passages = Items(walker, labels(text), keeps_empty=True).read(text)
    if not any(passage.heading or has_text(passage.runs) for passage in passages):
        raise textless(root, source)
    return Transcript(stated, passages, tuple(notices))


def _described(root: _Element, witness: Witness, source: Source) -> tuple[Witness, list[Notice]]:
    notices: list[Notice] = []
    for copy in copies(root):
        witness, told = described(witness, copy, source.name)
        notices.extend(told)
    return witness, notices


def _apart(root: _Element, source: Source) -> Iterator[Notice]:
    """Yield a Notice if entries point into the text of a single copy."""
    first = next((app for app in find(root, "app") if is_attached(app)), None)
    if first is not None:
        message = "there is an apparatus attached to the text of this copy: the text is followed"
        yield Notice("tei-apparatus", message, Place(source.name, line_of(first)), Severity.WARNING)


@dataclass(slots=True)
class _Only:
    """The one copy of a file: all breaks are its own, and of an apparatus the lemma is followed."""

    writer: Writer
    notices: list[Notice] = field(default_factory=list)
    _told: bool = False

    def reading(self, app: _Element) -> _Element | None:
        """Return the lemma, or else the first reading; None for an entry whose lemma stands in the text."""
        offered = () if is_attached(app) else tuple(readings(app))
        if offered and not self._told:
            self._told = True
            message = "there is an apparatus in this copy: its lemmas (or else first readings) are followed"
            self.notices.append(Notice("tei-apparatus", message, self.writer.place(), Severity.WARNING))
        lemma = next((each for each in offered if name(each) == "lem"), None)
        return lemma if lemma is not None else next(iter(offered), None)

    def keeps_break(self, element: _Element) -> bool:
        """Say that every break is the copy's own."""
        return True

    def is_present(self, element: _Element) -> bool | None:
        """Say that no boundary of other copies concerns this one."""
        return None

    def is_shared(self, element: _Element) -> bool:
        """Say that no reading is shared."""
        return False
