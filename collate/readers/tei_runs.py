"""What a transcription says, piece by piece, in; runs in the plain notation out."""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from collate.model.extents import Extent, Unit, typed
from collate.model.source import Place
from collate.model.transcript import ASIDE, Mark, Part, Run
from collate.readers.marks import LOST, is_aside
from collate.readers.tei_pages import Page
from collate.readers.tei_tokens import Sort

DOT_BELOW = "\u0323"
"""Stands after each uncertain letter."""

_SIGNS = {
    Mark.EXPANDED: ("(", ")"),
    Mark.ADDED: ("<", ">"),
    Mark.SURPLUS: ("{", "}"),
    Mark.SUPPLIED: ("[", "]"),
    Mark.DELETED: ("[[", "]]"),
    Mark.INSERTED: ("`", "´"),
}
_RAISED = dict(zip("abcdefghijklmnoprstuvwxyz", "ᵃᵇᶜᵈᵉᶠᵍʰⁱʲᵏˡᵐⁿᵒᵖʳˢᵗᵘᵛʷˣʸᶻ", strict=True))
_GUARDED = frozenset("()<>{}[]`´|¬+@#$\\")
_PIECES = re.compile(r"\w+|.", re.DOTALL)
_LIKE_PAGE = re.compile(r"(?:ff?|fols?|pp?|ll?)\d*[rv]?[ab]?")
_MOST = 40
"""The most illegible letters that are shown one by one."""


@dataclass(frozen=True, slots=True)
class _Opened:
    """A mark that waits for its end; a `silent` one was never written, one `parted` only after a hand.

    `hand` wrote before it.
    """

    mark: Mark
    closer: str
    note: str = ""
    silent: bool = False
    parted: bool = False
    hand: str = ""


@dataclass(slots=True)
class Writer:
    """Writes runs as the plain reader would make them, remembering page, line and hand.

    `counts` says whether manuscript lines are numbered. `line` is the line of the file. While
    `absent`, nothing is written. `dotted` and `raised` count the elements that make letters
    uncertain or raised. `ended` is what ended here and must not run into what follows. While
    `unlined`, nobody has said where lines begin, unless each has its break; `begins_line` says that a
    line break has just been.
    """

    source: str
    counts: bool
    line: int = 0
    absent: bool = False
    dotted: int = 0
    raised: int = 0
    runs: list[Run] = field(default_factory=list)
    page: Page = field(default_factory=Page)
    ended: Sort | None = None
    unlined: bool = False
    begins_line: bool = False
    _hand: str = "1"
    _ms_line: int = 0
    _fresh: bool = True
    _begun: bool = False
    _lined: bool = False
    _line_bound: bool = False
    _waiting: str = ""
    _glued: bool = False
    _cut: bool = False
    _open: list[_Opened] = field(default_factory=list)

    def place(self) -> Place:
        """Return the place reached."""
        known = self.counts and self._ms_line and (self._line_bound or not self.unlined)
        ms_line = self._ms_line if known else None
        return Place(self.source, self.line, 0, self.page.folio, ms_line, self._hand)

    def take(self) -> tuple[Run, ...]:
        """Return the runs written since the last call, and begin anew."""
        runs, self.runs = tuple(joined(self.runs)), []
        self._waiting, self._glued, self._cut, self.ended = "", False, False, None
        return runs

    def text(self, text: str) -> None:
        """Write letters that hold no XML white space."""
        if self.absent or not text:
            return
        text = unicodedata.normalize("NFC", text)
        if self.raised and all(letter in _RAISED for letter in text):
            text = "".join(_RAISED[letter] for letter in text)
        if self.dotted:
            text = dotted(text)
        if self._cut:
            self.gap()
        self._letters(text)
        place, marks = self.place(), self._marks()
        for piece in _PIECES.findall(text):
            raw = f"\\{piece}" if piece in _GUARDED or self._misread(piece) else piece
            if raw != piece and len(piece) > 1:
                self._put(Run(raw[:2], piece[0], place, marks, note=self._note()))
                raw = piece = piece[1:]
            self._put(Run(raw, piece, place, marks, note=self._note()))

    def blank(self) -> None:
        """Let a blank stand here, unless one stands already or a word goes on in the next line."""
        if not self.absent and not self._glued:
            self._waiting, self._cut = self._waiting or " ", False

    def end_word(self, sort: Sort) -> None:
        """Let what follows be another word, unless one goes on in the next line."""
        if not self.absent and not self._glued:
            self.ended = sort

    def begin_word(self) -> None:
        """Let what follows be another word than the letters right before it."""
        last = next((run.text[-1:] for run in reversed(self.runs) if run.part is not Part.CLOSE), "")
        if last.isalnum() or last == LOST:
            self.end_word(Sort.WORD)

    def go_on(self) -> None:
        """Let the word go on in what follows, blanks and line ends between or not."""
        self._glued = not self.absent

    def kept_blank(self) -> None:
        """Write a blank even beside another."""
        if not self.absent:
            self.ended = None
            self._flush()
            self._put(Run(" ", " ", self.place(), self._marks(), note=self._note()))

    def block(self) -> None:
        """Begin or end a paragraph or verse."""
        if self.absent or (self.runs and self.runs[-1].part is Part.OPEN):
            return
        self._glued, self._cut = False, False
        self._waiting = self._waiting or " "
        if not self._line_bound:
            self._waiting, self._fresh = "\n", True

    def end_heading(self) -> None:
        """Let what follows a heading begin a line, unless only line breaks tell where lines begin."""
        self._fresh = self._fresh or not self._line_bound

    def line_break(self, number: int | None, breaks: str | None) -> None:
        """Begin a manuscript line; `breaks` is "no" where a word goes on in it, None where none says."""
        if self.absent:
            return
        if not self._lined:
            self._lined, self._line_bound = True, not self._begun
        broken = self._is_broken(breaks)
        if broken:
            self._waiting, self.ended = "", None
            self._put(self._run("¬\n", "", Part.BREAK))
        else:
            self._waiting = "\n"
        self._glued, self._fresh, self.begins_line = broken, True, True
        if number is not None and number != self._ms_line + 1:
            self._flush()
            self._put(self._run(f"|l. {number}|", "", Part.BREAK))
            self._ms_line = number - 1

    def page_break(self, page: Page, breaks: str | None, *, column: bool = False) -> None:
        """Begin a page, or a `column` of the page begun."""
        if self.absent:
            return
        broken = self._is_broken(breaks)
        if column and self.runs and self.runs[-1].part is Part.BREAK and self.runs[-1].raw == self.page.raw:
            self.runs.pop()
        elif not broken:
            self._waiting = self._waiting or " "
        self._waiting, self.ended = ("", None) if broken else (self._waiting, self.ended)
        self._flush()
        self.page, self._ms_line, self._fresh, self._glued = page, 0, True, broken
        self._put(self._run(page.raw, "", Part.BREAK))

    def hand(self, name: str) -> None:
        """Change to another hand."""
        if self.absent:
            return
        self._flush()
        named = re.sub(r"[^\w.-]", "", name) or "1"
        for raw in ("@hand{", named, "}"):
            self.runs.append(self._run(raw, "", Part.BREAK))
        self._hand = named

    def gap(self, extent: Extent | None = None, *, illegible: bool = False) -> None:
        """Write a lost stretch, of so many letters, words or lines if that is known."""
        if self.absent:
            return
        self._letters()
        self._cut = False
        letters = extent.count if extent and extent.unit is Unit.LETTER else 0
        if letters and illegible and letters <= _MOST:
            run = self._run("+" * letters, LOST * letters, Part.TEXT)
            self._put(replace(run, marks=(*run.marks, Mark.ILLEGIBLE)))
        else:
            run = self._run(typed(extent), LOST, Part.GAP)
            self._put(replace(run, marks=(*run.marks, Mark.LOST)))

    def leave(self, *, apart: bool) -> None:
        """Write that the witness breaks off here; `apart` says that no word is cut.

        What is lost stands apart from a word that is cut, so that nothing after it counts as left out.
        """
        if not self.absent:
            written = (run for run in reversed(self.runs) if run.part is not Part.BREAK and not is_aside(run))
            last = next(written, None)
            if (
                not apart
                and not self._waiting
                and not self.ended
                and last is not None
                and not last.raw[-1:].isspace()
            ):
                self.gap()
            self.blank()
            self.gap()
        self.absent = True

    def enter(self, *, apart: bool) -> None:
        """Write that the witness is there from here; without `apart` a word right after it is cut."""
        if not self.absent:
            return
        self.absent = False
        if not self.runs or self.runs[-1].part is not Part.GAP:
            self.gap()
        self._glued, self._waiting, self._cut = False, " ", not apart

    def begin(self, mark: Mark, note: str = "") -> None:
        """Begin a mark; one that is open already is not written again."""
        if mark is Mark.INSERTED:
            note = "" if note == self._hand else re.sub(r"[^\w.-]", "", note)
        named = (f"@above:{note}{{", "}") if mark is Mark.INSERTED and note else _SIGNS.get(mark)
        opener, closer = named or (f"@{mark}:{note}{{" if note else f"@{mark}{{", "}")
        again = any(entry.mark is mark and entry.note == note and not entry.silent for entry in self._open)
        silent, parted = self.absent or again, False
        if not silent:
            self._flush()
            parted = self._sticks(opener)
            if parted:
                self._part()
        self._open.append(_Opened(mark, closer, note, silent, parted, self._hand))
        if not silent:
            self._put(self._run(opener, "", Part.OPEN))
            self._hand = note or self._hand if mark is Mark.INSERTED else self._hand

    def end(self) -> None:
        """End the mark begun last; one with nothing in it is not written at all."""
        entry = self._open[-1]
        if not entry.silent:
            if self.runs and self.runs[-1].part is Part.OPEN:
                del self.runs[-4 if entry.parted else -1 :]
            else:
                self._put(self._run(entry.closer, "", Part.CLOSE))
            self._hand = entry.hand if entry.mark is Mark.INSERTED and entry.note else self._hand
            if entry.mark in ASIDE and self._waiting == " ":
                self._waiting = ""
        self._open.pop()

    def _is_broken(self, breaks: str | None) -> bool:
        return breaks == "no" or (breaks is None and self._glued)

    def _letters(self, text: str = LOST) -> None:
        """Get ready for letters: write the blank that waits, count the line that begins."""
        self._flush()
        self._glued, self._begun, self.begins_line = False, True, False
        if self._fresh and not text.isspace():
            self._ms_line += 1
            self._fresh = False

    def _flush(self) -> None:
        waiting, self._waiting, self.ended = self._waiting or (" " if self.ended else ""), "", None
        if not waiting or not self.runs:
            return
        last = self.runs[-1]
        if last.raw == " " and waiting == "\n":
            self.runs.pop()
        elif last.raw[-1:] in (" ", "\n"):
            return
        self._put(self._run(waiting, waiting, Part.TEXT))

    def _run(self, raw: str, text: str, part: Part) -> Run:
        return Run(raw, text, self.place(), self._marks(), part, self._note())

    def _marks(self) -> tuple[Mark, ...]:
        return tuple(entry.mark for entry in self._open if not entry.silent)

    def _note(self) -> str:
        return next((entry.note for entry in reversed(self._open) if entry.note and not entry.silent), "")

    def _put(self, run: Run) -> None:
        if self._sticks(run.raw):
            self._part()
        self.runs.append(run)

    def _sticks(self, raw: str) -> bool:
        """Say whether a bracket would be read as one with the bracket before it."""
        if not self.runs:
            return False
        last = self.runs[-1]
        return (last.part, last.raw, raw[:1]) in ((Part.OPEN, "[", "["), (Part.CLOSE, "]", "]"))

    def _part(self) -> None:
        """Keep two brackets apart by naming the hand that writes anyway: nothing else is without meaning."""
        for raw in ("@hand{", self._hand, "}"):
            self.runs.append(self._run(raw, "", Part.BREAK))

    def _misread(self, piece: str) -> bool:
        """Say whether letters would be read as a gap, or as a page, after the mark before them."""
        last = next((run for run in reversed(self.runs) if run.raw != " "), None)
        if last is None:
            return False
        if last.part is Part.OPEN and last.raw == "[":
            return piece[0] in ".…-"
        if last.part is not Part.BREAK or last.raw[-1:] != "|":
            return False
        return piece[0] in "fpl" if last.raw == "|" else _LIKE_PAGE.fullmatch(piece) is not None


def dotted(text: str) -> str:
    """Return a text with a dot below each letter: that they are uncertain."""
    letters: list[str] = []
    for character in unicodedata.normalize("NFD", text):
        if unicodedata.combining(character) and letters:
            letters[-1] += character
        else:
            letters.append(character)
    shown = (each + DOT_BELOW if each[0].isalnum() and DOT_BELOW not in each else each for each in letters)
    return unicodedata.normalize("NFC", "".join(shown))


def joined(runs: Sequence[Run]) -> list[Run]:
    """Join the runs that the plain reader would read as one, or whose letters make one character."""
    done: list[Run] = []
    for run in runs:
        last = done[-1] if done else None
        if last is not None and _is_one(last, run):
            both = unicodedata.normalize("NFC", last.raw + run.raw)
            illegible = last.raw != last.text
            place = run.place if last.raw.isspace() else last.place
            done[-1] = replace(last, raw=both, text=LOST * len(both) if illegible else both, place=place)
        else:
            done.append(run)
    return done


def in_one_line(runs: Sequence[Run], *, bars: bool) -> tuple[Run, ...]:
    """Return runs that fit an item line: where a manuscript line ends stands a bar, if `bars` are wanted."""
    flat: list[Run] = []
    for run in runs:
        if bars and run.raw in ("\n", "¬\n") and not (flat and flat[-1].raw.startswith("|")):
            flat.append(replace(run, raw="|", text="", part=Part.BREAK))
        if run.raw != "¬\n":
            flat.append(replace(run, raw=" ", text=" ") if run.raw == "\n" else run)
    while flat and flat[-1].raw == " ":
        flat.pop()
    return tuple(flat)


def _is_one(first: Run, second: Run) -> bool:
    """Say whether two runs of text are one to the plain reader in a way that words show.

    Runs without marks stay apart, so that each word has a place of its own.
    """
    if (first.marks, first.note) != (second.marks, second.note) or "\n" in (first.raw, second.raw):
        return False
    if all(Mark.ILLEGIBLE in run.marks for run in (first, second)):
        return True
    if any(run.part is not Part.TEXT or run.raw != run.text for run in (first, second)):
        return False
    if not ASIDE.isdisjoint(first.marks) or unicodedata.combining(second.raw[0]):
        return True
    return bool(first.marks) and " " not in (first.raw, second.raw)
