"""Phrases that every form of a dossier shares: places, persons, bounds, the hand."""

from collate.model.dates import Bounds
from collate.model.days import bounds_said, death_said, term_said
from collate.model.evidence import (
    Certainty,
    Dating,
    Dossier,
    Evidence,
    EvidenceKind,
    Interval,
    Layer,
    Life,
    Standing,
    Where,
)
from collate.model.source import Place
from collate.model.witness import folio

STANDING = {
    Standing.DEAD: "words for the dead",
    Standing.FORMER: "words for a former holder",
    Standing.LIVING: "words for the living",
    Standing.NEUTRAL: "",
    Standing.TITLE: "a title",
    Standing.SCRIBE: "a scribe's words",
}

STRENGTH = {
    Certainty.CERTAIN: "certain",
    Certainty.LIKELY: "likely: one ground",
    Certainty.POSSIBLE: "possible only: a weak ground",
}


def place_said(evidence: Evidence, *, line: bool = True) -> str:
    """Return where evidence stands: item, folio, line (if wanted) and hand."""
    if evidence.kind is EvidenceKind.LANGUAGE:
        return "the whole copy, main hand"
    parts = [evidence.item]
    if evidence.place is not None and evidence.where is not Where.HEADING:
        parts.append(_of_page(evidence.place) if line else folio(evidence.place))
    if evidence.where is Where.HEADING:
        parts.append("heading")
    parts.append(_hand(evidence))
    return ", ".join(part for part in parts if part)


def _of_page(place: Place) -> str:
    line = f"l. {place.ms_line}" if place.ms_line else ""
    return f"{folio(place)} {line}".strip() or (f"line {place.line}" if place.line else "")


def _hand(evidence: Evidence) -> str:
    hand = evidence.place.hand if evidence.place is not None else "1"
    if evidence.where is Where.MARGIN:
        return "margin" if hand == "1" else f"margin, hand {hand}"
    if evidence.where in (Where.BODY, Where.HEADING):
        return "main hand"
    if evidence.where is Where.OTHER_HAND:
        return f"hand {hand}"
    return str(evidence.where)


def person_said(life: Life) -> str:
    """Return a person with offices and death: "Symond Harcastel, abbot of Eldernesse 1391 – 1418, † ..."."""
    held = (
        term_said(term.office, Bounds(term.began.not_before, term.ended.not_after)) for term in life.terms
    )
    parts = [life.name, *held, death_said(life.died)]
    return ", ".join(part for part in parts if part)


def strength_said(evidence: Evidence) -> str:
    """Return how sure evidence is, and on what condition."""
    said = STRENGTH[evidence.certainty]
    return (
        f"{said}, if the identification is right" if evidence.lives and not evidence.lives[0].king else said
    )


def persons_said(evidence: Evidence) -> str:
    """Return the persons that evidence may be about, or that they are unidentified."""
    if not evidence.lives:
        return f"{evidence.name}: unidentified" if evidence.name else ""
    if len(evidence.lives) > 3:
        return f"one of {len(evidence.lives)} of the name: {', '.join(life.name for life in evidence.lives)}"
    said = "; or ".join(person_said(life) for life in evidence.lives)
    return f"{said} ({evidence.authority})" if evidence.authority else said


def class_said(evidence: Evidence) -> str:
    """Return the class of evidence: its kind, what it makes of a person, its formula and whence that is."""
    parts = [str(evidence.kind)]
    if evidence.standing is not Standing.NEUTRAL:
        parts.append(STANDING[evidence.standing])
    said = "; ".join(parts)
    formula = ": ".join(part for part in (evidence.formula, evidence.source) if part)
    return f"{said} ({formula})" if formula else said


def all_bounds_said(evidence: Evidence) -> str:
    """Return what evidence sets on each layer: "wording 1391 – 1418; copy not before 1391"."""
    held = [(layer, bounds_said(evidence.on(layer))) for layer in Layer]
    return "; ".join(f"{layer} {said}" for layer, said in held if said)


def layer_said(evidence: Evidence, layer: Layer) -> str:
    """Return what evidence sets on a layer in words; a dash for nothing."""
    return bounds_said(evidence.on(layer)) or "–"


def interval_said(interval: Interval) -> str:
    """Return an interval in words: what it is, or that it is not bounded, or that its ends do not agree."""
    if not interval.agree:
        return "no interval, for the grounds do not agree"
    return bounds_said(interval.bounds) or "not bounded"


def grounds_said(interval: Interval) -> str:
    """Return what the two ends of an interval rest on."""
    first = " and ".join(dict.fromkeys(ground.said for ground in interval.lower))
    last = " and ".join(dict.fromkeys(ground.said for ground in interval.upper))
    if first == last:
        return f"by {first}" if first else ""
    parts = [f"from below by {first}" if first else "", f"from above by {last}" if last else ""]
    return "; ".join(part for part in parts if part)


def hand_said(dossier: Dossier) -> str:
    """Return the date of the hand, its years and their scheme."""
    hand = dossier.witness.hand
    if hand is None:
        return "not dated"
    return f"{hand.stated}, that is {hand.not_before}–{hand.not_after} (scheme: {hand.scheme})"


def without_preface(found: Dating) -> str:
    """Return which copies cannot be set beside the others, and why; "" where all can be."""
    return " ".join(f"{d.witness.siglum}: {d.absent}" for d in found.dossiers if d.absent)
