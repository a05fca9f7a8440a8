"""An edition's words.tsv: bytes in, the editor's rulings out.

Columns, divided by tabs: ruling, form, other, note. The ruling is one of

    same        form and other are one word; the note is the reason
    apart       form and other are two words; the note is the reason
    headword    form belongs to the headword `other`, written "safroun (noun)"; the note is a gloss
    gloss       the headword `form` means `other`

A line that begins with # is a remark; a first line with the column names is passed over.
"""

import re
import unicodedata

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


def read_words(source: Source) -> UserWords:
    """Read a words.tsv; raise InputFaultsError with all its faults."""
    rulings: list[Ruling] = []
    readings: list[Reading] = []
    glosses: list[tuple[str, str]] = []
    faults: list[InputError] = []
    for number, line in enumerate(unicodedata.normalize("NFC", decode(source)).split("\n"), 1):
        fields = [field.strip() for field in line.rstrip("\r").split("\t")]
        if not any(fields) or fields[0].startswith("#") or fields[0].casefold() == "ruling":
            continue
        place = Place(source.name, number, 1)
        try:
            kind, form, other, note = _fields(fields, place)
            if kind in ("same", "apart"):
                rulings.append(Ruling(form, other, kind == "same", note))
            elif kind == "headword":
                readings.append(_reading(form, other, note, place))
            else:
                glosses.append((form, other))
        except InputError as fault:
            faults.append(fault)
    if faults:
        raise InputFaultsError(faults)
    return UserWords(tuple(rulings), tuple(readings), tuple(glosses))


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
