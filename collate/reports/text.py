"""Findings in, an apparatus for the terminal or the printed page out."""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from textwrap import wrap

from collate.model.apparatus import Entry, Variant, VariantKind, Weight
from collate.model.collation import Presence
from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.model.witness import Token, TokenKind, WitnessText, citation, shown
from collate.reports.lemma import Lemma, lemma_of
from collate.settings import Printing

ITALIC, BOLD, PLAIN = "\x1b[3m", "\x1b[1m", "\x1b[0m"


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
    if len(found.collation.sigla) > 1:
        yield from _section("Substantive", found.substantive, Weight.SUBSTANTIVE, found, printing)
    if found.accidental and printing.accidentals:
        yield from _section("Accidental", found.accidental, Weight.ACCIDENTAL, found, printing)


def _title(found: ItemFindings) -> str:
    collation = found.collation
    base = collation.items[collation.sigla.index(found.base)]
    return f"{base.label}  {base.heading}".rstrip()


def _who(found: ItemFindings, edition: Edition) -> str:
    said = f"In {_sigla(found.collation.sigla)}."
    if found.absent:
        said += f" Not in {_sigla(found.absent)}."
    if found.base != edition.base:
        said += f" Base here: {found.base}."
    return said


def _of(entry: Entry, weight: Weight) -> list[Variant]:
    return [variant for variant in entry.variants if variant.weight is weight]


def _section(
    name: str, entries: Sequence[Entry], weight: Weight, found: ItemFindings, printing: Printing
) -> Iterator[str]:
    yield f"   {name}\n" if entries else f"   {name}: none\n"
    for entry in entries:
        lemma = lemma_of(entry, found)
        lead = f"   {lemma.place:<12} "
        yield from _wrapped(lead + _entry(entry, lemma, weight, found, printing), "", " " * 18, printing)


def _entry(entry: Entry, lemma: Lemma, weight: Weight, found: ItemFindings, printing: Printing) -> str:
    merged = merge(_of(entry, weight), found.collation.sigla)
    said = lemma.text + "]"
    if printing.positive:
        others = {siglum for variant in merged for siglum in variant.reading.sigla}
        said += f" {_sigla([siglum for siglum in found.collation.sigla if siglum not in others])};"
    return said + " " + "; ".join(_reading(variant, lemma, printing) for variant in merged)


def merge(variants: Iterable[Variant], order: Sequence[str]) -> list[Variant]:
    """Bring readings of one substance together under the spelling of their first witness.

    An editor's signs about letters are shown only where one reading stands alone.
    """
    merged: dict[tuple[str, ...], Variant] = {}
    for variant in variants:
        substantive = variant.weight is Weight.SUBSTANTIVE
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
    sigla = _sigla(variant.reading.sigla)
    text = variant.reading.text
    if variant.kind is VariantKind.LACUNA:
        return f"{_styled('def.', ITALIC, printing)} {sigla}"
    if variant.kind is VariantKind.TRANSPOSITION:
        return f"{_styled('tr.', ITALIC, printing)} {f'after {text} ' if text else ''}{sigla}"
    if (
        variant.kind in (VariantKind.OMISSION, VariantKind.EYE_SKIP)
        or variant.reading.presence is Presence.OMITTED
    ):
        return f"{_styled('om.', ITALIC, printing)} {sigla}"
    if variant.kind is VariantKind.PUNCTUATION and not any(c.isalnum() for c in text):
        text = f"‘{text}’"
    if lemma.adds:
        return f"{_styled(lemma.adds, ITALIC, printing)} {text} {sigla}"
    return f"{text} {sigla}"


def _sigla(sigla: Sequence[str]) -> str:
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
