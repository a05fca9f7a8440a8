"""A TEI file with an apparatus in, a transcript of each of its witnesses out."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import partial

from lxml.etree import _Element

from collate.errors import InputError
from collate.model.notice import Notice, Severity
from collate.model.source import Place, Source
from collate.model.transcript import Transcript
from collate.readers.tei_attached import METHOD as ENDS
from collate.readers.tei_attached import Attached, attached, is_attached
from collate.readers.tei_followed import followed, told
from collate.readers.tei_header import glyphs, hands
from collate.readers.tei_items import Items, labels
from collate.readers.tei_order import own_labels
from collate.readers.tei_positions import Positions
from collate.readers.tei_runs import Writer
from collate.readers.tei_walk import Walker
from collate.readers.tei_witnesses import Listed, Pointers, listed, pointers, witness_of
from collate.readers.tei_xml import children, events, find, line_of, name, only_text, parse

_STARTS = ("witStart", "lacunaEnd")
_BOUNDARIES = (*_STARTS, "witEnd", "lacunaStart")
_METHOD = "parallel-segmentation"
_METHODS = (_METHOD, ENDS)


def read_tei_witnesses(source: Source) -> tuple[Transcript, ...]:
    """Read each witness of a file with a list of witnesses and an apparatus.

    Its entries stand each in its place (parallel segmentation), or point to both ends of their lemmas
    (double end-point attachment). The witnesses come in the order of the list. What is told of the file
    as a whole stands with the first.
    Raises InputError for what `parse` refuses, another kind of apparatus, or a file without text.
    """
    root = parse(source)
    text = only_text(root, source)
    entries = attached(root, text, source) if _points(root, text, source) else None
    witnesses = listed(root, source)
    meaning = pointers(root, witnesses)
    parts = (text, *(each.app for each in entries.stretches)) if entries else (text,)
    pointing = (each for part in parts for each in find(part, "lem", "rdg", "witDetail", *_BOUNDARIES))
    notices = [notice for element in pointing for notice in meaning.faults(element, source.name)]
    notices.extend(entries.notices if entries else ())
    transcripts = []
    where = Positions(source.data, root).of
    for witness in witnesses:
        transcript = _transcript(witness, root, text, source, meaning, entries, where)
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


def _points(root: _Element, text: _Element, source: Source) -> bool:
    """Say whether entries point to the text; raise InputError if that is to be found in another way."""
    stated = [(each, each.get("method") or "") for each in find(root, "variantEncoding")]
    wrong = [each for each, method in stated if method not in _METHODS]
    if not stated:
        wrong = [
            app for app in find(text, "app") if not is_attached(app) and (app.get("to") or app.get("loc"))
        ]
    if wrong:
        raise InputError(
            f"this apparatus is not in {_METHOD} or {ENDS}, the only methods read: turn it into one of"
            " them, or give each witness a file of its own",
            Place(source.name, line_of(wrong[0])),
        )
    if stated:
        return any(method == ENDS for _, method in stated)
    return any(is_attached(app) for app in find(root, "app"))


def _transcript(
    witness: Listed,
    root: _Element,
    text: _Element,
    source: Source,
    meaning: Pointers,
    entries: Attached | None,
    where: Callable[[_Element], tuple[int, int] | None],
) -> Transcript:
    stated, notices = witness_of(witness, source)
    writer = Writer(source.name, counts=False)
    scout = Followed(witness, meaning, writer)
    parts = (*(each.app for each in entries.stretches), text) if entries else (text,)
    writer.counts = any(scout.keeps_break(each) for part in parts for each in find(part, "lb"))
    writer.absent = scout.begins_absent(parts)
    following = Followed(witness, meaning, writer, list(notices))
    walker = Walker(writer, following, glyphs(root), following.notices, hands(root), where)
    ours = own_labels(root, witness.identity, meaning, labels(text))
    stream = events if entries is None else partial(told, entries=entries, followed=followed(scout, entries))
    passages = Items(walker, ours, keeps_empty=False, stream=stream).read(text)
    order = {label: number for number, label in enumerate(ours.values())}
    ordered = sorted(passages, key=lambda passage: order.get(passage.label, len(order)))
    return Transcript(stated, tuple(ordered), tuple(following.notices))


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

    @property
    def siglum(self) -> str:
        """The witness."""
        return self.witness.siglum

    def taken(self, app: _Element) -> _Element | None:
        """Return the witness's reading: its own, else that of the rest, else the lemma."""
        offered = tuple(readings(app))
        mine = sorted((each for each in offered if self.is_named(each)), key=_layer)
        lemma = next((each for each in offered if name(each) == "lem"), None)
        rest = next((each for each in offered if name(each) == "rdg" and _is_rest(each)), None)
        if mine:
            return mine[-1]
        if rest is not None and (lemma.get("wit") if lemma is not None else not is_attached(app)):
            return rest
        return lemma

    def reading(self, app: _Element) -> _Element | None:
        """Return the witness's reading, and tell what is not said plainly; None where it has none."""
        offered, taken = tuple(readings(app)), self.taken(app)
        named = sum(self.is_named(each) for each in offered)
        if named > 1:
            message = "has more than one reading here: the last is followed"
            self._tell("tei-layers", message, str(line_of(app)))
        if named or not offered:
            return taken
        if self.writer.absent:
            return None
        if taken is None:
            message = "is named in no reading here, and there is no lemma: it is taken to have nothing"
            self._tell("tei-unnamed", message, str(line_of(app)))
        elif name(taken) == "lem":
            message = "is named in no reading here: it follows the lemma, here and wherever it is not named"
            self._tell("tei-negative", message, "lemma")
        return taken

    def keeps_break(self, element: _Element) -> bool:
        """Say whether a break is this witness's: it names it or its hand, or its reading alone has it."""
        named = f"{element.get('edRef') or ''} {element.get('ed') or ''}"
        if named.strip():
            return self.witness.identity in self.pointers.read(named)
        about, writes = reading_about(element), self.pointers.writes(element.get("new"))
        if about is not None or writes:
            alone = about is not None and self.pointers.read(about.get("wit")) == {self.witness.identity}
            return alone or self.witness.identity in writes
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
        ours = bearer is not None and self.is_named(bearer)
        return name(element) in _STARTS if ours else None

    def is_shared(self, element: _Element) -> bool:
        """Say whether the reading about a boundary is that of other witnesses too."""
        about = reading_about(element)
        return about is None or len(self.pointers.read(about.get("wit"))) != 1

    def begins_absent(self, parts: Iterable[_Element]) -> bool:
        """Say whether the witness begins only later in the text, whose `parts` come in order."""
        told = (self.is_present(each) for part in parts for each in find(part, *_BOUNDARIES))
        return next((present for present in told if present is not None), False)

    def is_named(self, element: _Element) -> bool:
        """Say whether an element names the witness."""
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
