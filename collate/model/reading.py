"""How a spelling is read, and how two relate: what `collate word` shows."""

from dataclasses import dataclass

from collate.model.form import Judgement


@dataclass(frozen=True, slots=True)
class FormSense:
    """One headword a form may belong to. `rule` is "" where a table lists the form."""

    headword: str
    word_class: str
    kind: str
    features: tuple[str, ...]
    gloss: str
    authority: str
    rule: str


@dataclass(frozen=True, slots=True)
class FormReading:
    """A form: its normal form, the rules that made it, its senses; for an unknown one the nearest."""

    form: str
    normal: str
    rules: tuple[str, ...]
    senses: tuple[FormSense, ...]
    nearest: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WordReport:
    """One or two forms read; `judgement` says how two relate."""

    forms: tuple[FormReading, ...]
    judgement: Judgement | None
