"""The name of a skip of the eye: whether the repeated words open what they stand in, or close it."""

from collections.abc import Sequence

from collate.lexicon.rule_words import rule_words
from collate.model.form import Judge, form_of
from collate.model.witness import Token

_LEADING = frozenset({"determiner", "preposition", "numeral", "conjunction"})
"""The parts of speech of words after which the noun of the phrase, or the verb, is still to come."""


def skip_name(tokens: Sequence[Token], start: int, stop: int, judge: Judge) -> str:
    """Return *homoeoteleuton* or *homoeoarchon* for words [start, stop) that an eye took for their like.

    They close if a point, an end, *and* or another word that opens a clause comes next, or they end in
    *and*. Else they open if their last word leaves its noun or object to come (*in a*, *for the*, *poudre
    of*, *two*), or their first begins a clause (*put therto*, *whan it*); else they close.
    """
    words = _Words(tokens, judge)
    while stop - start > 1 and words.joins(start):
        start += 1
    end = stop
    while end - start > 1 and words.joins(end - 1):
        end -= 1
    if end < stop or words.ended(end):
        return "homoeoteleuton"
    opens = words.unfinished(end - 1) or words.opens(start) or _is_point_before(tokens, start)
    return "homoeoarchon" if opens else "homoeoteleuton"


def _is_point_before(tokens: Sequence[Token], at: int) -> bool:
    """Say whether a word is the first, or has a point or gap before it."""
    return at == 0 or tokens[at - 1].index + 1 < tokens[at].index


class _Words:
    """Words, and what each may be."""

    def __init__(self, tokens: Sequence[Token], judge: Judge) -> None:
        self.tokens = tokens
        self.judge = judge

    def keys(self, at: int) -> tuple[str, ...]:
        """Return the headwords that a word may have, with their parts of speech."""
        keys = self.judge.keys(form_of(self.tokens[at]))
        return tuple(key for key in keys if key[0] not in "~'=")

    def parts(self, at: int) -> frozenset[str]:
        """Return the parts of speech that a word may be."""
        return frozenset(key.rpartition(" (")[2].rstrip(")") for key in self.keys(at))

    def joins(self, at: int) -> bool:
        """Say whether a word joins two members."""
        return any(key in rule_words("joining-headword") for key in self.keys(at))

    def ended(self, at: int) -> bool:
        """Say whether what stands before a word is at an end there."""
        if at >= len(self.tokens) or _is_point_before(self.tokens, at) or "conjunction" in self.parts(at):
            return True
        subject = at > 1 and "pronoun" in self.parts(at - 1) and "conjunction" in self.parts(at - 2)
        return self.parts(at) == {"verb"} and not subject

    def unfinished(self, at: int) -> bool:
        """Say whether the phrase of a word is still to have its noun, or a verb its object."""
        parts = self.parts(at)
        if parts & _LEADING or self.tokens[at].value is not None:
            return True
        noun_next = at + 1 < len(self.tokens) and "noun" in self.parts(at + 1)
        return self.commands(at) or parts == {"adjective"} or ("adjective" in parts and noun_next)

    def opens(self, at: int) -> bool:
        """Say whether a word begins a clause: *whan*, *than*, a verb."""
        return "conjunction" in self.parts(at) or "then (adverb)" in self.keys(at) or self.commands(at)

    def commands(self, at: int) -> bool:
        """Say whether a word is a verb; what may be a noun too is one before an article or a pronoun."""
        parts = self.parts(at)
        follows = self.parts(at + 1) if at + 1 < len(self.tokens) else frozenset[str]()
        return parts == {"verb"} or ("verb" in parts and bool(follows & {"pronoun", "determiner"}))
