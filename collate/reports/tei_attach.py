"""The entries of an item in, attached to its text: inside it, or apart from it by their two ends."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Protocol

from collate.model.findings import ItemFindings
from collate.model.transcript import Mark
from collate.model.witness import TokenKind
from collate.reports.tei_app import ABSENT, Entries, Key, Link
from collate.reports.tei_mixed import XML_ID, Attributes, Mixed
from collate.reports.tei_segments import Offer, Segment, Words
from collate.reports.tei_words import Letter
from collate.reports.tei_write import write
from collate.settings import Attachment


class Attaching(Protocol):
    """How entries are tied to the text that is written; `entries` writes each."""

    @property
    def entries(self) -> Entries:
        """The writer of entries."""

    def begin(self, found: ItemFindings, number: int) -> None:
        """Begin the item that is the `number`th of the document."""

    def begin_block(self, mixed: Mixed, found: ItemFindings) -> None:
        """Begin a heading or paragraph of the item."""

    def end_block(self, mixed: Mixed, found: ItemFindings) -> None:
        """End a heading or paragraph."""

    def headings(self, mixed: Mixed, offers: Sequence[Offer]) -> None:
        """Write headings that differ."""

    def entry(self, mixed: Mixed, segment: Segment, number: int, links: Mapping[Key, Link]) -> None:
        """Write a segment that varies; `number` is its number."""

    def lists(self) -> Iterator[str]:
        """Yield the lists of the entries that stand apart, in the order of the items."""


def attaching(attachment: Attachment, entries: Entries) -> Attaching:
    """Return the way that is asked for to tie entries to the text."""
    return _Inline(entries) if attachment is Attachment.INLINE else _EndPoints(entries)


@dataclass(frozen=True, slots=True)
class _Inline:
    """Entries that stand in the text, each in its place: parallel segmentation."""

    entries: Entries

    def begin(self, found: ItemFindings, number: int) -> None:
        """Do nothing: the blocks say who has the item."""

    def begin_block(self, mixed: Mixed, found: ItemFindings) -> None:
        """Begin what the witnesses have who have the item, where others lack it."""
        if found.absent:
            mixed.begin("app", {"type": ABSENT})
            mixed.begin("lem", {"wit": self.entries.names.pointers(found.collation.sigla)})

    def end_block(self, mixed: Mixed, found: ItemFindings) -> None:
        """End it, and name those that lack the item."""
        if found.absent:
            mixed.end()
            mixed.empty("rdg", {"wit": self.entries.names.pointers(found.absent), "type": ABSENT})
            mixed.end()

    def headings(self, mixed: Mixed, offers: Sequence[Offer]) -> None:
        """Write the entry of headings that differ."""
        self.entries.headings(mixed, offers)

    def entry(self, mixed: Mixed, segment: Segment, number: int, links: Mapping[Key, Link]) -> None:
        """Write the entry of a segment."""
        self.entries.entry(mixed, segment, number, links)

    def lists(self) -> Iterator[str]:
        """Yield nothing: no entry stands apart."""
        yield from ()


@dataclass(slots=True)
class _EndPoints:
    """Entries that stand apart, each pointing to where its lemma begins and ends in the base's text.

    `done` are the lists of the items so far, the last of them that of the item begun as `item`,
    whose base is `base`.
    """

    entries: Entries
    done: list[Mixed] = field(default_factory=list)
    item: str = ""
    base: str = ""
    points: int = 0

    def begin(self, found: ItemFindings, number: int) -> None:
        """Begin an item's list, with an entry of those that lack the whole item."""
        self.item, self.base, self.points = f"item-{number}", found.base, 0
        here = {"from": f"#{self.item}", "to": f"#{self.item}"}
        self.done.append(Mixed("listApp", {"corresp": f"#{self.item}"}))
        if found.absent:
            mixed = self._next()
            mixed.begin("app", {**here, "type": ABSENT})
            mixed.empty("rdg", {"wit": self.entries.names.pointers(found.absent), "type": ABSENT})
            mixed.end()

    def begin_block(self, mixed: Mixed, found: ItemFindings) -> None:
        """Do nothing: who lacks the item is said once, of the whole."""

    def end_block(self, mixed: Mixed, found: ItemFindings) -> None:
        """Do nothing."""

    def headings(self, mixed: Mixed, offers: Sequence[Offer]) -> None:
        """Write the base's heading, and apart from it the entry of those that differ."""
        self.entries.headings(self._next(), offers, self._between(mixed, offers[0].words[self.base]))

    def entry(self, mixed: Mixed, segment: Segment, number: int, links: Mapping[Key, Link]) -> None:
        """Write the base's words, and apart from them the entry of their segment."""
        ends = self._between(mixed, segment.words(self.base))
        self.entries.entry(self._next(), segment, number, links, ends)

    def lists(self) -> Iterator[str]:
        """Yield the list of each item that has entries."""
        for mixed in self.done:
            if mixed.is_filled:
                mixed.text("\n")
                yield mixed.done()

    def _next(self) -> Mixed:
        """Return the list of the item begun, ready for an entry on a line of its own."""
        mixed = self.done[-1]
        mixed.text("\n")
        return mixed

    def _between(self, mixed: Mixed, words: Words) -> Attributes:
        """Write words between two anchors, and return pointers to these."""
        first = self._anchor(mixed)
        write(mixed, (_in_place(words),))
        last = self._anchor(mixed)
        return {"from": f"#{first}", "to": f"#{last}"}

    def _anchor(self, mixed: Mixed) -> str:
        self.points += 1
        name = f"{self.item}-point-{self.points}"
        mixed.empty("anchor", {XML_ID: name})
        return name


def _in_place(words: Words) -> Words:
    """Return words for the text itself, where a loss over several places is a gap at its start."""
    gap = (Letter("", 0, frozenset({Mark.LOST})),)
    return tuple(
        replace(word, letters=gap, boundary="", kind=TokenKind.GAP)
        if word.boundary == "lacunaStart"
        else word
        for word in words
        if word.boundary != "lacunaEnd"
    )
