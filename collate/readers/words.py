"""An edition's words.tsv: bytes in, the editor's rulings out.

Columns, divided by tabs: ruling, form, other, note. The ruling is one of

    same        form and other are one word; the note is the reason
    apart       form and other are two words; the note is the reason
    headword    form belongs to the headword `other`, written "safroun (noun)"; the note is a gloss
    gloss       the headword `form` means `other`

A line that begins with # is a remark; a first line with the column names is passed over. A form is one word;
rulings that gainsay one another, and a gloss of what is no headword, are faults.
"""

import re
import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from collate.errors import InputError, InputFaultsError
from collate.model.source import Place, Source
from collate.model.words import Reading, Ruling, UserWords
from collate.readers.plain import decode

_HEADWORD = re.compile(r"(.+?)\s*\(([a-z]+)\)")
_RULINGS = ("same", "apart", "headword", "gloss")
_CLASSES = frozenset(
    {
        *("noun", "verb", "adjective", "adverb", "pronoun", "preposition", "conjunction"),
        *("determiner", "numeral", "interjection", "name", "particle"),
    }
)


@dataclass(slots=True)
class _Ruled:
    """What has been ruled so far: the rulings on pairs of keys with their lines, and the rows to keep."""

    key: Callable[[str], str]
    pairs: dict[tuple[str, ...], tuple[str, int]] = field(default_factory=dict)
    rulings: list[Ruling] = field(default_factory=list)
    readings: list[Reading] = field(default_factory=list)
    glosses: list[tuple[str, str, Place]] = field(default_factory=list)

    def take(self, fields: list[str], place: Place) -> None:
        """Take one row; raise InputError where it is wrong or gainsays another."""
        kind, form, other, note = _fields(fields, place)
        if kind == "gloss":
            self.glosses.append((form, other, place))
            return
        for word in (form,) if kind == "headword" else (form, other):
            _one_word(word, place)
        if kind == "headword":
            self.readings.append(_reading(form, other, note, place))
            return
        self._pair(kind, form, other, place)
        self.rulings.append(Ruling(form, other, kind == "same", note))

    def _pair(self, kind: str, form: str, other: str, place: Place) -> None:
        pair = tuple(sorted((self.key(form), self.key(other))))
        if pair[0] == pair[1] and (kind == "apart" or form == other):
            raise InputError(f"{form!r} and {other!r} are one form: there is nothing to rule on them", place)
        ruled, line = self.pairs.setdefault(pair, (kind, place.line))
        if ruled != kind:
            raise InputError(
                f"{form!r} and {other!r} are ruled {ruled!r} in line {line} and {kind!r} here: take one out",
                place,
            )


def read_words(source: Source, key: Callable[[str], str], is_headword: Callable[[str], bool]) -> UserWords:
    """Read a words.tsv; raise InputFaultsError with all its faults.

    `key` gives what spellings have in common that no ruling can tell apart; `is_headword` says whether the
    lexicon has a headword.
    """
    ruled = _Ruled(key)
    faults: list[InputError] = []
    for number, line in enumerate(unicodedata.normalize("NFC", decode(source)).split("\n"), 1):
        fields = [field.strip() for field in line.rstrip("\r").split("\t")]
        if not any(fields) or fields[0].startswith("#") or fields[0].casefold() == "ruling":
            continue
        place = Place(source.name, number, 1)
        try:
            ruled.take(fields, place)
        except InputError as fault:
            faults.append(fault)
    faults.extend(_unglossed(ruled, is_headword))
    if faults:
        raise InputFaultsError(faults)
    glosses = tuple((form, meaning) for form, meaning, _ in ruled.glosses)
    return UserWords(tuple(ruled.rulings), tuple(ruled.readings), glosses)


def _one_word(form: str, place: Place) -> None:
    if len(form.split()) > 1:
        raise InputError(
            f"{form!r} is more than one word, and rulings are on one: write each in a row of its own, or"
            " leave the row out where words are only divided otherwise",
            place,
        )


def _unglossed(ruled: _Ruled, is_headword: Callable[[str], bool]) -> Iterator[InputError]:
    """Yield the faults of glosses on what is no headword of the lexicon nor of this file."""
    own = {
        name for each in ruled.readings for name in (each.headword, f"{each.headword} ({each.word_class})")
    }
    for headword, _, place in ruled.glosses:
        if headword not in own and not is_headword(headword):
            yield InputError(
                f"there is no headword {headword!r} to gloss: `collate word FORM` shows the headword of a"
                " form, and a row 'headword' makes a new one",
                place,
            )


def _fields(fields: list[str], place: Place) -> tuple[str, str, str, str]:
    if fields[0] not in _RULINGS:
        raise InputError(f"{fields[0]!r} is no ruling: write {', '.join(_RULINGS)}", place)
    if not 3 <= len(fields) <= 4 or not fields[1] or not fields[2]:
        raise InputError("a ruling has a form, another word and perhaps a note, divided by tabs", place)
    if fields[0] in ("same", "apart") and (len(fields) < 4 or not fields[3]):
        raise InputError(f"{fields[0]!r} needs its reason in the fourth column", place)
    return fields[0], fields[1], fields[2], fields[3] if len(fields) == 4 else ""


def _reading(form: str, other: str, note: str, place: Place) -> Reading:
    found = _HEADWORD.fullmatch(other)
    if found is None or found[2] not in _CLASSES:
        raise InputError(f"write the headword with its class, as in 'safroun (noun)', not {other!r}", place)
    return Reading(form, found[1], found[2], note)
