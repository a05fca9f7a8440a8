"""Dossiers in, a page of text out: each witness's evidence, its intervals, the differences, the prose."""

import re
from collections.abc import Iterator

from collate.model.evidence import Dating, Dossier, Evidence, PrefatoryDifference
from collate.reports.dating_phrases import (
    all_bounds_said,
    class_said,
    grounds_said,
    hand_said,
    interval_said,
    persons_said,
    place_said,
    strength_said,
    without_preface,
)
from collate.reports.dating_prose import closing, paragraph
from collate.reports.lines import BOLD, styled, wrapped
from collate.reports.phrases import joined
from collate.settings import Printing

_LABEL = 12


def dating(found: Dating, printing: Printing) -> Iterator[str]:
    """Yield the dossiers line by line, then the differences, then a paragraph on each witness."""
    yield styled(f"{found.title}: what bears on date", BOLD, printing) + "\n"
    yield "All days are Julian; the year is taken to begin on 1 January.\n"
    for dossier in found.dossiers:
        yield "\n"
        yield from _dossier(dossier, printing)
    yield "\n" + styled("The prefaces side by side", BOLD, printing) + "\n"
    if not found.differences:
        yield "   No difference.\n"
    if apart := without_preface(found):
        yield from wrapped(apart, "   ", "   ", printing)
    for difference in found.differences:
        yield "\n"
        yield from _difference(difference, printing)
    yield "\n" + styled("In words", BOLD, printing) + "\n"
    for text in (*(paragraph(dossier) for dossier in found.dossiers), closing(found)):
        if text:
            yield "\n"
            yield from wrapped(_shown(text), "   ", "   ", printing)


def _dossier(dossier: Dossier, printing: Printing) -> Iterator[str]:
    witness = dossier.witness
    name = f"  {witness.name}" if witness.name != witness.siglum else ""
    yield styled(f"{witness.siglum}{name}", BOLD, printing) + "\n"
    yield from _row("hand", hand_said(dossier), printing)
    if dossier.absent:
        yield from _row("extant", dossier.absent, printing)
    for number, each in enumerate(dossier.evidence, 1):
        yield "\n"
        yield from _evidence(f"{number}", each, printing)
    for number, each in enumerate(dossier.additions, 1):
        yield "\n"
        yield from _evidence(f"addition {number}", each, printing)
    yield "\n"
    yield from _result(dossier, printing)


def _evidence(number: str, each: Evidence, printing: Printing) -> Iterator[str]:
    """Yield one piece of evidence in the layout of a dossier; what there is nothing of is left out."""
    quoted = f"‘{each.text}’: {each.says}" if each.text else each.says
    yield from wrapped(f"{number}. {quoted} ({place_said(each)})", "   ", "      ", printing)
    rows = (
        ("class", class_said(each)),
        ("person", persons_said(each)),
        ("bounds", all_bounds_said(each)),
        ("strength", strength_said(each) if each.bounds else ""),
        ("reason", each.reason),
        ("against", each.against if each.bounds else ""),
    )
    for label, said in rows:
        yield from _row(label, said, printing, depth=6)


def _result(dossier: Dossier, printing: Printing) -> Iterator[str]:
    for label, interval in (("WORDING", dossier.wording), ("COPY", dossier.copy)):
        grounds = grounds_said(interval)
        yield from _row(label, interval_said(interval) + (f": {grounds}" if grounds else ""), printing)
    perhaps = dossier.perhaps
    if perhaps.agree and perhaps.bounds != dossier.wording.bounds:
        yield from _row("perhaps", f"wording {interval_said(perhaps)}, by weak grounds too", printing)
    for conflict in dossier.conflicts:
        yield from _row("CONFLICT", conflict, printing)


def _difference(difference: PrefatoryDifference, printing: Printing) -> Iterator[str]:
    yield from wrapped(f"{difference.item}: {difference.title}", "   ", "   ", printing)
    for reading in difference.readings:
        words = f"‘{reading.text}’: " if reading.text else ""
        yield from _row(joined(reading.sigla), f"{words}{reading.says}", printing, depth=6)
    yield from _row("shows", difference.shows, printing, depth=6)
    yield from _row("shows not", difference.not_shown, printing, depth=6)


def _row(label: str, said: str, printing: Printing, *, depth: int = 3) -> Iterator[str]:
    if said:
        lead = " " * depth + f"{label:<{_LABEL - 1}} "
        yield from wrapped(said, lead, " " * (depth + _LABEL), printing)


def _shown(text: str) -> str:
    """Return prose with what is quoted between quotation marks."""
    return re.sub(r"\*([^*]+)\*", r"‘\1’", text)
