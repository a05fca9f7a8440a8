"""Which language a run of words is in, told by its function words."""

from collections.abc import Mapping, Sequence
from functools import cache, lru_cache

from collate.lexicon.spelling import fold
from collate.lexicon.tables import table
from collate.lexicon.words import Lexicon, senses

ENGLISH = "en"

_WINDOW = 3
"""How many words on each side of a word are heard."""

_SURE = 3
"""The weight at which a single word tells its language."""


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
    own = [_voices(fold(word), lexicon) for word in words]
    if all(voice.keys() <= {ENGLISH} for voice in own):
        return (ENGLISH,) * len(words)
    return tuple(_heard(own, at) for at in range(len(words)))


@lru_cache(maxsize=131072)
def _voices(form: str, lexicon: Lexicon) -> Mapping[str, int]:
    """Return how strongly a word speaks for each language."""
    voices = dict(_weights().get(form, {}))
    found = senses(form, lexicon)
    if any(not sense.headword.gloss.startswith("Latin: ") for sense in found):
        voices[ENGLISH] = 2
    elif found:
        voices["la"] = max(voices.get("la", 0), 2)
    return voices


def _heard(own: Sequence[Mapping[str, int]], at: int) -> str:
    if own[at].keys() == {ENGLISH}:
        return ENGLISH
    totals = dict.fromkeys((ENGLISH, "la", "fr"), 0)
    strongest = dict.fromkeys(("la", "fr"), 0)
    for index in range(max(0, at - _WINDOW), min(len(own), at + _WINDOW + 1)):
        for language, weight in own[index].items():
            totals[language] += weight * (2 if index == at else 1)
            if language in strongest:
                strongest[language] = max(strongest[language], weight)
    foreign = max(("la", "fr"), key=lambda language: totals[language])
    if ENGLISH in own[at] and foreign not in own[at]:
        return ENGLISH
    if strongest[foreign] >= _SURE and totals[foreign] > totals[ENGLISH]:
        return foreign
    return ENGLISH
