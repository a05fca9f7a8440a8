"""The divisions of a TEI text in, its items out, each under its label."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from lxml.etree import _Element

from collate.model.source import Place
from collate.model.transcript import Passage, Run
from collate.readers.marks import is_aside
from collate.readers.plain import OPENING, WHOLE, has_text
from collate.readers.tei_elements import CONTAINERS, DIVISIONS
from collate.readers.tei_runs import in_one_line
from collate.readers.tei_walk import Walker
from collate.readers.tei_xml import Close, Content, Event, Open, children, events, find, line_of, name

CLOSING = "closing"
"""The label of text that stands after the first item and in none."""

_TYPES = frozenset({"preface", "prologue", "incipit", "explicit", "colophon", "epilogue"})
"""Types of a division that serve as its label. "recipe" does not: there are many."""


def labels(text: _Element) -> Mapping[_Element, str]:
    """Return the elements of a text that are its items, in order, with their labels.

    A division without divisions in it is an item, and so is a body that has none. Its label is
    @n, or its type (of a preface, an incipit ...), or the number in its head, or a running number.
    """
    found = list(_leaves(text))
    if [name(leaf) for leaf in found] == ["body"]:
        return {found[0]: WHOLE}
    kinds = [leaf.get("type") or "" for leaf in found]
    stated = [
        _stated(leaf) or (kind if kind in _TYPES and kinds.count(kind) == 1 else "") or _numbered(leaf)
        for leaf, kind in zip(found, kinds, strict=True)
    ]
    taken, last = {label for label in stated if label}, 0
    named: dict[_Element, str] = {}
    for leaf, label in zip(found, stated, strict=True):
        if not label and name(leaf) in ("front", "back"):
            named[leaf] = _unused(name(leaf), taken)
            continue
        while not label:
            last += 1
            label = _new(str(last), taken)
        last = int(label) if label.isdecimal() and len(label) < 6 else last
        named[leaf] = label
    return named


def _leaves(text: _Element) -> Iterator[_Element]:
    """Yield the divisions that hold no other division, and the parts of the text that hold none."""
    containers = {text}
    for element in find(text, *CONTAINERS):
        if element is not text and element.getparent() not in containers:
            continue
        containers.add(element)
        holds = any(name(child) in CONTAINERS for child in children(element))
        if not holds and name(element) not in ("text", "group"):
            yield element


def _stated(leaf: _Element) -> str:
    return "-".join((leaf.get("n") or "").split())


def _numbered(leaf: _Element) -> str:
    """Return the number in the first head of a division, "" if it has none."""
    head = next((child for child in children(leaf) if name(child) == "head"), None)
    values = (each.get("value") for each in find(head, "num")) if head is not None else ()
    return "-".join(next((value for value in values if value), "").split())


def _new(label: str, taken: set[str]) -> str:
    """Return a label and take it, or "" if it is taken already."""
    if label in taken:
        return ""
    taken.add(label)
    return label


def _unused(label: str, taken: set[str]) -> str:
    """Return a label, with a number behind it if it is taken already."""
    number, free = 1, _new(label, taken)
    while not free:
        number += 1
        free = _new(f"{label}-{number}", taken)
    return free


@dataclass(slots=True)
class Items:
    """Gathers the passages of one witness while its text is walked.

    `labels` are the text's items. With `keeps_empty`, an item without letters is a passage too. `stream`
    says what stands in the text.
    """

    walker: Walker
    labels: Mapping[_Element, str]
    keeps_empty: bool
    stream: Callable[[_Element, Content], Iterator[Event]] = events
    done: list[Passage] = field(default_factory=list)
    _taken: set[str] = field(default_factory=set)
    _lead: str = ""
    _item: _Element | None = None
    _head: _Element | None = None
    _heading: tuple[Run, ...] = ()

    def read(self, text: _Element) -> tuple[Passage, ...]:
        """Walk a text and return its passages."""
        self._taken = set(self.labels.values())
        for event in self.stream(text, self.walker.content):
            self._take(event)
        self._end_loose()
        return tuple(self.done)

    def _take(self, event: Event) -> None:
        if isinstance(event, Open):
            self._before(event.element)
        self.walker.take(event)
        if isinstance(event, Close):
            self._after(event.element)

    def _before(self, element: _Element) -> None:
        if element in self.labels:
            self._end_loose()
            self._item, self._heading = element, ()
        elif name(element) == "head" and self._item is not None and element.getparent() is self._item:
            runs = self.walker.writer.runs
            if not has_letters(runs):
                self._head = element
                self.walker.writer.runs = [*self._heading, *runs]

    def _after(self, element: _Element) -> None:
        if self._head is not None and element is self._head:
            writer = self.walker.writer
            self._head, self._heading = None, in_one_line(writer.take(), bars=writer.counts)
            writer.end_heading()
        elif self._item is not None and element is self._item:
            self._item = None
            self._end_item(element)
        elif name(element) in ("front", "body", "back"):
            self._end_loose()

    def _end_item(self, element: _Element) -> None:
        runs = self.walker.writer.take()
        empty = not has_text((*self._heading, *runs))
        if empty and (name(element) not in DIVISIONS or not self.keeps_empty):
            self._attach(runs)
        else:
            self._add(self.labels[element], runs, line_of(element))
        self._heading = ()

    def _end_loose(self) -> None:
        """Make an item of letters that stand in none; set what else stands there beside the last item."""
        runs = self.walker.writer.take()
        if not has_letters(runs):
            self._attach(runs)
            return
        label = _unused(CLOSING if self.done else OPENING, self._taken)
        message = f"text that stands in no item is read as the item {label!r}: put it in a <div>"
        self.walker.tell("tei-loose", message)
        self._add(label, runs, runs[0].place.line)

    def _add(self, label: str, runs: tuple[Run, ...], line: int) -> None:
        lead, self._lead = self._lead, ""
        whole = label == WHOLE and len(self.labels) == 1
        if self.done or self._heading or not (whole or label == OPENING):
            heading = "".join(run.raw for run in self._heading)
            lead += f"## {label} {heading}".rstrip(" ") + "\n"
        place = Place(self.walker.writer.source, line)
        self.done.append(Passage(label, self._heading, lead, place, self._ended(runs)))

    def _attach(self, runs: tuple[Run, ...]) -> None:
        if not runs:
            return
        if self.done:
            last = self.done[-1]
            self.done[-1] = replace(last, runs=(*last.runs, *self._ended(runs)))
        else:
            self._lead += "".join(run.raw for run in self._ended(runs))

    def _ended(self, runs: tuple[Run, ...]) -> tuple[Run, ...]:
        """Return runs with a new line at their end."""
        if runs and runs[-1].raw.endswith("\n"):
            return runs
        return (*runs, Run("\n", "\n", self.walker.writer.place()))


def has_letters(runs: list[Run] | tuple[Run, ...]) -> bool:
    """Say whether any run holds letters of the text itself."""
    return has_text(tuple(run for run in runs if not is_aside(run)))
