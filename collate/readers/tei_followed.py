"""Entries attached to a text and who has which reading in, the text of one witness as events out."""

from bisect import bisect_left, insort
from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import takewhile
from typing import Protocol

from lxml.etree import _Element

from collate.errors import InputError
from collate.readers.tei_attached import Attached, is_attached
from collate.readers.tei_elements import is_raised, marks_of
from collate.readers.tei_stretches import Marked, Stretch, letters_in, words_in
from collate.readers.tei_xml import Close, Content, Event, Open, Text, events, find, name

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
