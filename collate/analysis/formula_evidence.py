"""Formulas of the dead, the former and the living: a passage and its persons in, evidence out."""

from collections.abc import Iterator, Sequence

from collate.analysis import lifetimes
from collate.analysis.claims import NO_BOUNDS, Claim, evidence, lives_of_all
from collate.analysis.passages import Passage
from collate.analysis.persons import Known, Mention
from collate.analysis.said_of import Scene, Whom, about, after, before
from collate.lexicon.formulas import FormulaHit, Use
from collate.lexicon.offices import office_of
from collate.model.dates import Bounds
from collate.model.days import death_said, term_said
from collate.model.evidence import Certainty, Evidence, EvidenceKind, Life, Standing

_END = 6
_SEVERAL = 3


def formula_evidence(passage: Passage, scene: Scene) -> Iterator[Evidence]:
    """Yield what each formula of a passage bears on date, in order."""
    for hit in scene.hits:
        whom = _whom(hit, scene)
        if _of_kin(hit, scene):
            yield evidence(passage, _kin(hit))
            continue
        if _tells(hit, whom, passage, scene):
            yield evidence(passage, _claim(hit, whom, scene), whom.mentions)


def _whom(hit: FormulaHit, scene: Scene) -> Whom:
    if hit.person == "before":
        return before(scene, hit.start, many=hit.many)
    if hit.person == "none":
        named = (m for m in scene.mentions if m.known in (Known.KING, Known.UNNUMBERED))
        near = tuple(m for m in named if m.start <= hit.stop + 1 and m.stop >= hit.start - 1)
        return Whom(near[:1])
    if hit.person == "touching":
        return Whom(tuple(m for m in scene.mentions if hit.start == m.stop or m.start == hit.stop)[:1])
    if hit.person in ("after", "end"):
        inside = tuple(m for m in scene.mentions if m.start < hit.stop <= m.stop)
        return Whom(inside[:1]) if inside else after(scene, hit.stop)
    return about(scene, hit.start, hit.stop)


def _tells(hit: FormulaHit, whom: Whom, passage: Passage, scene: Scene) -> bool:
    """Say whether a formula is one here: a prayer always, other words only with a person."""
    if hit.person == "end" and len(scene.words) - hit.stop > _END:
        return False
    if whom.mentions:
        return True
    if hit.formula.use is Use.ALONE:
        return passage.front or hit.formula.standing is Standing.DEAD
    return hit.formula.number == "F10" and passage.front


def _of_kin(hit: FormulaHit, scene: Scene) -> bool:
    """Say whether a former state is that of a wife, or of other kin."""
    named = [office for word in scene.words[hit.start : hit.stop] if (office := office_of(word))]
    return hit.formula.standing is Standing.FORMER and any(office.kind == "kin" for office in named)


def _kin(hit: FormulaHit) -> Claim:
    why = "A former wife may be dead, a widow, or married again, and the husband alive or dead."
    return Claim(
        EvidenceKind.FORMULA,
        hit.start,
        hit.stop,
        "kin of former time",
        Certainty.POSSIBLE,
        why,
        standing=Standing.FORMER,
        formula=hit.formula.number,
        against=hit.formula.against,
        source=hit.formula.authority,
    )


def _claim(hit: FormulaHit, whom: Whom, scene: Scene) -> Claim:
    formula = hit.formula
    office = _office(hit, whom, scene)
    bounds = _bounds(hit, whom, office)
    against = [formula.against]
    if whom.others:
        against.append(f"they may be meant of {' and '.join(m.name for m in whom.others)} too")
    scribe = formula.standing is Standing.SCRIBE
    weak = scribe or formula.number == "F10"
    sure_but_beside = whom.beside and formula.certainty is Certainty.CERTAIN
    stop = hit.stop
    if scribe and whom.mentions and whom.mentions[0].start <= stop:
        stop = max(stop, whom.mentions[0].stop)
    return Claim(
        EvidenceKind.FORMULA,
        hit.start,
        stop,
        formula.says,
        Certainty.POSSIBLE if weak else Certainty.LIKELY if sure_but_beside else formula.certainty,
        _why(hit, whom, office, bounds),
        bounds,
        formula.standing,
        formula.number,
        "; ".join(against),
        formula.authority,
        dates_writing=scribe,
    )


def _office(hit: FormulaHit, whom: Whom, scene: Scene) -> str:
    """Return the office that the words speak of: in the formula, else the person's as named; "" for none."""
    named = [office for word in scene.words[hit.start : hit.stop] if (office := office_of(word))]
    for office in named:
        if office.kind in ("crown", "church", "lay", "house"):
            return office.name
    for mention in whom.mentions:
        for _, office in mention.offices:
            if office.kind in ("crown", "church", "lay", "house"):
                return office.name
    return ""


def _bounds(hit: FormulaHit, whom: Whom, office: str) -> Bounds:
    """Return the bounds on the wording: the weaker of two persons of whom one is meant, else both."""
    if whom.either or len(whom.mentions) == 1:
        return _of(hit, lives_of_all(whom.mentions), office)
    found = [_of(hit, mention.lives, office) for mention in whom.mentions]
    first = [bounds.not_before for bounds in found if bounds.not_before]
    last = [bounds.not_after for bounds in found if bounds.not_after]
    return Bounds(max(first, default=None), min(last, default=None))


def _of(hit: FormulaHit, lives: Sequence[Life], office: str) -> Bounds:
    standing = hit.formula.standing
    if not lives or standing is Standing.NEUTRAL:
        return NO_BOUNDS
    if standing is Standing.DEAD:
        return lifetimes.after_death(lives)
    if standing is Standing.FORMER:
        return lifetimes.after_office(lives, office)
    if standing is Standing.SCRIBE:
        return lifetimes.in_lifetime(lives)
    if hit.formula.use is Use.OFFICE:
        return lifetimes.in_office(lives, office)
    return lifetimes.in_lifetime(lives)


def _why(hit: FormulaHit, whom: Whom, office: str, bounds: Bounds) -> str:
    if not whom.mentions and hit.formula.standing is Standing.SCRIBE:
        return "Who the scribe was is not known."
    if not whom.mentions:
        return "No person is named near the words: whom they are said of is unidentified."
    lives = lives_of_all(whom.mentions)
    if not lives:
        return ""
    if whom.beside:
        return f"The words stand beside the name. {_ground(hit, lives, office)}"
    if whom.either:
        names = " or ".join(m.name for m in whom.mentions)
        return f"The words may be said of {names}: the weaker bound is taken. {_ground(hit, lives, office)}"
    if bounds == NO_BOUNDS:
        return f"The edition has no date for {_names(whom.mentions)} that these words could be held against."
    return _ground(hit, lives, office)


def _ground(hit: FormulaHit, lives: Sequence[Life], office: str) -> str:
    standing = hit.formula.standing
    dated = deaths_said(lives)
    if standing is Standing.DEAD:
        return f"Words for the dead are not older than the death ({dated})."
    if standing is Standing.FORMER:
        held = offices_said(lives, office)
        return f"Words that know an office to be over are not older than its end ({held})."
    if standing is Standing.SCRIBE:
        return f"If the name is that of this copy's scribe, he wrote it before his death ({dated})."
    if hit.formula.use is Use.OFFICE:
        return f"Words for a holder of an office belong to the time of it ({offices_said(lives, office)})."
    return f"Words for the living belong to the lifetime ({dated})."


def deaths_said(lives: Sequence[Life]) -> str:
    """Return the deaths of persons in words; of many, only how many they are."""
    if len(lives) > _SEVERAL:
        return f"any of {len(lives)} persons"
    return "; ".join(f"{life.name} {death_said(life.died)}".strip() for life in lives)


def offices_said(lives: Sequence[Life], office: str) -> str:
    """Return the terms in an office in words: "abbot of Eldernesse 1391 – 1418"."""
    if len(lives) > _SEVERAL:
        return f"any of {len(lives)} persons"
    said = []
    for life in lives:
        for term in lifetimes.terms_of(life, office):
            held = Bounds(term.began.not_before, term.ended.not_after)
            said.append(f"{life.name}, {term_said(term.office, held)}")
    return "; ".join(said) or "; ".join(f"{life.name} {death_said(life.died)}" for life in lives)


def _names(mentions: Sequence[Mention]) -> str:
    return " and ".join(dict.fromkeys(mention.name for mention in mentions))
