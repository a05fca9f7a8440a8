"""Tenses of what a person is or does: verbs of a passage and its persons in, evidence out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from collate.analysis import lifetimes
from collate.analysis.claims import NO_BOUNDS, Claim, evidence
from collate.analysis.clause_evidence import word_span
from collate.analysis.formula_evidence import deaths_said, offices_said
from collate.analysis.passages import Passage
from collate.analysis.persons import Known, Mention
from collate.analysis.said_of import Scene
from collate.analysis.service import preposition
from collate.lexicon.formulas import formulas
from collate.lexicon.offices import office_of
from collate.lexicon.patterns import is_slot
from collate.lexicon.tables import table
from collate.model.dates import Bounds
from collate.model.evidence import Certainty, Evidence, EvidenceKind, Standing
from collate.model.tense import SubjectKind, Tense, VerbGroup

_PRESENT = frozenset({Tense.PRESENT, Tense.PRESENT_PASSIVE})
_PAST = frozenset({Tense.PRETERITE, Tense.PAST_PASSIVE, Tense.PLUPERFECT})
_NOBODY = frozenset({SubjectKind.THING, SubjectKind.AUTHORITY})
_FAR = 60
"""How many words back a pronoun may look for its person."""

_NEAR = 5
"""How many words may stand between a person and a verb that needs no pronoun."""

_HELD = frozenset({"crown", "church", "lay", "house", "courtesy"})


@dataclass(frozen=True, slots=True)
class _Subject:
    """Who a verb is said of; `first` is the word at which what is said of him begins."""

    mention: Mention
    first: int
    by_pronoun: bool = False


@dataclass(frozen=True, slots=True)
class _Said:
    """A verb that says something of a person: words [start, stop), and the office it gives him.

    `then` says that the words speak of the time of a story: "þat was þan abbot".
    """

    tense: Tense
    start: int
    stop: int
    subject: _Subject
    office: str
    then: bool


@cache
def _living_verbs() -> dict[str, str]:
    rows = table("living_verbs", "headword", "kind", "note", "authority")
    return {headword: kind for headword, kind, _, _ in rows}


def tense_evidence(
    passage: Passage, scene: Scene, verbs: Sequence[VerbGroup], taken: Sequence[tuple[int, int]]
) -> Iterator[Evidence]:
    """Yield what the tense of each verb said of a person bears on date.

    Words already `taken` by a formula are passed over. In the text of a recipe a pronoun tells nobody.
    """
    for said in _all_said(verbs, scene):
        if not passage.front and (said.subject.by_pronoun or not said.subject.mention.lives):
            continue
        if any(said.start < stop and start < said.stop for start, stop in taken):
            continue
        if claim := _claim(said):
            yield evidence(passage, claim, (said.subject.mention,))


def _all_said(verbs: Sequence[VerbGroup], scene: Scene) -> list[_Said]:
    """Return what is said of persons, verbs of one subject and one tense joined: "loueth and hateth"."""
    found: list[_Said] = []
    for verb in verbs:
        last = found[-1] if found else None
        said = _said(verb, scene, last)
        if said is None:
            continue
        goes_on = last and said.subject.first == said.start and said.subject.mention is last.subject.mention
        if last and goes_on and said.tense is last.tense and not said.office and not last.office:
            found[-1] = replace(last, stop=said.stop)
        else:
            found.append(said)
    return found


def _said(verb: VerbGroup, scene: Scene, last: _Said | None) -> _Said | None:
    start, stop = word_span(scene.words, verb.start, verb.stop)
    kind = _living_verbs().get(verb.headword)
    if start == stop or kind is None or verb.subject.kind in _NOBODY or not verb.subject.third:
        return None
    subject = _subject(scene, start, stop, last)
    if subject is None:
        return None
    inverted = subject.mention.start >= stop
    at = _office_after(scene, subject.mention.stop if inverted else stop)
    inner = next((at for at, office in subject.mention.offices if inverted and office.kind in _HELD), None)
    at = inner if at is None else at
    if kind == "office" and at is None:
        return None
    end = max(stop if at is None else at + 1, subject.mention.stop if inverted else 0)
    office = office_of(scene.words[at]) if at is not None and kind == "office" else None
    then = any(is_slot(word, "then-time") for word in scene.words[start:end])
    name = "king" if kind == "reign" else office.name if office else ""
    return _Said(verb.tense, subject.first, end, subject, name, then)


def _office_after(scene: Scene, stop: int) -> int | None:
    """Return the word of an office that a verb gives somebody: near it, and under no preposition."""
    for at in range(stop, min(stop + 5, len(scene.words))):
        office = office_of(scene.words[at])
        if office is not None and office.kind in _HELD:
            before = scene.words[max(stop, at - 2) : at]
            return None if any(is_slot(word, "preposition") for word in before) else at
    return None


def _subject(scene: Scene, start: int, stop: int, last: _Said | None) -> _Subject | None:
    """Return who a verb is said of: by a relative, beside him, by a pronoun, or as the verb before."""
    for at in range(start - 1, max(start - 4, -1), -1):
        word = scene.words[at]
        if is_slot(word, "he") and start - at < 3:
            named = [m for m in scene.mentions if m.stop <= at and at - m.stop <= _FAR and _is_named(m)]
            return _Subject(named[-1], at, by_pronoun=True) if named else None
        if is_slot(word, "relative"):
            held = [m for m in scene.mentions if m.stop <= at and at - m.stop < 3]
            return _Subject(held[-1], at) if held else None
    beside = _beside(scene, start)
    if beside is not None:
        return _Subject(beside, beside.start)
    if last and 0 <= start - last.stop < 5 and _joined(scene, last.stop, start):
        return _Subject(last.subject.mention, start, by_pronoun=last.subject.by_pronoun)
    turned = next((m for m in scene.mentions if 0 <= m.start - stop < 2), None)
    return _Subject(turned, start) if turned and _is_named(turned) else None


def _beside(scene: Scene, start: int) -> Mention | None:
    """Return the person named just before a verb, under no preposition, unless another verb is nearer.

    In "þe cook of Hugh is …" it is the cook of whom the verb speaks.
    """
    held = [m for m in scene.mentions if m.stop <= start and start - m.stop < _NEAR]
    if not held:
        return None
    at = preposition(scene.words, held[-1].start)
    if at is not None:
        return next((m for m in held if m.stop == at), None)
    bound = preposition(scene.words, held[-1].start, "preposition") is not None
    return None if bound and start - held[-1].stop > 1 else held[-1]


def _joined(scene: Scene, start: int, stop: int) -> bool:
    return any(is_slot(word, "and") for word in scene.words[start:stop])


def _is_named(mention: Mention) -> bool:
    return mention.known not in (Known.NOBODY, Known.HOLDER) or mention.name[:1].isupper()


def _claim(said: _Said) -> Claim | None:
    """Return what a tense says of a person, None where it says nothing of when the words were made."""
    if said.tense in _PRESENT:
        return _present(said)
    if said.tense in _PAST:
        return _past(said)
    if said.tense is Tense.PERFECT:
        why = "A perfect tells what was done, and only suggests that its doer was alive."
        return _made(said, "F11", "spoken of in the perfect", Certainty.POSSIBLE, why, NO_BOUNDS)
    return None


def _present(said: _Said) -> Claim:
    lives = said.subject.mention.lives
    certainty = Certainty.POSSIBLE if said.subject.by_pronoun else Certainty.LIKELY
    bounds = lifetimes.in_office(lives, said.office) if said.office else lifetimes.in_lifetime(lives)
    if not lives:
        bounds, why = NO_BOUNDS, ""
    elif said.office:
        why = f"An office is given in the present ({offices_said(lives, said.office)})."
    else:
        why = f"What is said of somebody in the present belongs to the lifetime ({deaths_said(lives)})."
    says = f"spoken of in the present, as {said.office}" if said.office else "spoken of in the present"
    return _made(said, "F11", says, certainty, _with_pronoun(said, why), bounds)


def _past(said: _Said) -> Claim:
    lives = said.subject.mention.lives
    if said.then:
        why = "The words speak of the time of what is told, and not of what came after."
        return _made(said, "F07", "spoken of in the past, of that time", Certainty.POSSIBLE, why, NO_BOUNDS)
    if said.office and lives and any(lifetimes.terms_of(life, said.office) for life in lives):
        why = (
            "A past tense may mean that the office was over"
            f" ({offices_said(lives, said.office)}), or only tell what was so then."
        )
        bounds = lifetimes.after_office(lives, said.office)
        return _made(said, "F07", f"spoken of in the past, as {said.office}", Certainty.POSSIBLE, why, bounds)
    why = "A past tense tells what was so then: it does not say that it had ended." if lives else ""
    return _made(
        said, "F07", "spoken of in the past", Certainty.POSSIBLE, _with_pronoun(said, why), NO_BOUNDS
    )


def _with_pronoun(said: _Said, why: str) -> str:
    if not said.subject.by_pronoun:
        return why
    return f"The pronoun is taken for {said.subject.mention.name}, the person last named. {why}".strip()


def _made(said: _Said, number: str, says: str, certainty: Certainty, why: str, bounds: Bounds) -> Claim:
    formula = formulas()[number]
    standing = formula.standing if bounds != NO_BOUNDS or said.tense in _PRESENT else Standing.NEUTRAL
    return Claim(
        EvidenceKind.TENSE,
        said.start,
        said.stop,
        says,
        certainty,
        why,
        bounds,
        standing,
        number,
        formula.against,
        formula.authority,
    )
