"""What a verb of a witness says of time and will, and where two witnesses differ in it."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.value import value


class Tense(StrEnum):
    """The tense, mood or kind of a verb with its auxiliaries; AMBIGUOUS where the forms do not settle it."""

    PRESENT = "present"
    PRETERITE = "preterite"
    PERFECT = "perfect"
    PLUPERFECT = "pluperfect"
    PRESENT_PASSIVE = "present-passive"
    PAST_PASSIVE = "past-passive"
    MODAL = "modal"
    MODAL_PAST = "modal-past"
    IMPERATIVE = "imperative"
    INFINITIVE = "infinitive"
    SUBJUNCTIVE = "subjunctive"
    PRESENT_PARTICIPLE = "present-participle"
    PAST_PARTICIPLE = "past-participle"
    AMBIGUOUS = "ambiguous"


PRESENT_SIDE = frozenset({Tense.PRESENT, Tense.PRESENT_PASSIVE, Tense.PERFECT})
"""The finite classes that speak from the writer's own time."""

PAST_SIDE = frozenset({Tense.PRETERITE, Tense.PAST_PASSIVE, Tense.PLUPERFECT})
"""The finite classes that speak of a time gone by."""


class SubjectKind(StrEnum):
    """What a verb's subject is, as far as the clause tells."""

    PERSON = "person"
    AUTHORITY = "cited"
    PEOPLE = "people"
    THING = "thing"
    NONE = "none"


class ShiftKind(StrEnum):
    """What a shift of tense is about, and so how much it weighs for a date."""

    STATE = "state"
    WRITING = "writing"
    NAMING = "naming"
    ASPECT = "aspect"
    OTHER = "other"


class VerbSetting(StrEnum):
    """Where a verb stands, as far as that bears on what its tense means."""

    HERE = "after here"
    AS = "after as"
    RELATIVE = "in a relative clause"
    HANGING = "in a clause that hangs on another"
    COMMANDED = "in a sentence of commands"
    AGENT = "with the person by whom or the place where it is done"
    OFFICE = "with an office or title"
    BE = "with be"
    HAVE = "with have"
    WITHIN = "with the preposition of its relative after it"
    TEXT = "of a text"
    ONE = "of one person"


@value
class Subject:
    """The subject of a verb: its words, what it is, and its number (None where open)."""

    text: str = ""
    kind: SubjectKind = SubjectKind.NONE
    plural: bool | None = None
    third: bool = True


@value
class VerbGroup:
    """A verb with its auxiliaries: tokens [start, stop) of one item of one witness.

    `verbs` are the tokens that are its own (others may stand between); `finite` is the one that
    carries the tense, `main` the one that carries the sense. `headword` is the main verb's, ""
    where the lexicon lacks it; `others` are further headwords that the form may be. `free` says that
    no auxiliary governs a form that may be preterite or participle. `settings` say where it stands.
    """

    start: int
    stop: int
    verbs: tuple[int, ...]
    finite: int
    main: int
    tense: Tense
    headword: str
    subject: Subject
    reason: str
    others: tuple[str, ...] = ()
    free: bool = False
    settings: frozenset[VerbSetting] = frozenset()


@dataclass(frozen=True, slots=True)
class TenseShift:
    """Columns [column, stop) where one verb is present in some witnesses and past in others.

    `from_` is the side of the base, or of the first witness where the base is not among them.
    Sigla stand in the edition's order.
    """

    column: int
    stop: int
    from_sigla: tuple[str, ...]
    from_text: str
    from_tense: Tense
    to_sigla: tuple[str, ...]
    to_text: str
    to_tense: Tense
    kind: ShiftKind
    headword: str
    subject: Subject
    reason: str
