"""A TEI file whose entries point to the ends of their lemmas in, each with its stretch of text out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lxml.etree import _Element

from collate.errors import InputError
from collate.model.notice import Notice
from collate.model.source import Place, Source
from collate.readers.tei_elements import DIVISIONS
from collate.readers.tei_positions import Positions
from collate.readers.tei_stretches import Marked, Stretch, letters_in, marked, stretch
from collate.readers.tei_xml import children, find, line_of, name

METHOD = "double-end-point"
"""What TEI calls it that an entry points to both ends of its lemma."""

_LISTS = "listApp"


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
    """Take the lists of entries out of a text, and what holds nothing else but its heading.

    So what is left of it is text, and a `back` that held only them is no item.
    """
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
    positions = Positions(source.data, root)
    places = {app: _place(source, app, positions) for app in apps}
    stated = (each.get("location") for each in find(root, "variantEncoding") if each.get("method") == METHOD)
    apart = "external" in stated
    outside = {app: apart or _is_outside(app, text) for app in apps}
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


def _is_outside(app: _Element, text: _Element) -> bool:
    """Say whether an entry stands apart from the text, so that its own place says nothing."""
    about = tuple(app.iterancestors())
    return text not in about or any(name(each) == _LISTS for each in about)


def _place(source: Source, app: _Element, positions: Positions) -> Place:
    """Return where an entry of a file begins; its line only, if no more can be told."""
    return Place(source.name, *(positions.of(app) or (line_of(app),)))


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
