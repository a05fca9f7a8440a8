"""All that bears on date in one witness: its words and the persons known in, evidence out."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from collate.analysis.clause_evidence import clause_evidence, word_span
from collate.analysis.formula_evidence import formula_evidence
from collate.analysis.passages import Passage, is_front, passages
from collate.analysis.persons import King, Mention, mentions
from collate.analysis.said_of import REACH, Scene
from collate.analysis.tense import verb_groups
from collate.analysis.tense_evidence import tense_evidence
from collate.analysis.title_evidence import name_evidence, title_evidence
from collate.lexicon.clauses import dated_clauses, numbered_kings
from collate.lexicon.formulas import formula_hits
from collate.lexicon.lives import kings
from collate.lexicon.words import Lexicon
from collate.model.clauses import DatedClause
from collate.model.evidence import Evidence, Life, Where
from collate.model.witness import Item, ItemKind, WitnessText


def gather(text: WitnessText, lives: Sequence[Life], lexicon: Lexicon) -> tuple[Evidence, ...]:
    """Return the evidence of a witness in the order of its text."""
    return tuple(found for item in text.items for found in _of_item(text, item, lives, lexicon))


def _of_item(text: WitnessText, item: Item, lives: Sequence[Life], lexicon: Lexicon) -> Iterator[Evidence]:
    """Yield the evidence of one item: its text, its heading, what stands beside it."""
    body: tuple[Passage, Scene] | None = None
    for passage in passages(text.siglum, item, front=is_front(text, item)):
        clauses = dated_clauses(passage.tokens)
        scene = _scene(passage, lives, clauses)
        if body is None:
            body = passage, scene
        elif passage.where is not Where.HEADING:
            scene = replace(scene, beside=_beside(*body, passage.at))
        found = list(_of_passage(passage, scene, clauses, lexicon))
        yield from sorted(found, key=lambda each: (each.start, each.stop, each.kind))


def _beside(body: Passage, scene: Scene, at: int) -> tuple[Mention, ...]:
    """Return the person last named in the text before a token, near it."""
    start = sum(word.at < at for word in body.words)
    return tuple(m for m in scene.mentions if m.stop <= start and start - m.stop <= REACH)[-1:]


def _of_passage(
    passage: Passage, scene: Scene, clauses: Sequence[DatedClause], lexicon: Lexicon
) -> Iterator[Evidence]:
    found = list(formula_evidence(passage, scene))
    taken = [(hit.start, hit.stop) for hit in scene.hits]
    found.extend(title_evidence(passage, scene))
    found.extend(clause_evidence(passage, scene, clauses))
    if passage.where in (Where.BODY, Where.HEADING):
        kind = passage.item.kind
        kind = ItemKind.PREFACE if passage.front and kind is ItemKind.RECIPE else kind
        verbs = verb_groups(passage.tokens, kind, lexicon)
        found.extend(tense_evidence(passage, scene, verbs, taken))
    told = {name for each in found for name in each.name.split(" and ")}
    found.extend(name_evidence(passage, scene, told))
    yield from found


def _scene(passage: Passage, lives: Sequence[Life], clauses: Sequence[DatedClause]) -> Scene:
    words = passage.words
    numbered = [
        King(*word_span(words, king.start, king.stop), kings()[king.king])
        for king in numbered_kings(passage.tokens)
        if king.king in kings()
    ]
    spans = tuple(word_span(words, clause.start, clause.stop) for clause in clauses)
    return Scene(words, mentions(words, lives, numbered), formula_hits(words), spans)
