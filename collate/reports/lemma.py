"""How a place of the apparatus is named: where it is in the base, and by which words."""

from collections.abc import Sequence
from dataclasses import dataclass

from collate.model.apparatus import Entry
from collate.model.findings import ItemFindings
from collate.model.source import Place
from collate.model.transcript import Mark
from collate.model.witness import Token, TokenKind, folio, shown

LONG = 5
"""A lemma of more words than this is shown as its first and last."""

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


@dataclass(frozen=True, slots=True)
class Lemma:
    """The lemma as printed: its `place`, its `text` with a raised number where the word is repeated.

    `adds` is "" or, where the base has no words, "add." (after the lemma) or "add. before".
    """

    place: str
    text: str
    adds: str


def lemma_of(entry: Entry, found: ItemFindings) -> Lemma:
    """Return the lemma of an entry; where the base has no words, the word beside the place."""
    collation = found.collation
    w = collation.sigla.index(found.base)
    tokens = collation.items[w].tokens
    start = collation.columns[entry.locus.first].spans[w].start
    stop = collation.columns[entry.locus.stop - 1].spans[w].stop
    words = [index for index, token in enumerate(tokens) if token.kind is not TokenKind.PUNCTUATION]
    inside = [index for index in words if start <= index < stop]
    if start < stop:
        first = inside[0] if inside else start
        return Lemma(place(tokens, first, words), _text(tokens, start, stop, inside), "")
    before = [index for index in words if index < start]
    if before:
        at, adds = before[-1], "add."
    elif words:
        at, adds = words[0], "add. before"
    else:
        return Lemma("", f"no words in {found.base}", "")
    return Lemma(place(tokens, at, words), _written(tokens[at]) + _which(tokens, at), adds)


def _text(tokens: Sequence[Token], start: int, stop: int, inside: Sequence[int]) -> str:
    if not inside:
        points = "".join(token.expanded for token in tokens[start:stop])
        return f"‘{points}’" + (_which(tokens, start) if stop == start + 1 else "")
    if len(inside) > LONG:
        first, last = inside[0], inside[-1]
        return f"{_written(tokens[first])}{_which(tokens, first)} … {_written(tokens[last])}"
    text = " ".join(_written(tokens[index]) for index in inside)
    return text + (_which(tokens, inside[0]) if len(inside) == 1 else "")


def _written(token: Token) -> str:
    """Return a word with its abbreviations marked as written out."""
    return shown(token, (Mark.EXPANDED,))


def _which(tokens: Sequence[Token], at: int) -> str:
    """Return a raised number where the same word stands more than once in the line that a place names.

    A place that names the number of a word needs none.
    """
    if not tokens[at].place.ms_line:
        return ""
    here = _line(tokens[at].place)
    same = [
        index
        for index, token in enumerate(tokens)
        if _line(token.place) == here and token.expanded.casefold() == tokens[at].expanded.casefold()
    ]
    return str(same.index(at) + 1).translate(_RAISED) if len(same) > 1 else ""


def _line(place: Place) -> tuple[str | None, int | None]:
    return place.folio, place.ms_line


def place(tokens: Sequence[Token], at: int, words: Sequence[int]) -> str:
    """Return the place of a word of the base: folio and line where known, else the word's number."""
    where = tokens[at].place
    if where.ms_line:
        return f"{folio(where)} l. {where.ms_line}".strip()
    number = sum(index <= at for index in words)
    return f"{folio(where)} w. {number}".strip()
