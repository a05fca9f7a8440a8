"""Findings in, the apparatus as Markdown out: for each item the base's text and the entries as lists."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.model.witness import Token, folio
from collate.reports import headings
from collate.reports.caution import CAUTION, is_recipe
from collate.reports.escape import markdown as escaped
from collate.reports.lines import ITALIC, PLAIN
from collate.reports.phrases import base_said, described, item_name, who
from collate.reports.sections import sections
from collate.reports.synopsis import pieces_of
from collate.reports.text import further, wording
from collate.settings import Printing

_ITALICS = re.compile(f"{re.escape(ITALIC)}(.*?){re.escape(PLAIN)}")


def apparatus(findings: Findings, printing: Printing) -> Iterator[str]:
    """Yield the apparatus, item after item."""
    edition, every = findings.edition, tuple(findings.items)
    pages = (item(found, edition, printing) for found in every)
    yield from assembled(edition, pages, recipes=any(map(is_recipe, every)))


def item(found: ItemFindings, edition: Edition, printing: Printing) -> str:
    """Return the apparatus of one item."""
    return "".join(_item(found, edition, printing))


def assembled(edition: Edition, items: Iterable[str], *, recipes: bool) -> Iterator[str]:
    """Yield the page whose items are written already, each by `item`.

    With `recipes` the caution stands at its end.
    """
    yield from _header(edition)
    yield from items
    if recipes:
        yield f"\n---\n\n{CAUTION}\n"


def _header(edition: Edition) -> Iterator[str]:
    yield f"# {escaped(edition.title)}\n\n"
    for witness in edition.witnesses:
        parts = described(witness, base_said(edition) if witness.siglum == edition.base else "")
        yield f"- {escaped(', '.join([witness.siglum, *parts]))}\n"


def _item(found: ItemFindings, edition: Edition, printing: Printing) -> Iterator[str]:
    collation = found.collation
    ours = collation.items[collation.sigla.index(found.base)]
    yield f"\n## {escaped(f'{item_name(found)} {ours.heading}'.strip())}\n\n"
    yield escaped(who(found, edition)) + "\n\n"
    yield from _text(ours.tokens)
    for line in headings.heading_line(found):
        yield f"**{headings.NAME}** {escaped(line)}\n\n"
    for name, entries in sections(found, printing):
        said = (wording(entry, found, replace(printing, colour=True)) for entry in entries)
        yield from _section(name, said)
    for name, lines in further(found, replace(printing, colour=True)):
        yield from _section(name, lines)


def _text(tokens: tuple[Token, ...]) -> Iterator[str]:
    """Yield the base's text as a quotation: a line for each line of the manuscript where they are known."""
    lines: list[tuple[str, str]] = []
    said_of: tuple[str | None, int | None] | None = None
    for token, piece in zip(tokens, pieces_of(tokens), strict=True):
        here = (token.place.folio, token.place.ms_line)
        blank = " " if any(character.isspace() for character in token.trail) else ""
        if here != said_of:
            turned = said_of is None or said_of[0] != here[0]
            number = f"l. {here[1]}" if here[1] else ""
            lines.append((f"{folio(token.place) if turned else ''} {number}".strip(), ""))
            said_of = here
        lines[-1] = (lines[-1][0], lines[-1][1] + piece + blank)
    for at, (where, words) in enumerate(lines, 1):
        lead = f"*{escaped(where)}* " if where else ""
        yield f"> {lead}{escaped(words.strip())}{'  ' if at < len(lines) else ''}\n"


def _section(name: str, lines: Iterable[tuple[str, str]]) -> Iterator[str]:
    yield f"\n### {name}\n\n"
    empty = True
    for place, told in lines:
        yield f"- {escaped(place)}  {italicised(told)}\n" if place else f"- {italicised(told)}\n"
        empty = False
    if empty:
        yield "None.\n"


def italicised(styled: str) -> str:
    """Return text styled for a terminal as Markdown, with its italics and its letters kept."""
    parts = []
    at = 0
    for match in _ITALICS.finditer(styled):
        parts.append(escaped(styled[at : match.start()]) + f"*{escaped(match[1])}*")
        at = match.end()
    return "".join(parts) + escaped(styled[at:])
