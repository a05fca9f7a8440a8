"""A TEI file and one of its witnesses in, the labels of that witness's items in its own order out."""

from collections.abc import Iterator, Mapping

from lxml.etree import _Element

from collate.readers.tei_witnesses import Pointers
from collate.readers.tei_xml import XML_ID, find, plain_text, pointed

LABELS = "label"
"""The type of a group of interpretations that names a witness's items, each with its label there."""


def own_labels(
    root: _Element, identity: str, pointers: Pointers, labels: Mapping[_Element, str]
) -> Mapping[_Element, str]:
    """Return the items of a file in the order of a witness, labelled as it labels them.

    Items of which the file does not say it come last, in the file's order; so do all, with `labels` as
    they are, if one label would stand twice.
    """
    told = dict(_told(root, identity, pointers, {element.get(XML_ID): element for element in labels}))
    ordered = {**told, **{element: label for element, label in labels.items() if element not in told}}
    return ordered if len(set(ordered.values())) == len(ordered) else labels


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
