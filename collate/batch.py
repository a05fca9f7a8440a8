"""Some items of an edition at a time, from matched texts to findings: what a process is given to do."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeVar

from collate.align.collate import collate
from collate.align.extent import Ends
from collate.align.together import beside, finished
from collate.align.verify import verify
from collate.analysis.analyse import analyse
from collate.analysis.bearing import bearings
from collate.analysis.majority import Agreement, agreements
from collate.lexicon.overlay import judge_of
from collate.model.collation import Collation
from collate.model.concordance import Match
from collate.model.evidence import Evidence
from collate.model.findings import ItemFindings
from collate.model.form import Judge
from collate.model.words import UserWords
from collate.settings import Settings

Made = TypeVar("Made")


def sizes(matches: Sequence[Match]) -> list[int]:
    """Return how many tokens each item has in all copies."""
    return [sum(len(item.tokens) for _, item in match.texts) for match in matches]


def found_in(
    matches: Sequence[Match],
    *,
    then: Callable[[ItemFindings], Made],
    base: str,
    sigla: tuple[str, ...],
    words: UserWords,
    settings: Settings,
    evidence: tuple[Evidence, ...],
) -> list[Made]:
    """Collate items side by side and analyse each; return what `then` makes of the findings, in order.

    With `evidence` the places that bear on date are marked.
    """
    judge = judge_of(words)
    made = []
    for collation in _collated(matches, judge, settings):
        found = analyse(collation, base, sigla, judge)
        verify(found.collation)  # the analysis cuts its places and adds moves
        made.append(then(replace(found, bearings=bearings(evidence, found, judge)) if evidence else found))
    return made


def agreed_in(
    matches: Sequence[Match], *, words: UserWords, settings: Settings
) -> list[tuple[Agreement, ...]]:
    """Return how often the copies of each item read with most others."""
    judge = judge_of(words)
    return [agreements(collation, judge) for collation in _collated(matches, judge, settings)]


def _collated(matches: Sequence[Match], judge: Judge, settings: Settings) -> list[Collation]:
    """Align items; the beginning or end of a copy is lost only where its book is torn there."""
    works = []
    for match in matches:
        ends = {m.siglum: Ends(start=m.torn_before, stop=m.torn_after) for m in match.members}
        works.append(collate(match.key, match.texts, judge, settings.aligning, ends))
    return finished(beside(works))
