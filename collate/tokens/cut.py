"""Runs in, words out: the joined text is cut, and every cut remembers its raw text."""

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from collate.lexicon.numerals import read_numeral
from collate.model.source import Place
from collate.model.transcript import ASIDE, Mark, Part, Run
from collate.model.value import value
from collate.model.witness import Aside, TokenKind

LOST = "\ufffc"
_Span = tuple[int, int, TokenKind]
"""A word: its letters [start, stop) of the whole, and what it is."""

_LETTERED = frozenset({TokenKind.WORD, TokenKind.NUMERAL})

_MARKS = "\u0300-\u036f\u1ab0-\u1aff\u1dc0-\u1dff\u20d0-\u20ff\ufe20-\ufe2f"
_LETTER = rf"\w{_MARKS}⁊⹒&℞℥℈°{LOST}\ue000-\uf8ff\u00ad\u200b-\u200f\u2060\ufeff"
_ROMAN = "ivxlcdmjuIVXLCDMJU"
_WORD = re.compile(
    rf"""(?P<pointed>[.·][{_ROMAN}]+(?:\^?[a-zþ0-9{_MARKS}ªº°¹ᵃᶜᵈᵉʰⁱˡᵐⁿᵒʳˢᵗᵘˣ]*[{_ROMAN}]*)[.·](?![{_LETTER}]))
    | (?P<fraction>\d+[/⁄]\d+(?![{_LETTER}]))
    | (?P<word>[{_LETTER}][{_LETTER}^'’ʼ]*(?:[-‐‑⸗](?=[{_LETTER}])[{_LETTER}^'’ʼ]*)*)
    | (?P<section>[¶⸿])
    | (?P<points>(?:[^\s{_LETTER}¶⸿.·]|[.·](?![{_ROMAN}]+[.·]))+ | [.·])""",
    re.VERBOSE,
)


_QUOTES = frozenset("'’‘ʼ")
"""Signs about a word in quotation marks; one behind a word alone is an apostrophe."""

_A_LETTER = re.compile(rf"[{_LETTER}]")


@value
class Piece:
    """A word as cut: `text` its letters, `marks` over [start, stop) of them, `breaks` before some."""

    written: str
    trail: str
    text: str
    kind: TokenKind
    place: Place
    marks: tuple[tuple[Mark, int, int], ...]
    breaks: tuple[tuple[int, Place], ...] = ()


@dataclass(frozen=True, slots=True)
class Cut:
    """A passage cut: what stands before the first word, the words, and what is beside the text.

    The `letter` of an aside counts the letters of the word as cut.
    """

    lead: str
    pieces: tuple[Piece, ...]
    asides: tuple[Aside, ...]


@dataclass(frozen=True, slots=True)
class _Joined:
    """The runs laid end to end: the letters of the text and of each run, and where each begins."""

    runs: tuple[Run, ...]
    letters: str
    raw: str
    texts: tuple[str, ...]
    letter_starts: tuple[int, ...]
    raw_starts: tuple[int, ...]


def cut(runs: Sequence[Run]) -> Cut:
    """Cut runs into words. `lead`, every `written` and `trail`, joined, give the runs' raw text back."""
    joined = _join(runs)
    spans = list(_spans(joined.letters))
    held = list(_holders(joined, spans))
    edges = [_edges(joined, index, start, stop) for index, (start, stop, _) in zip(held, spans, strict=True)]
    ends = [*(begin for begin, _ in edges[1:]), len(joined.raw)][: len(edges)]
    pieces = tuple(
        _piece(joined, index, span, edge, after)
        for index, span, edge, after in zip(held, spans, edges, ends, strict=True)
    )
    lead = joined.raw[: edges[0][0]] if edges else joined.raw
    return Cut(lead, pieces, tuple(_asides(joined, spans)))


def letters(run: Run) -> str:
    """Return what a run adds to the text as the copy finally has it."""
    return "" if run.part in (Part.OPEN, Part.CLOSE) or not ASIDE.isdisjoint(run.marks) else run.text


def _join(runs: Sequence[Run]) -> _Joined:
    texts = [letters(run) for run in runs]
    letter_starts, raw_starts, at, raw_at = [], [], 0, 0
    for run, text in zip(runs, texts, strict=True):
        letter_starts.append(at)
        raw_starts.append(raw_at)
        at += len(text)
        raw_at += len(run.raw)
    raw = "".join(run.raw for run in runs)
    return _Joined(tuple(runs), "".join(texts), raw, tuple(texts), tuple(letter_starts), tuple(raw_starts))


def _spans(text: str) -> Iterator[_Span]:
    """Find the words of a text: (start, stop, kind) in order."""
    at = 0
    while match := _WORD.search(text, at):
        start, stop = match.span()
        found = match.group()
        if match.lastgroup == "pointed" and read_numeral(found) is None:
            stop = start + 1
            yield start, stop, TokenKind.PUNCTUATION
        else:
            if found[-1] in _QUOTES and text[start - 1 : start] in _QUOTES:
                found = found.rstrip("".join(_QUOTES)) or found
                stop = start + len(found)
            yield start, stop, _kind(match.lastgroup or "", found)
        at = stop


@lru_cache(maxsize=65536)
def _kind(group: str, found: str) -> TokenKind:
    if group in ("section", "points"):
        return TokenKind.PUNCTUATION
    if group in ("pointed", "fraction") or read_numeral(found) is not None:
        return TokenKind.NUMERAL
    return TokenKind.GAP if found.strip(LOST) == "" else TokenKind.WORD


def _holders(joined: _Joined, spans: Sequence[_Span]) -> Iterator[int]:
    """Yield for each word the index of the run that holds its first letter."""
    index, stop = -1, 0
    for start, _, _ in spans:
        while stop <= start:
            index += 1
            stop = joined.letter_starts[index] + len(joined.texts[index])
        yield index


def _last(joined: _Joined, first: int, stop: int) -> int:
    """Return the index of the run that holds the last letter of a word which begins in run `first`."""
    if stop <= joined.letter_starts[first] + len(joined.texts[first]):
        return first
    index = bisect_left(joined.letter_starts, stop) - 1
    while not joined.texts[index]:
        index -= 1
    return index


def _piece(joined: _Joined, index: int, span: _Span, edge: tuple[int, int], after: int) -> Piece:
    """Return a word that begins in run `index`, has the `edge` of the raw text, and a trail up to `after`."""
    start, stop, kind = span
    begin, end = edge
    run, offset = joined.runs[index], start - joined.letter_starts[index]
    many = offset + stop - start > len(run.text)
    return Piece(
        joined.raw[begin:end],
        joined.raw[end:after],
        joined.letters[start:stop],
        kind,
        _place(run.place, offset),
        _marks(joined, index, start, stop) if many or run.marks else (),
        tuple(_breaks(joined, index, start, stop)) if many else (),
    )


def _edges(joined: _Joined, first: int, start: int, stop: int) -> tuple[int, int]:
    """Return the raw span of a word, with the marks that open or close right at its edges."""
    runs, offset = joined.runs, start - joined.letter_starts[first]
    plain = len(runs[first].raw) == len(runs[first].text)
    if plain and 0 < offset < len(joined.texts[first]) - (stop - start):
        begin = joined.raw_starts[first] + offset
        return begin, begin + stop - start
    last = _last(joined, first, stop)
    begin = whole = joined.raw_starts[first]
    if plain:
        begin += offset
    whole_end = joined.raw_starts[last] + len(runs[last].raw)
    end = whole_end
    if len(runs[last].raw) == len(runs[last].text):
        end = joined.raw_starts[last] + stop - joined.letter_starts[last]
    if begin == whole:
        while first and runs[first - 1].part is Part.OPEN:
            first -= 1
            begin = joined.raw_starts[first]
    if end == whole_end and last + 1 < len(runs):
        end += sum(len(run.raw) for run in _closing(runs, last + 1))
    return begin, end


def _closing(runs: Sequence[Run], at: int) -> Iterator[Run]:
    """Yield the runs from `at`, right after a word, that belong to it: closing marks, letters struck out."""
    held: list[Run] = []
    for index in range(at, len(runs)):
        run = runs[index]
        if run.part is Part.CLOSE:
            yield from (*held, run)
            held = []
        elif run.marks and not ASIDE.isdisjoint(run.marks) and not any(map(str.isspace, run.raw)):
            held.append(run)
        else:
            return


def _place(place: Place, offset: int) -> Place:
    """Return the place so many letters after another in its line."""
    if not offset:
        return place
    return Place(place.source, place.line, place.column + offset, place.folio, place.ms_line, place.hand)


def _marks(joined: _Joined, index: int, start: int, stop: int) -> tuple[tuple[Mark, int, int], ...]:
    """Return the marks over the letters of a word that begins in run `index`."""
    marks: list[tuple[Mark, int, int]] = []
    while index < len(joined.runs) and joined.letter_starts[index] < stop:
        run = joined.runs[index]
        if run.marks and joined.texts[index]:
            begin = max(joined.letter_starts[index], start) - start
            end = min(joined.letter_starts[index] + len(run.text), stop) - start
            marks.extend((mark, begin, end) for mark in run.marks)
        index += 1
    return tuple(marks)


def _breaks(joined: _Joined, index: int, start: int, stop: int) -> Iterator[tuple[int, Place]]:
    """Yield each place that begins inside a word, with the letters of the word before it."""
    last = joined.runs[index].place
    for at in range(index + 1, bisect_left(joined.letter_starts, stop)):
        run = joined.runs[at]
        here = run.place
        if letters(run) and (here.folio, here.ms_line, here.hand) != (last.folio, last.ms_line, last.hand):
            yield joined.letter_starts[at] - start, here
            last = here


def _asides(joined: _Joined, spans: Sequence[_Span]) -> Iterator[Aside]:
    """Yield what stands beside the text, each with the index of the word it stands before."""
    starts = [start for start, _, _ in spans]
    for opened, group in _beside(joined):
        lettered = [index for index in group if _is_kept(joined.runs[index], opened)]
        text = " ".join("".join(joined.runs[index].text for index in lettered).split())
        if not text:
            continue
        first = next(index for index in lettered if joined.runs[index].text.strip())
        mark = next(mark for mark in opened.marks if mark in ASIDE)
        here = joined.letter_starts[first]
        at = bisect_left(starts, here)
        inside = at > 0 and here < spans[at - 1][1]
        if not inside and mark is Mark.DELETED and (touched := _touched(joined, spans, at, here, group)):
            at, inside = touched, True
        note = opened.note or text if mark is Mark.SPACE else opened.note
        place = joined.runs[first].place
        yield Aside(mark, text, at, place, note, here - starts[at - 1] if inside else None)


def _touched(joined: _Joined, spans: Sequence[_Span], at: int, here: int, group: Sequence[int]) -> int:
    """Return one more than the index of the word that letters struck out end or begin, 0 where none is.

    `at` is the index of the word after them, `here` the number of letters before them.
    """
    texts = [joined.runs[index].text for index in group if joined.runs[index].text]
    ends = at > 0 and here == spans[at - 1][1] and spans[at - 1][2] in _LETTERED
    if ends and _A_LETTER.match(texts[0]) and _is_close(joined, range(group[0] - 1, -1, -1)):
        return at
    begins = at < len(spans) and here == spans[at][0] and spans[at][2] in _LETTERED
    if (
        begins
        and _A_LETTER.match(texts[-1][-1])
        and _is_close(joined, range(group[-1] + 1, len(joined.runs)))
    ):
        return at + 1
    return 0


def _is_close(joined: _Joined, away: Iterable[int]) -> bool:
    """Say whether no blank stands aside between here and the next letter of the text, going `away`."""
    for index in away:
        if joined.texts[index]:
            return True
        if any(character.isspace() for character in joined.runs[index].text):
            return False
    return False


def _is_kept(run: Run, opened: Run) -> bool:
    """Say whether a run of an aside holds letters that count there: not those struck out in a note."""
    struck = Mark.DELETED in run.marks and Mark.DELETED not in opened.marks
    return run.part in (Part.TEXT, Part.GAP) and not struck


def _beside(joined: _Joined) -> Iterator[tuple[Run, list[int]]]:
    """Yield the runs from the opening of each mark of an aside to its end, with the run that opens it."""
    group: list[int] = []
    for index, run in enumerate(joined.runs):
        aside = bool(run.marks) and not ASIDE.isdisjoint(run.marks)
        if not aside and not group:
            continue
        if aside:
            group.append(index)
        closes = run.part is Part.CLOSE and ASIDE.isdisjoint(run.marks[:-1])
        if group and (closes or not aside):
            yield joined.runs[group[0]], group
            group = []
    if group:
        yield joined.runs[group[0]], group
