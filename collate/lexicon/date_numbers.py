"""Numbers in dates, in words or numerals, English, Latin or French: words in, numbers out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from collate.lexicon.date_words import Word, is_at, loose
from collate.lexicon.tables import compiled_list, table
from collate.lexicon.words import COLUMNS


@dataclass(frozen=True, slots=True)
class Atom:
    """A number as one word writes it; `oblique` is a Latin ordinal in -o or -a, which numbers no king.

    `alone` is False for a word that is a number only beside another (on, to, un).
    """

    value: int
    language: str = ""
    ordinal: bool = False
    oblique: bool = False
    alone: bool = True


@dataclass(frozen=True, slots=True)
class Number:
    """A number read up to the word `stop`; `low` is the least of its parts that still counts."""

    value: int
    stop: int
    low: int
    last: Atom

    @property
    def room(self) -> int:
        """What may still be added: less than the lowest decimal place that is filled."""
        place = 1
        while self.value % (place * 10) == 0:
            place *= 10
        return place


@cache
def _atoms() -> dict[str, tuple[Atom, ...]]:
    """Return what each word may write, English before Latin before French, from the compiled list."""
    found: dict[str, list[Atom]] = {}
    for line in compiled_list("number_words").splitlines():
        key, value, language, kinds = line.split("\t")
        ordinal, oblique, joined = (kind in kinds.split(",") for kind in ("ordinal", "oblique", "joined"))
        found.setdefault(key, []).append(Atom(int(value), language, ordinal, oblique, alone=not joined))
    return {key: tuple(atoms) for key, atoms in found.items()}


def number_words() -> str:
    """Return the list that the tables of numbers make: loose spelling, value, language, kinds."""
    lines = []
    for key, atom in (*_english(), *_latin_and_french()):
        kinds = (("ordinal", atom.ordinal), ("oblique", atom.oblique), ("joined", not atom.alone))
        named = ",".join(name for name, holds in kinds if holds)
        lines.append(f"{key}\t{atom.value}\t{atom.language}\t{named}\n")
    return "".join(dict.fromkeys(lines))


def _latin_and_french() -> Iterator[tuple[str, Atom]]:
    columns = ("value", "kind", "language", "case", "forms", "authority", "note")
    for value, kind, language, case, forms, _, _ in table("ordinals", *columns):
        oblique = language == "la" and case == "other"
        atom = Atom(int(value), language, kind == "ordinal", oblique, alone=case != "joined")
        yield from ((loose(form), atom) for form in forms.split(" "))


def _english() -> Iterator[tuple[str, Atom]]:
    """Yield the English numbers of the lexicon; a cardinal that is a function word is none alone."""
    functions = {loose(form) for row in table("function", *COLUMNS) for form in row[4].split(" ")}
    for row in table("numbers", *COLUMNS):
        features = dict(part.partition("=")[::2] for part in row[3].split(","))
        value, ordinal = features.get("value", ""), "ordinal" in features
        if row[1] != "numeral" or not value.isdigit():
            continue
        for form in row[4].split(" "):
            key = loose(form)
            yield key, Atom(int(value), "en", ordinal, alone=ordinal or key not in functions)


def atoms_at(words: Sequence[Word], at: int) -> tuple[Atom, ...]:
    """Return the numbers that one word may write, those of its own language first."""
    if not 0 <= at < len(words):
        return ()
    word = words[at]
    if word.value is not None:
        return () if word.value < 1 else (Atom(word.value),)
    return tuple(sorted(_atoms().get(word.key, ()), key=lambda atom: atom.language != word.language))


def value_of_word(form: str, language: str) -> int | None:
    """Return the number that a word of Latin or French writes; in English text the Latin one."""
    tongue = "la" if language == "en" else language
    return next((atom.value for atom in _atoms().get(loose(form), ()) if atom.language == tongue), None)


def atom_at(words: Sequence[Word], at: int) -> Atom | None:
    """Return the number that one word most likely writes, or None."""
    return next(iter(atoms_at(words, at)), None)


def numbers_at(words: Sequence[Word], at: int) -> tuple[Number, ...]:
    """Return the numbers that begin at a word, the longest first.

    "m cccc xxx" is 1430, but also 1400 and 1000 followed by something else: the caller chooses. A
    single roman letter counts where another part of a number follows it, or as m or a year's digits.
    """
    first = _first(words, at)
    if first is None:
        return ()
    found = [first]
    while (longer := _longer(words, found[-1])) is not None:
        found.append(longer)
    return tuple(number for number in reversed(found) if number.last.alone or len(found) > 1)


def _first(words: Sequence[Word], at: int) -> Number | None:
    atom = atom_at(words, at)
    if atom is None and at < len(words) and words[at].letters is not None:
        atom = Atom(words[at].letters or 0, alone=(words[at].letters or 0) >= 1000)
    if atom is None and at < len(words) and words[at].key == "a" and _scales(words, at + 1):
        return Number(1, at + 1, 1, Atom(1, "en", alone=False))
    return Number(atom.value, at + 1, atom.value, atom) if atom else None


def _scales(words: Sequence[Word], at: int) -> bool:
    atom = atom_at(words, at)
    return atom is not None and words[at].value is None and atom.value in (20, 100, 1000)


def _longer(words: Sequence[Word], number: Number) -> Number | None:
    """Return a number with its next part, or None where the next word is no part of it."""
    joined = is_at(words, number.stop, "and")
    at = number.stop + joined
    if at >= len(words) or any(word.broken for word in words[number.stop : at + 1]):
        return None
    if _in_figures(words[number.stop - 1]):
        return None
    atom = atom_at(words, at) or _letter(words[at], number)
    if atom is None:
        return None
    value = _combined(number, atom, joined=joined, written=words[at].value is not None)
    return None if value is None else Number(value, at + 1, atom.value, replace(atom, alone=True))


def _in_figures(word: Word) -> bool:
    """Say whether a number is written in arabic figures, which are whole as they stand."""
    return word.value is not None and word.written.strip(".·")[:1].isdecimal()


def _letter(word: Word, number: Number) -> Atom | None:
    return Atom(word.letters) if word.letters and number.room > word.letters else None


def _combined(number: Number, atom: Atom, *, joined: bool, written: bool) -> int | None:
    """Return the value of a number and one more part of it, or None where they make none.

    Foure hundred multiplies; hundred and foure adds; foure and twenty, quarto decimo add backwards.
    """
    scale = (not written and atom.value in (100, 1000)) or (atom.value == 20 and atom.language == "en")
    tail = number.value % {20: 100, 100: 1000}.get(atom.value, 10**6)
    if not written and scale and not joined and 0 < tail < 20 and not number.last.ordinal:
        return number.value - tail + tail * atom.value
    score = number.last.value == 20 and number.last.language == "en" and number.value > 20
    if atom.value < (20 if score else number.room):
        return number.value + atom.value
    backwards = joined or (number.last.language == atom.language == "la" and atom.value == 10)
    unit = number.value % 100
    if backwards and 0 < unit < 10 and 10 <= atom.value < 100 and atom.value % 10 == 0 and number.low < 10:
        return number.value + atom.value
    return None
