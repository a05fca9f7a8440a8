"""Where prefaces differ in what bears on date: collated items and the evidence in, differences out."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from collate.analysis.bench import wording
from collate.analysis.conclusions import Conclusion, conclusions, same_text
from collate.analysis.weighing import Group, weighed
from collate.model.apparatus import Entry, VariantKind
from collate.model.collation import Collation, Presence
from collate.model.evidence import DifferenceReading, Evidence, EvidenceKind, PrefatoryDifference, Where
from collate.model.findings import ItemFindings
from collate.model.form import Judge
from collate.model.witness import Token

FIRST = (
    EvidenceKind.TENSE,
    EvidenceKind.FORMULA,
    EvidenceKind.REGNAL_DATE,
    EvidenceKind.CALENDAR_DATE,
)
"""The kinds by which places are found; titles come after them, where no other kind stands."""

HEADING, LINE = "the heading", "a line that only some have"

_LINE = 5
"""From how many words on an addition is a line of its own."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Columns [first, stop) where some witness has evidence, by siglum."""

    first: int
    stop: int
    held: tuple[tuple[str, Evidence], ...]


def differences(
    items: Iterable[ItemFindings], evidence: Sequence[Evidence], judge: Judge
) -> Iterator[PrefatoryDifference]:
    """Yield the places where the prefatory items differ in what bears on date, in order."""
    for found in items:
        if len(found.collation.sigla) > 1:
            yield from _of_item(found, evidence, judge)


def _of_item(
    found: ItemFindings, evidence: Sequence[Evidence], judge: Judge
) -> Iterator[PrefatoryDifference]:
    collation = found.collation
    yield from _heading(found, judge)
    spots = list(_spots(collation, evidence, FIRST))
    for spot in _spots(collation, evidence, (EvidenceKind.OFFICE,)):
        if not any(spot.first < other.stop and other.first < spot.stop for other in spots):
            spots.append(spot)
    ordered = sorted(spots, key=lambda spot: spot.first)
    told = [difference for spot in ordered if (difference := _difference(spot, collation, judge))]
    lines = [line for line in _lines(found) if not any(_meet(line, other) for other in spots)]
    yield from sorted([*told, *lines], key=lambda each: (each.first, each.stop))


def _meet(line: PrefatoryDifference, spot: Spot) -> bool:
    return line.first < spot.stop and spot.first < line.stop


def _spots(
    collation: Collation, evidence: Sequence[Evidence], kinds: Sequence[EvidenceKind]
) -> Iterator[Spot]:
    """Yield the columns that evidence of some kinds stands in; ranges that overlap are one."""
    held: list[tuple[int, int, str, Evidence]] = []
    for w, siglum in enumerate(collation.sigla):
        for each in evidence:
            inside = each.where in (Where.BODY, Where.INSERTED, Where.OTHER_HAND)
            if (
                each.siglum == siglum
                and each.item == collation.items[w].label
                and inside
                and each.kind in kinds
            ):
                held.append((*_columns(collation, w, each.start, each.stop), siglum, each))
    held.sort(key=lambda one: (one[0], one[1], collation.sigla.index(one[2])))
    while held:
        first, stop, *_ = held[0]
        group = []
        while held and held[0][0] < stop:
            one = held.pop(0)
            stop = max(stop, one[1])
            group.append((one[2], one[3]))
        yield Spot(first, stop, tuple(group))


def _columns(collation: Collation, w: int, start: int, stop: int) -> tuple[int, int]:
    """Return the columns in which the tokens [start, stop) of a witness stand, as a half-open range."""
    spans = [column.spans[w] for column in collation.columns]
    inside = [n for n, span in enumerate(spans) if span.start < stop and start < span.stop]
    return inside[0], inside[-1] + 1


@dataclass(slots=True)
class _Group:
    """The witnesses that have the same at a place."""

    tokens: tuple[Token, ...]
    presence: Presence
    held: tuple[Evidence, ...]
    sigla: list[str]


def _difference(spot: Spot, collation: Collation, judge: Judge) -> PrefatoryDifference | None:
    """Return the difference at a spot, None where all witnesses have the same."""
    groups = _groups(spot, collation, judge)
    together = _by_conclusion(groups, collation)
    if len(together) < 2:
        return None
    readings = tuple(
        DifferenceReading(wording(group.tokens).rstrip(" ./,;:"), tuple(group.sigla), _said(group))
        for group in groups
    )
    shows, not_shown = weighed(together)
    title = " and ".join(dict.fromkeys(_titles(spot))) or "a date"
    return PrefatoryDifference(collation.key, spot.first, spot.stop, title, readings, shows, not_shown)


def _by_conclusion(groups: Sequence[_Group], collation: Collation) -> list[Group]:
    """Return the witnesses by what their words conclude, whatever the words are."""
    found: dict[tuple[str, frozenset[Conclusion]], _Group] = {}
    for group in groups:
        key = (_said(group), conclusions(group.held))
        if key in found:
            found[key].sigla.extend(group.sigla)
        else:
            found[key] = replace(group, sigla=list(group.sigla))
    order = collation.sigla.index
    return [(tuple(sorted(group.sigla, key=order)), group.held) for group in found.values()]


def _titles(spot: Spot) -> list[str]:
    """Return whom the words at a spot are about: all who are known, else the first who is named."""
    known = [" or ".join(life.name for life in each.lives) for _, each in spot.held if each.lives]
    return known or [each.name for _, each in spot.held if each.name][:1]


def _groups(spot: Spot, collation: Collation, judge: Judge) -> list[_Group]:
    groups: list[_Group] = []
    for w, siglum in enumerate(collation.sigla):
        held = tuple(each for owner, each in spot.held if owner == siglum)
        tokens = collation.tokens(w, spot.first, spot.stop)
        presence = _presence(collation, w, spot, tokens)
        for group in groups:
            if group.presence is presence and _alike(group, held, tokens, judge):
                group.sigla.append(siglum)
                break
        else:
            groups.append(_Group(tokens, presence, held, [siglum]))
    return groups


def _presence(collation: Collation, w: int, spot: Spot, tokens: Sequence[Token]) -> Presence:
    spans = [column.spans[w] for column in collation.columns[spot.first : spot.stop]]
    if any(span.presence is Presence.LACUNOSE for span in spans):
        return Presence.LACUNOSE
    return Presence.PRESENT if tokens else Presence.OMITTED


def _alike(group: _Group, held: Sequence[Evidence], tokens: Sequence[Token], judge: Judge) -> bool:
    """Say whether a witness has what a group has: the same words, and the same follows from them."""
    return conclusions(group.held) == conclusions(held) and same_text(group.tokens, tokens, judge)


def _said(group: _Group) -> str:
    if group.presence is Presence.LACUNOSE:
        return "lost here"
    if group.presence is Presence.OMITTED:
        return "nothing here"
    return "; ".join(dict.fromkeys(each.says for each in group.held)) or "other words, and nothing of date"


def _heading(found: ItemFindings, judge: Judge) -> Iterator[PrefatoryDifference]:
    """Yield the headings of an item where they are not all the same."""
    collation = found.collation
    groups: list[tuple[tuple[Token, ...], list[str]]] = []
    for siglum, item in zip(collation.sigla, collation.items, strict=True):
        own = next((sigla for words, sigla in groups if same_text(words, item.heading_tokens, judge)), None)
        if own is None:
            groups.append((item.heading_tokens, [siglum]))
        else:
            own.append(siglum)
    if len(groups) < 2:
        return
    readings = tuple(
        DifferenceReading(wording(words), tuple(sigla), _heading_said(words)) for words, sigla in groups
    )
    yield PrefatoryDifference(
        collation.key,
        0,
        0,
        HEADING,
        readings,
        "The copies head this item in different words.",
        "A heading may be the scribe's own, or kept from what he copied: no date follows from it.",
    )


def _heading_said(words: Sequence[Token]) -> str:
    if not words:
        return "no heading"
    latin = sum(token.language == "la" for token in words)
    french = sum(token.language == "fr" for token in words)
    if 2 * latin > len(words):
        return "a heading in Latin"
    return "a heading in French" if 2 * french > len(words) else "a heading in English"


def _lines(found: ItemFindings) -> Iterator[PrefatoryDifference]:
    """Yield the lines that only some copies have: additions and omissions of several words."""
    kinds = (VariantKind.OMISSION, VariantKind.EYE_SKIP, VariantKind.ADDITION)
    for entry in found.substantive:
        if any(each.kind in kinds and _is_line(entry, each.reading.text) for each in entry.variants):
            yield _line(found, entry)


def _is_line(entry: Entry, text: str) -> bool:
    return max(len(entry.lemma.text.split()), len(text.split())) >= _LINE


def _line(found: ItemFindings, entry: Entry) -> PrefatoryDifference:
    """Return what each copy has where some have a line: its own words, nothing, or what is lost."""
    away = {siglum for variant in entry.variants for siglum in variant.reading.sigla}
    agreed = tuple(siglum for siglum in found.collation.sigla if siglum not in away)
    readings = [DifferenceReading(entry.lemma.text, agreed, _line_said(entry.lemma.text))]
    for variant in entry.variants:
        text, lost = variant.reading.text, variant.kind is VariantKind.LACUNA
        said = "lost here" if lost else _line_said(text)
        readings.append(DifferenceReading("" if lost else text, variant.reading.sigla, said))
    return PrefatoryDifference(
        found.collation.key,
        entry.locus.first,
        entry.locus.stop,
        LINE,
        tuple(sorted((r for r in readings if r.sigla), key=lambda r: -len(r.text.split()))),
        "A line is added in the one, or left out in the other.",
        "Which of the two is not shown, and no date follows from it.",
    )


def _line_said(text: str) -> str:
    if not text:
        return "nothing here"
    return "a line that not all copies have" if len(text.split()) >= _LINE else "other words"


def of_headings(
    siglum: str, found: Sequence[PrefatoryDifference], collations: Mapping[str, Collation]
) -> Iterator[Evidence]:
    """Yield as evidence the headings and lines that a witness shares with half the others at most.

    `collations` are those of the items by their keys: the words quoted are the witness's own.
    """
    for each in found:
        reading = next((r for r in each.readings if siglum in r.sigla and r.text), None)
        if reading is None or each.title not in (HEADING, LINE):
            continue
        if 2 * len(reading.sigla) > sum(len(r.sigla) for r in each.readings):
            continue
        collation = collations[each.item]
        w = collation.sigla.index(siglum)
        heads = each.title == HEADING
        own = collation.items[w].heading_tokens if heads else collation.tokens(w, each.first, each.stop)
        yield Evidence(
            siglum,
            each.item,
            EvidenceKind.HEADING,
            wording(own),
            reading.says,
            f"The other copies have another, or none. {each.not_shown}",
            where=Where.HEADING if heads else Where.BODY,
        )
