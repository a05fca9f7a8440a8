"""The events of a TEI text in, each told to the writer of runs; what is passed over is noted."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Protocol

from lxml.etree import _Element

from collate.model.extents import Extent
from collate.model.notice import Notice, Severity
from collate.readers.tei_elements import (
    BLOCKS,
    CONTAINERS,
    EMPTY,
    KNOWN,
    NOTHING,
    SPACED,
    chosen,
    extent_of,
    hand_of,
    is_raised,
    lost_in,
    marks_of,
    substituted,
)
from collate.readers.tei_pages import in_column, page_of
from collate.readers.tei_runs import Writer
from collate.readers.tei_tokens import Sort, begins, ends, letters_stay_apart, sort_of, stay_apart
from collate.readers.tei_xml import (
    BLANKS,
    XML_SPACE,
    Close,
    Event,
    Open,
    Reference,
    Stray,
    Text,
    find,
    line_of,
    name,
    plain_text,
    referred,
)

_CUT = re.compile(f"([{BLANKS}]+)")
_SHOWN = 60
"""How many letters of a note left out are shown in its Notice."""


class Following(Protocol):
    """Which of the readings in a file are followed, and whose breaks."""

    def reading(self, app: _Element) -> _Element | None:
        """Return the reading taken, or None for nothing."""

    def keeps_break(self, element: _Element) -> bool:
        """Say whether a page, line or hand begins here in the copy followed."""

    def is_present(self, element: _Element) -> bool | None:
        """Say whether the copy is there from this boundary on; None if it is another copy's boundary."""

    def is_shared(self, element: _Element) -> bool:
        """Say whether the reading about this boundary is that of other copies too."""


@dataclass(frozen=True, slots=True)
class _Held:
    """What an open element sets on its letters: so many marks, dots, raising, blanks kept as they are."""

    marks: int
    dotted: bool
    raised: bool
    preserved: bool


@dataclass(slots=True)
class Walker:
    """Tells a writer what a text says, by the readings `following` takes; gathers notices.

    `hands` are the names of hands that have another than their xml:id; `where` finds the line and column
    of an element.
    """

    writer: Writer
    following: Following
    glyphs: Mapping[str, str]
    notices: list[Notice] = field(default_factory=list)
    hands: Mapping[str, str] = field(default_factory=dict)
    where: Callable[[_Element], tuple[int, int] | None] = lambda element: None
    _told: set[str] = field(default_factory=set)
    _word: _Element | None = None
    _block: _Element | None = None
    _held: list[_Held] = field(
        default_factory=lambda: [_Held(0, dotted=False, raised=False, preserved=False)]
    )

    def tell(
        self,
        code: str,
        message: str,
        severity: Severity = Severity.NOTE,
        *,
        once: str = "",
        at: _Element | None = None,
    ) -> None:
        """Note something at an element, or at the place reached; only once for each `once` that is given."""
        if once and once in self._told:
            return
        self._told.add(once)
        place = self.writer.place()
        if at is not None and (found := self.where(at)):
            place = replace(place, line=found[0], column=found[1])
        self.notices.append(Notice(code, message, place, severity))

    def take(self, event: Event) -> None:
        """Act on one event."""
        if isinstance(event, Open):
            self._open(event.element)
        elif isinstance(event, Close):
            self._close(event.element)
        elif isinstance(event, Text):
            self._text(event)
        elif isinstance(event, Reference):
            self._reference(event)
        else:
            self._stray(event)

    def content(self, element: _Element) -> tuple[_Element, ...] | None:
        """Return what of an element is walked: all (None), some of its elements, or nothing."""
        tag = name(element)
        if tag == "choice":
            return chosen(element)
        if tag == "subst":
            return substituted(element)
        if tag == "app":
            return self._app(element)
        if tag in ("note", "witDetail"):
            return None if marks_of(element) else self._note(element)
        if tag == "g":
            return self._glyph(element)
        return () if tag in EMPTY or tag in NOTHING else None

    def _open(self, element: _Element) -> None:
        self.writer.line = line_of(element) or self.writer.line
        tag = name(element)
        self._begin_block(element)
        self._edge(tag)
        self._begin_word(element)
        if tag in _ACTS:
            _ACTS[tag](self, element)
        elif tag not in KNOWN:
            self._unknown(element)
        marks = marks_of(element)
        for mark, note in marks:
            self.writer.begin(mark, self.hands.get(note, note))
        if tag == "space":
            self.writer.text(extent_of(element))
        space = element.get(XML_SPACE)
        preserved = space == "preserve" if space else self._held[-1].preserved
        held = _Held(len(marks), dotted=tag == "unclear", raised=is_raised(element), preserved=preserved)
        self.writer.dotted += held.dotted
        self.writer.raised += held.raised
        self._held.append(held)

    def _close(self, element: _Element) -> None:
        held = self._held.pop()
        self.writer.raised -= held.raised
        self.writer.dotted -= held.dotted
        for _ in range(held.marks):
            self.writer.end()
        self._end_word(element)
        self._edge(name(element))
        if element is self._block:
            self._block, self.writer.unlined = None, False

    def _begin_block(self, element: _Element) -> None:
        """Take the lines of a paragraph, list or the like as unknown if no line break is in or before it.

        A heading is one line, if nobody says otherwise.
        """
        if self._block is not None or name(element) not in BLOCKS - CONTAINERS:
            return
        self._block = element
        marked = self.writer.begins_line or any(True for _ in find(element, "lb"))
        self.writer.unlined = name(element) != "head" and not marked

    def _begin_word(self, element: _Element) -> None:
        """Keep what stands in its own <w>, <num> or <pc> apart from what stands before it."""
        sort = sort_of(element)
        if sort is None or self._word is not None:
            return
        if self.writer.ended is not None and not (begins(element) and stay_apart(self.writer.ended, element)):
            self.writer.ended = None
        elif self.writer.ended is not None:
            self.writer.ended = Sort.WORD
        elif sort is Sort.WORD and begins(element):
            self.writer.begin_word()
        self._word = None if sort is Sort.NUMBER else element

    def _end_word(self, element: _Element) -> None:
        sort = sort_of(element)
        if sort is None or self._word not in (None, element):
            return
        self._word = None
        if ends(element):
            self.writer.end_word(sort)
        else:
            self.writer.go_on()

    def _edge(self, tag: str) -> None:
        if tag in BLOCKS:
            self.writer.block()
        elif tag in SPACED:
            self.writer.blank()

    def _text(self, event: Text) -> None:
        self.writer.line = event.line
        for piece in _CUT.split(event.text):
            if not piece.strip(BLANKS):
                self._blanks(piece)
                self.writer.line += piece.count("\n")
            else:
                self._letters(piece)

    def _letters(self, piece: str) -> None:
        ended = self.writer.ended
        if ended is not None and self._word is None and not letters_stay_apart(ended, piece):
            self.writer.ended = None
        self.writer.text(piece)

    def _blanks(self, blanks: str) -> None:
        if not self._held[-1].preserved:
            if blanks:
                self.writer.blank()
            return
        for _ in blanks:
            self.writer.kept_blank()

    def _reference(self, reference: Reference) -> None:
        sign = referred(reference)
        if sign is not None:
            self.writer.text(sign)
        else:
            self._unread(f"the character &{reference.name}; is declared nowhere", "type the character itself")

    def _unread(self, what: str, remedy: str, at: _Element | None = None) -> None:
        """Write an illegible letter for a sign that cannot be known, and tell so."""
        message = f"{what}: it is read as an illegible letter, +; {remedy}"
        self.tell("tei-glyph", message, Severity.WARNING, at=at)
        self.writer.gap(Extent(1), illegible=True)

    def _unknown(self, element: _Element) -> None:
        tag = name(element)
        if f"<{tag}>" not in self._told:
            kept = "its text is kept; take it out if that is no part of the copy's text"
            done = kept if plain_text(element) else "it has no text and is passed over; nothing is to be done"
            message = f"the element <{tag}> is not one this reader knows: {done}"
            self.tell("tei-unknown", message, once=f"<{tag}>", at=element)

    def _stray(self, stray: Stray) -> None:
        tag = name(stray.element)
        if tag not in NOTHING and tag not in ("note", "witDetail", "g"):
            message = (
                f"no letters may stand right inside <{tag}>: {stray.text!r} is left out; put it into one of"
                " the elements in it"
            )
            self.tell("tei-stray", message, Severity.WARNING, at=stray.element)

    def _app(self, element: _Element) -> tuple[_Element, ...]:
        for child in element:
            if isinstance(child.tag, str) and name(child) in ("note", "witDetail"):
                self._note(child)
        reading = self.following.reading(element)
        return () if reading is None else (reading,)

    def _note(self, element: _Element) -> tuple[_Element, ...]:
        said = plain_text(element)
        if said:
            shown = said if len(said) <= _SHOWN else said[:_SHOWN].rstrip() + "…"
            message = (
                f"an editor's note is left out of the text: {shown!r}; if the scribe wrote it, give it a"
                " place in the margin and a hand"
            )
            self.tell("tei-note", message, at=element)
        return ()

    def _glyph(self, element: _Element) -> tuple[_Element, ...] | None:
        reference = element.get("ref") or ""
        sign = self.glyphs.get(reference.rsplit("#", 1)[-1])
        if sign is not None:
            self.writer.text(sign)
            return ()
        if not plain_text(element):
            what = f"the sign {reference or '<g>'} is described by no character in charDecl"
            self._unread(what, "define it there, or put the character into the element", element)
        return None

    def _breaks_here(self, element: _Element) -> bool:
        """Say whether a break is the copy's own; another's only divides the words."""
        if self.following.keeps_break(element):
            return True
        if element.get("break") != "no":
            self.writer.blank()
        return False

    def _line(self, element: _Element) -> None:
        if self._breaks_here(element):
            number = (element.get("n") or "").strip()
            counted = int(number) if number.isdecimal() and len(number) < 6 else None
            self.writer.line_break(counted, element.get("break"))

    def _page(self, element: _Element) -> None:
        if self._breaks_here(element):
            self.writer.page_break(page_of(element.get("n")), element.get("break"))

    def _column(self, element: _Element) -> None:
        if self._breaks_here(element):
            page = in_column(self.writer.page, element.get("n"))
            self.writer.page_break(page, element.get("break"), column=True)

    def _division(self, element: _Element) -> None:
        if element.get("break") != "no":
            self.writer.blank()

    def _hand(self, element: _Element) -> None:
        hand = hand_of(element, "new")
        if not hand:
            message = "this handShift does not say which hand begins: give @new"
            self.tell("tei-hand", message, Severity.WARNING, at=element)
        elif self.following.keeps_break(element):
            self.writer.hand(self.hands.get(hand, hand))

    def _gap(self, element: _Element) -> None:
        illegible = "illegible" in (element.get("reason") or "")
        self.writer.gap(lost_in(element), illegible=illegible)

    def _boundary(self, element: _Element) -> None:
        present = self.following.is_present(element)
        if present is None:
            return
        apart = self.following.is_shared(element)
        if present:
            self.writer.enter(apart=apart)
        else:
            self.writer.leave(apart=apart)


_ACTS: Mapping[str, Callable[[Walker, _Element], None]] = {
    "lb": Walker._line,
    "pb": Walker._page,
    "cb": Walker._column,
    "gb": Walker._division,
    "milestone": Walker._division,
    "handShift": Walker._hand,
    "gap": Walker._gap,
    "witStart": Walker._boundary,
    "witEnd": Walker._boundary,
    "lacunaStart": Walker._boundary,
    "lacunaEnd": Walker._boundary,
}
