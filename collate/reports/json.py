"""Findings in, JSON out, with the names of docs/formats.md. The same findings give the same bytes."""

import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from collate.model.apparatus import Entry, Variant
from collate.model.collation import Collation
from collate.model.edition import Edition, Witness
from collate.model.findings import Findings, ItemFindings
from collate.model.notice import Notice
from collate.model.tense import TenseShift
from collate.model.witness import Item, Token, WitnessText, shown_aside

Value = str | int | float | bool | None | Sequence["Value"] | Mapping[str, "Value"]
Object = dict[str, Value]

_UNSAFE = re.compile("[\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")


def dumps(value: Value) -> str:
    """Return a value as JSON on one line; no control character stands in it raw."""
    text = json.dumps(value, ensure_ascii=False, allow_nan=False, check_circular=False)
    if text.isprintable():  # as no control character is
        return text
    return _UNSAFE.sub(lambda match: f"\\u{ord(match.group()):04x}", text)


@dataclass(frozen=True, slots=True)
class Written:
    """A value that is JSON already."""

    text: str


def document(fields: Mapping[str, Value | Iterable[Value | Written]]) -> Iterator[str]:
    """Yield a JSON object piece by piece: each field on its line, each entry of a list on its own.

    A list may be an iterator: its entries are written as they come.
    """
    yield "{\n"
    for number, (name, value) in enumerate(fields.items()):
        yield f"{',' if number else ''}{dumps(name)}: "
        if isinstance(value, str | int | float | Mapping) or value is None:
            yield dumps(value)
        else:
            yield "["
            for at, entry in enumerate(value):
                yield (",\n " if at else "\n ") + (entry.text if isinstance(entry, Written) else dumps(entry))
            yield "\n]"
        yield "\n"
    yield "}\n"


def tokens(texts: Iterable[WitnessText]) -> Iterator[str]:
    """Yield the words of every witness."""
    return document({"witnesses": (_witness_text(text) for text in texts)})


def _witness_text(text: WitnessText) -> Object:
    return {"siglum": text.siglum, "items": [_item(item) for item in text.items]}


def _item(item: Item) -> Object:
    return {
        "label": item.label,
        "heading": item.heading,
        "kind": item.kind,
        "tokens": [token(t) for t in item.tokens],
        "asides": [
            {
                "kind": aside.mark,
                "text": shown_aside(aside),
                "before": aside.at,
                "note": aside.note,
                "hand": aside.place.hand,
            }
            for aside in item.asides
        ],
    }


def token(token: Token) -> Object:
    """Return one word as the formats page has it."""
    result: Object = {
        "written": token.written,
        "expanded": token.expanded,
        "normal": token.normal,
        "kind": token.kind,
        "folio": token.place.folio,
        "line": token.place.ms_line,
    }
    if token.value is not None:
        result["value"] = int(token.value) if token.value == int(token.value) else token.value
    if token.headwords:
        result["headwords"] = token.headwords
    if token.open:
        result["open"] = True
    if token.language != "en":
        result["language"] = token.language
    if token.word_in_line is not None:
        result["word"] = token.word_in_line
    if token.place.hand != "1":
        result["hand"] = token.place.hand
    if token.marks:
        result["marks"] = [{"mark": m.mark, "letters": [m.start, m.stop]} for m in token.marks]
    return result


def apparatus(findings: Findings) -> Iterator[str]:
    """Yield the apparatus of every item."""
    return assembled(findings.edition, map(item, findings.items), findings.notices)


def item(found: ItemFindings) -> str:
    """Return the apparatus of one item, on one line."""
    return dumps(_findings(found))


def assembled(edition: Edition, items: Iterable[str], notices: Sequence[Notice]) -> Iterator[str]:
    """Yield the apparatus whose items are written already, each by `item`."""
    return document(
        {
            "edition": _edition(edition),
            "items": (Written(text) for text in items),
            "notices": [_notice(notice) for notice in notices],
        }
    )


def _edition(edition: Edition) -> Object:
    reason: Object = {"base_reason": edition.base_reason} if edition.base_reason else {}
    return {
        "title": edition.title,
        "base": edition.base,
        **reason,
        "witnesses": [_witness(witness) for witness in edition.witnesses],
    }


def _witness(witness: Witness) -> Object:
    date = witness.hand
    return {
        "siglum": witness.siglum,
        "name": witness.name,
        "date": {
            "stated": date.stated,
            "not_before": date.not_before,
            "not_after": date.not_after,
            "scheme": date.scheme,
        }
        if date
        else None,
    }


def _notice(notice: Notice) -> Object:
    return {
        "code": notice.code,
        "message": notice.message,
        "place": str(notice.place) if notice.place else "",
        "severity": notice.severity,
    }


def _findings(found: ItemFindings) -> Object:
    collation = found.collation
    members = list(zip(collation.sigla, collation.items, strict=True))
    return {
        "item": collation.key,
        "kind": found.kind,
        "base": found.base,
        "present": collation.sigla,
        "absent": found.absent,
        "labels": {siglum: item.label for siglum, item in members},
        "headings": {siglum: item.heading for siglum, item in members},
        "tokens": {siglum: [token(t) for t in item.tokens] for siglum, item in members},
        "columns": _columns(collation),
        "loci": [_locus(entry) for entry in found.entries],
        "transpositions": [
            {
                "siglum": moved.siglum,
                "span": [moved.start, moved.stop],
                "home": moved.home,
                "home_columns": [moved.home, moved.home_stop],
                "told": moved in found.moved,
                "told_of": found.moved.get(moved, ()),
            }
            for moved in collation.transpositions
        ],
        "shifts": [_shift(shift) for shift in found.shifts],
    }


def _shift(shift: TenseShift) -> Object:
    return {
        "column": shift.column,
        "columns": [shift.column, shift.stop],
        "from": {"sigla": shift.from_sigla, "text": shift.from_text, "tense": shift.from_tense},
        "to": {"sigla": shift.to_sigla, "text": shift.to_text, "tense": shift.to_tense},
        "kind": shift.kind,
        "headword": shift.headword,
        "subject": shift.subject.text,
        "reason": shift.reason,
    }


def _columns(collation: Collation) -> list[Object]:
    return [
        {siglum: [span.start, span.stop] for siglum, span in zip(collation.sigla, column.spans, strict=True)}
        for column in collation.columns
    ]


def _locus(entry: Entry) -> Object:
    lemma: Object = {"text": entry.lemma.text, "sigla": entry.lemma.sigla, "kind": "lemma"}
    return {
        "columns": [entry.locus.first, entry.locus.stop],
        "readings": [lemma, *(_variant(variant) for variant in entry.variants)],
    }


def _variant(variant: Variant) -> Object:
    return {
        "text": variant.reading.text,
        "sigla": variant.reading.sigla,
        "kind": variant.kind,
        "weight": variant.weight,
        "reason": variant.reason,
    }
