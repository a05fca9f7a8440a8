"""Transcripts in, witness texts out: cut, expanded, normalised, every word in its place."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from collate.errors import InputError
from collate.lexicon.context import STOP, all_narrowed
from collate.lexicon.items import item_key, item_kind
from collate.lexicon.languages import ENGLISH, languages
from collate.lexicon.numerals import figures, read_numeral
from collate.lexicon.spelling import LACK, Rules, fold, normalise, rules_in_force
from collate.lexicon.words import Lexicon, senses
from collate.model.edition import Practice
from collate.model.notice import Notice, Severity
from collate.model.transcript import Mark, Passage, Transcript
from collate.model.witness import Aside, Broken, Item, Marked, Token, TokenKind, WitnessText
from collate.settings import Normalising
from collate.tokens.cut import LOST, Cut, Piece, cut
from collate.tokens.expand import Evidence, Expansion, count_written_out, expand

_PLAIN = rules_in_force(off=frozenset(f"R{number}" for number in range(2, 16) if number != 3))
"""The rules for words that are not English: letters only, u and v, i and j."""


_EVERYWHERE = frozenset("⁊⹒&")
"""Signs that stand in every language and tell nothing of it."""


@dataclass(frozen=True, slots=True)
class _Cut:
    """A transcript with its items cut into pieces."""

    transcript: Transcript
    bodies: tuple[Cut, ...]
    headings: tuple[Cut, ...]

    def words(self, hand: str | None = None) -> list[str]:
        """Return the words as written, of one hand or of all."""
        return [
            piece.text
            for part in (*self.bodies, *self.headings)
            for piece in part.pieces
            if piece.kind is TokenKind.WORD
            and (hand is None or piece.place.hand == hand)
            and not (piece.marks and any(mark is Mark.EXPANDED for mark, _, _ in piece.marks))
        ]

    def otiose(self, hand: str = "1") -> tuple[str, ...]:
        """Return the strokes that are stated to mean nothing in a hand."""
        practices = {practice.hand: practice for practice in self.transcript.witness.practices}
        return practices.get(hand, practices.get("1", Practice())).otiose


@dataclass(frozen=True, slots=True)
class _Word:
    """What depends only on the letters of a word, its hand and its language.

    `seen` is the word as its neighbours are told by it, `heard` as it tells of a language.
    """

    expansion: Expansion
    seen: str
    heard: str
    expanded: str
    normal: str
    kind: TokenKind
    value: float | None
    letters: str
    open: bool


@dataclass(frozen=True, slots=True)
class _Reader:
    """All that turns the pieces of one witness into tokens; `known` keeps each distinct word read so far."""

    evidence: Mapping[str, Evidence]
    lexicon: Lexicon
    rules: Rules
    known: dict[tuple[str, TokenKind, str, str], _Word] = field(default_factory=dict)


def tokenise(
    transcripts: Sequence[Transcript], choice: Normalising, lexicon: Lexicon
) -> tuple[WitnessText, ...]:
    """Cut the transcripts of an edition into words.

    They are read together, since an abbreviation in one is expanded as others write the word.
    Raises InputError where two items of a witness have one number or name.
    """
    cuts = [_cut(transcript) for transcript in transcripts]
    counts = [count_written_out(each.words(), each.otiose()) for each in cuts]
    total: Counter[str] = sum(counts, Counter())
    rules = rules_in_force(choice.on, choice.off)
    return tuple(
        _text(each, _Reader(_evidence(each, own, total, lexicon), lexicon, rules))
        for each, own in zip(cuts, counts, strict=True)
    )


def _cut(transcript: Transcript) -> _Cut:
    for double in without_doubles(transcript)[1]:
        raise InputError(double.message, double.place)
    bodies = tuple(cut(passage.runs) for passage in transcript.passages)
    return _Cut(transcript, bodies, tuple(cut(passage.heading) for passage in transcript.passages))


def without_doubles(transcript: Transcript) -> tuple[Transcript, tuple[Notice, ...]]:
    """Return a transcript without the items whose number or name has stood before, each told."""
    seen: dict[str, Passage] = {}
    told = []
    for passage in transcript.passages:
        first = seen.setdefault(item_key(passage.label), passage)
        if first is not passage:
            said = (
                f"the item {passage.label!r} stands twice in this file, first as {first.label!r} at"
                f" line {first.place.line}: give one of them another number or name"
            )
            told.append(Notice("item-twice", said, passage.place, Severity.ERROR))
    return replace(transcript, passages=tuple(seen.values())), tuple(told)


def _evidence(each: _Cut, own: Counter[str], total: Counter[str], lexicon: Lexicon) -> dict[str, Evidence]:
    """Return what expansions are decided by, for each hand of a witness."""
    witness = each.transcript.witness
    practices = {practice.hand: practice for practice in witness.practices}
    hands = {piece.place.hand for part in (*each.bodies, *each.headings) for piece in part.pieces}
    others = total - own
    return {
        hand: Evidence(
            witness.siglum,
            practices.get(hand, practices.get("1", Practice())),
            count_written_out(each.words(hand), each.otiose(hand)) if len(hands) > 1 else own,
            others,
            lambda form: tuple(s.headword.identity for s in senses(form, lexicon) if not s.rule),
            lambda form: tuple(s.headword.identity for s in senses(form, lexicon)),
        )
        for hand in hands
    }


def _text(each: _Cut, reader: _Reader) -> WitnessText:
    items = tuple(
        _item(passage, body, heading, reader)
        for passage, body, heading in zip(each.transcript.passages, each.bodies, each.headings, strict=True)
    )
    empty = tuple(
        Notice("empty-item", f"item {item.label} has no words", item.place)
        for item in items
        if not item.tokens
    )
    return WitnessText(each.transcript.witness, items, each.transcript.notices + empty)


def _item(passage: Passage, body: Cut, heading: Cut, reader: _Reader) -> Item:
    heading_tokens = tuple(_tokens(heading.pieces, reader))
    tokens = tuple(_tokens(body.pieces, reader))
    return Item(
        passage.label,
        spaced(heading_tokens),
        item_kind(passage.label, tuple(token.normal for token in heading_tokens)),
        passage.lead + body.lead,
        tokens,
        passage.place,
        tuple(_aside(aside, body.pieces, tokens, reader) for aside in body.asides),
        heading_tokens,
        tuple(_aside(aside, heading.pieces, heading_tokens, reader) for aside in heading.asides),
    )


def _aside(aside: Aside, pieces: Sequence[Piece], tokens: Sequence[Token], reader: _Reader) -> Aside:
    """Return an aside whose `letter` counts the letters of the word written out."""
    if aside.letter is None:
        return aside
    offsets = _word(pieces[aside.at - 1], tokens[aside.at - 1].language, reader).expansion.offsets
    return replace(aside, letter=offsets[aside.letter])


def spaced(tokens: Sequence[Token]) -> str:
    """Return the expanded words as running text, blanks as in the source but single."""
    parts = ((token.expanded, any(c.isspace() for c in token.trail)) for token in tokens)
    return "".join(word + " " * blank for word, blank in parts).strip()


def _tokens(pieces: Sequence[Piece], reader: _Reader) -> Iterator[Token]:
    words = [_word(piece, ENGLISH, reader) for piece in pieces]
    tongues = languages([word.heard for word in words], reader.lexicon)
    headwords = all_narrowed([word.seen for word in words], reader.lexicon)
    line, count = None, 0
    for index, piece in enumerate(pieces):
        here = (piece.place.folio, piece.place.ms_line)
        line, count = here, count + 1 if here == line else 1
        language, found = tongues[index], headwords[index]
        word = words[index] if language == ENGLISH else _word(piece, language, reader)
        if piece.kind is not TokenKind.WORD or language != ENGLISH:
            found = ()
        yield _token(index, piece, word, language, found, count if here[1] is not None else None)


def _word(piece: Piece, language: str, reader: _Reader) -> _Word:
    """Read a word by its letters; each distinct one is read once."""
    key = (piece.text, piece.kind, piece.place.hand, language)
    word = reader.known.get(key)
    if word is None:
        word = reader.known[key] = _read(*key, reader)
    return word


def _read(written: str, kind: TokenKind, hand: str, language: str, reader: _Reader) -> _Word:
    expansion = Expansion(written, (), tuple(range(len(written) + 1)))
    if kind is TokenKind.WORD:
        expansion = expand(written, language, reader.evidence[hand])
    seen = expansion.text if kind is not TokenKind.PUNCTUATION else STOP
    text = expansion.text.replace(LOST, LACK)
    number = read_numeral(text) if kind is TokenKind.NUMERAL else None
    value = number.value if number else None
    kind = TokenKind.WORD if kind is TokenKind.NUMERAL and value is None else kind
    return _Word(
        expansion,
        seen,
        "" if written in _EVERYWHERE else seen,
        text,
        _normal(text, kind, value, language, reader.rules),
        kind,
        value,
        written.replace(LOST, LACK),
        expansion.open and language == ENGLISH,
    )


def _token(
    index: int,
    piece: Piece,
    word: _Word,
    language: str,
    headwords: tuple[str, ...],
    word_in_line: int | None,
) -> Token:
    expansion = word.expansion
    marked = piece.marks or expansion.spans or expansion.uncertain
    return Token(
        index,
        piece.written,
        piece.trail,
        word.expanded,
        word.normal,
        word.kind,
        piece.place,
        tuple(_marks(piece, expansion)) if marked else (),
        word.value,
        headwords,
        word_in_line,
        language,
        word.open,
        word.letters,
        tuple(Broken(expansion.offsets[at], place) for at, place in piece.breaks) if piece.breaks else (),
    )


def _marks(piece: Piece, expansion: Expansion) -> Iterator[Marked]:
    """Yield the marks over the letters of the expanded form."""
    for mark, start, stop in piece.marks:
        last = len(expansion.offsets) - 1
        yield Marked(mark, expansion.offsets[min(start, last)], expansion.offsets[min(stop, last)])
    for start, stop, reason in expansion.spans:
        yield Marked(Mark.EXPANDED, start, stop, reason)
    for at in expansion.uncertain:
        yield Marked(Mark.UNCERTAIN, at, at + 1)


def _normal(text: str, kind: TokenKind, value: float | None, language: str, rules: Rules) -> str:
    if value is not None:
        return figures(value)
    if kind is not TokenKind.WORD:
        return text
    return normalise(text, rules if language == ENGLISH else _PLAIN) or fold(text) or text
