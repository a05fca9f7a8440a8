"""Dossiers in, Markdown out: a table of evidence for each witness, the differences, the prose."""

from collections.abc import Iterator, Sequence

from collate.model.evidence import Dating, Dossier, Evidence, Layer, PrefatoryDifference
from collate.reports.dating_phrases import (
    class_said,
    grounds_said,
    hand_said,
    interval_said,
    layer_said,
    persons_said,
    place_said,
    strength_said,
    without_preface,
)
from collate.reports.dating_prose import closing, paragraph
from collate.reports.phrases import joined

_COLUMNS = (
    *("claim", "words", "place", "class", "person and authority"),
    *("bound on wording", "bound on copy", "strength", "ground", "against"),
)


def dating(found: Dating) -> Iterator[str]:
    """Yield the dossiers, the prefaces side by side, and a paragraph on each witness."""
    yield f"# {_plain(found.title)}: what bears on date\n\n"
    yield "All days are Julian; the year is taken to begin on 1 January.\n"
    for dossier in found.dossiers:
        yield from _dossier(dossier)
    yield "\n## The prefaces side by side\n"
    if not found.differences:
        yield "\nNo difference.\n"
    if apart := without_preface(found):
        yield f"\n{_plain(apart)}\n"
    for difference in found.differences:
        yield from _difference(difference)
    yield "\n## In words\n"
    for text in (*(paragraph(dossier) for dossier in found.dossiers), closing(found)):
        if text:
            yield f"\n{text}\n"


def _dossier(dossier: Dossier) -> Iterator[str]:
    witness = dossier.witness
    name = f": {witness.name}" if witness.name != witness.siglum else ""
    yield f"\n## {_plain(witness.siglum + name)}\n\nHand: {_plain(hand_said(dossier))}.\n"
    if dossier.absent:
        yield f"\n{dossier.absent}\n"
    if dossier.evidence:
        yield "\n" + _table(_COLUMNS, [_cells(each) for each in dossier.evidence])
    if dossier.additions:
        yield "\nAdditions, which date neither text nor copy:\n\n"
        columns = tuple("bound on addition" if c == "bound on wording" else c for c in _COLUMNS)
        yield _table(columns, [_cells(each, Layer.ADDITION) for each in dossier.additions])
    yield f"\n- Wording: {interval_said(dossier.wording)}{_grounds(grounds_said(dossier.wording))}\n"
    yield f"- Copy: {interval_said(dossier.copy)}{_grounds(grounds_said(dossier.copy))}\n"
    if dossier.perhaps.agree and dossier.perhaps.bounds != dossier.wording.bounds:
        yield f"- Perhaps, by weak grounds too: wording {interval_said(dossier.perhaps)}\n"
    for conflict in dossier.conflicts:
        yield f"- **Conflict**: {_plain(conflict)}\n"


def _grounds(said: str) -> str:
    return f": {_plain(said)}" if said else ""


def _cells(each: Evidence, layer: Layer = Layer.WORDING) -> tuple[str, ...]:
    return (
        each.says,
        each.text,
        place_said(each),
        class_said(each),
        persons_said(each),
        layer_said(each, layer),
        layer_said(each, Layer.COPY),
        strength_said(each) if each.bounds else "–",
        each.reason,
        each.against if each.bounds else "",
    )


def _difference(difference: PrefatoryDifference) -> Iterator[str]:
    yield f"\n### {_plain(difference.item)}: {_plain(difference.title)}\n\n"
    rows = [(joined(r.sigla), r.text, r.says) for r in difference.readings]
    yield _table(("witnesses", "words", "says"), rows)
    yield f"\nShows: {_plain(difference.shows)}\n"
    if difference.not_shown:
        yield f"\nDoes not show: {_plain(difference.not_shown)}\n"


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    lines = [_row(head), _row(["---"] * len(head)), *(_row([_plain(cell) for cell in row]) for row in rows)]
    return "".join(lines)


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |\n"


def _plain(text: str) -> str:
    """Return text with the characters that Markdown would read as marks set off."""
    return "".join(f"\\{c}" if c in "\\`*_[]<>|" else c for c in " ".join(text.split()))
