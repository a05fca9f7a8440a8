"""What bears on date: evidence, the bounds it sets, and what each witness's evidence comes to."""

from dataclasses import dataclass, field
from enum import StrEnum

from collate.model.dates import Bounds
from collate.model.edition import Witness
from collate.model.source import Place


class EvidenceKind(StrEnum):
    """What sort of thing bears on date."""

    TENSE = "tense"
    FORMULA = "formula"
    OFFICE = "office"
    REGNAL_DATE = "regnal-date"
    CALENDAR_DATE = "calendar-date"
    PERSON = "person"
    HEADING = "heading"
    LANGUAGE = "language"


class Certainty(StrEnum):
    """How sure one is of what a piece of evidence bounds."""

    CERTAIN = "certain"
    LIKELY = "likely"
    POSSIBLE = "possible"


class Standing(StrEnum):
    """What words make of a person: dead, out of office, alive; or what else they do."""

    DEAD = "dead"
    FORMER = "former"
    LIVING = "living"
    NEUTRAL = "neutral"
    TITLE = "title"
    SCRIBE = "scribe"


class Layer(StrEnum):
    """What a bound is on: the wording, the copy, or an addition to the copy."""

    WORDING = "wording"
    COPY = "copy"
    ADDITION = "addition"


class Where(StrEnum):
    """Where in a copy words stand."""

    BODY = "text"
    HEADING = "heading"
    MARGIN = "margin"
    INSERTED = "inserted"
    OTHER_HAND = "other hand"
    STRUCK_OUT = "struck out"
    SUPPLIED = "supplied by the editor"


@dataclass(frozen=True, slots=True)
class Term:
    """An office and the days between which it began and ended, as far as they are known."""

    office: str
    began: Bounds = field(default_factory=Bounds)
    ended: Bounds = field(default_factory=Bounds)


@dataclass(frozen=True, slots=True)
class Life:
    """A person as dating reckons with him: offices, death, and who says so.

    `sure` is False where the edition marks a date as uncertain or approximate.
    """

    name: str
    written: tuple[str, ...] = ()
    terms: tuple[Term, ...] = ()
    died: Bounds = field(default_factory=Bounds)
    authority: str = ""
    king: bool = False
    sure: bool = True


@dataclass(frozen=True, slots=True)
class Evidence:
    """One thing in one witness that bears on date, and what it bounds.

    `text` is as the copy has it, [start, stop) its tokens in the item (of the heading's words where
    `where` says so; an empty span where it stands outside the text). `says` is the claim in words,
    `formula` the number of the formula in docs/dating.md. `lives` are the persons it may be about:
    several where the words do not decide. `bounds` holds what it sets on each layer. `why` is the
    ground alone, `reason` the ground and what follows.
    """

    siglum: str
    item: str
    kind: EvidenceKind
    text: str
    says: str
    reason: str
    certainty: Certainty = Certainty.POSSIBLE
    start: int = 0
    stop: int = 0
    where: Where = Where.BODY
    place: Place | None = None
    formula: str = ""
    standing: Standing = Standing.NEUTRAL
    name: str = ""
    lives: tuple[Life, ...] = ()
    bounds: tuple[tuple[Layer, Bounds], ...] = ()
    against: str = ""
    authority: str = ""
    source: str = ""
    why: str = ""

    def on(self, layer: Layer) -> Bounds:
        """Return what the evidence sets on a layer; no bounds where it sets none."""
        return next((bounds for held, bounds in self.bounds if held is layer), Bounds())


@dataclass(frozen=True, slots=True)
class Ground:
    """One end of an interval, and what sets it: `evidence` is None where the hand does."""

    said: str
    evidence: Evidence | None = None


@dataclass(frozen=True, slots=True)
class Interval:
    """What the evidence comes to for one layer, and what each end rests on.

    Where ends do not agree `agree` is False and the bounds are empty: nothing is chosen.
    """

    bounds: Bounds = field(default_factory=Bounds)
    lower: tuple[Ground, ...] = ()
    upper: tuple[Ground, ...] = ()
    agree: bool = True


@dataclass(frozen=True, slots=True)
class Dossier:
    """One witness: its evidence, what that comes to, what does not agree, and what is not extant.

    `perhaps` is the wording's interval with what is only possible reckoned in as well.
    """

    witness: Witness
    evidence: tuple[Evidence, ...]
    additions: tuple[Evidence, ...]
    wording: Interval
    copy: Interval
    perhaps: Interval
    conflicts: tuple[str, ...] = ()
    absent: str = ""
    hand: Bounds = field(default_factory=Bounds)


@dataclass(frozen=True, slots=True)
class DifferenceReading:
    """What some copies have at a place of the prefaces; `text` is "" where they have nothing."""

    text: str
    sigla: tuple[str, ...]
    says: str


@dataclass(frozen=True, slots=True)
class PrefatoryDifference:
    """A place where prefaces differ in what bears on date: what it can show, and what it cannot.

    Columns are [first, stop) of the item's collation.
    """

    item: str
    first: int
    stop: int
    title: str
    readings: tuple[DifferenceReading, ...]
    shows: str
    not_shown: str

    @property
    def reason(self) -> str:
        """Both in one line."""
        return f"{self.shows} {self.not_shown}".strip()


@dataclass(frozen=True, slots=True)
class Dating:
    """All that bears on date in an edition; `lives` are the persons spoken of, `kings` all of England's."""

    title: str
    dossiers: tuple[Dossier, ...]
    differences: tuple[PrefatoryDifference, ...]
    lives: tuple[Life, ...] = ()
    kings: tuple[Life, ...] = ()
