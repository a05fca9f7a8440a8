"""A TEI text and entries that point into it in, the stretch of the text that each is attached to out."""

import re
from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lxml import etree
from lxml.etree import _Element

from collate.errors import InputError
from collate.model.source import Place
from collate.readers.tei_elements import BLOCKS, DIVISIONS, EMPTY, NOTHING, chosen
from collate.readers.tei_xml import XML_ID, Close, Event, Open, Text, events, name, pointed

_POINTS = frozenset({"anchor", "lb", "pb", "cb", "gb", "milestone"})
"""What begins or ends a stretch without being in it."""

_DOTS = re.compile(r"\[?(?:…|\.{3})\]?")
"""What stands in a lemma that is abridged."""

_BRANCHING = frozenset({"choice", "subst", "note", "witDetail", "app", "lem", "rdg", "index", "figure"})
"""What is not read whole, or not where it stands: nothing can be attached to a part of it."""


@dataclass(frozen=True, slots=True)
class Tags:
    """The tags of a text, numbered: element by element where it begins, and where it ends."""

    begins: Mapping[_Element, int]
    ends: Mapping[_Element, int]

    def after(self, event: Event, last: int) -> int:
        """Return where an event stands: a tag at an even number, letters right after the tag before them.

        `last` is where the event before stands.
        """
        if isinstance(event, Open):
            return 2 * self.begins[event.element]
        if isinstance(event, Close):
            return 2 * self.ends[event.element]
        return last | 1


@dataclass(frozen=True, slots=True)
class Stretch:
    """What an entry is attached to: all that stands at `start` or later, and before `stop`.

    `opened` are the elements that begin in it and end after it, `closed` those that began before it and
    end in it. `text` is its letters without blanks. `passed` is the number of letters that an entry before
    has said already, and with which the entry's own readings begin.
    """

    app: _Element
    place: Place
    start: int
    stop: int
    opened: frozenset[_Element]
    closed: frozenset[_Element]
    text: str
    passed: int = 0

    def meets(self, other: "Stretch") -> bool:
        """Say whether two stretches share anything, or stand at one point so that neither comes first."""
        if self.start == self.stop == other.start == other.stop:
            return True
        if self.start == self.stop or other.start == other.stop:
            point, about = (self, other) if self.start == self.stop else (other, self)
            return about.start < point.start < about.stop
        return max(self.start, other.start) < min(self.stop, other.stop)

    def says(self, lemma: str) -> bool:
        """Say whether a lemma's letters are those of the stretch, or its first and last with dots between."""
        first, dots, last = _DOTS.sub("…", lemma).partition("…")
        abridged = bool(dots and first and last) and len(first + last) < len(self.text)
        return lemma == self.text or (abridged and self.text.startswith(first) and self.text.endswith(last))

    def shared(self, other: "Stretch") -> tuple[int, int]:
        """Return where what two stretches share begins, and where it ends."""
        return max(self.start, other.start), min(self.stop, other.stop)


@dataclass(frozen=True, slots=True)
class Letters:
    """The letters of a text, blanks and all, and where they stand, in order."""

    places: Sequence[int]
    texts: Sequence[str]

    def words(self, start: int, stop: int) -> list[str]:
        """Return the words of a stretch."""
        first, last = bisect_left(self.places, start), bisect_left(self.places, stop)
        return "".join(self.texts[first:last]).split()

    def between(self, start: int, stop: int) -> str:
        """Return the letters of a stretch, without blanks."""
        return "".join(self.words(start, stop))


@dataclass(frozen=True, slots=True)
class Marked:
    """A text in which stretches are looked for: its tags, its letters, its elements by xml:id.

    `divisions` are the places where its divisions begin, in order; `doubled` the names that two elements
    have.
    """

    text: _Element
    tags: Tags
    divisions: Sequence[int]
    letters: Letters
    named: Mapping[str, _Element]
    doubled: frozenset[str]


def marked(text: _Element) -> Marked:
    """Return a text with its tags numbered and the names of its elements gathered."""
    begins: dict[_Element, int] = {}
    ends: dict[_Element, int] = {}
    named: dict[str, _Element] = {}
    doubled: set[str] = set()
    for number, (event, element) in enumerate(etree.iterwalk(text, events=("start", "end"))):
        (begins if event == "start" else ends)[element] = number
        identity = element.get(XML_ID)
        if event == "start" and identity:
            if identity in named:
                doubled.add(identity)
            named.setdefault(identity, element)
    tags = Tags(begins, ends)
    found = sorted(_letters(text, tags), key=lambda each: each[0])
    letters = Letters([at for at, _ in found], [letters for _, letters in found])
    divisions = [2 * number for element, number in begins.items() if name(element) in DIVISIONS]
    return Marked(text, tags, divisions, letters, named, frozenset(doubled))


def _letters(text: _Element, tags: Tags) -> Iterator[tuple[int, str]]:
    at = -1
    for event in events(text, _read):
        at = tags.after(event, at)
        if isinstance(event, Text):
            yield at, event.text


def _read(element: _Element) -> tuple[_Element, ...] | None:
    """Return what of an element is read, entries and notes left out."""
    tag = name(element)
    if tag == "choice":
        return chosen(element)
    return () if tag in EMPTY or tag in NOTHING or tag in ("note", "witDetail", "app") else None


def words_in(reading: _Element) -> list[str]:
    """Return the words of a reading."""
    return "".join(event.text for event in events(reading, _read) if isinstance(event, Text)).split()


def letters_in(reading: _Element) -> str:
    """Return the letters of a reading, without blanks."""
    return "".join(words_in(reading))


def stretch(app: _Element, place: Place, marked: Marked, *, external: bool) -> Stretch:
    """Return what an entry is attached to.

    It begins with what @from points to and ends with what @to points to. Without @to it ends where the
    entry stands, or, if that is `external`, with what @from points to. Raises InputError for pointers
    to nothing, an end before the beginning, and ends in what is not read whole.
    """
    first = _pointed(app, "from", place, marked)
    without = first if external else app
    last = _pointed(app, "to", place, marked) if app.get("to") else without
    start, stop = _ends(first, last, app, marked.tags)
    if stop < start:
        raise InputError(
            "this entry ends before it begins: @from is where its lemma begins, @to its end", place
        )
    before, after = _around(first, start, marked.tags), _around(last, stop, marked.tags)
    if branching := sorted({name(each) for each in before | after} & _BRANCHING):
        raise InputError(
            f"this entry is attached to a part of a <{branching[0]}>, of which the text is not read as it"
            " stands: attach it to the whole",
            place,
        )
    text = marked.letters.between(start, stop)
    return Stretch(app, place, start, stop, after - before, before - after, text)


def _pointed(app: _Element, key: str, place: Place, marked: Marked) -> _Element:
    pointer = (app.get(key) or "").strip()
    identity = pointed(pointer)
    if "(" in identity or " " in pointer:
        raise InputError(
            f"the @{key} {pointer!r} does not point to an element: set an <anchor xml:id> there, and point"
            " to that",
            place,
        )
    if identity in marked.doubled:
        raise InputError(f"two elements have the xml:id {identity!r}: give one of them another", place)
    if identity not in marked.named:
        raise InputError(
            f"the @{key} {pointer!r} points to nothing in the text: set an <anchor xml:id> there", place
        )
    return marked.named[identity]


def _ends(first: _Element, last: _Element, app: _Element, tags: Tags) -> tuple[int, int]:
    """Return where a stretch begins and ends: of one block its content, else all from end to end."""
    begins, ends = tags.begins, tags.ends
    if first is last:
        if name(first) in _POINTS:
            return 2 * ends[first] + 1, 2 * ends[first] + 1
        if name(first) in BLOCKS:
            return 2 * begins[first] + 1, 2 * ends[first]
        return 2 * begins[first], 2 * ends[first] + 1
    start, stop = 2 * begins[first], 2 * ends[last] + 1
    if name(first) in _POINTS:
        start = 2 * ends[first] + 1
    elif begins[last] < ends[first]:
        start = 2 * begins[first] + 1
    if name(last) in _POINTS or last is app:
        stop = 2 * begins[last]
    elif begins[first] > begins[last]:
        stop = 2 * ends[last]
    return start, stop


def _around(element: _Element, at: int, tags: Tags) -> frozenset[_Element]:
    """Return the elements that have begun and not ended at a place in or beside an element."""
    near = (element, *element.iterancestors())
    return frozenset(
        each for each in near if each in tags.begins and 2 * tags.begins[each] < at <= 2 * tags.ends[each]
    )
