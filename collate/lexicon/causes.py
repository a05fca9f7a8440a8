"""How one word may have come of another in a scribe's eye: a second opinion, never a fact.

Two words are compared letter by letter, as written, with long s as s. Where one stretch of letters for
another makes the two the same, and the table of confusions has the pair, its row is a likely cause; of
consonants also where it makes the two the same but for spelling.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from collate.lexicon.distance import distance
from collate.lexicon.tables import table
from collate.lexicon.words import key_of

NEAR = 0.45
"""How far, in the alternations of spelling, a word may be from one that a misreading would give."""

FEWEST = 3
"""Of words with fewer letters than this, nothing is said: too many are one stroke apart."""

_VOWELS = frozenset("aeiouy")


@dataclass(frozen=True, slots=True)
class Cause:
    """A row of the table of confusions: `kind` (minim, long-s, shape, …), the two readings, why, by whom."""

    kind: str
    ours: str
    theirs: str
    note: str
    authority: str

    @property
    def name(self) -> str:
        """Return the pair as printed: "n/u"; an abbreviation written out is named as such."""
        return f"{self.ours or '–'}/{self.theirs or '–'}" if self.ours or self.theirs else self.kind

    @property
    def said(self) -> str:
        """Return the cause as a careful reason."""
        between = f"{self.name}, " if self.ours or self.theirs else ""
        return f"perhaps a misreading ({self.kind}): {between}{self.note} ({self.authority})"


EXPANSION = Cause(
    "expansion", "", "", "the words differ in what an abbreviation stands for", "common practice"
)


@cache
def _rows() -> tuple[Cause, ...]:
    found: dict[tuple[str, str, str], Cause] = {}
    for kind, a, b, both, _, note, authority in table(
        "confusions", "kind", "from", "to", "both_ways", "example", "note", "authority"
    ):
        for one, other in ((a, b), (b, a)) if both == "yes" else ((a, b),):
            row = Cause(kind, _letters(one), _letters(other), note, authority)
            if row.ours != row.theirs:
                found.setdefault(("number" if kind == "numeral" else "word", row.ours, row.theirs), row)
    return tuple(found.values())


def _letters(text: str) -> str:
    return "" if text == "-" else text.replace("ſ", "s")


@lru_cache(maxsize=65536)
def likely_cause(ours: str, theirs: str) -> Cause | None:
    """Return the likeliest cause by which one word became the other, or None.

    `ours` and `theirs` are small letters, abbreviations written out. A misreading that gives the very
    letters comes before one that gives them but for spelling; of several the first of the table.
    """
    a, b = _letters(ours), _letters(theirs)
    if a == b or min(len(a), len(b)) < FEWEST or len({*a} & {*b}) * 2 < min(len({*a}), len({*b})):
        return None
    for row, made in _readings(a):
        if made == b:
            return row
    wanted = key_of(b)
    if distance(key_of(a), wanted, NEAR).cost <= NEAR:
        return None
    return next((row for row, key in _of_consonants(a) if distance(key, wanted, NEAR).cost <= NEAR), None)


@lru_cache(maxsize=65536)
def _readings(word: str) -> tuple[tuple[Cause, str], ...]:
    """Return all that a word may be misread as, each with the row by which."""
    rows = [row for row in _rows() if row.kind != "numeral" and row.ours in word]
    return tuple([(row, made) for row in rows for made in _made(word, row)])


@lru_cache(maxsize=65536)
def _of_consonants(word: str) -> tuple[tuple[Cause, str], ...]:
    """Return the keys of what a word may be misread as by one consonant for another, each with the row."""
    loose = [(row, made) for row, made in _readings(word) if _VOWELS.isdisjoint(row.ours + row.theirs)]
    return tuple([(row, key_of(made)) for row, made in loose])


def likely_cause_of_number(ours: str, theirs: str) -> Cause | None:
    """Return the likeliest cause by which one roman number became another, or None.

    It names the two numbers whole, as they are written, not the stretch of the table's row.
    """
    written, read = (text.strip(".· ") for text in (ours, theirs))
    a, b = written.replace("j", "i"), read.replace("j", "i")
    for row in _rows():
        one, other = row.ours.replace("j", "i"), row.theirs.replace("j", "i")
        if row.kind == "numeral" and a != b and _replaced(a, one, other, b):
            return replace(row, ours=written, theirs=read)
    return None


def _replaced(a: str, one: str, other: str, b: str) -> bool:
    starts = range(len(a) - len(one) + 1)
    return any(a[at:].startswith(one) and a[:at] + other + a[at + len(one) :] == b for at in starts)


def _made(word: str, row: Cause) -> Iterator[str]:
    """Yield what the word becomes where the row is applied once."""
    for at in range(len(word) - len(row.ours) + 1):
        if not word.startswith(row.ours, at):
            continue
        if row.kind == "bar" and not (at and word[at - 1] in _VOWELS):
            continue
        yield word[:at] + row.theirs + word[at + len(row.ours) :]


def in_expansion(ours: str, theirs: str, marks: Sequence[tuple[int, int]]) -> bool:
    """Say whether two words differ only within letters of the first that an abbreviation stands for."""
    start = 0
    while start < min(len(ours), len(theirs)) and ours[start] == theirs[start]:
        start += 1
    end = 0
    while end < min(len(ours), len(theirs)) - start and ours[-1 - end] == theirs[-1 - end]:
        end += 1
    return any(first <= start and len(ours) - end <= stop for first, stop in marks) and ours != theirs
