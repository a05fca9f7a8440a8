"""How a place of the apparatus is named: where it is in the base, and by which words."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate

from collate.model.apparatus import Entry, Variant, VariantKind
from collate.model.findings import ItemFindings
from collate.model.source import Place
from collate.model.transcript import Mark
from collate.model.witness import Token, TokenKind, beside, folio, shown
from collate.reports.phrases import raised

LONG = 5
"""A lemma of more words than this is shown as its first and last."""


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
    tokens, start, stop = _held(entry, found)
    at = _named(tokens, start, stop)
    if at is None:
        return Lemma("", f"no words in {found.base}", "")
    if start < stop:
        if any(v.kind is VariantKind.TRANSPOSITION and v.beside is None for v in entry.variants):
            return Lemma(place(tokens, at), _in_full(tokens, start, stop), "")
        return Lemma(_places(tokens, start, stop, at), _text(tokens, start, stop), "")
    adds = "add." if at < start else "add. before"
    return Lemma(place(tokens, at), _written(tokens[at]) + _which(tokens, at), adds)


def target_of(variant: Variant, lemma: Lemma, found: ItemFindings) -> str:
    """Return after or before which word of the base moved words stand: "" if within the lemma.

    Where the word stands more than once in the item, its place is told.
    """
    if variant.beside is None:
        return ""
    tokens, at = found.collation.items[found.collation.sigla.index(found.base)].tokens, variant.beside.token
    form, where = tokens[at].expanded.casefold(), place(tokens, at)
    often = sum(token.expanded.casefold() == form for token in tokens)
    told = f" ({where})" if often > 1 and where != lemma.place else ""
    return (
        f"{'before' if variant.beside.before else 'after'} {_written(tokens[at])}{_which(tokens, at)}{told}"
    )


def named_by(entry: Entry, found: ItemFindings) -> Token | None:
    """Return the word of the base by which the place of an entry is named; None if the base has no words."""
    tokens, start, stop = _held(entry, found)
    at = _named(tokens, start, stop)
    return None if at is None else tokens[at]


def _held(entry: Entry, found: ItemFindings) -> tuple[tuple[Token, ...], int, int]:
    """Return the tokens of the base, and where those of an entry begin and end."""
    collation = found.collation
    w = collation.sigla.index(found.base)
    start = collation.columns[entry.locus.first].spans[w].start
    return collation.items[w].tokens, start, collation.columns[entry.locus.stop - 1].spans[w].stop


def _named(tokens: Sequence[Token], start: int, stop: int) -> int | None:
    """Return the index of the word that names a place: its first, its first point, or one beside it."""
    if start == stop:
        return beside(tokens, start - 1)
    return next((index for index in range(start, stop) if _is_word(tokens[index])), start)


def _is_word(token: Token) -> bool:
    return token.kind is not TokenKind.PUNCTUATION


def _text(tokens: Sequence[Token], start: int, stop: int) -> str:
    inside = [index for index in range(start, stop) if _is_word(tokens[index])]
    if not inside:
        points = "".join(token.expanded for token in tokens[start:stop])
        return f"‘{points}’" + (_which(tokens, start) if stop == start + 1 else "")
    if len(inside) > LONG:
        return " … ".join(_written(tokens[at]) + _which(tokens, at) for at in (inside[0], inside[-1]))
    return _in_full(tokens, start, stop)


def _in_full(tokens: Sequence[Token], start: int, stop: int) -> str:
    inside = [index for index in range(start, stop) if _is_word(tokens[index])]
    text = " ".join(_written(tokens[index]) for index in inside)
    return text + (_which(tokens, inside[0]) if len(inside) == 1 else "")


def _places(tokens: tuple[Token, ...], start: int, stop: int, at: int) -> str:
    """Return the place of words; of those that are shown as first and last, the places of both."""
    inside = [index for index in range(start, stop) if _is_word(tokens[index])]
    here = place(tokens, at)
    if len(inside) <= LONG:
        return here
    there = place(tokens, inside[-1])
    before, after = here.rpartition(" "), there.rpartition(" ")
    if here == there:
        return here
    return f"{here}–{after[2]}" if before[0] == after[0] else f"{here} – {there}"


def _written(token: Token) -> str:
    """Return a word with its abbreviations marked as written out."""
    return shown(token, (Mark.EXPANDED,))


def _which(tokens: Sequence[Token], at: int) -> str:
    """Return a raised number where the same word stands more than once in the line that a place names.

    A place that names the number of a word needs none for it; for one of several points after it, it does.
    """
    start, stop = _named_range(tokens, at)
    form = tokens[at].expanded.casefold()
    same = [index for index in range(start, stop) if tokens[index].expanded.casefold() == form]
    return raised(str(same.index(at) + 1)) if len(same) > 1 else ""


def _named_range(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return where the tokens begin and end that the place of a token may stand for."""
    lined, here = tokens[at].place.ms_line, _line(tokens[at].place)
    if not lined and _is_word(tokens[at]):
        return at, at + 1

    def inside(token: Token) -> bool:
        return _line(token.place) == here if lined else not _is_word(token)

    start, stop = at, at + 1
    while start and inside(tokens[start - 1]):
        start -= 1
    while stop < len(tokens) and inside(tokens[stop]):
        stop += 1
    return start, stop


def _line(place: Place) -> tuple[str | None, int | None]:
    return place.folio, place.ms_line


def place(tokens: tuple[Token, ...], at: int) -> str:
    """Return the place of a word of the base: folio and line where known, else the word's number."""
    where = tokens[at].place
    if where.ms_line:
        return f"{folio(where)} l. {where.ms_line}".strip()
    return f"{folio(where)} w. {_numbers(_Row(tokens))[at]}".strip()


class _Row:
    """The tokens of an item, known by where they are in memory: to compare a long row would cost too much."""

    __slots__ = ("tokens",)

    def __init__(self, tokens: tuple[Token, ...]) -> None:
        self.tokens = tokens

    def __hash__(self) -> int:
        return id(self.tokens)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Row) and self.tokens is other.tokens


@lru_cache(maxsize=8)
def _numbers(row: _Row) -> tuple[int, ...]:
    """Return for each token how many words stand before its end."""
    return tuple(accumulate(int(_is_word(token)) for token in row.tokens))
