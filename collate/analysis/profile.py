"""Witness texts in, the habits of each scribe out."""

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cache

from collate.lexicon.signs import choices, has_signs, raise_letters, whole_word
from collate.lexicon.tables import table
from collate.model.profile import Habit, OpenCase, Profile, SignUse
from collate.model.transcript import Mark
from collate.model.witness import Token, TokenKind, WitnessText, citation


@cache
def _habits() -> tuple[tuple[str, str, str, re.Pattern[str]], ...]:
    rows = table("habits", "habit", "side", "where", "pattern", "authority")
    wrapped = {"word": r"(?:{})", "ending": r".*(?:{})", "letters": r"{}"}
    return tuple(
        (habit, side, where, re.compile(wrapped[where].format(pattern)))
        for habit, side, where, pattern, _ in rows
    )


def profiles(text: WitnessText) -> tuple[Profile, ...]:
    """Return the habits of each hand of a witness, in the order of their numbers.

    Spellings are counted in English words written without abbreviation signs; a word's letters
    supplied by an editor do not count for it.
    """
    by_hand: dict[str, list[Token]] = {}
    for item in text.items:
        for token in (*item.heading_tokens, *item.tokens):
            if token.kind is TokenKind.WORD:
                by_hand.setdefault(token.place.hand, []).append(token)
    return tuple(_profile(text.siglum, hand, by_hand[hand]) for hand in sorted(by_hand))


def _profile(siglum: str, hand: str, tokens: Sequence[Token]) -> Profile:
    plain = [token.expanded.casefold() for token in tokens if _is_plain(token)]
    cases = dict.fromkeys(
        OpenCase(token.written, token.expanded, f"{siglum} {citation(token)}")
        for token in tokens
        if token.open
    )
    uses = tuple(_uses(tokens))
    return Profile(
        siglum,
        hand,
        len(tokens),
        tuple(cases),
        tuple(_counted(plain)),
        tuple(use for use in uses if any(expansion for expansion, _, _ in use.expansions)),
        tuple((use.sign, use.count) for use in uses if not any(e for e, _, _ in use.expansions)),
    )


def _is_plain(token: Token) -> bool:
    supplied = {Mark.EXPANDED, Mark.ADDED, Mark.SUPPLIED, Mark.LOST, Mark.ILLEGIBLE}
    return token.language == "en" and not any(marked.mark in supplied for marked in token.marks)


def _counted(words: Sequence[str]) -> Iterator[Habit]:
    counts: dict[str, dict[str, int]] = {}
    distinct = Counter(words)
    for habit, side, where, pattern in _habits():
        sides = counts.setdefault(habit, {})
        if where == "letters":
            found = sum(len(pattern.findall(word)) * times for word, times in distinct.items())
        else:
            found = sum(times for word, times in distinct.items() if pattern.fullmatch(word))
        sides[side] = sides.get(side, 0) + found
    for habit, sides in counts.items():
        yield Habit(habit, tuple(sides.items()))


def _uses(tokens: Sequence[Token]) -> Iterator[SignUse]:
    """Yield each sign or abbreviated word with its expansions, the commonest sign first."""
    found: dict[str, Counter[str]] = {}
    reasons: dict[tuple[str, str], str] = {}
    for token in tokens:
        bare = raise_letters(_letters(token))
        if not has_signs(bare):
            continue
        for sign, expansion, reason in _of_token(token, bare):
            found.setdefault(sign, Counter())[expansion] += 1
            reasons.setdefault((sign, expansion), reason)
    for sign, counted in sorted(found.items(), key=lambda item: (-item[1].total(), item[0])):
        ways = tuple((way, times, reasons[sign, way]) for way, times in counted.most_common())
        yield SignUse(sign, _name(sign), counted.total(), ways)


def _letters(token: Token) -> str:
    """Return a word as written without the editor's marks about it."""
    return re.sub(r"[\[\](){}<>`´¬\s]|\|[^|]*\||@\w+(?::\w+)?", "", token.written)


def _of_token(token: Token, bare: str) -> Iterator[tuple[str, str, str]]:
    spans = [marked for marked in token.marks if marked.mark is Mark.EXPANDED]
    if whole_word(bare, token.language) is not None:
        yield bare.casefold(), token.expanded.casefold(), spans[0].reason if spans else ""
        return
    signs = choices(bare)
    if len(spans) == len(signs):
        for choice, marked in zip(signs, spans, strict=True):
            expansion = choice.kept.casefold() + token.expanded[marked.start : marked.stop]
            yield choice.sign, expansion, marked.reason
    else:
        for choice in signs:
            yield choice.sign, "" if not spans else token.expanded, spans[0].reason if spans else ""


def _name(sign: str) -> str:
    return unicodedata.name(sign, "").lower() if len(sign) == 1 else "word"
