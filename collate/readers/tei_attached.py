"""The entries of a TEI file that point to where their lemmas begin and end in, a witness's text out."""

from bisect import bisect_left, insort
from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import takewhile
from typing import Protocol
from xml.parsers import expat

from lxml.etree import _Element

from collate.errors import InputError
from collate.model.notice import Notice
from collate.model.source import Place, Source
from collate.readers.tei_elements import DIVISIONS, is_raised, marks_of
from collate.readers.tei_stretches import Marked, Stretch, letters_in, marked, stretch, words_in
from collate.readers.tei_xml import (
    NAMESPACE,
    Close,
    Content,
    Event,
    Open,
    Text,
    children,
    events,
    find,
    line_of,
    name,
)

METHOD = "double-end-point"
"""What TEI calls it that an entry points to both ends of its lemma."""

_LISTS = "listApp"

_BREAKS = ("pb", "cb", "lb", "handShift")

_PLAIN = frozenset(
    {"p", "ab", "l", "lg", "list", "item", "table", "row", "cell", "w", "seg", "s", "cl", "phr"}
)
"""What a reading with letters may reach into or out of."""


class Takes(Protocol):
    """Which reading of an entry a witness has."""

    @property
    def siglum(self) -> str:
        """The witness."""

    def taken(self, app: _Element) -> _Element | None:
        """Return the witness's reading, or that of those not named; None where it has the text's own."""

    def keeps_break(self, element: _Element) -> bool:
        """Say whether a page, line or hand begins here in the witness."""

    def is_named(self, reading: _Element) -> bool:
        """Say whether a reading names the witness."""


@dataclass(frozen=True, slots=True)
class Attached:
    """The entries attached to a text, in the order of their places; `marked` is the text."""

    marked: Marked
    stretches: tuple[Stretch, ...]
    notices: tuple[Notice, ...]


def is_attached(app: _Element) -> bool:
    """Say whether an entry says where it is attached."""
    return bool(app.get("from"))


def detach(text: _Element) -> None:
    """Take the lists of entries out of a text, and what holds nothing else but its heading."""
    for found in list(find(text, _LISTS)):
        if any(name(each) == _LISTS for each in found.iterancestors()):
            continue
        gone, parent = found, found.getparent()
        while parent is not None:
            parent.remove(gone)
            emptied = name(parent) in (*DIVISIONS, "back")
            if not emptied or any(name(each) != "head" for each in children(parent)):
                break
            gone, parent = parent, parent.getparent()


def attached(root: _Element, text: _Element, source: Source) -> Attached:
    """Return the entries of a document that point into its text, and take their lists out of that.

    Raises InputError for an entry without @from, for what `stretch` refuses, and for an empty lemma
    where there is text.
    """
    apps = [app for app in find(root, "app") if is_attached(app) or not _is_inner(app)]
    places = dict(zip(find(root, "app"), _places(source, list(find(root, "app"))), strict=True))
    outside = {app: _is_outside(app, root, text) for app in apps}
    detach(text)
    whole, found = marked(text), []
    for app in apps:
        if not is_attached(app):
            raise InputError(
                "this entry does not say where it belongs: give it @from, and @to where its lemma ends",
                places[app],
            )
        found.append(stretch(app, places[app], whole, external=outside[app]))
    found.sort(key=lambda each: (each.start, -each.stop))
    return Attached(whole, tuple(found), tuple(_differing(found)))


def _is_inner(app: _Element) -> bool:
    return any(name(each) == "app" for each in app.iterancestors())


def _is_outside(app: _Element, root: _Element, text: _Element) -> bool:
    """Say whether an entry stands apart from the text, so that its own place says nothing."""
    about = tuple(app.iterancestors())
    stated = (each.get("location") for each in find(root, "variantEncoding") if each.get("method") == METHOD)
    return text not in about or any(name(each) == _LISTS for each in about) or "external" in stated


def _places(source: Source, apps: Sequence[_Element]) -> list[Place]:
    """Return where each entry of a file begins; its line only, if no more can be told."""
    found: list[Place] = []
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.UseForeignDTD(True)  # noqa: FBT003  # its only argument, and by position

    def begin(tag: str, _: object) -> None:
        if tag == f"{NAMESPACE} app":
            found.append(Place(source.name, parser.CurrentLineNumber, parser.CurrentColumnNumber + 1))

    parser.StartElementHandler = begin
    try:
        parser.Parse(source.data, True)  # noqa: FBT003  # its only way to say that this is all
    except expat.ExpatError:
        found.clear()
    return found if len(found) == len(apps) else [Place(source.name, line_of(app)) for app in apps]


def _differing(found: Sequence[Stretch]) -> Iterator[Notice]:
    """Yield a Notice for each lemma that differs from the text it stands for; refuse one that is empty."""
    for each in found:
        for lemma in (child for child in _lemmas(each.app) if not any(True for _ in find(child, "app"))):
            said = letters_in(lemma)
            if not said and each.text and not len(lemma):
                raise InputError(
                    "this lemma is empty, yet there is text between its two ends: leave the <lem> out, or"
                    " write the text in it",
                    each.place,
                )
            if not each.says(said):
                told = "this lemma differs from the text between its two ends: the lemma is followed"
                yield Notice("tei-lemma", told, each.place)


def _lemmas(app: _Element) -> Iterator[_Element]:
    for child in children(app):
        if name(child) == "lem":
            yield child
        elif name(child) == "rdgGrp":
            yield from _lemmas(child)


def followed(takes: Takes, entries: Attached) -> tuple[Stretch, ...]:
    """Return the entries whose readings stand for the text in a witness, in order, none meeting another.

    Where it is in no reading of an entry, or in a lemma that says what the text says and is met by
    another entry, it has the text. Raises InputError where two entries that meet say what it has.
    """
    mine: list[Stretch] = []
    lemmas: list[tuple[Stretch, _Element]] = []
    for each in entries.stretches:
        reading = takes.taken(each.app)
        if reading is not None and name(reading) == "lem":
            lemmas.append((each, reading))
        elif reading is not None:
            _place(takes, each, reading, mine, entries.marked)
    breaks = _breaks(takes, entries.marked)
    for each, lemma in lemmas:
        rivals = _meeting(each, mine)
        if rivals:
            _check_text(takes, each, lemma, rivals, entries.marked)
        elif not _is_in_text(takes, each, lemma, breaks):
            _place(takes, each, lemma, mine, entries.marked)
    return tuple(mine)


def _breaks(takes: Takes, marked: Marked) -> list[int]:
    """Return where in a text the pages, lines and hands of a witness begin."""
    return [2 * marked.tags.begins[each] for each in find(marked.text, *_BREAKS) if takes.keeps_break(each)]


def _is_in_text(takes: Takes, each: Stretch, lemma: _Element, breaks: Sequence[int]) -> bool:
    """Say whether a lemma is to be read where it stands in the text: it is abridged, or lacks breaks."""
    said = letters_in(lemma)
    if said != each.text:
        return each.says(said)
    within = bisect_left(breaks, each.stop) - bisect_left(breaks, each.start)
    return within > 0 and not any(takes.keeps_break(found) for found in find(lemma, *_BREAKS))


def _place(takes: Takes, each: Stretch, reading: _Element, mine: list[Stretch], marked: Marked) -> None:
    """Add an entry of which a witness has a reading to those before."""
    rivals = _meeting(each, mine)
    rest = _rest(takes, each, reading, rivals[0], marked) if len(rivals) == 1 else None
    if rivals and rest is None:
        raise InputError(
            f"this entry overlaps another, and {takes.siglum} has a reading in both, so that its text cannot"
            " be known: make one entry of the two",
            each.place,
        )
    reaches = _reaches(each, reading, marked)
    if reaches:
        insort(mine, rest or each, key=_order)
    elif name(reading) != "lem" or not each.says(letters_in(reading)):
        raise InputError(
            "this entry reaches from one element into another, so that what of its reading belongs to which"
            " cannot be known: make an entry for each",
            each.place,
        )


def _rest(takes: Takes, each: Stretch, reading: _Element, before: Stretch, marked: Marked) -> Stretch | None:
    """Return what an entry says beyond one that begins before it, if both say the same where they meet.

    That is so if the reading of the one ends with as many words as they share, and that of the other
    begins with these very words; else None.
    """
    told, shared = takes.taken(before.app), marked.letters.words(*each.shared(before))
    apart = before.start < each.start < before.stop < each.stop
    plain = not (each.opened | each.closed | before.opened | before.closed)
    if told is None or not (apart and plain and shared):
        return None
    words = words_in(reading)[: len(shared)]
    if len(words) < len(shared) or words_in(told)[-len(shared) :] != words:
        return None
    return replace(each, start=before.stop, passed=len("".join(words)))


def _order(each: Stretch) -> tuple[int, int]:
    return each.start, each.stop


def _meeting(each: Stretch, placed: Sequence[Stretch]) -> list[Stretch]:
    """Return those that an entry meets, of several that are in order and do not meet one another."""
    at = bisect_left(placed, _order(each), key=_order)
    near = takewhile(lambda other: other.start <= each.stop, placed[max(at - 2, 0) :])
    return [other for other in near if each.meets(other)]


def _reaches(each: Stretch, reading: _Element, marked: Marked) -> bool:
    """Say whether a reading can stand in one place for all its entry is attached to."""
    plain = all(
        name(part) in _PLAIN and not marks_of(part) and not is_raised(part)
        for part in each.opened | each.closed
    )
    items = bisect_left(marked.divisions, each.stop) - bisect_left(marked.divisions, each.start)
    return (plain and not items) or not letters_in(reading)


def _check_text(
    takes: Takes, each: Stretch, lemma: _Element, rivals: Sequence[Stretch], marked: Marked
) -> None:
    """Raise InputError unless the text itself can stand for a lemma that other entries meet."""
    against = (
        rival
        for rival in rivals
        if takes.is_named(lemma) and not (each.start <= rival.start and rival.stop <= each.stop)
    )
    agreed = all(
        marked.letters.between(*each.shared(rival)) in letters_in(reading)
        for rival in against
        if (reading := takes.taken(rival.app)) is not None
    )
    if not agreed or not each.says(letters_in(lemma)):
        raise InputError(
            f"this entry overlaps another, and the two do not agree in what {takes.siglum} has: make one"
            " entry of the two",
            each.place,
        )


def told(text: _Element, content: Content, entries: Attached, followed: Sequence[Stretch]) -> Iterator[Event]:
    """Yield what stands in a text as `events` does, entries and their readings in the places they stand for.

    `followed` are the entries of which a reading is followed; `content` says which.
    """
    waiting, here, at = deque(followed), deque[Stretch](maxlen=1), -1

    def walked(element: _Element) -> tuple[_Element, ...] | None:
        if here:
            return None if element in here[0].opened else ()
        return () if name(element) == "app" and is_attached(element) else content(element)

    for event in events(text, walked):
        at = entries.marked.tags.after(event, at)
        if here and here[0].stop <= at:
            here.clear()
        while waiting and not here and waiting[0].start <= at:
            each = waiting.popleft()
            yield from _beyond(events(each.app, content), each.passed)
            if at < each.stop:
                here.append(each)
        if not (here and _is_replaced(event, here[0])) and not _is_entry(event):
            yield event


def _beyond(told: Iterator[Event], passed: int) -> Iterator[Event]:
    """Yield events without the first letters, so many as are `passed` over."""
    for event in told:
        if not passed or not isinstance(event, Text):
            yield event
            continue
        at = 0
        while passed and at < len(event.text):
            passed -= not event.text[at].isspace()
            at += 1
        yield Text(event.text[at:], event.line)


def _is_replaced(event: Event, each: Stretch) -> bool:
    """Say whether something within a stretch gives way to its reading: all but what reaches out of it."""
    if isinstance(event, Open):
        return event.element not in each.opened
    return not (isinstance(event, Close) and event.element in each.closed)


def _is_entry(event: Event) -> bool:
    """Say whether an event is the tag of an entry that is attached elsewhere."""
    return isinstance(event, Open | Close) and name(event.element) == "app" and is_attached(event.element)
