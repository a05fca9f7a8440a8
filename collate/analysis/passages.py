"""The passages of an item that may bear on date: an item in; its text, heading and marginal words out."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce

from collate.lexicon.languages import languages
from collate.lexicon.numerals import figures, read_numeral
from collate.lexicon.patterns import Word, words_of
from collate.lexicon.signs import choices, raise_letters, whole_word
from collate.lexicon.spelling import normalise, rules_in_force
from collate.lexicon.words import lexicon
from collate.model.evidence import Where
from collate.model.source import Place
from collate.model.transcript import Mark
from collate.model.witness import Aside, Item, ItemKind, Token, TokenKind, WitnessText, shown_aside

MAIN_HAND = "1"
OPENING = "opening"
"""The label of what stands before the first item."""


@dataclass(frozen=True, slots=True)
class Passage:
    """Words that stand together in one copy; `where` is what they are to its text.

    `at` is the token of the item that words outside the text stand before, and `note` their hand.
    `front` says that here a copy may speak of itself: anywhere but in the text of a recipe.
    """

    siglum: str
    item: Item
    where: Where
    tokens: tuple[Token, ...]
    words: tuple[Word, ...]
    at: int = 0
    note: str = ""
    front: bool = True


def is_front(text: WitnessText, item: Item) -> bool:
    """Say whether an item is one in which a copy may speak of itself and its makers.

    That is any that is no recipe, what stands before the first item, and a text that is not divided.
    """
    undivided = len(text.items) == 1 and not item.heading
    return item.kind is not ItemKind.RECIPE or item.label == OPENING or undivided


def passages(siglum: str, item: Item, *, front: bool) -> Iterator[Passage]:
    """Yield the text of an item, its heading, and what stands beside it."""
    yield Passage(siglum, item, Where.BODY, item.tokens, words_of(item.tokens), front=front)
    if item.heading_tokens:
        yield Passage(siglum, item, Where.HEADING, item.heading_tokens, words_of(item.heading_tokens))
    for aside in item.asides:
        if aside.mark in (Mark.MARGIN, Mark.DELETED):
            where = Where.MARGIN if aside.mark is Mark.MARGIN else Where.STRUCK_OUT
            tokens = tokens_beside(aside)
            yield Passage(siglum, item, where, tokens, words_of(tokens), aside.at, aside.note)


def tokens_beside(aside: Aside) -> tuple[Token, ...]:
    """Cut words that stand outside the text, each sign written out by its usual value."""
    written = re.findall(r"[^\w\s.·⁊&]+(?=\s|$)|\S+", shown_aside(aside))
    spoken = languages([_written_out(word, "la") for word in written], lexicon())
    expanded = [_written_out(word, language) for word, language in zip(written, spoken, strict=True)]
    return tuple(
        _token(aside, at, *each) for at, each in enumerate(zip(written, expanded, spoken, strict=True))
    )


def _token(aside: Aside, at: int, written: str, expanded: str, language: str) -> Token:
    number = read_numeral(written.strip(",;:/")) if any(c.isalnum() for c in written) else None
    bare = expanded.strip(".,;:/·")
    kind = TokenKind.NUMERAL if number else TokenKind.WORD if bare else TokenKind.PUNCTUATION
    normal = figures(number.value) if number else normalise(bare, rules_in_force())
    return Token(
        at, written, " ", bare or expanded, normal, kind, aside.place,
        value=number.value if number else None, language=language,
    )  # fmt: skip


def _written_out(word: str, language: str) -> str:
    bare = raise_letters(word)
    if (whole := whole_word(bare, language)) is not None:
        return whole.options[0]
    signs = choices(bare)
    letters = reduce(lambda text, sign: text.replace(sign.sign, sign.kept + sign.default, 1), signs, bare)
    return letters or bare


def standing_of(passage: Passage, start: int, stop: int) -> Where:
    """Return what the words [start, stop) of a passage are to the copy's text."""
    if passage.where not in (Where.BODY, Where.HEADING):
        return passage.where
    tokens = tokens_of(passage, start, stop)
    marks = {marked.mark for token in tokens for marked in token.marks if _covers(token, marked.mark)}
    if marks & {Mark.SUPPLIED, Mark.ADDED}:
        return Where.SUPPLIED
    if any(token.place.hand != MAIN_HAND for token in tokens):
        return Where.OTHER_HAND
    return Where.INSERTED if Mark.INSERTED in marks else passage.where


def _covers(token: Token, mark: Mark) -> bool:
    """Say whether a mark is over the greater part of a word."""
    letters = sum(marked.stop - marked.start for marked in token.marks if marked.mark is mark)
    return 2 * letters > len(token.expanded)


def tokens_of(passage: Passage, start: int, stop: int) -> tuple[Token, ...]:
    """Return the tokens of the words [start, stop) of a passage, punctuation between them included."""
    if start >= stop:
        return ()
    return passage.tokens[passage.words[start].at : passage.words[stop - 1].at + 1]


def quoted(tokens: Sequence[Token]) -> str:
    """Return words as they are quoted: written out, blanks single, no point at the end."""
    text = "".join(
        token.expanded + (" " if any(c.isspace() for c in token.trail) else "") for token in tokens
    )
    return " ".join(text.split()).rstrip(" ./,;:")


def place_of(passage: Passage, start: int) -> Place:
    """Return where a word of a passage stands."""
    tokens = passage.tokens
    return tokens[passage.words[start].at].place if passage.words else passage.item.place
