"""The findings and words of one item in, its text in segments out: those shared, and those that vary."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from collate.model.apparatus import Entry, Variant
from collate.model.collation import Presence
from collate.model.findings import ItemFindings
from collate.model.tense import TenseShift
from collate.model.transcript import Mark
from collate.model.witness import TokenKind
from collate.reports.tei_words import Written

Words = tuple[Written, ...]


@dataclass(frozen=True, slots=True)
class Offer:
    """A reading as some witnesses have it to the letter, sign and mark.

    `variant` is None for the base's reading. Where witnesses of one reading have it in several states,
    each is an offer; `state` says that the first offer of the reading is another.
    """

    sigla: tuple[str, ...]
    words: Mapping[str, Words]
    variant: Variant | None = None
    state: bool = False


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of the text; `offers` begin with the base's, and a single one is shared by all.

    `entry` is None where only states of one reading differ. `shifts` are the shifts of tense that
    touch it.
    """

    offers: tuple[Offer, ...]
    entry: Entry | None = None
    shifts: tuple[TenseShift, ...] = ()

    def words(self, siglum: str) -> Words:
        """Return what a witness has here."""
        return next((offer.words[siglum] for offer in self.offers if siglum in offer.sigla), ())


def segments(found: ItemFindings, written: Mapping[str, Words]) -> tuple[Segment, ...]:
    """Return the segments of an item in order. `written` has each witness's words, and its end."""
    collation = found.collation
    cells = {siglum: _cells(found, w, written[siglum]) for w, siglum in enumerate(collation.sigla)}
    entries = {entry.locus.first: entry for entry in found.entries}
    shifts = _shifts(found)
    done: list[Segment] = []
    alike: list[Segment] = []  # those that will be one
    at = 0
    while at < len(collation.columns):
        entry = entries.get(at)
        stop = entry.locus.stop if entry else at + 1
        here = {siglum: _joined(cells[siglum][at:stop]) for siglum in collation.sigla}
        touching = sorted({number for column in range(at, stop) for number in shifts.get(column, ())})
        told = tuple(found.shifts[number] for number in touching) if entry else ()
        segment = Segment(tuple(_offers(entry, found.base, here)), entry, told)
        if alike and not (not entry and _continues(alike[-1], segment)):
            done.append(_continued(alike))
            alike = []
        alike.append(segment)
        at = stop
    if alike:
        done.append(_continued(alike))
    ends = {siglum: written[siglum][-1:] for siglum in collation.sigla}
    if any(each.insets for words in ends.values() for each in words):
        shown = {siglum: words if words[0].insets else () for siglum, words in ends.items()}
        done.append(Segment(tuple(_offers(None, found.base, shown))))
    return tuple(done)


def _shifts(found: ItemFindings) -> Mapping[int, Sequence[int]]:
    """Return the shifts of tense that stand over each column, by their numbers."""
    over: dict[int, list[int]] = {}
    for number, shift in enumerate(found.shifts):
        for column in range(shift.column, shift.stop):
            over.setdefault(column, []).append(number)
    return over


def heading(written: Mapping[str, Words], base: str) -> tuple[Offer, ...]:
    """Return the headings of witnesses, each with those who have it to the letter."""
    return tuple(_states(tuple(written), base, {siglum: words[:-1] for siglum, words in written.items()}))


def _joined(cells: Sequence[Words]) -> Words:
    return tuple(word for cell in cells for word in cell)


def _cells(found: ItemFindings, w: int, written: Words) -> list[Words]:
    """Return a witness's words column by column; what is lost over several places has a start and an end."""
    columns = found.collation.columns
    spans = [column.spans[w] for column in columns]
    cells = [written[span.start : span.stop] for span in spans]
    places = {
        column: number
        for number, entry in enumerate(found.entries)
        for column in range(entry.locus.first, entry.locus.stop)
    }
    at = 0
    while at < len(columns):
        stop = at
        while stop < len(columns) and spans[stop].presence is Presence.LACUNOSE:
            stop += 1
        lost = _joined(cells[at:stop])
        over = len({places[column] for column in range(at, stop) if column in places}) if lost else 0
        if over > 1 and len(lost) == 1 and _is_whole_loss(lost[0]):
            cells[at:stop] = [()] * (stop - at)
            cells[at] = (replace(lost[0], letters=(), boundary="lacunaStart"),)
            cells[stop - 1] = (*cells[stop - 1], Written(boundary="lacunaEnd"))
        at = stop + 1
    return cells


def _is_whole_loss(word: Written) -> bool:
    """Say whether a word is a gap of unknown extent that stands apart."""
    if word.kind is not TokenKind.GAP or len(word.letters) != 1 or not (word.apart and word.spaced):
        return False
    (letter,) = word.letters
    return (
        letter.marks == {Mark.LOST}
        and not letter.lost
        and not any(inset.at or inset.within for inset in word.insets)
    )


def _offers(entry: Entry | None, base: str, words: Mapping[str, Words]) -> Iterator[Offer]:
    """Yield the offers at a place, the base's first."""
    if entry is None:
        yield from _states(tuple(words), base, words)
        return
    yield from _states(entry.lemma.sigla, base, words)
    for variant in entry.variants:
        yield from _states(variant.reading.sigla, base, words, variant)


def _states(
    sigla: Sequence[str], base: str, words: Mapping[str, Words], variant: Variant | None = None
) -> Iterator[Offer]:
    """Yield a reading, once for each state it is found in; the base's state is the first."""
    grouped: dict[tuple[object, ...], list[str]] = {}
    for siglum in sigla:
        grouped.setdefault(tuple(word.key for word in words[siglum]), []).append(siglum)
    for number, group in enumerate(sorted(grouped.values(), key=lambda group: base not in group)):
        yield Offer(tuple(group), {siglum: words[siglum] for siglum in group}, variant, state=number > 0)


def _continues(last: Segment, segment: Segment) -> bool:
    """Say whether the same witnesses share the same text in two segments that are no places."""
    return last.entry is None and [o.sigla for o in last.offers] == [o.sigla for o in segment.offers]


def _continued(parts: Sequence[Segment]) -> Segment:
    """Return segments that continue one another as one."""
    if len(parts) == 1:
        return parts[0]
    return Segment(
        tuple(
            replace(
                same[0],
                words={siglum: _joined([each.words[siglum] for each in same]) for siglum in same[0].sigla},
            )
            for same in zip(*(part.offers for part in parts), strict=True)
        )
    )
