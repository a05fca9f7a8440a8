"""Titles and names: the persons a passage names in, what their titles bear on date out."""

from collections.abc import Iterator

from collate.analysis import lifetimes
from collate.analysis.claims import Claim, evidence
from collate.analysis.formula_evidence import offices_said
from collate.analysis.passages import Passage
from collate.analysis.persons import Known, Mention
from collate.analysis.said_of import Scene
from collate.lexicon.formulas import formulas
from collate.lexicon.offices import Office
from collate.model.days import bounds_said
from collate.model.evidence import Certainty, Evidence, EvidenceKind, Standing

_HELD = frozenset({"crown", "church", "lay", "house"})


def title_evidence(passage: Passage, scene: Scene) -> Iterator[Evidence]:
    """Yield what the titles of known persons bear on date, and which kings are named by number."""
    for mention in scene.mentions:
        if mention.known is Known.KING:
            if not _in_clause(scene, mention):
                yield evidence(passage, _king(mention), (mention,))
            continue
        office = next((each for each in mention.offices if each[1].kind in _HELD), None)
        if office and mention.lives and mention.known in (Known.NAME, Known.PART):
            yield evidence(passage, _title(mention, *office), (mention,))


def _in_clause(scene: Scene, mention: Mention) -> bool:
    return any(start < mention.stop and mention.start < stop for start, stop in scene.clauses)


def _king(mention: Mention) -> Claim:
    formula = formulas()["F25"]
    life = mention.lives[0]
    bounds = lifetimes.since_office(mention.lives, "king")
    return Claim(
        EvidenceKind.PERSON,
        mention.start,
        mention.stop,
        formula.says,
        formula.certainty,
        f"Nobody could name {life.name} before the first day of the reign, {bounds_said(bounds)[11:]}.",
        bounds,
        formula.standing,
        formula.number,
        formula.against,
        formula.authority,
    )


def _title(mention: Mention, at: int, office: Office) -> Claim:
    formula = formulas()["F26"]
    bounds = lifetimes.since_office(mention.lives, office.name)
    why = f"The edition does not say when {mention.lives[0].name} became {office.name}."
    if bounds.not_before is not None:
        held = offices_said(mention.lives, office.name)
        why = f"Words that give the office are not older than its beginning ({held})."
    return Claim(
        EvidenceKind.OFFICE,
        min(at, mention.start),
        mention.stop,
        f"called {office.name}",
        formula.certainty,
        why,
        bounds,
        Standing.TITLE,
        formula.number,
        formula.against,
        formula.authority,
    )


def name_evidence(passage: Passage, scene: Scene, told: set[str]) -> Iterator[Evidence]:
    """Yield persons named of whom nothing else is `told`: a name alone dates nothing."""
    if not passage.front:
        return
    for mention in scene.mentions:
        plain = mention.known in (Known.OFFICE, Known.HOLDER, Known.STORY) or _in_clause(scene, mention)
        if plain or mention.name in told or (mention.known is Known.NOBODY and not _named(mention, scene)):
            continue
        yield evidence(passage, _name(mention), (mention,))


def _named(mention: Mention, scene: Scene) -> bool:
    """Say whether an unknown person has a name, and not an office alone."""
    offices = {at for at, _ in mention.offices}
    return any(
        word.capital
        for at, word in enumerate(scene.words)
        if mention.start <= at < mention.stop and at not in offices
    )


def _name(mention: Mention) -> Claim:
    why = "A name alone dates nothing." if mention.lives else ""
    return Claim(EvidenceKind.PERSON, mention.start, mention.stop, "named", Certainty.POSSIBLE, why)
