"""Whose an office is: the words about a name in, whether the person is named as another's lord out.

In "cook to my lord Hugh", "cocus Hugonis" and "Hughes cook" the office is not Hugh's.
"""

from collections.abc import Sequence

from collate.lexicon.names import forenames
from collate.lexicon.offices import office_of
from collate.lexicon.patterns import Word, is_slot
from collate.lexicon.rule_words import rule_endings
from collate.model.evidence import Life

_BETWEEN = 4
_OWN = ("courtesy", "title")


def preposition(words: Sequence[Word], start: int, slot: str = "service") -> int | None:
    """Return the preposition before a person named from `start` on, None if there is none.

    What stands between is passed over: "cook *to* my worschipful lord Hugh".
    """
    for at in range(start - 1, max(start - 2 - _BETWEEN, -1), -1):
        if is_slot(words[at], slot):
            return at
        if not (is_slot(words[at], "before-office") or is_slot(words[at], "epithet")):
            return None
    return None


def of_other_case(words: Sequence[Word], start: int) -> bool:
    """Say whether an office is in the nominative and the name after it in the genitive: *cocus Hugonis*."""
    if not 0 < start < len(words):
        return False
    office = office_of(words[start - 1])
    if office is None or office.kind in _OWN or not words[start - 1].foreign:
        return False
    nominative = not words[start - 1].text.casefold().endswith(rule_endings("latin-oblique"))
    return nominative and _genitive(words[start])


def _genitive(word: Word) -> bool:
    """Say whether a word is a Latin genitive: *domini*, or a forename with its ending, as *Hugonis*."""
    if not word.text.casefold().endswith(rule_endings("latin-genitive")):
        return False
    office = office_of(word)
    if office is not None:
        return word.foreign and office.kind in _OWN
    names = forenames(word.text)
    return bool(names) and not any(name[-1] == word.text[-1] for name in names)


def possessive(word: Word, lives: Sequence[Life]) -> bool:
    """Say whether the last word of a known person's name has an -s that is not the name's own."""
    written = [part for life in lives for part in (*life.written, life.name)]
    own = office_of(word) is not None or any(part.casefold().endswith("s") for part in written)
    ends = word.text.casefold().endswith(rule_endings("possessive"))
    return bool(written) and not own and not _genitive(word) and ends
