"""The dating of an edition: its witnesses and the persons it knows in, a dossier for each out."""

from collections.abc import Iterable, Sequence

from collate.analysis.differences import differences, of_headings
from collate.analysis.gather import gather
from collate.analysis.language_evidence import language_evidence
from collate.analysis.passages import is_front
from collate.analysis.resolve import conflicts, hand_bounds, interval
from collate.lexicon.lives import kings, lives_of
from collate.lexicon.words import Lexicon
from collate.model.edition import Edition
from collate.model.evidence import Dating, Dossier, Evidence, EvidenceKind, Interval, Layer, Life, Where
from collate.model.findings import ItemFindings
from collate.model.form import Judge
from collate.model.witness import ItemKind, TokenKind, WitnessText


def dossier(text: WitnessText, found: Sequence[Evidence], *, missing: bool) -> Dossier:
    """Return what a witness's evidence comes to; `missing` says that other copies have a preface."""
    additions = tuple(each for each in found if _is_addition(each))
    evidence = tuple(each for each in found if not _is_addition(each))
    hand = text.witness.hand
    wording = interval(Layer.WORDING, evidence, hand)
    perhaps = interval(Layer.WORDING, evidence, hand, possible=True)
    return Dossier(
        text.witness,
        evidence,
        additions,
        wording,
        interval(Layer.COPY, evidence, hand),
        perhaps if perhaps.agree and wording.agree else Interval(wording.bounds),
        conflicts(evidence, hand),
        _absence(text) if missing else "",
        hand_bounds(hand),
    )


def _is_addition(evidence: Evidence) -> bool:
    from_outside = any(layer is Layer.ADDITION for layer, _ in evidence.bounds)
    return from_outside or evidence.where not in (Where.BODY, Where.HEADING, Where.SUPPLIED)


def _has_preface(text: WitnessText) -> bool:
    return any(item.kind is ItemKind.PREFACE for item in text.items)


def _absence(text: WitnessText) -> str:
    """Say why a witness has no preface, where others have one: lost, or not there."""
    if _has_preface(text):
        return ""
    tokens = text.items[0].tokens if text.items else ()
    if tokens and tokens[0].kind is TokenKind.GAP:
        return "No preface is extant: the copy begins imperfectly, and what it once had is not known."
    return "There is no preface in this copy: that it lacks one proves nothing of its date."


def of_date(evidence: Sequence[Evidence]) -> tuple[Evidence, ...]:
    """Return the evidence that says something of date: not a bare name."""
    return tuple(each for each in evidence if each.kind is not EvidenceKind.PERSON or each.bounds)


def lives_in(found: Sequence[Dossier]) -> tuple[Life, ...]:
    """Return the persons who are spoken of in dossiers and of whom dates are known, each once."""
    named = [life for each in found for evidence in each.evidence for life in evidence.lives]
    return tuple(dict.fromkeys(life for life in named if life.terms or life.died.not_before))


def date(
    edition: Edition,
    texts: Sequence[WitnessText],
    items: Iterable[ItemFindings],
    judge: Judge,
    lexicon: Lexicon,
) -> Dating:
    """Return all that bears on date: a dossier for each witness, and where the prefaces differ.

    `items` are the collated items in which the copies speak of themselves.
    """
    lives = lives_of(edition.persons)
    gathered = {text.siglum: gather(text, lives, lexicon) for text in texts}
    collated = tuple(items)
    collations = {item.collation.key: item.collation for item in collated}
    found = tuple(differences(collated, [each for held in gathered.values() for each in held], judge))
    with_preface = any(_has_preface(text) for text in texts)
    made = tuple(
        dossier(
            text,
            (*gathered[text.siglum], *of_headings(text.siglum, found, collations), *language_evidence(text)),
            missing=with_preface,
        )
        for text in texts
    )
    return Dating(edition.title, made, found, lives_in(made), tuple(kings().values()))


def front_items(texts: Sequence[WitnessText]) -> tuple[str, ...]:
    """Return the labels of the items in which some copy speaks of itself, each once."""
    labels = (item.label for text in texts for item in text.items if is_front(text, item))
    return tuple(dict.fromkeys(labels))
