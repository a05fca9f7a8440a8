"""Plain transcriptions: UTF-8 bytes in, a transcript out."""

import codecs
import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from collate.errors import InputError
from collate.model.edition import LineMode, Witness
from collate.model.notice import Notice
from collate.model.source import Place, Source
from collate.model.transcript import Passage, Run, Transcript
from collate.readers.marks import Scanner, has_line_marks

WHOLE = "1"
"""The label of the only item of a file that has no item lines."""

OPENING = "opening"
"""The label of the text that stands before the first item line."""

_HEAD = re.compile(r"##(?!#)[^\S\r\n]*(\S*)[^\S\r\n]*(.*?)[ \t\r\n]*$")
_NEAR_HEAD = re.compile(r"^[^\S\r\n]*\#\#", re.MULTILINE)
_HEAD_BYTES = 1000
_FEWEST_NULS = 3
_NOT_PLAIN = {
    b"PK\x03\x04": "a file of a word processor, or packed",
    b"\xd0\xcf\x11\xe0": "a file of a word processor",
    b"{\\rtf": "RTF",
    b"%PDF-": "a PDF",
    b"\x1f\x8b": "a packed file",
    b"<html": "HTML",
    b"<!DOCTYPE html": "HTML",
    b"<!doctype html": "HTML",
}
"""How files begin that are often taken for plain text, and what they are."""

_SAVE = "open it in an editor and save it as UTF-8 (in most: Save as …, encoding UTF-8)"
_MARK_IN_LABEL = re.compile(r"[|`´¬]|@[a-z]+[:{]|\[\[")
_CONTROL = re.compile(r"[\x01-\x08\x0b\x0e-\x1f\x7f-\x9f]|\r(?!\n)")


@dataclass(frozen=True, slots=True)
class Settled:
    """Text after NFC with typed keys set to their signs, and where keys were longer than signs.

    `shifts` maps a line to (column of the sign, letters that its key has more).
    """

    text: str
    shifts: dict[int, list[tuple[int, int]]]


def read(
    source: Source, witness: Witness, keys: Mapping[str, str], faults: list[InputError] | None = None
) -> Transcript:
    """Read a plain transcription; `keys` maps typed keys (`$p`) to signs.

    With a list of `faults` an item whose marks are not sound goes to it, and the others are read.
    Raises InputError with its place for bytes that are no UTF-8, a file without text, an item
    line without a label, or a mark out of order.
    """
    text = decode(source)
    if "\r" in text and "\n" not in text:
        raise InputError(
            "the lines of this file end in CR alone, as on old computers: save it with line ends LF or CR LF",
            Place(source.name, 1, text.index("\r") + 1),
        )
    settled = settle(text, keys)
    counts_lines = witness.lines is LineMode.MANUSCRIPT or has_line_marks(settled.text)
    scanner = Scanner(source.name, witness.lines, counts_lines=counts_lines, shifts=settled.shifts)
    passages = tuple(_passages(source, settled.text, scanner, faults))
    if not faults and not any(passage.heading or has_text(passage.runs) for passage in passages):
        raise InputError("there is no text in this file: put the transcription in it", Place(source.name))
    return Transcript(witness, passages, tuple(_controls(source, settled.text)))


def decode(source: Source) -> str:
    """Return the text of a source, or raise InputError at the first byte that is not UTF-8 or is NUL."""
    if source.data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        raise InputError(f"this file is UTF-16: {_SAVE}", Place(source.name, 1, 1))
    kind = next(
        (kind for begins, kind in _NOT_PLAIN.items() if source.data.lstrip().startswith(begins)), None
    )
    if kind is not None:
        raise InputError(
            f"this is {kind}, no plain text: save the transcription as plain text, UTF-8 (.txt)",
            Place(source.name, 1, 1),
        )
    if _looks_utf16(source.data):
        raise InputError(f"this file looks like UTF-16: {_SAVE}", Place(source.name, 1, 1))
    at = source.data.find(b"\0")
    if at >= 0:
        raise InputError(
            "there is a NUL byte here, so this is no plain text: save the transcription as UTF-8 text",
            _byte_place(source, at),
        )
    try:
        return source.data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise InputError(
            f"the byte 0x{source.data[error.start]:02x} is not UTF-8: save the file as UTF-8",
            _byte_place(source, error.start),
        ) from None


def _looks_utf16(data: bytes) -> bool:
    """Say whether every other byte, and hardly any between, is NUL: Latin letters in two bytes each."""
    head = data[:_HEAD_BYTES]
    even, odd = head[::2].count(0), head[1::2].count(0)
    most = max(even, odd)
    return most >= _FEWEST_NULS and most * 4 >= len(head) and min(even, odd) * 20 <= len(head)


def settle(text: str, keys: Mapping[str, str]) -> Settled:
    """Return `text` in NFC with every typed key set to its sign. A backslash guards a key."""
    text = unicodedata.normalize("NFC", text)
    if not keys or "$" not in text:
        return Settled(text, {})
    pattern = re.compile(r"\\.|" + "|".join(re.escape(k) for k in sorted(keys, key=len, reverse=True)))
    shifts: dict[int, list[tuple[int, int]]] = {}
    lines = []
    for number, line in enumerate(text.split("\n"), 1):
        lines.append(_settle_line(line, pattern, keys, shifts.setdefault(number, [])))
    return Settled(unicodedata.normalize("NFC", "\n".join(lines)), {n: s for n, s in shifts.items() if s})


def _settle_line(
    line: str, pattern: re.Pattern[str], keys: Mapping[str, str], shifts: list[tuple[int, int]]
) -> str:
    def sign(match: re.Match[str]) -> str:
        key = match.group()
        if key not in keys:
            return key
        column = match.start() + 1 - sum(extra for _, extra in shifts)
        shifts.append((column, len(key) - len(keys[key])))
        return keys[key]

    return pattern.sub(sign, line)


def _byte_place(source: Source, at: int) -> Place:
    before = source.data[:at]
    line_start = before.rfind(b"\n") + 1
    column = len(before[line_start:].decode("utf-8", "replace")) + 1
    return Place(source.name, before.count(b"\n") + 1, column)


@dataclass(frozen=True, slots=True)
class _Draft:
    """The lines of one item: `head` is its item line (None before the first), `body` what follows."""

    head: str | None
    head_line: int
    body: str


def _drafts(text: str) -> Iterator[_Draft]:
    """Cut the text at its item lines."""
    head: str | None = None
    head_line = 0
    body: list[str] = []
    for number, line in enumerate(text.split("\n"), 1):
        if line.startswith("##") and _HEAD.match(line):
            yield _Draft(head, head_line, "".join(body))
            head, head_line, body = line + "\n", number, []
        else:
            body.append(line + "\n")
    if not body:
        yield _Draft(head and head[:-1], head_line, "")
    else:
        yield _Draft(head, head_line, "".join(body)[:-1])


def _passages(
    source: Source, text: str, scanner: Scanner, faults: list[InputError] | None
) -> Iterator[Passage]:
    """Read item after item; raw text without a word goes into the next item's lead."""
    lead = "\ufeff" if text.startswith("\ufeff") else ""
    drafts = list(_drafts(text.removeprefix("\ufeff")))
    for draft in drafts:
        try:
            passage = _passage(source, draft, scanner, lead, whole=len(drafts) == 1)
        except InputError as fault:
            if faults is None:
                raise
            faults.append(fault)
            continue
        lead = lead + draft.body if passage is None else ""
        if passage is not None:
            yield passage


def _passage(source: Source, draft: _Draft, scanner: Scanner, lead: str, *, whole: bool) -> Passage | None:
    """Read one item; None where text before the first item line holds no word."""
    label = WHOLE if whole else OPENING
    heading: tuple[Run, ...] = ()
    if draft.head is not None:
        label, heading = _head(source, draft, scanner)
    if near := _NEAR_HEAD.search(draft.body):
        line = draft.head_line + 1 + draft.body.count("\n", 0, near.start())
        raise InputError(
            "an item line has two signs ## at its very beginning, no blank before them and no third: mend"
            " it, or put a backslash before the first if this is text",
            Place(source.name, line, 1),
        )
    runs = scanner.scan(draft.body, draft.head_line + 1)
    if draft.head is None and not has_text(runs):
        return None
    place = Place(source.name, draft.head_line or 1, 1)
    return Passage(label, heading, lead + (draft.head or ""), place, runs)


def _head(source: Source, draft: _Draft, scanner: Scanner) -> tuple[str, tuple[Run, ...]]:
    assert draft.head is not None
    match = _HEAD.match(draft.head)
    assert match is not None
    label, heading = match.groups()
    if _MARK_IN_LABEL.search(label):
        raise InputError(
            f"{label!r} cannot be an item's number or name, since a mark stands in it: put the name right"
            " after ##, then the page mark and the heading, as in '## 3 |f. 7r| Tart of frut'",
            Place(source.name, draft.head_line, match.start(1) + 1),
        )
    if not label:
        raise InputError(
            "an item line needs a number or a name after ##: for instance '## 3 Tart of frut'",
            Place(source.name, draft.head_line, 1),
        )
    runs = scanner.scan(heading, draft.head_line, match.start(2) + 1)
    scanner.end_line()
    return label, runs


def has_text(runs: tuple[Run, ...]) -> bool:
    """Say whether any run holds letters."""
    return any(run.text and not run.text.isspace() for run in runs)


def _controls(source: Source, text: str) -> Iterator[Notice]:
    """Name the first control character of each kind: it is kept, and shown as a picture."""
    for found in sorted(set(_CONTROL.findall(text))):
        at = text.index(found)
        line_start = text.rfind("\n", 0, at) + 1
        yield Notice(
            "control-character",
            f"the control character U+{ord(found):04X} stands here: take it out",
            Place(source.name, text.count("\n", 0, at) + 1, at - line_start + 1),
        )
