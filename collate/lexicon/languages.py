"""Which language a run of words is in, told by its function words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from collate.lexicon.spelling import fold
from collate.lexicon.tables import table
from collate.lexicon.words import Lexicon, senses

ENGLISH = "en"

_WINDOW = 3
"""How many words on each side of a word are heard."""

_SURE = 3
"""The weight at which a single word tells its language."""


@dataclass(frozen=True, slots=True)
class _Voice:
    """How strongly a word speaks for each language, and whether it tells one that is not English."""

    weights: Mapping[str, int]
    tells: bool


@cache
def _weights() -> dict[str, dict[str, int]]:
    weights: dict[str, dict[str, int]] = {}
    for form, language, weight, _ in table("languages", "form", "language", "weight", "authority"):
        weights.setdefault(fold(form), {})[language] = int(weight)
    return weights


def languages(words: Sequence[str], lexicon: Lexicon) -> tuple[str, ...]:
    """Return the language of each word: "en", "la" or "fr".

    A word is Latin or French where its neighbourhood (three words on each side, itself doubly) speaks
    more for that language than for English, and something in it speaks strongly. Ties are English.
    """
    own = [_voice(word, lexicon) for word in words]
    found = [ENGLISH] * len(words)
    telling = [at for at, voice in enumerate(own) if voice.tells]
    near = {at for told in telling for at in range(told - _WINDOW, told + _WINDOW + 1)}
    for at in near.intersection(range(len(words))):
        found[at] = _heard(own, at)
    return tuple(found)


@lru_cache(maxsize=131072)
def _voice(word: str, lexicon: Lexicon) -> _Voice:
    form = fold(word)
    weights = dict(_weights().get(form, {}))
    found = senses(form, lexicon)
    if any(not sense.headword.gloss.startswith("Latin: ") for sense in found):
        weights[ENGLISH] = 2
    elif found:
        weights["la"] = max(weights.get("la", 0), 2)
    foreign = (weight for language, weight in weights.items() if language != ENGLISH)
    return _Voice(weights, max(foreign, default=0) >= _SURE)


def _heard(own: Sequence[_Voice], at: int) -> str:
    ours = own[at].weights
    if ours.keys() == {ENGLISH}:
        return ENGLISH
    totals = dict.fromkeys((ENGLISH, "la", "fr"), 0)
    strongest = dict.fromkeys(("la", "fr"), 0)
    for index in range(max(0, at - _WINDOW), min(len(own), at + _WINDOW + 1)):
        for language, weight in own[index].weights.items():
            totals[language] += weight * (2 if index == at else 1)
            if language in strongest:
                strongest[language] = max(strongest[language], weight)
    foreign = max(("la", "fr"), key=lambda language: totals[language])
    if ENGLISH in ours and foreign not in ours:
        return ENGLISH
    if strongest[foreign] >= _SURE and totals[foreign] > totals[ENGLISH]:
        return foreign
    return ENGLISH
