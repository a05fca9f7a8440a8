"""A claim about words of one passage: what they say, and of whom, in; evidence with its bounds out."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from collate.analysis.passages import Passage, place_of, quoted, standing_of, tokens_of
from collate.analysis.persons import Known, Mention
from collate.model.dates import Bounds
from collate.model.days import bounds_said
from collate.model.evidence import Certainty, Evidence, EvidenceKind, Layer, Life, Standing, Where
from collate.model.transcript import Mark
from collate.model.witness import Token

NO_BOUNDS = Bounds()
_ORDER = (Certainty.POSSIBLE, Certainty.LIKELY, Certainty.CERTAIN)
_ADDED = (Where.MARGIN, Where.INSERTED, Where.OTHER_HAND)


@dataclass(frozen=True, slots=True)
class Claim:
    """What the words [start, stop) of a passage say, and the bounds that sets on their wording.

    `dates_writing` says that they date the writing of the copy itself: both ends bound it, and neither
    the wording of what it was copied from.
    `why` is the ground, in a sentence.
    """

    kind: EvidenceKind
    start: int
    stop: int
    says: str
    certainty: Certainty
    why: str
    bounds: Bounds = field(default_factory=Bounds)
    standing: Standing = Standing.NEUTRAL
    formula: str = ""
    against: str = ""
    source: str = ""
    dates_writing: bool = False


def evidence(passage: Passage, claim: Claim, whom: Sequence[Mention] = ()) -> Evidence:
    """Return a claim as evidence: bounded by where it stands, and no surer than its person is known."""
    tokens = tokens_of(passage, claim.start, claim.stop)
    where = standing_of(passage, claim.start, claim.stop)
    layers = _layers(where, claim)
    start, stop = (tokens[0].index, tokens[-1].index + 1) if tokens else (0, 0)
    if passage.where is not Where.BODY:
        start = stop = passage.at
    return Evidence(
        siglum=passage.siglum,
        item=passage.item.label,
        kind=claim.kind,
        text=quoted(tokens),
        says=claim.says,
        reason=" ".join(_sentences(claim, whom, where, layers)),
        certainty=_certainty(claim, whom, tokens) if layers else Certainty.POSSIBLE,
        start=start,
        stop=stop,
        where=where,
        place=place_of(passage, claim.start),
        formula=claim.formula,
        standing=claim.standing,
        name=" and ".join(dict.fromkeys(mention.name for mention in whom)),
        lives=lives_of_all(whom),
        bounds=layers,
        against=claim.against,
        authority="; ".join(dict.fromkeys(life.authority for life in lives_of_all(whom))),
        source=claim.source,
        why=claim.why,
    )


def lives_of_all(whom: Sequence[Mention]) -> tuple[Life, ...]:
    """Return the persons that any of several mentions may mean, each once."""
    return tuple(dict.fromkeys(life for mention in whom for life in mention.lives))


def _layers(where: Where, claim: Claim) -> tuple[tuple[Layer, Bounds], ...]:
    """Return what a claim bounds: wording and copy from the text, only the addition from an addition.

    What the wording is not older than, the copy is not older than. An upper end bounds the wording
    alone, unless the words date the writing itself.
    """
    lower = Bounds(not_before=claim.bounds.not_before)
    if claim.bounds == NO_BOUNDS or where in (Where.SUPPLIED, Where.STRUCK_OUT):
        return ()
    if where in _ADDED:
        return ((Layer.ADDITION, lower),) if lower != NO_BOUNDS else ()
    if claim.dates_writing:
        return ((Layer.COPY, claim.bounds),)
    copy = ((Layer.COPY, lower),) if lower != NO_BOUNDS else ()
    return ((Layer.WORDING, claim.bounds), *copy)


def _certainty(claim: Claim, whom: Sequence[Mention], tokens: Sequence[Token]) -> Certainty:
    """Return how sure a claim is, once its person and its letters are reckoned with."""
    steps = _ORDER.index(claim.certainty)
    known = {mention.known for mention in whom}
    if not all(life.sure for mention in whom for life in mention.lives):
        return Certainty.POSSIBLE
    if known & {Known.OFFICE, Known.UNNUMBERED} or any(
        marked.mark is Mark.UNCERTAIN for token in tokens for marked in token.marks
    ):
        return Certainty.POSSIBLE
    if Known.PART in known or any(len(mention.lives) > 1 for mention in whom):
        steps = min(steps, _ORDER.index(Certainty.LIKELY))
    return _ORDER[steps]


def _sentences(
    claim: Claim, whom: Sequence[Mention], where: Where, layers: Sequence[tuple[Layer, Bounds]]
) -> list[str]:
    said = [who for mention in whom if (who := identified(mention))]
    doubtful = [life.name for life in lives_of_all(whom) if not life.sure]
    if doubtful and layers:
        said.append(f"The edition marks dates of {' and '.join(doubtful)} as uncertain or approximate.")
    if claim.why:
        said.append(claim.why.rstrip(".") + ".")
    said.append(_outcome(claim, where, dict(layers)))
    return [sentence for sentence in said if sentence]


def identified(mention: Mention) -> str:
    """Say in a sentence who is meant, where that needs saying."""
    names = " or ".join(life.name for life in mention.lives)
    if mention.known in (Known.NAME, Known.KING) and len(mention.lives) == 1:
        return "" if mention.name.casefold() == names.casefold() else f"{mention.name} is {names}."
    if mention.known is Known.NAME:
        return f"{mention.name} may be any of {len(mention.lives)} of that name."
    if mention.known is Known.PART:
        return f"{mention.name} is taken for {names}, by part of the name."
    if mention.known is Known.OFFICE:
        return f"The {mention.name} is taken for {names}, by the office alone: another holder may be meant."
    if mention.known is Known.UNNUMBERED:
        names = names if len(mention.lives) < 4 else f"there were {len(mention.lives)}"
        return f"Which {mention.name} is meant is not said: {names}."
    if mention.known is Known.STORY:
        return f"{mention.name} is a person of story."
    return f"{mention.name} is unidentified, and so is what hangs on the name."


def _outcome(claim: Claim, where: Where, layers: dict[Layer, Bounds]) -> str:
    """Say in a sentence what is bounded, and what is not."""
    if where is Where.SUPPLIED:
        return "The words are the editor's, not the copy's: they bound nothing."
    if where is Where.STRUCK_OUT:
        return "The words are struck out: they bound nothing."
    if where in _ADDED:
        stand = {Where.MARGIN: "in the margin", Where.OTHER_HAND: "in another hand"}.get(where, where)
        bound = layers.get(Layer.ADDITION)
        dated = f"the addition is {bounds_said(bound)}; " if bound else ""
        return f"The words are {stand}: {dated}text and copy are not dated by them."
    if not layers:
        return "No date follows."
    wording, copy = layers.get(Layer.WORDING), layers.get(Layer.COPY)
    if claim.dates_writing and copy is not None:
        return f"The writing is dated {bounds_said(copy)}."
    if wording is not None and copy is None:
        return f"So the wording is {bounds_said(wording)}; the copy may be of any later date."
    if wording is not None and wording.not_after is None:
        return f"So wording and copy are {bounds_said(wording)}."
    said = bounds_said(wording) if wording else ""
    return f"So the wording is of {said}, and the copy {bounds_said(copy) if copy else 'of any date'}."
