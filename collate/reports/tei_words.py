"""The words of one witness in, what TEI has to say of each out: its letters, and what stands at or in it."""

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from collate.model.extents import BRACKETED, Extent, extents
from collate.model.source import Place
from collate.model.transcript import Mark
from collate.model.witness import Aside, Token, TokenKind
from collate.reports.tei_names import Names
from collate.reports.tei_places import Break, Course

_LACKS = frozenset({Mark.ILLEGIBLE, Mark.LOST})
_POINTS = frozenset(".·")
_DOT_BELOW = "\u0323"


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter with what rides on it, and the marks over it; `at` is where it begins in its word.

    `lost` is how much a gap in its place stands for, None where that is not known.
    """

    text: str
    at: int
    marks: frozenset[Mark]
    lost: Extent | None = None

    @property
    def lacks(self) -> bool:
        """Whether there is a gap in its place."""
        return not _LACKS.isdisjoint(self.marks)


@dataclass(frozen=True, slots=True)
class Inset:
    """An element that stands before letter `at` of a word: a break, or what is beside the text.

    `within` says that it stands in the word: 0 letters of it may come before.
    """

    at: int
    tag: str
    attributes: tuple[tuple[str, str], ...]
    text: str = ""
    is_break: bool = False
    within: bool = False


@dataclass(frozen=True, slots=True)
class Written:
    """A word as one witness has it, with what stands before and inside it.

    `signs` are its letters with the abbreviations not written out, "" where that is not known to be
    so in the copy. `kind` is None where there is no word: at the end of an item. `apart` and
    `spaced` say whether a blank stands before and after. `boundary` is lacunaStart or lacunaEnd.
    `tight` says that a blank after it would make another word of what stands before; `closed` that a
    blank is written after it within its reading.
    """

    letters: tuple[Letter, ...] = ()
    signs: str = ""
    kind: TokenKind | None = None
    value: float | None = None
    apart: bool = True
    spaced: bool = True
    insets: tuple[Inset, ...] = ()
    boundary: str = ""
    tight: bool = False
    closed: bool = False

    @property
    def key(self) -> tuple[object, ...]:
        """What witnesses have in common that share one text: all but blanks, breaks and signs."""
        kept = tuple(inset for inset in self.insets if not inset.is_break)
        return self.letters, self.value, kept, self.boundary, self.tight

    @property
    def is_bare(self) -> bool:
        """Whether no mark stands over any of its letters."""
        return not any(letter.marks for letter in self.letters)

    @property
    def text(self) -> str:
        """Its letters, without their marks."""
        return "".join(letter.text for letter in self.letters)


@dataclass(frozen=True, slots=True)
class Scribe:
    """A witness on its course through the document; `bare` are the letters of words without marks."""

    siglum: str
    course: Course
    names: Names
    bare: dict[str, tuple[Letter, ...]] = field(default_factory=dict)

    def words(self, tokens: Sequence[Token], asides: Sequence[Aside] = ()) -> tuple[Written, ...]:
        """Return each word, and at the end what stands after the last, even if that is nothing."""
        there: dict[int, list[Aside]] = {}
        for aside in asides:
            there.setdefault(aside.at, []).append(aside)
        found = tuple(self._word(tokens, index, there) for index in range(len(tokens)))
        last = [aside for aside in asides if aside.at >= len(tokens) and aside.letter is None]
        insets = tuple(inset for aside in last for inset in self._beside(aside, 0))
        return (*found, Written(apart=_is_apart(tokens, len(tokens)), insets=insets))

    def _word(self, tokens: Sequence[Token], index: int, asides: Mapping[int, Sequence[Aside]]) -> Written:
        """Return the word of a token; `asides` are those of the item, by their places."""
        token, apart = tokens[index], _is_apart(tokens, index)
        before = [aside for aside in asides.get(index, ()) if aside.letter is None]
        unlined = [a for a in before if a.place.ms_line is None and token.place.ms_line is not None]
        insets = [inset for a in before if a not in unlined for inset in self._beside(a, 0, apart=apart)]
        insets.extend(self._move(token.place, 0, apart=apart))
        insets.extend(_inset(aside, 0, self) for aside in unlined)
        insets.extend(self._inside(token, asides.get(index + 1, ())))
        return Written(
            self._spelled(token),
            _signs(token),
            token.kind,
            token.value,
            apart,
            _is_apart(tokens, index + 1),
            tuple(insets),
            tight=_is_tight(tokens, index),
        )

    def _spelled(self, token: Token) -> tuple[Letter, ...]:
        """Return the letters of a word; without marks, those of its form."""
        if token.marks:
            return tuple(_letters(token))
        if token.expanded not in self.bare:
            self.bare[token.expanded] = tuple(_letters(token))
        return self.bare[token.expanded]

    def _inside(self, token: Token, asides: Sequence[Aside]) -> Iterator[Inset]:
        inside = {aside.letter for aside in asides if aside.letter is not None}
        for at in sorted(inside | {each.at for each in token.breaks}):
            waiting = [aside for aside in asides if aside.letter == at]
            for each in (each for each in token.breaks if each.at == at):
                before = [aside for aside in waiting if aside.place.folio != each.place.folio]
                yield from (_within(aside, at, self) for aside in before)
                waiting = [aside for aside in waiting if aside not in before]
                yield from self._move(each.place, at, apart=False)
            yield from (_within(aside, at, self) for aside in waiting)

    def _beside(self, aside: Aside, at: int, *, apart: bool = True) -> Iterator[Inset]:
        yield from (_break(each, at) for each in self.course.move(aside.place, apart=apart))
        yield _inset(aside, at, self)

    def _move(self, place: Place, at: int, *, apart: bool) -> Iterator[Inset]:
        yield from (_break(each, at) for each in self.course.move(place, apart=apart))
        if place.hand != self.course.hand:
            self.course.hand = place.hand
            yield Inset(at, "handShift", (("new", self.names.hand(self.siglum, place.hand)),))


def _is_apart(tokens: Sequence[Token], index: int) -> bool:
    """Say whether a blank stands before a word, or after the last."""
    if not 0 < index < len(tokens):
        return True
    trail = tokens[index - 1].trail
    return trail == " " or any(c.isspace() for c in trail)


def _is_tight(tokens: Sequence[Token], index: int) -> bool:
    """Say whether a point closes a numeral between points that is cut up because a letter follows it."""
    if (
        index < 2
        or index + 1 == len(tokens)
        or tokens[index].expanded not in _POINTS
        or any(_is_apart(tokens, at) for at in (index - 1, index, index + 1))
    ):
        return False
    before, number, _, following = (tokens[at] for at in range(index - 2, index + 2))
    return before.expanded in _POINTS and TokenKind.PUNCTUATION not in (number.kind, following.kind)


def _break(each: Break, at: int) -> Inset:
    return Inset(at, each.tag, each.attributes, is_break=True)


def _within(aside: Aside, at: int, scribe: Scribe) -> Inset:
    return replace(_inset(aside, at, scribe), within=True)


def _inset(aside: Aside, at: int, scribe: Scribe) -> Inset:
    if aside.mark is Mark.SPACE:
        return Inset(at, "space", _extent(aside.note))
    if aside.mark is Mark.MARGIN:
        hand = (("hand", scribe.names.hand(scribe.siglum, aside.note)),) if aside.note else ()
        return Inset(at, "add", (("place", "margin"), *hand), aside.text)
    if aside.mark is Mark.CATCHWORD:
        return Inset(at, "fw", (("type", "catch"),), aside.text)
    return Inset(at, "del", (), aside.text)


def _extent(said: str) -> tuple[tuple[str, str], ...]:
    """Return the attributes of a blank space: so many letters, or what is said of it."""
    if said.isdecimal() and said.isascii():
        return ("quantity", said), ("unit", "chars")
    return () if said == "?" else (("extent", said),)


def _letters(token: Token) -> Iterator[Letter]:
    """Yield the letters of a word, each with what rides on it."""
    marks = [
        frozenset(m.mark for m in token.marks if m.start <= at < m.stop) for at in range(len(token.expanded))
    ]
    sizes = _sizes(token, sum(Mark.LOST in each for each in marks))
    start = 0
    for at in range(1, len(token.expanded) + 1):
        if at == len(token.expanded) or not _rides(token.expanded[at]) or not _LACKS.isdisjoint(marks[start]):
            letter = Letter(token.expanded[start:at], start, marks[start])
            yield replace(letter, lost=next(sizes)) if Mark.LOST in letter.marks else letter
            start = at


def _rides(character: str) -> bool:
    return unicodedata.combining(character) != 0


def _sizes(token: Token, count: int) -> Iterator[Extent | None]:
    """Yield how much each gap in a word is said to stand for, None where nothing is said."""
    found = [extents(mark.group())[0] for mark in BRACKETED.finditer(token.written)]
    yield from found if len(found) == count else [None] * count


def _signs(token: Token) -> str:
    """Return the letters of the copy where the program has written them out, else ""."""
    typed = any(mark.mark is Mark.EXPANDED and not mark.reason for mark in token.marks)
    letters = unicodedata.normalize("NFD", token.letters).replace(_DOT_BELOW, "")
    signs = unicodedata.normalize("NFC", letters)
    return signs if signs != token.expanded and not typed else ""
