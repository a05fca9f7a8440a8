"""A word report in, lines for the terminal or JSON out."""

from collections.abc import Iterator

from collate.model.reading import FormReading, FormSense, WordReport
from collate.reports.json import Object, document


def text(report: WordReport) -> Iterator[str]:
    """Yield how each form is read, and how two relate."""
    for reading in report.forms:
        yield from _form(reading)
    if report.judgement is not None:
        judged = report.judgement
        a, b = (reading.form for reading in report.forms)
        sure = "" if judged.sure else ", not for sure"
        yield f"\n{a} : {b}  {judged.relation}{sure}\n"
        yield f"   {judged.reason} ({judged.authority})\n"


def _form(reading: FormReading) -> Iterator[str]:
    rules = f"  by {', '.join(reading.rules)}" if reading.rules else ""
    yield f"{reading.form}  normal form {reading.normal}{rules}\n"
    if not reading.senses and not reading.normal.isdecimal():
        near = f"; nearest: {', '.join(reading.nearest)}" if reading.nearest else ""
        yield f"   unknown{near}\n"
    for sense in reading.senses:
        yield _sense(sense)


def _sense(sense: FormSense) -> str:
    parts = f"; {', '.join(sense.features)}" if sense.features else ""
    rule = f"; read by {sense.rule}" if sense.rule else ""
    head = f"{sense.headword}, {sense.word_class} ({sense.kind})"
    return f"   {head}: {sense.gloss}{parts}{rule} [{sense.authority}]\n"


def json(report: WordReport) -> Iterator[str]:
    """Yield the report as JSON."""
    judged = report.judgement
    return document(
        {
            "forms": [_object(reading) for reading in report.forms],
            "relation": judged.relation if judged else None,
            "reason": judged.reason if judged else None,
            "authority": judged.authority if judged else None,
            "sure": judged.sure if judged else None,
        }
    )


def _object(reading: FormReading) -> Object:
    return {
        "form": reading.form,
        "normal": reading.normal,
        "rules": reading.rules,
        "headwords": [
            {
                "headword": sense.headword,
                "class": sense.word_class,
                "kind": sense.kind,
                "features": [feature.replace("-", " ") for feature in sense.features],
                "gloss": sense.gloss,
                "authority": sense.authority,
                "rule": sense.rule,
            }
            for sense in reading.senses
        ],
        "nearest": reading.nearest,
    }
