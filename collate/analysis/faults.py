"""What may be wrong in a transcription: witness texts in, notices with their places out."""

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence

from collate.lexicon.items import item_key
from collate.lexicon.modern import modern_for
from collate.lexicon.numerals import read_numeral
from collate.lexicon.signs import is_known_character
from collate.lexicon.spelling import fold
from collate.model.notice import Notice, Severity
from collate.model.source import Place
from collate.model.transcript import Mark
from collate.model.witness import Item, Token, TokenKind, WitnessText

_POINTED = re.compile(r"[ivxlcdmj]{2,}", re.IGNORECASE)
_ENDING_IN_J = re.compile(r"[ivxlcdm]+j", re.IGNORECASE)
_FOLIO = re.compile(r"(p\. )?(\d{1,6})([rv]?)([ab]?)")
_YOGH_THREE = re.compile(r"(?<=[^\W\d])3|3(?=[^\W\d])")
_DOLLAR = re.compile(r"(?<!\\)\$")
_GAP_LIKE = re.compile(r"\[[.·][^\W\d_]{1,4}[.·]\]")
_BLANK_AND_BROKEN = re.compile(r"[^¬\n]*[ \t][^¬\n]*¬")
_BROKEN_IN_LINE = re.compile(r"¬(?![ \t]*(?:[\r\n|]|$))")


def of_witness(text: WitnessText) -> Iterator[Notice]:
    """Yield the faults that one witness shows by itself, in the order of its text."""
    yield from text.notices
    yield from _order_of_items(text.items)
    yield from _order_of_places(text)
    yield from _mixed_yogh(text)
    for item in text.items:
        for tokens in (item.heading_tokens, item.tokens):
            for at, token in enumerate(tokens):
                yield from _of_marks(token, tokens[at + 1 : at + 3])
                yield from _of_token(token)
                yield from _numeral(tokens[max(0, at - 1) : at + 2], token)
                yield from _doubled(token, tokens[at + 1 : at + 2])


def _of_marks(token: Token, following: Sequence[Token]) -> Iterator[Notice]:
    """Tell of what looks like a mark of the notation and is read as letters, or joins nothing."""
    if _DOLLAR.search(token.written):
        after = "" if token.trail else "".join(each.written[:1] for each in following[:1])
        yield Notice(
            "unknown-sign",
            f"'${after}' is no key of docs/transcribing.md: type the sign meant, or a backslash before the $"
            " if it is a letter of the copy",
            token.place,
        )
    at = token.written.find("[")
    read_on = "".join(each.written + each.trail for each in (token, *following)) if at >= 0 else ""
    if found := _GAP_LIKE.match(read_on, max(at, 0)):
        yield Notice(
            "doubtful-gap",
            f"{found.group()!r} is read as letters that you have supplied: for a gap write [...], or [.6.]"
            " for about six letters",
            token.place,
        )
    if _BLANK_AND_BROKEN.match(token.trail) or _BROKEN_IN_LINE.search(token.written):
        yield Notice(
            "broken-word",
            "¬ stands right after the letters at the end of a line, where the word goes on in the next: here"
            " it does not",
            token.place,
        )


def _of_token(token: Token) -> Iterator[Notice]:
    for character in dict.fromkeys(unicodedata.normalize("NFD", token.written)):
        if not is_known_character(character):
            name = unicodedata.name(character, "without a name")
            yield Notice(
                "unknown-sign",
                f"{character!r} (U+{ord(character):04X}, {name.lower()}) is no sign of docs/transcribing.md:"
                " type the sign meant, or a letter",
                token.place,
            )
    if token.kind is TokenKind.WORD and _YOGH_THREE.search(token.written):
        yield Notice(
            "three-for-yogh",
            f"the figure 3 stands in {token.written!r}: type ȝ (or $g)",
            token.place,
            Severity.ERROR,
        )
    if token.kind is TokenKind.WORD and (instead := modern_for(token.expanded)):
        yield Notice(
            "modern-spelling",
            f"{token.expanded!r} is a modern spelling, not found before 1500: was it {instead!r}?",
            token.place,
        )
    if token.open:
        yield Notice(
            "open-expansion",
            f"{token.written!r} is written out {token.expanded!r} only by the usual value of its sign: state"
            " the scribe's practice in edition.toml, or write it out with ( )",
            token.place,
        )


def _numeral(around: Sequence[Token], token: Token) -> Iterator[Notice]:
    """Tell of roman letters between points, or ending in j, that make no number."""
    pointed = len(around) == 3 and all(t.written[0] in ".·" for t in (around[0], around[2]))
    like = _POINTED if pointed else _ENDING_IN_J
    if token.kind is TokenKind.WORD and like.fullmatch(token.written) and read_numeral(token.written) is None:
        yield Notice(
            "roman-numeral",
            f"{token.written!r} looks like a roman numeral and is none: look at the page again",
            token.place,
        )


def _doubled(token: Token, following: Sequence[Token]) -> Iterator[Notice]:
    if not following:
        return
    after = following[0]
    words = token.kind is TokenKind.WORD and after.kind is TokenKind.WORD
    excused = any(m.mark is Mark.SURPLUS for t in (token, after) for m in t.marks)
    if words and not excused and fold(token.expanded) == fold(after.expanded):
        yield Notice(
            "doubled-word",
            f"{after.expanded!r} stands twice: if the scribe wrote it so, mark one as {{{after.written}}}",
            after.place,
        )


def _order_of_items(items: Sequence[Item]) -> Iterator[Notice]:
    last: tuple[int, str] | None = None
    for item in items:
        key = item_key(item.label)
        if not key.isdecimal() or len(key) > 15:
            continue
        if last and int(key) < last[0]:
            yield Notice("item-order", f"item {item.label} stands after item {last[1]}", item.place)
        last = (int(key), item.label)


def _order_of_places(text: WitnessText) -> Iterator[Notice]:
    """Yield the places where folios, or lines within one, go backwards."""
    last: Place | None = None
    for token in (token for item in text.items for token in item.tokens):
        place = token.place
        if last and place.folio and place.folio != last.folio:
            if last.folio and _folio_order(place.folio) <= _folio_order(last.folio):
                yield Notice(
                    "folio-order", f"{place.folio} stands after {last.folio}: look at the page marks", place
                )
        elif last and place.ms_line and last.ms_line and place.ms_line < last.ms_line:
            yield Notice("line-order", f"line {place.ms_line} stands after line {last.ms_line}", place)
        last = place


def _folio_order(folio: str) -> tuple[int, str, str]:
    found = _FOLIO.fullmatch(folio)
    return (int(found[2]), found[3], found[4]) if found else (0, "", "")


def _mixed_yogh(text: WitnessText) -> Iterator[Notice]:
    """Tell where ezh (U+0292) and yogh (U+021D) stand for one letter in one witness."""
    tokens = [token for item in text.items for token in (*item.heading_tokens, *item.tokens)]
    yogh = any("ȝ" in token.written.casefold() for token in tokens)
    ezh = next((token for token in tokens if "ʒ" in token.written.casefold()), None)
    if ezh is not None and yogh:
        yield Notice(
            "mixed-yogh",
            f"ʒ (U+0292, ezh) stands in {ezh.written!r} and ȝ (U+021D, yogh) elsewhere in {text.siglum}:"
            " type ȝ",
            ezh.place,
        )


def written_forms(texts: Sequence[WitnessText]) -> Counter[str]:
    """Count the words of all witnesses by folded form."""
    return Counter(
        fold(token.expanded)
        for text in texts
        for item in text.items
        for token in item.tokens
        if token.kind is TokenKind.WORD
    )
