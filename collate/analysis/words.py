"""A form or two in, how they are read and how they relate out."""

from collections.abc import Sequence

from collate.lexicon.distance import FAR, distance
from collate.lexicon.judge import Judge
from collate.lexicon.numerals import figures, read_numeral
from collate.lexicon.spelling import fold, grounds, normalise, rules_in_force
from collate.lexicon.words import key_of, senses
from collate.model.form import Form
from collate.model.reading import FormReading, FormSense, WordReport
from collate.model.witness import TokenKind

_NEAREST = 5
_NEAR = 0.9


def report(forms: Sequence[str], judge: Judge) -> WordReport:
    """Return how each form is read and, of two, how they relate."""
    judged = judge(_form(forms[0]), _form(forms[1])) if len(forms) == 2 else None
    return WordReport(tuple(_reading(form, judge) for form in forms), judged)


def _form(word: str) -> Form:
    if number := read_numeral(word):
        return Form(word.casefold(), figures(number.value), TokenKind.NUMERAL, value=number.value)
    return Form(word.casefold(), normalise(word, rules_in_force()))


def _reading(form: str, judge: Judge) -> FormReading:
    found = tuple(
        FormSense(
            sense.headword.name,
            sense.headword.word_class,
            sense.headword.kind,
            tuple(feature for feature in sense.features if feature != "-"),
            sense.headword.gloss,
            sense.headword.authority,
            sense.rule,
        )
        for sense in senses(form, judge.words)
    )
    shown = _form(form)
    rules = grounds(form, rules_in_force()) if shown.value is None else ()
    nearest = () if found or shown.value is not None else _nearest(form, judge)
    return FormReading(form, shown.normal, rules, found, nearest)


def _nearest(form: str, judge: Judge) -> tuple[str, ...]:
    """Return the listed forms nearest to one that is not, by the alternations of spelling."""
    key = key_of(form)
    near = []
    for other in judge.words.forms:
        if not other.startswith("=") and abs(len(other) - len(key)) <= 2 and other[:1] == fold(key)[:1]:
            cost = distance(key, other, _NEAR).cost
            if cost < FAR:
                near.append((cost, other))
    return tuple(other for _, other in sorted(near)[:_NEAREST])
