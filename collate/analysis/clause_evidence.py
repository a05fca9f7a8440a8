"""Dated clauses: the clauses of a passage in, what they bear on date out."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from collate.analysis.claims import Claim, evidence
from collate.analysis.lifetimes import earliest, latest
from collate.analysis.passages import Passage
from collate.analysis.said_of import Scene
from collate.lexicon.patterns import Word, is_slot
from collate.model.clauses import DatedClause
from collate.model.dates import Bounds
from collate.model.evidence import Certainty, Evidence, EvidenceKind, Standing
from collate.model.witness import ItemKind

_ACT = 14
"""How many words before a date may name the act it dates."""

_FIRST_YEAR = 1150
_OF_EVENT = "the date is that of what is told, and a numeral may have been miscopied"
_OF_WRITING = "colophons are copied too: it may be the date of the copy this one was made from"


def clause_evidence(passage: Passage, scene: Scene, clauses: Sequence[DatedClause]) -> Iterator[Evidence]:
    """Yield what each dated clause bears on date, every reading of it stated.

    In the text of a recipe, days that give no date are passed over.
    """
    for clause in clauses:
        span = word_span(scene.words, clause.start, clause.stop)
        if span[0] < span[1] and (clause.readings or passage.front):
            yield evidence(passage, _claim(clause, span, passage, scene))


def word_span(words: Sequence[Word], start: int, stop: int) -> tuple[int, int]:
    """Return the words that the tokens [start, stop) hold, as a half-open span."""
    first = bisect_left(words, start, key=_place)
    last = bisect_left(words, stop, first, key=_place)
    return (first, last) if first < last else (0, 0)


def _place(word: Word) -> int:
    return word.at


def _claim(clause: DatedClause, span: tuple[int, int], passage: Passage, scene: Scene) -> Claim:
    act = _act(span[0], scene)
    writing = act != "making" and (_closes(passage) or _after_scribe(span[0], scene))
    act = "writing" if _after_scribe(span[0], scene) else act
    whole = Bounds(
        earliest(reading.bounds.not_before for reading in clause.readings),
        latest(reading.bounds.not_after for reading in clause.readings),
    )
    lower = Bounds(not_before=whole.not_before)
    said = _readings(clause)
    certainty = Certainty.CERTAIN
    if writing:
        sure = act == "writing" and not _too_early(whole)
        certainty = Certainty.LIKELY if sure else Certainty.POSSIBLE
    return Claim(
        EvidenceKind(clause.kind),
        *span,
        "the writing is dated" if writing else "what is told is dated",
        certainty if len(clause.readings) < 2 else min(certainty, Certainty.LIKELY, key=_weight),
        " ".join(part for part in (said, clause.problem) if part),
        whole if writing else lower,
        Standing.SCRIBE if writing else Standing.NEUTRAL,
        "F27" if writing else "",
        _OF_WRITING if writing else _OF_EVENT,
        "; ".join(dict.fromkeys(reading.authority for reading in clause.readings)),
        dates_writing=writing,
    )


def _readings(clause: DatedClause) -> str:
    """Return every reading of a date; what is said at the end of each is said once."""
    said = [reading.said.rstrip(".") for reading in clause.readings]
    parts = [each.rpartition("; ") for each in said]
    if all(head for head, _, _ in parts) and len({tail for _, _, tail in parts}) == 1:
        said = [*(head for head, _, _ in parts[:-1]), said[-1]]
    return " Or: ".join(f"{each}." for each in said)


def _too_early(whole: Bounds) -> bool:
    """Say whether a date is older than any English book of the kind: part of it was not read."""
    return whole.not_after is not None and whole.not_after.year < _FIRST_YEAR


def _weight(certainty: Certainty) -> int:
    return (Certainty.POSSIBLE, Certainty.LIKELY, Certainty.CERTAIN).index(certainty)


def _act(start: int, scene: Scene) -> str:
    """Return what the words before a date say was done then: "writing", "making" or ""."""
    for word in reversed(scene.words[max(0, start - _ACT) : start]):
        if is_slot(word, "making"):
            return "making"
        if is_slot(word, "writing"):
            return "writing"
    return ""


def _closes(passage: Passage) -> bool:
    return passage.item.kind in (ItemKind.EXPLICIT, ItemKind.COLOPHON)


def _after_scribe(start: int, scene: Scene) -> bool:
    """Say whether a scribe has named himself just before: "scriptum per me Hugonem"."""
    return any(hit.formula.number == "F27" and 0 <= start - hit.start < _ACT for hit in scene.hits)
