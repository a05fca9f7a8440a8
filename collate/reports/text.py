"""Findings in, an apparatus for the terminal or the printed page out."""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from textwrap import wrap

from collate.model.apparatus import Entry, Variant, VariantKind, Weight
from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.model.witness import Token, TokenKind, WitnessText, citation, shown
from collate.reports.hands import HANDS, told_of_hands
from collate.reports.lemma import Lemma, lemma_of
from collate.reports.said import said
from collate.reports.sections import sections
from collate.reports.tenses import shift_lines
from collate.settings import Printing

ITALIC, BOLD, PLAIN = "\x1b[3m", "\x1b[1m", "\x1b[0m"


def apparatus(findings: Findings, printing: Printing) -> Iterator[str]:
    """Yield the apparatus line by line, item after item."""
    yield from _header(findings.edition, printing)
    for found in findings.items:
        yield "\n"
        yield from _item(found, findings.edition, printing)


def _header(edition: Edition, printing: Printing) -> Iterator[str]:
    yield _styled(edition.title, BOLD, printing) + "\n\n"
    width = max(len(witness.siglum) for witness in edition.witnesses)
    for witness in edition.witnesses:
        parts = [witness.name] if witness.name != witness.siglum else []
        if witness.hand:
            date = witness.hand
            parts.append(f"{date.stated} ({date.not_before}–{date.not_after})")
        parts.extend(["the base"] if witness.siglum == edition.base else [])
        yield f"{witness.siglum:<{width}}  {', '.join(parts)}".rstrip() + "\n"


def _item(found: ItemFindings, edition: Edition, printing: Printing) -> Iterator[str]:
    yield _styled(_title(found), BOLD, printing) + "\n"
    yield from _wrapped(_who(found, edition), "   ", "   ", printing)
    for name, entries in sections(found, printing):
        yield from _section(name, entries, found, printing)
    yield from _hands(found, printing)
    if found.shifts:
        yield "   Shifts of tense\n"
    for where, told in shift_lines(found):
        yield from _wrapped(f"   {where:<12} {told}", "", " " * 18, printing)


def _title(found: ItemFindings) -> str:
    collation = found.collation
    base = collation.items[collation.sigla.index(found.base)]
    return f"{base.label}  {base.heading}".rstrip()


def _who(found: ItemFindings, edition: Edition) -> str:
    told = f"In {joined(found.collation.sigla)}."
    if found.absent:
        told += f" Not in {joined(found.absent)}."
    if found.base != edition.base:
        told += f" Base here: {found.base}."
    return told


def _section(name: str, entries: Sequence[Entry], found: ItemFindings, printing: Printing) -> Iterator[str]:
    yield f"   {name}\n" if entries else f"   {name}: none\n"
    for entry in entries:
        lemma = lemma_of(entry, found)
        lead = f"   {lemma.place:<12} "
        yield from _wrapped(lead + _entry(entry, lemma, found, printing), "", " " * 18, printing)


def _hands(found: ItemFindings, printing: Printing) -> Iterator[str]:
    """Yield what the scribes did to their own text, if they did anything."""
    if found.corrections:
        yield f"   {HANDS}\n"
    for told in told_of_hands(found):
        said = "".join(
            _styled(part.text, ITALIC, printing) if part.term else part.text for part in told.parts
        )
        lead = f"   {told.lemma.place:<12} "
        yield from _wrapped(f"{lead}{told.lemma.text}] {said}", "", " " * 18, printing)


def _entry(entry: Entry, lemma: Lemma, found: ItemFindings, printing: Printing) -> str:
    merged = merge(entry.variants, found.collation.sigla)
    line = lemma.text + "]"
    if printing.positive:
        others = {siglum for variant in merged for siglum in variant.reading.sigla}
        line += f" {joined([siglum for siglum in found.collation.sigla if siglum not in others])};"
    return line + " " + "; ".join(_reading(variant, lemma, printing) for variant in merged)


def merge(variants: Iterable[Variant], order: Sequence[str]) -> list[Variant]:
    """Bring readings of one substance together under the spelling of their first witness.

    An editor's signs about letters are shown only where one reading stands alone.
    """
    merged: dict[tuple[str, ...], Variant] = {}
    for variant in variants:
        substantive = variant.weight is Weight.SUBSTANTIVE or variant.kind is VariantKind.SUBSTITUTION
        same = variant.reading.normal if substantive else variant.reading.text
        key = (same, variant.kind, variant.reading.presence)
        first = merged.get(key)
        if first is not None:
            both = {*first.reading.sigla, *variant.reading.sigla}
            sigla = tuple(siglum for siglum in order if siglum in both)
            text = first.reading.text.translate(_EDITORS_SIGNS)
            variant = replace(first, reading=replace(first.reading, text=text, sigla=sigla))
        merged[key] = variant
    return list(merged.values())


_EDITORS_SIGNS = str.maketrans("", "", "[]<>{}")


def _reading(variant: Variant, lemma: Lemma, printing: Printing) -> str:
    what = said(variant, lemma)
    term = _styled(what.term, ITALIC, printing) if what.term else ""
    parts = (term, what.text, joined(variant.reading.sigla), what.note)
    return " ".join(part for part in parts if part)


def joined(sigla: Sequence[str]) -> str:
    """Join sigla: without blanks where each is a single character."""
    return ("" if all(len(siglum) == 1 for siglum in sigla) else " ").join(sigla)


def _wrapped(text: str, first: str, rest: str, printing: Printing) -> Iterator[str]:
    lines = wrap(
        text,
        printing.width,
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
        drop_whitespace=True,
    )
    yield from (line.rstrip() + "\n" for line in lines)


def _styled(text: str, style: str, printing: Printing) -> str:
    return f"{style}{text}{PLAIN}" if printing.colour else text


def tokens(texts: Iterable[WitnessText], printing: Printing) -> Iterator[str]:
    """Yield each word of each witness on a line: its place, as written, expanded, normalised."""
    for text in texts:
        yield _styled(f"{text.siglum}  {text.witness.name}", BOLD, printing) + "\n"
        for item in text.items:
            yield f"\n{_styled(f'{item.label}  {item.heading}'.rstrip(), BOLD, printing)}\n"
            yield from (_token(token) for token in item.tokens)
        yield "\n"


def _token(token: Token) -> str:
    written = "".join(token.written.split("\n"))
    normal = token.normal if token.kind is TokenKind.WORD else f"({token.kind})"
    number = f" {token.normal}" if token.kind is TokenKind.NUMERAL else ""
    columns = (_pad(citation(token), 13), _pad(written, 18), _pad(shown(token), 18), normal + number)
    return "  " + " ".join(columns).rstrip() + "\n"


def _pad(text: str, width: int) -> str:
    """Fill a column; combining marks take no room."""
    room = sum(not unicodedata.combining(character) for character in text)
    return text + " " * (width - room)
