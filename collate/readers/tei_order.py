"""A TEI file and one of its witnesses in, the labels of that witness's items in its own order out."""

from collections.abc import Collection, Iterator, Mapping
from itertools import count

from lxml.etree import _Element

from collate.readers.tei_witnesses import Pointers
from collate.readers.tei_xml import XML_ID, find, plain_text, pointed

LABELS = "label"
"""The type of a group of interpretations that names a witness's items, each with its label there."""


def own_labels(
    root: _Element, identity: str, pointers: Pointers, labels: Mapping[_Element, str]
) -> Mapping[_Element, str]:
    """Return the items of a file in the order of a witness, labelled as it labels them.

    Items of which the file does not say it come last, in the file's order, with a number behind a label
    that another has already. If the file gives one label twice, all keep `labels`.
    """
    told = dict(_told(root, identity, pointers, {element.get(XML_ID): element for element in labels}))
    if len(set(told.values())) < len(told):
        return labels
    ordered, taken = dict(told), {*told.values(), *labels.values()}
    for element, label in labels.items():
        if element not in told:
            clashes = label in told.values()
            ordered[element] = _free(label, taken) if clashes else label
            taken.add(ordered[element])
    return ordered


def _free(label: str, taken: Collection[str]) -> str:
    """Return a label with the first number behind it that makes it free."""
    return next(free for number in count(2) if (free := f"{label}-{number}") not in taken)


def _told(
    root: _Element, identity: str, pointers: Pointers, named: Mapping[str | None, _Element]
) -> Iterator[tuple[_Element, str]]:
    for group in find(root, "interpGrp"):
        if group.get("type") != LABELS or identity not in pointers.read(group.get("corresp")):
            continue
        for each in find(group, "interp"):
            element, label = named.get(pointed(each.get("inst") or "")), "-".join(plain_text(each).split())
            if element is not None and label:
                yield element, label
