"""Likely slips of the transcriber, seen against the whole tradition and the lexicon."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise

from collate.lexicon.distance import distance
from collate.lexicon.signs import unraised
from collate.lexicon.spelling import fold
from collate.lexicon.words import key_of
from collate.model.edition import LineMode
from collate.model.notice import Notice
from collate.model.transcript import Mark
from collate.model.witness import Token, TokenKind, WitnessText

COMMON = 4
"""How often a spelling must stand in the tradition for its one-letter neighbour to be suspect."""

LONGEST = 60
"""Words of more letters than this have no neighbours to be told of: to look for them would take for ever."""

SPELLED = 0.3
"""The distance up to which two forms pass for spellings of one word."""

_LETTERS = "abcdefghijklmnopqrstuvwxyzþȝ"

Known = Callable[[str], bool]
"""Says whether the lexicon knows a form."""


def slips(texts: Sequence[WitnessText], counts: Counter[str], known: Known) -> dict[str, tuple[Notice, ...]]:
    """Return, for each siglum, the lonely spellings, words broken without a mark, letters to be raised."""
    return {
        text.siglum: (*_lonely(text, counts, known), *_broken(text, known), *_unraised(text, known))
        for text in texts
    }


def _lonely(text: WitnessText, counts: Mapping[str, int], known: Known) -> Iterator[Notice]:
    """Yield spellings that stand once, that the lexicon lacks, one letter from a common one."""
    for before, token, after in _words(text):
        form = fold(token.expanded)
        if counts[form] != 1 or not 4 <= len(form) <= LONGEST or _incomplete(token) or known(token.expanded):
            continue
        if (before and known(fold(before.expanded) + form)) or (after and known(form + fold(after.expanded))):
            continue
        near = max(_neighbours(form, counts), key=lambda other: (counts[other], other), default=None)
        if near is not None:
            yield Notice(
                "lonely-spelling",
                f"{token.expanded!r} stands nowhere else, and {near!r} {counts[near]} times: look at the page"
                " again",
                token.place,
            )


def _incomplete(token: Token) -> bool:
    return any(m.mark in (Mark.LOST, Mark.ILLEGIBLE, Mark.UNCERTAIN) for m in token.marks)


def _neighbours(form: str, counts: Mapping[str, int]) -> Iterator[str]:
    """Yield the common forms one letter away."""
    for at in range(len(form) + 1):
        head, tail = form[:at], form[at:]
        variants = [head + letter + tail for letter in _LETTERS]
        if tail:
            variants.append(head + tail[1:])
            variants.extend(head + letter + tail[1:] for letter in _LETTERS if letter != tail[0])
        yield from (other for other in variants if counts.get(other, 0) >= COMMON and not _usual(form, other))


def _usual(form: str, other: str) -> bool:
    """Say whether two forms differ only as spellings of one word usually do."""
    return distance(key_of(form), key_of(other), SPELLED).cost <= SPELLED


def _broken(text: WitnessText, known: Known) -> Iterator[Notice]:
    """Yield words that seem to go on in the next manuscript line without a mark."""
    if text.witness.lines is not LineMode.MANUSCRIPT:
        return
    for item in text.items:
        for token, after in pairwise(item.tokens):
            if token.kind is not TokenKind.WORD or after.kind is not TokenKind.WORD:
                continue
            if token.place.line == after.place.line or "¬" in token.written:
                continue
            joined = fold(token.expanded) + fold(after.expanded)
            if known(joined) and not (known(token.expanded) and known(after.expanded)):
                yield Notice(
                    "broken-word",
                    f"{token.expanded!r} at the line's end and {after.expanded!r} seem one word: type ¬"
                    " there",
                    token.place,
                )


def _unraised(text: WitnessText, known: Known) -> Iterator[Notice]:
    """Yield each form, where it first stands, that is no word as it is and one with letters raised."""
    first: dict[str, Token] = {}
    counts: Counter[str] = Counter()
    for _, token, _ in _words(text):
        if not token.marks and token.written == token.expanded and not known(token.expanded):
            first.setdefault(token.written, token)
            counts[token.written] += 1
    for form, token in first.items():
        if (found := unraised(form)) is not None:
            times = f" ({counts[form]} times)" if counts[form] > 1 else ""
            yield Notice(
                "unraised-letters",
                f"{form!r}{times} is no known word: if it is short for {found[1]!r}, type {found[0]!r},"
                " or a caret before the raised letters",
                token.place,
            )


def _words(text: WitnessText) -> Iterator[tuple[Token | None, Token, Token | None]]:
    """Yield each English word with its neighbours."""
    for item in text.items:
        around: list[Token | None] = [None, *item.tokens, None]
        for before, token, after in zip(around, item.tokens, around[2:], strict=False):
            if token.kind is TokenKind.WORD and token.language == "en":
                yield before, token, after
