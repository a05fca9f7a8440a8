"""A witness cut into words: tokens that lose nothing, in items."""

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import chain

from collate.model.edition import Witness
from collate.model.notice import Notice
from collate.model.source import Place
from collate.model.transcript import Mark
from collate.model.value import value


class TokenKind(StrEnum):
    """What a token is."""

    WORD = "word"
    NUMERAL = "numeral"
    PUNCTUATION = "punctuation"
    GAP = "gap"


class ItemKind(StrEnum):
    """What an item is in the book."""

    RECIPE = "recipe"
    PREFACE = "preface"
    INCIPIT = "incipit"
    EXPLICIT = "explicit"
    COLOPHON = "colophon"
    TABLE = "table"
    MENU = "menu"
    TEXT = "text"


@value
class Marked:
    """A mark over the letters [start, stop) of a token's `expanded` form."""

    mark: Mark
    start: int
    stop: int
    reason: str = ""


@value
class Broken:
    """A page, line or hand that begins inside a word, before letter `at` of its `expanded` form."""

    at: int
    place: Place


@value
class Token:
    """One word, numeral, punctuation or gap.

    `written` + `trail` is the source text, marks and all; `expanded` the letters with
    abbreviations written out; `normal` the compared form, never shown. `marks` point into
    `expanded`. `value` is a numeral's number. `headwords` are identities in the lexicon, most
    likely first, empty when the form is unknown. `language` is "en", "la" or "fr".
    `open` says that an expansion was not settled. `letters` are those of the copy, its signs of
    abbreviation not written out; `breaks` the pages, lines and hands that begin inside the word.
    """

    index: int
    written: str
    trail: str
    expanded: str
    normal: str
    kind: TokenKind
    place: Place
    marks: tuple[Marked, ...] = ()
    value: float | None = None
    headwords: tuple[str, ...] = ()
    word_in_line: int | None = None
    language: str = "en"
    open: bool = False
    letters: str = ""
    breaks: tuple[Broken, ...] = ()


@dataclass(frozen=True, slots=True)
class Aside:
    """Letters that stand in the copy but not in its final text: struck out, in the margin, a catchword.

    `at` is the index of the token it stands before; `note` its argument (hand, extent). One that
    stands inside the word before that token, or touches it and is struck out, has `letter` letters of
    its expanded form on its left: 0 at its beginning. `letter` is None of what stands between words.
    """

    mark: Mark
    text: str
    at: int
    place: Place
    note: str = ""
    letter: int | None = None


@dataclass(frozen=True, slots=True)
class Item:
    """One item of one witness: `lead` is the raw text before its first token, heading line included.

    `asides` stand beside its words, `heading_asides` beside those of its heading.
    """

    label: str
    heading: str
    kind: ItemKind
    lead: str
    tokens: tuple[Token, ...]
    place: Place
    asides: tuple[Aside, ...] = ()
    heading_tokens: tuple[Token, ...] = ()
    heading_asides: tuple[Aside, ...] = ()


@dataclass(frozen=True, slots=True)
class WitnessText:
    """One witness, cut into words."""

    witness: Witness
    items: tuple[Item, ...]
    notices: tuple[Notice, ...] = ()

    @property
    def siglum(self) -> str:
        """The witness's siglum."""
        return self.witness.siglum


def read_back(text: WitnessText) -> str:
    """Return the source text of a witness from its tokens (NFC, typed keys set to their signs)."""
    return "".join(
        item.lead + "".join(token.written + token.trail for token in item.tokens) for item in text.items
    )


_SHOWN = {
    Mark.EXPANDED: ("(", ")"),
    Mark.SUPPLIED: ("[", "]"),
    Mark.ADDED: ("<", ">"),
    Mark.SURPLUS: ("{", "}"),
}


_UNREAD = re.compile("\ufffc+")
"""Letters lost or illegible in what stands aside, one sign for each; three points are shown for all."""


def shown_aside(aside: Aside) -> str:
    """Return the letters of what stands beside the text, three points for those that cannot be read."""
    return _UNREAD.sub("…", aside.text)


_LACKING = re.compile("…{2,}")
"""Letters lost or illegible, one sign for each; three points are shown for all."""


def shown(token: Token, marks: Collection[Mark] = tuple(_SHOWN)) -> str:
    """Return a word written out, with the signs of the given marks about the letters they are over."""
    told = token.expanded
    if not token.marks:
        return _LACKING.sub("…", told) if "……" in told else told
    signs: dict[int, str] = {}
    for mark, start, stop in _stretches(token.marks, marks):
        opener, closer = _SHOWN[mark]
        signs[start] = signs.get(start, "") + opener
        signs[stop] = closer + signs.get(stop, "")
    if signs:
        ends = range(len(token.expanded) + 1)
        told = "".join(signs.get(at, "") + token.expanded[at : at + 1] for at in ends).replace(")(", "")
    return _LACKING.sub("…", told) if "……" in told else told


def _stretches(marks: Sequence[Marked], wanted: Collection[Mark]) -> list[tuple[Mark, int, int]]:
    """Return the stretches of letters under each mark that has signs, those about others before them.

    What stands under one mark from letter to letter is one stretch, whatever else is over a part of it.
    """
    found: dict[Mark, list[tuple[Mark, int, int]]] = {}
    for marked in marks:
        if marked.mark not in wanted or marked.mark not in _SHOWN or marked.start >= marked.stop:
            continue
        stretches = found.setdefault(marked.mark, [])
        if stretches and stretches[-1][1] <= marked.start <= stretches[-1][2]:
            _, start, stop = stretches.pop()
            stretches.append((marked.mark, start, max(stop, marked.stop)))
        else:
            stretches.append((marked.mark, marked.start, marked.stop))
    return _nested([stretch for stretches in found.values() for stretch in stretches])


def _nested(stretches: list[tuple[Mark, int, int]]) -> list[tuple[Mark, int, int]]:
    """Return stretches in order, those that would end outside another that they begin in cut there in two."""
    waiting = list(stretches)
    nested: list[tuple[Mark, int, int]] = []
    while waiting:
        here = min(waiting, key=lambda stretch: (stretch[1], -stretch[2]))
        waiting.remove(here)
        mark, start, stop = here
        ends = [end for _, begin, end in nested if begin < start < end < stop]
        if ends:
            waiting.append((mark, min(ends), stop))
        nested.append((mark, start, min([stop, *ends])))
    return nested


def has_gap(tokens: Iterable[Token]) -> bool:
    """Say whether a gap stands among tokens."""
    return any(token.kind is TokenKind.GAP for token in tokens)


def without_points(tokens: Iterable[Token]) -> tuple[Token, ...]:
    """Return tokens less the punctuation: words, numerals and gaps."""
    return tuple([token for token in tokens if token.kind is not TokenKind.PUNCTUATION])


def folio(place: Place) -> str:
    """Return the folio or page of a place as it is cited, "" where it is not marked."""
    if place.folio is None:
        return ""
    return place.folio if place.folio.startswith("p") else f"f. {place.folio}"


def citation(token: Token) -> str:
    """Return where a word stands: folio and manuscript line, or else the line of the file."""
    line = f"l. {token.place.ms_line}" if token.place.ms_line else ""
    return f"{folio(token.place)} {line}".strip() or f"line {token.place.line}"


def beside(tokens: Sequence[Token], at: int) -> int | None:
    """Return the index of the word (no point) at a place or the nearest before, else of the first of all."""
    places = chain(range(at, -1, -1), range(max(at, 0), len(tokens)))
    return next((index for index in places if tokens[index].kind is not TokenKind.PUNCTUATION), None)
