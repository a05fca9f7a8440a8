"""Findings in, an apparatus for the terminal or the printed page out."""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from collate.model.apparatus import Entry, Variant, VariantKind, Weight
from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.model.witness import Token, TokenKind, WitnessText, citation, shown
from collate.reports import bearings, headings, tenses
from collate.reports.hands import HANDS, told_of_hands
from collate.reports.lemma import Lemma, lemma_of, target_of
from collate.reports.lines import BOLD, ITALIC, headline, styled, wrapped
from collate.reports.phrases import base_said, described, joined, title, who
from collate.reports.said import Said, said
from collate.reports.sections import sections
from collate.settings import Printing


def apparatus(findings: Findings, printing: Printing) -> Iterator[str]:
    """Yield the apparatus line by line, item after item."""
    edition = findings.edition
    yield from assembled(edition, (item(found, edition, printing) for found in findings.items), printing)


def item(found: ItemFindings, edition: Edition, printing: Printing) -> str:
    """Return the apparatus of one item."""
    return "\n" + "".join(_item(found, edition, printing))


def assembled(edition: Edition, items: Iterable[str], printing: Printing) -> Iterator[str]:
    """Yield the apparatus whose items are written already, each by `item`."""
    yield from _header(edition, printing)
    yield from items


def _header(edition: Edition, printing: Printing) -> Iterator[str]:
    yield from headline(edition.title, printing)
    yield "\n"
    width = max(len(witness.siglum) for witness in edition.witnesses)
    for witness in edition.witnesses:
        parts = described(witness, base_said(edition) if witness.siglum == edition.base else "")
        line = f"{witness.siglum:<{width}}  {', '.join(parts)}".rstrip()
        yield from wrapped(line, "", " " * (width + 2), printing)


def _item(found: ItemFindings, edition: Edition, printing: Printing) -> Iterator[str]:
    yield from headline(title(found), printing)
    yield from wrapped(who(found, edition), "   ", "   ", printing)
    for line in headings.heading_line(found):
        yield from wrapped(f"   {headings.NAME:<12} {line}", "", " " * 18, printing)
    for name, entries in sections(found, printing):
        yield from _section(name, entries, found, printing)
    for name, lines in further(found, printing):
        yield from wrapped(name, "   ", "   ", printing)
        for where, told in lines:
            yield from wrapped(f"   {where:<12} {told}", "", " " * 18, printing)


def further(found: ItemFindings, printing: Printing) -> Iterator[tuple[str, Iterator[tuple[str, str]]]]:
    """Yield the parts that follow the variants: the name, and (place, what is said there) of each line."""
    if found.corrections:
        yield HANDS, hand_lines(found, printing)
    if found.shifts:
        yield tenses.NAME, tenses.shift_lines(found)
    if found.bearings:
        yield bearings.NAME, bearings.bearing_lines(found)


def _section(name: str, entries: Sequence[Entry], found: ItemFindings, printing: Printing) -> Iterator[str]:
    yield from wrapped(name if entries else f"{name}: none", "   ", "   ", printing)
    for entry in entries:
        lemma = lemma_of(entry, found)
        lead = f"   {lemma.place:<12} "
        yield from wrapped(lead + _entry(entry, lemma, found, printing), "", " " * 18, printing)


def hand_lines(found: ItemFindings, printing: Printing) -> Iterator[tuple[str, str]]:
    """Yield (place in the base, what is said there) of what the scribes did to their own text."""
    for told in told_of_hands(found):
        said = (styled(part.text, ITALIC, printing) if part.term else part.text for part in told.parts)
        yield told.lemma.place, f"{told.lemma.text}] {''.join(said)}"


def wording(entry: Entry, found: ItemFindings, printing: Printing) -> tuple[str, str]:
    """Return the place and the wording of an entry, as the terminal shows them unwrapped."""
    lemma = lemma_of(entry, found)
    return lemma.place, _entry(entry, lemma, found, printing)


def _entry(entry: Entry, lemma: Lemma, found: ItemFindings, printing: Printing) -> str:
    merged = merge(entry.variants, found.collation.sigla)
    line = lemma.text + "]"
    if printing.positive:
        others = {siglum for variant in merged for siglum in variant.reading.sigla}
        line += f" {joined([siglum for siglum in found.collation.sigla if siglum not in others])};"
    return (
        line
        + " "
        + "; ".join(
            _reading(said(variant, lemma, target_of(variant, lemma, found)), variant, printing)
            for variant in merged
        )
    )


def merge(variants: Iterable[Variant], order: Sequence[str]) -> list[Variant]:
    """Bring readings of one substance together under the spelling of their first witness.

    An editor's signs about letters are shown only where one reading stands alone.
    """
    merged: dict[tuple[str, ...], Variant] = {}
    for variant in variants:
        substantive = variant.weight is Weight.SUBSTANTIVE or variant.kind is VariantKind.SUBSTITUTION
        same = variant.reading.normal if substantive else variant.reading.text
        same = "" if variant.kind is VariantKind.LACUNA else same
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


def _reading(what: Said, variant: Variant, printing: Printing) -> str:
    term = styled(what.term, ITALIC, printing) if what.term else ""
    parts = (term, what.text, joined(variant.reading.sigla), what.note)
    return " ".join(part for part in parts if part)


def tokens(texts: Iterable[WitnessText], printing: Printing) -> Iterator[str]:
    """Yield each word of each witness on a line: its place, as written, expanded, normalised."""
    for text in texts:
        yield styled(f"{text.siglum}  {text.witness.name}", BOLD, printing) + "\n"
        for item in text.items:
            yield f"\n{styled(f'{item.label}  {item.heading}'.rstrip(), BOLD, printing)}\n"
            rows = [_cells(token) for token in item.tokens]
            widths = [
                max(room for room in (usual, *map(_room, column)) if room <= _WIDEST)
                for usual, column in zip(_USUAL, zip(*rows, strict=True), strict=False)
            ]
            yield from (_row(cells, widths) for cells in rows)
        yield "\n"


_USUAL = (13, 18, 18)
_WIDEST = 30
"""The room of the columns of words, and the most they are given where longer ones stand in them."""


def _cells(token: Token) -> tuple[str, str, str, str]:
    written = "".join(token.written.split("\n"))
    normal = token.normal if token.kind is TokenKind.WORD else f"({token.kind})"
    number = f" {token.normal}" if token.kind is TokenKind.NUMERAL else ""
    return citation(token), written, shown(token), normal + number


def _row(cells: Sequence[str], widths: Sequence[int]) -> str:
    """Return a row; what follows a cell longer than its column stands in its own column of the next line."""
    lines, line, begins = [], "", 0
    for cell, width in zip(cells, (*widths, 0), strict=True):
        if _room(line) > begins:
            lines.append(line)
            line = " " * begins
        line += cell + " " * (width + 1 - _room(cell))
        begins += width + 1
    return "".join(f"  {each}".rstrip() + "\n" for each in (*lines, line))


def _room(text: str) -> int:
    """Return how many characters a text takes; combining marks take no room."""
    return sum(not unicodedata.combining(character) for character in text)
