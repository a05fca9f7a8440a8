"""The headings of an item, where the copies head it otherwise than the base."""

from collections.abc import Iterator

from collate.model.findings import ItemFindings
from collate.model.witness import Item, shown, without_points
from collate.reports.phrases import joined

NAME = "Heading"


def heading_line(found: ItemFindings) -> Iterator[str]:
    """Yield the other headings beside the base's, in the order of their first witness; nothing if all agree.

    `Pucyns en verdure] Chekyns en verdure L; none M`. Headings that differ only in points, in capitals or in
    what the spelling rules make alike are the same.
    """
    collation = found.collation
    ours = collation.items[collation.sigla.index(found.base)]
    readings: dict[str, list[str]] = {}
    texts: dict[str, str] = {}
    for siglum, item in zip(collation.sigla, collation.items, strict=True):
        key = _key(item)
        readings.setdefault(key, []).append(siglum)
        texts.setdefault(key, _text(item))
    said = [
        f"{texts[key]} {joined(sigla)}" if key else f"none {joined(sigla)}"
        for key, sigla in readings.items()
        if key != _key(ours)
    ]
    if said:
        yield f"{_text(ours) or '(none)'}] {'; '.join(said)}"


def _text(item: Item) -> str:
    return " ".join(shown(token) for token in without_points(item.heading_tokens))


def _key(item: Item) -> str:
    return " ".join(token.normal for token in without_points(item.heading_tokens))
