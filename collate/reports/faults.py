"""Faults and differences in, lines for the terminal or JSON out."""

from collections.abc import Iterator, Mapping, Sequence

from collate.model.notice import Checked, Difference
from collate.model.source import Place
from collate.reports.json import Object, document


def text(checked: Sequence[Checked], lines: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """Yield each fault as file:line:column with its line and a caret, then the count.

    `lines` holds the lines of each source. Silenced faults are counted, not shown.
    """
    standing = [each for each in checked if each.silenced is None]
    for each in standing:
        notice = each.notice
        place = f"{notice.place}: " if notice.place else ""
        yield f"{place}{notice.severity}: {notice.message} [{notice.code}]\n"
        if notice.place and notice.place.column:
            yield from _caret(notice.place, lines)
    yield _sum(checked)


def _caret(place: Place, lines: Mapping[str, Sequence[str]]) -> Iterator[str]:
    source = lines.get(place.source, ())
    if 0 < place.line <= len(source):
        line = source[place.line - 1].rstrip("\r\n").replace("\t", " ")
        yield f"    {line}\n"
        yield f"    {' ' * (place.column - 1)}^\n"


def _sum(checked: Sequence[Checked]) -> str:
    remaining = sum(each.stands for each in checked)
    silenced = sum(each.silenced is not None for each in checked)
    said = f"{remaining} fault{'' if remaining == 1 else 's'}" if remaining else "no faults"
    return said + (f", {silenced} silenced" if silenced else "") + "\n"


def json(checked: Sequence[Checked]) -> Iterator[str]:
    """Yield the faults as JSON, silenced ones with the reason."""
    return document({"faults": [_fault(each) for each in checked]})


def _fault(each: Checked) -> Object:
    place = each.notice.place
    return {
        "siglum": each.siglum,
        "code": each.notice.code,
        "severity": each.notice.severity,
        "message": each.notice.message,
        "file": place.source if place else None,
        "line": place.line if place else None,
        "column": place.column if place else None,
        "place": str(place) if place else "",
        "silenced": each.silenced,
        "docs": f"docs/checks.md#{each.notice.code}",
    }


def differences_text(found: Sequence[Difference], words: int) -> Iterator[str]:
    """Yield each difference of two passes with its places, then the count."""
    for each in found:
        yield f"{each.place}: item {each.item}: {each.first or '(nothing)'}\n"
        yield f"{each.other_place}: item {each.item}: {each.second or '(nothing)'}\n\n"
    count = f"{len(found)} difference{'' if len(found) == 1 else 's'}"
    yield f"{count}\n" if found else f"identical, {words} words\n"


def differences_json(found: Sequence[Difference], words: int) -> Iterator[str]:
    """Yield the differences of two passes as JSON."""
    entries: list[Object] = [
        {
            "item": each.item,
            "first": each.first,
            "second": each.second,
            "place": str(each.place),
            "other_place": str(each.other_place),
        }
        for each in found
    ]
    return document({"words": words, "differences": entries})
