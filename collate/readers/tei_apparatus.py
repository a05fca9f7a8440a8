"""A TEI file with a parallel-segmentation apparatus in, a transcript of each of its witnesses out."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from lxml.etree import _Element

from collate.errors import InputError
from collate.model.notice import Notice, Severity
from collate.model.source import Place, Source
from collate.model.transcript import Transcript
from collate.readers.tei_header import glyphs, hands
from collate.readers.tei_items import Items, labels
from collate.readers.tei_order import own_labels
from collate.readers.tei_runs import Writer
from collate.readers.tei_walk import Walker
from collate.readers.tei_witnesses import Listed, Pointers, listed, pointers, witness_of
from collate.readers.tei_xml import children, find, line_of, name, only_text, parse

_STARTS = ("witStart", "lacunaEnd")
_BOUNDARIES = (*_STARTS, "witEnd", "lacunaStart")
_METHOD = "parallel-segmentation"


def read_tei_witnesses(source: Source) -> tuple[Transcript, ...]:
    """Read each witness of a file with a list of witnesses and a parallel-segmentation apparatus.

    They come in the order of the list. What is told of the file as a whole stands with the first.
    Raises InputError for what `parse` refuses, another kind of apparatus, or a file without text.
    """
    root = parse(source)
    text = only_text(root, source)
    _check_method(root, text, source)
    witnesses = listed(root, source)
    meaning = pointers(root, witnesses)
    notices = [
        notice
        for element in find(text, "lem", "rdg", "witDetail", *_BOUNDARIES)
        for notice in meaning.faults(element, source.name)
    ]
    transcripts = []
    for witness in witnesses:
        transcript = _transcript(witness, root, text, source, meaning)
        if transcript.passages:
            transcripts.append(transcript)
        else:
            message = f"the witness {witness.siglum} has no text in this file and is left out"
            notices.append(Notice("tei-witness", message, Place(source.name, line_of(witness.element))))
    if not transcripts:
        raise InputError("no witness has any text in this file: put the text in it", Place(source.name))
    return tuple(_told_once(transcripts, notices))


def readings(app: _Element) -> Iterator[_Element]:
    """Yield the readings of an apparatus entry, those in groups too."""
    for child in children(app):
        if name(child) in ("lem", "rdg"):
            yield child
        elif name(child) == "rdgGrp":
            yield from readings(child)


def reading_about(element: _Element) -> _Element | None:
    """Return the innermost reading an element stands in, or None."""
    parent = element.getparent()
    while parent is not None and name(parent) not in ("lem", "rdg"):
        parent = parent.getparent()
    return parent


def _check_method(root: _Element, text: _Element, source: Source) -> None:
    """Raise InputError for an apparatus whose entries do not stand where their text stands."""
    stated = [(each, each.get("method") or "") for each in find(root, "variantEncoding")]
    wrong = [each for each, method in stated if method != _METHOD]
    if not stated:
        wrong = [each for each in find(text, "app") if any(each.get(key) for key in ("from", "to", "loc"))]
    if wrong:
        raise InputError(
            f"this apparatus is not in {_METHOD}, the only method read: turn it into that, or give each"
            " witness a file of its own",
            Place(source.name, line_of(wrong[0])),
        )


def _transcript(
    witness: Listed, root: _Element, text: _Element, source: Source, meaning: Pointers
) -> Transcript:
    stated, notices = witness_of(witness, source)
    writer = Writer(source.name, counts=False)
    scout = Followed(witness, meaning, writer)
    writer.counts = any(scout.keeps_break(each) for each in find(text, "lb"))
    writer.absent = scout.begins_absent(text)
    followed = Followed(witness, meaning, writer, list(notices))
    walker = Walker(writer, followed, glyphs(root), followed.notices, hands(root))
    ours = own_labels(root, witness.identity, meaning, labels(text))
    passages = Items(walker, ours, keeps_empty=False).read(text)
    order = {label: number for number, label in enumerate(ours.values())}
    ordered = sorted(passages, key=lambda passage: order.get(passage.label, len(order)))
    return Transcript(stated, tuple(ordered), tuple(followed.notices))


def _told_once(transcripts: list[Transcript], notices: list[Notice]) -> Iterator[Transcript]:
    """Give what is told of the whole file to the first transcript, and each thing to one only."""
    seen: set[tuple[str, str, int]] = set()
    for number, each in enumerate(transcripts):
        kept = []
        for notice in (*(notices if number == 0 else ()), *each.notices):
            key = (notice.code, notice.message, notice.place.line if notice.place else 0)
            if key not in seen:
                seen.add(key)
                kept.append(notice)
        yield Transcript(each.witness, each.passages, tuple(kept))


@dataclass(slots=True)
class Followed:
    """The readings of one witness: the Following of a Walker. `writer` knows where it is absent."""

    witness: Listed
    pointers: Pointers
    writer: Writer
    notices: list[Notice] = field(default_factory=list)
    _told: set[str] = field(default_factory=set)

    def reading(self, app: _Element) -> _Element | None:
        """Return the witness's reading: its own, else that of the rest, else the lemma."""
        offered = tuple(readings(app))
        mine = [each for each in offered if self._has(each)]
        if len(mine) > 1:
            mine.sort(key=_layer)
            self._tell(
                "tei-layers", "has more than one reading here: the last is followed", str(line_of(app))
            )
        if mine:
            return mine[-1]
        if self.writer.absent or not offered:
            return None
        return self._unnamed(app, offered)

    def _unnamed(self, app: _Element, offered: tuple[_Element, ...]) -> _Element | None:
        lemma = next((each for each in offered if name(each) == "lem"), None)
        rest = next((each for each in offered if name(each) == "rdg" and _is_rest(each)), None)
        if rest is not None and (lemma is None or lemma.get("wit")):
            return rest
        if lemma is not None:
            self._tell(
                "tei-negative",
                "is named in no reading here: it follows the lemma, here and wherever it is not named",
                "lemma",
            )
            return lemma
        self._tell(
            "tei-unnamed",
            "is named in no reading here, and there is no lemma: it is taken to have nothing",
            str(line_of(app)),
        )
        return None

    def keeps_break(self, element: _Element) -> bool:
        """Say whether a break is this witness's: one that names it, or stands in a reading of it alone."""
        named = f"{element.get('edRef') or ''} {element.get('ed') or ''}"
        if named.strip():
            return self.witness.identity in self.pointers.read(named)
        about = reading_about(element)
        if about is not None:
            return self.pointers.read(about.get("wit")) == {self.witness.identity}
        told = (
            "a page, line or hand begins here, but in which witness is not said (@edRef): it is given to none"
        )
        if "break" not in self._told:
            self._told.add("break")
            self.notices.append(Notice("tei-break", told, self._place(element)))
        return False

    def is_present(self, element: _Element) -> bool | None:
        """Say whether the witness is there from a boundary on; None if the boundary is not its own."""
        bearer: _Element | None = element
        while bearer is not None and not bearer.get("wit"):
            bearer = reading_about(bearer)
        ours = bearer is not None and self._has(bearer)
        return name(element) in _STARTS if ours else None

    def is_shared(self, element: _Element) -> bool:
        """Say whether the reading about a boundary is that of other witnesses too."""
        about = reading_about(element)
        return about is None or len(self.pointers.read(about.get("wit"))) != 1

    def begins_absent(self, text: _Element) -> bool:
        """Say whether the witness begins only later in the text."""
        told = (self.is_present(each) for each in find(text, *_BOUNDARIES))
        return next((present for present in told if present is not None), False)

    def _has(self, element: _Element) -> bool:
        return self.witness.identity in self.pointers.read(element.get("wit"))

    def _tell(self, code: str, message: str, once: str) -> None:
        if f"{code} {once}" not in self._told:
            self._told.add(f"{code} {once}")
            said = f"the witness {self.witness.siglum} {message}"
            self.notices.append(Notice(code, said, self.writer.place(), Severity.WARNING))

    def _place(self, element: _Element) -> Place:
        return Place(self.writer.source, line_of(element))


def _layer(reading: _Element) -> int:
    """Return the place of a reading among those of one witness, earliest first."""
    number = reading.get("varSeq") or ""
    return int(number) if number.isdecimal() and len(number) < 6 else 0


def _is_rest(reading: _Element) -> bool:
    """Say whether a reading that names no witness is that of all the others, and no conjecture."""
    return not any(reading.get(key) for key in ("wit", "source", "resp"))
