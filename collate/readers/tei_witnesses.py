"""The list of witnesses in a TEI header in, and what each pointer to them means out."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from lxml.etree import _Element

from collate.errors import InputError
from collate.model.edition import Witness
from collate.model.notice import Notice, Severity
from collate.model.source import Place, Source
from collate.readers.tei_header import DATES, described
from collate.readers.tei_xml import XML_ID, find, line_of, parse, plain_text, pointed

BASE = "#state-base"
"""How a witness is said to be the base: by pointing to the category of that name."""

_APART = re.compile(r"[\s,;]+")


@dataclass(frozen=True, slots=True)
class Listed:
    """A witness as the header lists it: `identity` is what pointers name."""

    identity: str
    siglum: str
    element: _Element


def listed(root: _Element, source: Source) -> tuple[Listed, ...]:
    """Return the witnesses of a file in the order of its list.

    Raises InputError where none is listed, or two have one siglum.
    """
    found = list(_elements(root))
    if not found:
        raise InputError(
            "the apparatus of this file has no list of witnesses: put a <listWit> in its <sourceDesc>",
            Place(source.name),
        )
    witnesses, seen = [], set[str]()
    for element in found:
        siglum = "_".join(_siglum(element).split())
        place = Place(source.name, line_of(element))
        if not siglum or "," in siglum or not siglum.isprintable():
            raise InputError(
                "a witness needs a siglum without a comma: give its <witness> an xml:id or @n", place
            )
        if siglum in seen:
            raise InputError(f"two witnesses have the siglum {siglum}: give one of them another", place)
        seen.add(siglum)
        witnesses.append(Listed(element.get(XML_ID) or siglum, siglum, element))
    return tuple(witnesses)


def _elements(root: _Element) -> Iterator[_Element]:
    """Yield the witnesses of a file, groups left out; failing any, the copies described under an xml:id."""
    members = [
        element
        for header in find(root, "sourceDesc")
        for element in find(header, "witness")
        if not any(True for _ in find(element, "listWit"))
    ]
    yield from members or [
        element
        for header in find(root, "sourceDesc")
        for element in find(header, "msDesc", "bibl", "biblStruct")
        if element.get(XML_ID)
    ]


def _siglum(element: _Element) -> str:
    """Return what a witness is called in print: its siglum as abbreviated, its @n, or its xml:id."""
    shown = (plain_text(each) for each in find(element, "abbr") if each.get("type") == "siglum")
    return next(shown, "") or " ".join((element.get("n") or "").split()) or element.get(XML_ID) or ""


def title_and_base(source: Source) -> tuple[str, str]:
    """Return the title of a file, "" if it has none, and its base: the witness said to be it, or the first.

    Raises InputError for what `parse` and `listed` refuse.
    """
    root = parse(source)
    titles = (plain_text(each) for stated in find(root, "titleStmt") for each in find(stated, "title"))
    witnesses = listed(root, source)
    said = (each.siglum for each in witnesses if BASE in (each.element.get("ana") or "").split())
    return next(titles, ""), next(said, witnesses[0].siglum)


def witness_of(listed: Listed, source: Source) -> tuple[Witness, tuple[Notice, ...]]:
    """Return the witness that a list's entry describes, with its name and date."""
    plain = Witness(listed.siglum, listed.siglum, source.name)
    witness, notices = described(plain, listed.element, source.name, (*DATES, "date"))
    said = " ".join(_siglum(listed.element).split())
    if said != listed.siglum:
        message = (
            f"the siglum {said!r} has a blank in it, and blanks divide sigla: it is read as"
            f" {listed.siglum!r}; give its <witness> another to have it otherwise"
        )
        place = Place(source.name, line_of(listed.element))
        notices = (*notices, Notice("tei-siglum", message, place, Severity.NOTE))
    if witness.name == witness.siglum and not any(True for _ in find(listed.element, "msIdentifier")):
        named = plain_text(listed.element).removeprefix(said).strip(" :,.")
        witness = Witness(witness.siglum, named or witness.siglum, source.name, witness.hand)
    return witness, notices


@dataclass(frozen=True, slots=True)
class Pointers:
    """What each name that a pointer may use means: identities of witnesses.

    `hands` are those witnesses that a hand, by its xml:id, is said to be one of (@corresp). `known` is
    what has been read so far.
    """

    meaning: Mapping[str, frozenset[str]]
    hands: Mapping[str, frozenset[str]] = field(default_factory=dict)
    known: dict[str, frozenset[str]] = field(default_factory=dict)

    def read(self, value: str | None) -> frozenset[str]:
        """Return the witnesses that an attribute's pointers name, groups taken apart."""
        none: frozenset[str] = frozenset()
        if not value:
            return none
        if value not in self.known:
            named = (self.meaning.get(self._named(word), none) for word in _words(value))
            self.known[value] = none.union(*named)
        return self.known[value]

    def writes(self, hand: str | None) -> frozenset[str]:
        """Return the witnesses in which a hand that an attribute points to is said to write."""
        return self.hands.get(pointed(hand or ""), frozenset())

    def _named(self, word: str) -> str:
        named = pointed(word)
        return named if named in self.meaning else named.rsplit(":", 1)[-1]

    def faults(self, element: _Element, source: str) -> Iterator[Notice]:
        """Yield a Notice for each pointer of an element's @wit that is not as it should be."""
        value = element.get("wit")
        place = Place(source, line_of(element))
        if value and re.search("[,;]", value):
            yield Notice("tei-pointer", "pointers to witnesses are divided by blanks, not commas", place)
        for word in _words(value):
            if self._named(word) not in self.meaning:
                yield Notice(
                    "tei-pointer", f"{word!r} is no witness of this file's list: it is left out", place
                )
            elif "#" not in word and ":" not in word:
                yield Notice("tei-pointer", f"the pointer {word!r} is read as '#{word}'", place)


def _words(value: str | None) -> list[str]:
    return [word for word in _APART.split(value or "") if word]


def pointers(root: _Element, witnesses: tuple[Listed, ...]) -> Pointers:
    """Return what pointers mean in a file: a witness by its xml:id or siglum, a group by its xml:id."""
    ours = {witness.element: witness.identity for witness in witnesses}
    meaning = {witness.siglum: frozenset({witness.identity}) for witness in witnesses}
    for element in find(root, "listWit", "witness"):
        identity = element.get(XML_ID)
        members = frozenset(ours[each] for each in find(element, "witness") if each in ours)
        if identity and members:
            meaning[identity] = members
    meaning |= {witness.identity: frozenset({witness.identity}) for witness in witnesses}
    read = Pointers(meaning).read
    return Pointers(
        meaning, {each.get(XML_ID, ""): read(each.get("corresp")) for each in find(root, "handNote")}
    )
