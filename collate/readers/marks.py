"""Text with editorial marks in, runs out: the notation of docs/transcribing.md."""

import re
from dataclasses import dataclass, replace

from collate.errors import InputError
from collate.model.edition import LineMode
from collate.model.source import Place
from collate.model.transcript import ASIDE, Mark, Part, Run

LOST = "\ufffc"
"""The letter that stands in a run's text for each letter lost or illegible, and for a whole gap."""

_BRACKETS = {
    "(": Mark.EXPANDED,
    "<": Mark.ADDED,
    "{": Mark.SURPLUS,
    "[": Mark.SUPPLIED,
    "[[": Mark.DELETED,
    "`": Mark.INSERTED,
}
_CLOSERS = {")": "(", ">": "<", "}": "{", "]": "[", "]]": "[[", "´": "`"}
_NAMED = {
    "above": Mark.INSERTED,
    "rubric": Mark.RUBRIC,
    "initial": Mark.INITIAL,
    "margin": Mark.MARGIN,
    "catchword": Mark.CATCHWORD,
    "space": Mark.SPACE,
    "hand": None,
}
_BY_HAND = frozenset({Mark.INSERTED, Mark.RUBRIC, Mark.INITIAL})
"""Marks of the text that may name the hand that wrote what is under them (`@above:2{...}`)."""

_OFF_LINE = ASIDE - {Mark.DELETED}
"""Marks whose letters stand in no line of the text; what is struck out stands in one."""

_SPECIAL = re.compile(
    r"""(?P<escape>\\.)
    | (?P<gap>\[(?:\.{2,}|…+|-{2,}|\.0*[1-9]\d*(?:\.?|[ ]*(?i:letters?|words?|lines?)\.?))\])
    | (?P<nogap>(?<!\[)\[(?=[^\]\n]*\.[^\]\n]*[.\d?]|[^\]\n.]*[…?]|\s*-[\s-]*-)[\s.…?\-\d]+\])
    | (?P<page>\|\s*(?:ff?|fols?|pp?)\.?\s*\d{1,6}\s*(?:[rv]\s*[ab]?)?\s*\|)
    | (?P<mistyped>\|(?!\s*ll?\.?\s*\d{1,6}\s*\|)[ \t]*(?:
        (?i:ff?|fo\.|fols?|folios?|pp?|pag|pages?|ll?|lines?)(?:\.[ \t]*|[ \t]+|(?=[\d²³¹⁰-⁹₀-₉]))
            [^\s|\w]?\w{0,9}[\d²³¹⁰-⁹₀-₉][^\s|]*(?:[ \t]*(?:recto|verso|[rvab]{1,2}|col\S*)){0,2}[ \t]*\|
        | (?i:ff?\.|fo\.|fols?\.?|folios?|pp?\.|pag\.)[ \t]*(?i:[ivxlcdmj]+)[ \t]*
            (?:recto|verso|[rv]?[ \t]*[ab]?)[ \t]*\|
        | (?:ff?|fols?)\.?[ \t]*\d{1,6}[ \t]*[rv][ab]?(?![\w|])(?![ \t]*\|)
        | (?:ff?|fols?|pp?|ll?)\.[ \t]*(?:[ivxlcdmj]?\|))
        | (?<=\|)[ \t]*(?:ff?|fols?|pp?|ll?)\.?[ \t]*\d{1,6}[ \t]*(?:[rv][ \t]*[ab]?)?[ \t]*\|)
    | (?P<line>\|(?:\s*ll?\.?\s*\d{1,6}\s*\|)?)
    | (?P<broken>¬[ \t]*\r?\n?)
    | @(?P<named>[A-Za-z]+)(?::(?P<note>[^{}\s]*))?\{
    | (?P<bare>(?<!\w)@[A-Za-z]+)
    | (?P<open>\[\[|[(<{\[`])
    | (?P<close>\]\]|[)>}\]´])
    | (?P<illegible>\++)
    | (?P<remark>^\#[ \t][^\n]*\n?)
    | (?P<newline>\n)""",
    re.VERBOSE | re.MULTILINE,
)
_BEGINNING = re.compile(r"[\\\[|¬@(<{`)>}\]´+#\n]")
"""The signs with which what is special begins (but for a page's number right after a bar)."""

_MISTYPED = (
    "this looks like a page mark or a line's number and is none: write |f. 7v|, |f. 7va|, |p. 12| or |l. 12|,"
    " between two bars, the number in one to six plain figures; if it is no mark put a backslash before"
    " the bar"
)
_MISNAMED = (
    "@hand{2} says by a number or one word which hand begins here: put the words it wrote after it, not in it"
)
_NO_GAP = (
    "this looks like a gap and is none: write [...] where it is not known how much is lost, [.6.] for about"
    " six letters, with no blanks, or [.3 words.] or [.2 lines.]; if it is no gap put a backslash before the"
    " bracket"
)
_BARE = (
    "a mark that begins with @ has its words in braces, right after its name, as in @margin{nota}: set them;"
    " if it is no mark put a backslash before the @"
)
_NO_SPACE = (
    "a blank space holds a number of letters from 1, as in @space{7}, or a word or two on how long it is:"
    " write one of these"
)
_TOLD = {"mistyped": _MISTYPED, "nogap": _NO_GAP, "bare": _BARE}
_NO_LENGTH = re.compile(r"0*|[-−–+].*", re.DOTALL)
_PAGE = re.compile(r"([fp])\D*(\d+)\s*([rv]?)\s*([ab]?)")


@dataclass(slots=True)
class _Open:
    """A mark that waits for its end, with the hand that wrote before it."""

    closer: str
    mark: Mark | None
    place: Place
    note: str
    hand: str


class Scanner:
    """Cuts the lines of one witness into runs, remembering page, line and hand between items.

    `shifts` maps a line number to (column of a sign, letters its typed key has more), so that places
    name columns of the file as typed.
    """

    def __init__(
        self,
        source: str,
        mode: LineMode,
        *,
        counts_lines: bool,
        shifts: dict[int, list[tuple[int, int]]],
    ) -> None:
        self._source = source
        self._mode = mode
        self._counts_lines = counts_lines
        self._shifts = shifts
        self._folio: str | None = None
        self._ms_line = 0
        self._fresh = True
        self._joining = False
        self._hand = "1"
        self._line = 1
        self._line_start = 0
        self._runs: list[Run] = []
        self._stack: list[_Open] = []

    def scan(self, text: str, line: int, column: int = 1) -> tuple[Run, ...]:
        """Return the runs of `text`, which begins at `line` and `column` of its file.

        Raises InputError for a mark that is not closed, closes nothing, or is unknown.
        """
        self._hand = self._stack[0].hand if self._stack else self._hand  # an item before was not sound
        self._runs, self._stack, self._joining = [], [], False
        self._line, self._line_start = line, 1 - column
        position = 0
        while match := _special(text, position):
            if match.start() > position:
                self._text(text[position : match.start()], position)
            position = self._special(match)
        if position < len(text):
            self._text(text[position:], position)
        if self._stack:
            top = self._stack[-1]
            raise InputError(
                f"the mark that opens here is never closed: put {top.closer!r} where it ends,"
                " or a backslash before it if it is no mark",
                top.place,
            )
        return tuple(self._runs)

    def end_line(self) -> None:
        """Let the next letters begin a new line of the manuscript, if text lines are such lines."""
        self._fresh = self._fresh or self._mode is LineMode.MANUSCRIPT

    def place(self, offset: int) -> Place:
        """Return the place of `offset` in the text under the scanner."""
        column = settled = offset - self._line_start + 1
        if shifts := self._shifts.get(self._line):
            column += sum(extra for at, extra in shifts if at < settled)
        ms_line = self._ms_line if self._counts_lines and self._ms_line else None
        return Place(self._source, self._line, column, self._folio, ms_line, self._hand)

    def _marks(self) -> tuple[Mark, ...]:
        return tuple([entry.mark for entry in self._stack if entry.mark is not None])

    def _note(self) -> str:
        return next((entry.note for entry in reversed(self._stack) if entry.note), "")

    def _emit(self, raw: str, text: str, offset: int, part: Part = Part.TEXT) -> None:
        marks, note = (self._marks(), self._note()) if self._stack else ((), "")
        self._runs.append(Run(raw, text, self.place(offset), marks, part, note))

    def _text(self, raw: str, offset: int) -> None:
        if self._joining and raw[0] in " \t":
            blank = len(raw) - len(raw.lstrip(" \t"))
            self._emit(raw[:blank], "", offset, Part.BREAK)
            raw, offset = raw[blank:], offset + blank
        self._joining = self._joining and not raw
        if not raw:
            return
        if self._fresh and not raw.isspace() and self._stands_in_line():
            self._ms_line += 1
            self._fresh = False
        start = 0
        for at, _ in self._shifts.get(self._line, ()):
            stop = at + self._line_start - offset  # a run ends after each sign that was typed by a key
            if start < stop < len(raw):
                self._emit(raw[start:stop], raw[start:stop], offset + start)
                start = stop
        self._emit(raw[start:], raw[start:], offset + start)

    def _stands_in_line(self) -> bool:
        """Say whether letters here stand in a manuscript line: those of a note, or a hand's name, do not."""
        names_hand = bool(self._stack) and self._stack[-1].mark is None
        return not names_hand and _OFF_LINE.isdisjoint(self._marks())

    def _special(self, match: re.Match[str]) -> int:
        """Act on one special stretch and return the offset up to which it was used."""
        kind = match.lastgroup if match.lastgroup != "note" else "named"
        offset = match.start()
        raw = match.group()
        if kind == "newline":
            self._newline(raw, offset)
        elif kind == "escape":
            self._escape(raw, offset)
        elif kind == "page":
            self._page(raw, offset)
        elif kind == "line":
            self._new_line(raw, offset)
        elif kind in _TOLD:
            raise InputError(_TOLD[kind], self.place(offset))
        elif kind in ("broken", "remark"):
            self._skip(raw, offset, fresh=kind == "broken")
        elif kind == "gap":
            self._lost(raw, LOST, offset, Mark.LOST, Part.GAP)
        elif kind == "illegible":
            self._lost(raw, LOST * len(raw), offset, Mark.ILLEGIBLE, Part.TEXT)
        elif kind == "close":
            return self._close(raw, offset)
        else:
            self._open(match, offset)
        return match.end()

    def _newline(self, raw: str, offset: int) -> None:
        self._emit(raw, raw, offset)
        self._line += 1
        self._line_start = offset + len(raw)
        if self._mode is LineMode.MANUSCRIPT:
            self._fresh = True

    def _escape(self, raw: str, offset: int) -> None:
        if raw[1] == "\n":
            self._newline(raw, offset)
        else:
            self._text(raw, offset)
            self._runs[-1] = replace(self._runs[-1], text=raw[1])

    def _new_line(self, raw: str, offset: int) -> None:
        """Begin a manuscript line: a bar, or |l. 12| with the line's own number."""
        self._emit(raw, "", offset, Part.BREAK)
        number = "".join(character for character in raw if character.isdigit())
        if number:
            self._ms_line = int(number) - 1
        self._fresh = True

    def _page(self, raw: str, offset: int) -> None:
        found = _PAGE.search(raw)
        assert found is not None
        letter, number, side, column = found.groups()
        self._folio = f"p. {number}" if letter == "p" else f"{number}{side}{column}"
        self._ms_line, self._fresh = 0, True
        self._emit(raw, "", offset, Part.BREAK)

    def _skip(self, raw: str, offset: int, *, fresh: bool) -> None:
        """Pass over a line end that breaks a word, or over a transcriber's remark."""
        self._emit(raw, "", offset, Part.BREAK)
        if raw.endswith("\n"):
            self._line += 1
            self._line_start = offset + len(raw)
        self._fresh = self._fresh or fresh
        self._joining = self._joining or fresh

    def _lost(self, raw: str, text: str, offset: int, mark: Mark, part: Part) -> None:
        self._text(raw, offset)
        run = self._runs[-1]
        self._runs[-1] = replace(run, text=text, marks=(*run.marks, mark), part=part)

    def _open(self, match: re.Match[str], offset: int) -> None:
        raw = match.group()
        name = match.group("named")
        if name == "hand" and match.group("note") is not None:
            raise InputError(_MISNAMED, self.place(offset))
        if name is not None and name not in _NAMED:
            known = ", ".join(f"@{known}" for known in sorted(_NAMED))
            raise InputError(
                f"there is no mark @{name}: the marks are {known}; put a backslash before"
                " the @ if it is no mark",
                self.place(offset),
            )
        mark = _NAMED[name] if name is not None else _BRACKETS[raw]
        closer = "}" if name is not None else next(c for c, o in _CLOSERS.items() if o == raw)
        note = match.group("note") or ""
        self._stack.append(_Open(closer, mark, self.place(offset), note, self._hand))
        self._emit(raw, "", offset, Part.OPEN)
        if mark in _BY_HAND and note:
            self._hand = note

    def _close(self, raw: str, offset: int) -> int:
        if raw == "]]" and self._stack and self._stack[-1].closer == "]":
            raw = "]"
        if raw == "]" and self._stack and self._stack[-1].closer == "]]":
            raise InputError(
                "a deletion that opens with [[ closes with ]]: put the second bracket (of three, [[[, the"
                " first two open a deletion)",
                self.place(offset),
            )
        if not self._stack or self._stack[-1].closer != raw:
            raise InputError(self._wrong_closer(raw), self.place(offset))
        self._emit(raw, "", offset, Part.CLOSE)
        entry = self._stack.pop()
        if entry.mark is None:
            self._change_hand()
        elif entry.mark is Mark.SPACE and _NO_LENGTH.fullmatch(self._within()):
            raise InputError(_NO_SPACE, entry.place)
        elif entry.mark in _BY_HAND and entry.note:
            self._hand = entry.hand
        return offset + len(raw)

    def _wrong_closer(self, raw: str) -> str:
        if not self._stack:
            return (
                f"{raw!r} closes a mark that was never opened: open it with {_CLOSERS[raw]!r},"
                " or put a backslash before it if it is no mark"
            )
        top = self._stack[-1]
        return (
            f"{raw!r} stands where {top.closer!r} should close the mark opened at line"
            f" {top.place.line} column {top.place.column}: marks nest, the inner one closes first"
        )

    def _opened(self) -> int:
        """Return the index of the run that opened the mark which has just been closed, if none is in it."""
        return max(i for i, run in enumerate(self._runs) if run.part is Part.OPEN)

    def _within(self) -> str:
        """Return what stands in the mark which has just been closed."""
        return "".join(run.raw for run in self._runs[self._opened() + 1 : -1]).strip()

    def _change_hand(self) -> None:
        """Read the argument of @hand{...}: its text run becomes a break, its hand the current one."""
        start, named = self._opened(), self._within()
        if len(named.split()) > 1:
            raise InputError(_MISNAMED, self._runs[start].place)
        self._hand = named or "1"
        self._runs[start:] = [replace(run, text="", part=Part.BREAK) for run in self._runs[start:]]


def _special(text: str, position: int) -> re.Match[str] | None:
    """Return the first special stretch from a position on."""
    match = _SPECIAL.match(text, position)
    while match is None and (begins := _BEGINNING.search(text, position)):
        match = _SPECIAL.match(text, begins.start())
        position = begins.end()
    return match


def has_line_marks(text: str) -> bool:
    """Say whether manuscript line ends are marked by bars in `text`."""
    return "|" in text and any(match.lastgroup == "line" for match in _SPECIAL.finditer(text))


def is_aside(run: Run) -> bool:
    """Say whether a run stands outside the text as the copy finally has it."""
    return not ASIDE.isdisjoint(run.marks)
