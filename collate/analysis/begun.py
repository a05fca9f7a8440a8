"""False starts: words that a scribe began, and wrote again in full right after (*mor morter*)."""

from collections.abc import Sequence
from dataclasses import replace

from collate.analysis.classify import Verdict
from collate.model.division import letters
from collate.model.form import Judge, form_of, same_word
from collate.model.witness import Token

FALSE_START = "false start"
"""The name of the cause."""

_FEWEST = 2
"""The fewest letters of a word that was begun, where no other word was written again with it."""

_FEWEST_OF_WORD = 3
"""The same where what was begun is a word, unless an article stands before it."""

_SMALL = ("(pronoun)", "(preposition)", "(conjunction)", "(determiner)")
"""The classes of words that stand by themselves, however the next begins."""


def false_start(words: Sequence[Token], before: Sequence[Token], after: Sequence[Token], judge: Judge) -> str:
    """Return the word that some words break off in, which stands in full after them; "" where none does.

    The last of them begins that word, and those before it stand before that word too. Where they could as
    well begin a word earlier (*the al the* after *the*), they are taken from where they so break off.
    """
    every = (*before, *words, *after)
    for back in range(min(len(before), len(words) - 1) + 1):
        start = len(before) - back
        stop = start + len(words)
        if back and not same_word(every[start], every[stop], judge):
            return ""
        fewest = _FEWEST if start and _is_article(every[start - 1], judge) else _FEWEST_OF_WORD
        if full := _broken_off(every[start:stop], every[stop : stop + len(words)], fewest, judge):
            return full
    return ""


def _broken_off(words: Sequence[Token], after: Sequence[Token], fewest: int, judge: Judge) -> str:
    if not words or len(after) < len(words):
        return ""
    repeated = all(same_word(a, b, judge) for a, b in zip(words[:-1], after, strict=False))
    breaks = repeated and begins(words[-1], after[-1], judge, 1 if len(words) > 1 else fewest)
    return after[-1].expanded if breaks else ""


def begins(begun: Token, full: Token, judge: Judge, fewest: int = _FEWEST_OF_WORD) -> bool:
    """Say whether one word may be the beginning of the next; if a table has it, with `fewest` letters.

    A small word (*her herbes*) is one of its own, if so many are wanted as where no article stands before.
    """
    part, whole = letters(begun.expanded.casefold()), letters(full.expanded.casefold())
    if begun.value is not None or full.value is not None or "…" in part + whole or part == whole:
        return False
    if not whole.startswith(part):
        return False
    if not judge.listed(form_of(begun)):
        return len(part) >= min(fewest, _FEWEST)
    small = "".join(begun.headwords[:1]).endswith(_SMALL)
    return len(part) >= fewest and not (small and fewest >= _FEWEST_OF_WORD)


def _is_article(token: Token, judge: Judge) -> bool:
    """Say whether a word is an article, or the like, after which no small word stands."""
    return "".join(token.headwords[:1]).endswith("(determiner)") and judge.is_function(form_of(token))


def instead(found: Verdict, words: Sequence[Token], after: Sequence[Token], judge: Judge) -> Verdict:
    """Return the verdict on another word, with this cause where no table has it and it begins the next."""
    if found.cause or len(words) != 1 or not after or judge.listed(form_of(words[0])):
        return found
    if not begins(words[0], after[0], judge):
        return found
    return of_false_start(replace(found, reason=f"{found.reason}; {said(words, after[0].expanded)}"))


def of_false_start(found: Verdict) -> Verdict:
    """Return a verdict with a false start for its likely cause."""
    return replace(found, cause=FALSE_START, confusion=FALSE_START.replace(" ", "-"))


def said(words: Sequence[Token], full: str) -> str:
    """Return the ground of a false start."""
    return f"{' '.join(token.expanded for token in words)} may be a false start of {full}, which follows"
