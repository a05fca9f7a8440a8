"""Language as weak evidence: the words of a witness in, a profile of its spellings by period out."""

from collections.abc import Iterator

from collate.analysis.passages import MAIN_HAND
from collate.lexicon.periods import PERIODS, PeriodUse, period_uses
from collate.lexicon.spelling import fold
from collate.model.evidence import Certainty, Evidence, EvidenceKind
from collate.model.transcript import Mark
from collate.model.witness import Token, TokenKind, WitnessText

_FEWEST = 4
"""Of fewer telling spellings than these no profile is made."""

_SHOWN = 8
_SOURCE = "Carr & Rastle 2024, SpellEng (CC BY 4.0): token and quotation counts by period"


def language_evidence(text: WitnessText) -> Iterator[Evidence]:
    """Yield one profile for a witness: which of its spellings lean to which period, and never a date."""
    used = _used(text)
    if len(used) < _FEWEST:
        return
    leaning = [[use.form for use in used if use.leans == period] for period in range(len(PERIODS))]
    parts = [
        f"{len(forms)} {'leans' if len(forms) == 1 else 'lean'} to {period}{_examples(forms)}"
        for period, forms in zip(PERIODS, leaning, strict=True)
    ]
    yield Evidence(
        text.siglum,
        "",
        EvidenceKind.LANGUAGE,
        "",
        f"a profile of {len(used)} spellings",
        f"Of {len(used)} spellings in it that are known to lean to one period, {', '.join(parts)}."
        " A profile is no date: a scribe may keep the spelling of his exemplar, of his youth or of his"
        " county, and the counts come from few texts.",
        Certainty.POSSIBLE,
        source=_SOURCE,
    )


def _examples(forms: list[str]) -> str:
    if not forms:
        return ""
    more = " …" if len(forms) > _SHOWN else ""
    return f" ({', '.join(forms[:_SHOWN])}{more})"


def _used(text: WitnessText) -> list[PeriodUse]:
    """Return the telling spellings of the main hand, each once, in the order of the alphabet."""
    tokens = (token for item in text.items for token in item.tokens if _is_scribes(token))
    found = {form for token in tokens if (form := fold(token.expanded)) in period_uses()}
    return [period_uses()[form] for form in sorted(found)]


def _is_scribes(token: Token) -> bool:
    """Say whether a word is spelled by the main scribe: in his hand, not written out, not supplied."""
    kept = not any(m.mark in (Mark.EXPANDED, Mark.SUPPLIED, Mark.ADDED) for m in token.marks)
    return token.kind is TokenKind.WORD and token.language == "en" and token.place.hand == MAIN_HAND and kept
