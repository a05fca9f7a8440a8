"""A transcript in, a witness text out: cut, expanded, normalised, every word in its place."""

from collections.abc import Iterator, Sequence

from collate.errors import InputError
from collate.lexicon.items import item_key, item_kind
from collate.lexicon.numerals import read_numeral
from collate.lexicon.spelling import LACK, Rules, normalise, rules_in_force
from collate.model.notice import Notice
from collate.model.transcript import Passage, Transcript
from collate.model.witness import Item, Marked, Token, TokenKind, WitnessText
from collate.settings import Normalising
from collate.tokens.cut import LOST, Piece, cut


def tokenise(transcript: Transcript, choice: Normalising) -> WitnessText:
    """Cut a transcript into words.

    Raises InputError where two items of the witness have one number or name.
    """
    _check_labels(transcript)
    rules = rules_in_force(choice.on, choice.off)
    items = tuple(_item(passage, rules) for passage in transcript.passages)
    empty = tuple(
        Notice("empty-item", f"item {item.label} has no words", item.place)
        for item in items
        if not item.tokens
    )
    return WitnessText(transcript.witness, items, transcript.notices + empty)


def _check_labels(transcript: Transcript) -> None:
    seen: dict[str, Passage] = {}
    for passage in transcript.passages:
        first = seen.setdefault(item_key(passage.label), passage)
        if first is not passage:
            raise InputError(
                f"the item {passage.label!r} stands twice in this file, first as {first.label!r} at"
                f" line {first.place.line}: give one of them another number or name",
                passage.place,
            )


def _item(passage: Passage, rules: Rules) -> Item:
    body, heading = cut(passage.runs), cut(passage.heading)
    heading_tokens = tuple(_tokens(heading.pieces, rules))
    return Item(
        passage.label,
        spaced(heading_tokens),
        item_kind(passage.label, tuple(token.normal for token in heading_tokens)),
        passage.lead + body.lead,
        tuple(_tokens(body.pieces, rules)),
        passage.place,
        body.asides,
        heading_tokens,
    )


def spaced(tokens: Sequence[Token]) -> str:
    """Return the expanded words as running text, blanks as in the source but single."""
    parts = ((token.expanded, any(c.isspace() for c in token.trail)) for token in tokens)
    return "".join(word + " " * blank for word, blank in parts).strip()


def _tokens(pieces: Sequence[Piece], rules: Rules) -> Iterator[Token]:
    line, count = None, 0
    for index, piece in enumerate(pieces):
        here = (piece.place.folio, piece.place.ms_line)
        line, count = here, count + 1 if here == line else 1
        yield _token(index, piece, count if here[1] is not None else None, rules)


def _token(index: int, piece: Piece, word_in_line: int | None, rules: Rules) -> Token:
    expanded = piece.text.replace(LOST, LACK)
    number = read_numeral(expanded) if piece.kind is TokenKind.NUMERAL else None
    return Token(
        index,
        piece.written,
        piece.trail,
        expanded,
        _normal(expanded, piece.kind, number.value if number else None, rules),
        piece.kind,
        piece.place,
        tuple(Marked(mark, start, stop) for mark, start, stop in piece.marks),
        number.value if number else None,
        word_in_line=word_in_line,
    )


def _normal(expanded: str, kind: TokenKind, value: float | None, rules: Rules) -> str:
    if value is not None:
        return f"{value:g}"
    return normalise(expanded, rules) if kind is TokenKind.WORD else expanded
