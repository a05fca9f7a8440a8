"""Dossiers in, JSON out, with the names of docs/formats.md."""

from collections.abc import Iterator

from collate.model.dates import Bounds, Day
from collate.model.evidence import (
    Dating,
    Dossier,
    Evidence,
    Ground,
    Interval,
    Layer,
    Life,
    PrefatoryDifference,
)
from collate.model.witness import folio
from collate.reports.dating_prose import closing, paragraph
from collate.reports.json import Object, Value, document


def dating(found: Dating) -> Iterator[str]:
    """Yield the dossiers of every witness, the differences of the prefaces, and the prose."""
    yield from document(
        {
            "witnesses": [_witness(dossier) for dossier in found.dossiers],
            "differences": [_difference(difference) for difference in found.differences],
            "persons": [_life(life) for life in found.lives],
            "prose": closing(found),
        }
    )


def _witness(dossier: Dossier) -> Object:
    hand = dossier.witness.hand
    return {
        "siglum": dossier.witness.siglum,
        "hand": {
            "stated": hand.stated,
            "not_before": str(hand.not_before),
            "not_after": str(hand.not_after),
            "scheme": hand.scheme,
        }
        if hand
        else None,
        "evidence": [entry for each in dossier.evidence for entry in _entries(each)],
        "additions": [_addition(each) for each in dossier.additions],
        "wording": _interval(dossier.wording),
        "copy": _interval(dossier.copy),
        "perhaps": {"wording": _bounds(dossier.perhaps.bounds)},
        "conflicts": list(dossier.conflicts),
        "not_extant": dossier.absent,
        "prose": paragraph(dossier),
    }


def _entries(each: Evidence) -> Iterator[Value]:
    """Yield one entry for each layer that evidence bounds; one on the wording where it bounds none."""
    held = [(layer, bounds) for layer, bounds in each.bounds if layer is not Layer.ADDITION]
    for layer, bounds in held or [(Layer.WORDING, Bounds())]:
        yield _entry(each) | {"bears_on": str(layer)} | _bounds(bounds) | _grounds(each)


def _addition(each: Evidence) -> Value:
    return _entry(each) | {"bears_on": "addition"} | _bounds(each.on(Layer.ADDITION)) | _grounds(each)


def _entry(each: Evidence) -> Object:
    place = each.place
    return {
        "kind": str(each.kind),
        "text": each.text,
        "item": each.item,
        "tokens": [each.start, each.stop],
        "where": str(each.where),
        "folio": folio(place) or None if place else None,
        "line": place.ms_line if place else None,
        "hand": place.hand if place else "1",
    }


def _bounds(bounds: Bounds) -> Object:
    return {"not_before": _day(bounds.not_before), "not_after": _day(bounds.not_after)}


def _day(day: Day | None) -> str | None:
    return str(day) if day else None


def _grounds(each: Evidence) -> Object:
    return {
        "certainty": str(each.certainty),
        "reason": each.reason,
        "says": each.says,
        "standing": str(each.standing),
        "formula": each.formula or None,
        "person": each.name or None,
        "identified": [life.name for life in each.lives],
        "against": each.against,
        "authority": each.authority,
        "source": each.source,
    }


def _interval(interval: Interval) -> Object:
    return _bounds(interval.bounds) | {
        "agree": interval.agree,
        "rests_on": {
            "not_before": [_ground(ground) for ground in interval.lower],
            "not_after": [_ground(ground) for ground in interval.upper],
        },
    }


def _ground(ground: Ground) -> str:
    return ground.said


def _difference(difference: PrefatoryDifference) -> Object:
    return {
        "item": difference.item,
        "columns": [difference.first, difference.stop],
        "about": difference.title,
        "readings": [
            {"text": reading.text, "sigla": list(reading.sigla), "says": reading.says}
            for reading in difference.readings
        ],
        "shows": difference.shows,
        "does_not_show": difference.not_shown,
        "reason": difference.reason,
    }


def _life(life: Life) -> Object:
    return {
        "name": life.name,
        "offices": [
            {
                "office": term.office,
                "from": _day(term.began.not_before),
                "to": _day(term.ended.not_after),
            }
            for term in life.terms
        ],
        "died": _bounds(life.died),
        "authority": life.authority,
    }
