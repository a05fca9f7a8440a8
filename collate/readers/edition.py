"""An edition.toml: bytes in, an edition out; every fault told with its key and line."""

import difflib
import posixpath
import re
import tomllib
import unicodedata
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from collate.errors import InputError, InputFaultsError
from collate.model.dates import Bounds
from collate.model.edition import DateRange, Edition, FixedMatch, LineMode, Person, Practice, Witness
from collate.model.notice import CODES
from collate.model.source import Place, Source
from collate.readers.plain import decode

Value = object
Table = Mapping[str, Value]
Dater = Callable[[str, str], DateRange | None]
"""Reads a catalogue's phrase under a scheme; None where it is not understood."""

Edtf = Callable[[str], Bounds]
"""Reads a date in the Extended Date/Time Format; raises ValueError with one sentence where it is none."""

_TOP = ("title", "base", "date-scheme", "witness", "person", "normalise", "silence", "match")
_WITNESS = ("siglum", "name", "file", "date", "lines", "practice")
_MATCH = ("items", "reason", "apart")
_PERSON = ("name", "written", "office", "from", "to", "died", "authority")


@dataclass(slots=True)
class _Check:
    """Gathers faults while the fields are read; `text` serves to find a key's line."""

    source: Source
    text: str
    rules: tuple[str, ...]
    is_sign: Callable[[str], bool]
    faults: list[InputError] = field(default_factory=list)

    def fault(self, where: str, message: str, key: str = "") -> None:
        """Note a fault of `key` in the table `where` ("" for the top, "witness 2")."""
        said = f"{where}: {message}" if where else message
        self.faults.append(InputError(said, self.place(where, key)))

    def place(self, where: str, key: str) -> Place:
        """Return the line and column of a key, of its table where it is not found, or of neither."""
        line = self.line(where, key)
        if not line:
            return Place(self.source.name)
        text = self.text.split("\n")[line - 1]
        return Place(self.source.name, line, len(text) - len(text.lstrip()) + 1)

    def line(self, where: str, key: str) -> int:
        """Return the line of a key, of its table where it is not found, or 0."""
        lines = self.text.split("\n")
        name, _, number = where.partition(" ")
        starts = [n for n, line in enumerate(lines) if re.match(rf"\s*\[\[?\s*{re.escape(name)}\b", line)]
        start = starts[int(number or 1) - 1] if name and len(starts) >= int(number or 1) else 0
        for n in range(start, len(lines)):
            if key and re.match(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=", lines[n]):
                return n + 1
            if key and not name and re.match(rf"\s*\[\[?\s*{re.escape(key)}\s*\]", lines[n]):
                return n + 1
        return start + 1 if name and starts else 0


def read_edition(
    source: Source,
    date: Dater,
    edtf: Edtf,
    schemes: Sequence[str],
    rules: Sequence[str],
    is_sign: Callable[[str], bool],
) -> Edition:
    """Read an edition.toml. `schemes`, `rules` and `is_sign` say what names there are.

    Raises InputError for broken TOML and InputFaultsError for faults of its fields, all at once.
    """
    text = decode(source).removeprefix("\ufeff")
    try:
        top: Table = tomllib.loads(text)
    except RecursionError:
        raise InputError(
            "brackets stand too deep in one another here: take them out", Place(source.name)
        ) from None
    except tomllib.TOMLDecodeError as error:
        raise InputError(f"this is not TOML: {error}", _toml_place(source, str(error))) from None
    if not top:
        raise InputError(
            'this file states nothing: write title = "..." and a [[witness]] for each copy, with its siglum'
            " and file (`collate new FOLDER` makes an example)",
            Place(source.name),
        )
    check = _Check(source, text, tuple(rules), is_sign)
    edition = _edition(top, check, date, edtf, schemes)
    if check.faults:
        raise InputFaultsError(check.faults)
    return edition


def _toml_place(source: Source, message: str) -> Place:
    found = re.search(r"line (\d+), column (\d+)", message)
    if found is None:
        return Place(source.name, source.data.count(b"\n", 0, max(len(source.data) - 1, 0)) + 1)
    return Place(source.name, int(found[1]), int(found[2]))


def _edition(top: Table, check: _Check, date: Dater, edtf: Edtf, schemes: Sequence[str]) -> Edition:
    _known(top, _TOP, "", check)
    scheme = _word(top, "date-scheme", "", check, schemes[0])
    if scheme not in schemes:
        check.fault(
            "", f"date-scheme {scheme!r} is none: write {' or '.join(map(repr, schemes))}", "date-scheme"
        )
        scheme = schemes[0]
    witnesses = tuple(
        _witness(table, where, check, lambda stated: date(stated, scheme))
        for where, table in _tables(top, "witness", check)
    )
    if witnesses or "witness" not in top:
        _check_witnesses(witnesses, check)
    base = _word(top, "base", "", check, witnesses[0].siglum if witnesses else "")
    sigla = tuple(witness.siglum for witness in witnesses)
    if all(sigla) and witnesses and base and base not in sigla:
        check.fault("", f"base {base!r} is no witness here: write one of their sigla", "base")
    persons = tuple(_person(table, where, check, edtf) for where, table in _tables(top, "person", check))
    on, off = _switches(top, check)
    title = _word(top, "title", "", check)
    silenced = tuple(_silence(top, check, sigla))
    rulings = tuple(_match(table, where, check, sigla) for where, table in _tables(top, "match", check))
    return Edition(title, base, witnesses, persons, silenced, scheme, on, off, matches=rulings)


def _check_witnesses(witnesses: Sequence[Witness], check: _Check) -> None:
    if not witnesses:
        check.fault("", "there is no [[witness]]: write one for each copy, with siglum and file")
    for key, value_of in (
        ("siglum", lambda witness: witness.siglum),
        ("file", lambda witness: witness.file and posixpath.normpath(witness.file)),
    ):
        seen: dict[str, int] = {}
        for number, value in enumerate(map(value_of, witnesses), 1):
            if value and value in seen:
                said = f"{key} {value!r} is taken by witness {seen[value]}: choose another"
                check.fault(f"witness {number}", said, key)
            seen.setdefault(value, number)


def _known(table: Table, keys: Sequence[str], where: str, check: _Check) -> None:
    for key in table:
        if key not in keys:
            near = difflib.get_close_matches(key, keys, 1)
            hint = f"did you mean {near[0]!r}?" if near else f"the keys are {', '.join(keys)}"
            check.fault(where, f"there is no key {key!r} here: {hint}", key)


def _word(table: Table, key: str, where: str, check: _Check, default: str | None = None) -> str:
    """Return a string field; a missing one without default, an empty or another thing is a fault."""
    value = table.get(key)
    if value is None and default is not None:
        return default
    if value is None:
        check.fault(where, f'{key} is missing: write {key} = "..."')
    elif not isinstance(value, str):
        check.fault(where, f"{key} should be words between quotation marks", key)
    elif not value.strip():
        check.fault(where, f"{key} is empty: write something or take the line out", key)
    else:
        return value.strip() if key == "file" else " ".join(value.split())
    return default or ""


def _optional(table: Table, key: str, where: str, check: _Check) -> str | None:
    return _word(table, key, where, check) if key in table else None


def _words(table: Table, key: str, where: str, check: _Check) -> tuple[str, ...]:
    value = table.get(key, ())
    if isinstance(value, str):
        return (value,)
    if isinstance(value, list | tuple) and all(isinstance(entry, str) and entry.strip() for entry in value):
        return tuple(str(entry) for entry in value)
    check.fault(where, f'{key} should be a list of words: {key} = ["...", "..."]', key)
    return ()


def _tables(top: Table, key: str, check: _Check) -> Iterator[tuple[str, Table]]:
    value = top.get(key, [])
    if not isinstance(value, list) or not all(isinstance(entry, dict) for entry in value):
        check.fault("", f"write [[{key}]] with two brackets before each {key}", key)
        return
    for number, entry in enumerate(value, 1):
        yield f"{key} {number}", entry


def _witness(table: Table, where: str, check: _Check, date: Callable[[str], DateRange | None]) -> Witness:
    _known(table, _WITNESS, where, check)
    siglum = _word(table, "siglum", where, check)
    if "," in siglum or any(not c.isprintable() for c in siglum):
        check.fault(where, "a siglum has no comma and no control character in it", "siglum")
        siglum = ""
    if " " in siglum:
        near = siglum.replace(" ", "_")
        check.fault(
            where, f"the siglum {siglum!r} has a blank in it: write {near!r}, or a shorter one", "siglum"
        )
        siglum = ""
    stated = _optional(table, "date", where, check)
    hand = date(stated) if stated else None
    if stated and hand is None:
        check.fault(
            where,
            f"the date {stated!r} is not understood: write it as in 's. xv in.', 's. xv 3/4', 's. xiv/xv',"
            " 'c. 1420' or '1420 × 1440'",
            "date",
        )
    lines = _word(table, "lines", where, check, LineMode.FREE.value)
    if lines not in tuple(LineMode):
        check.fault(where, f"lines = {lines!r} is none: write 'manuscript' or 'free'", "lines")
        lines = LineMode.FREE
    return Witness(
        siglum,
        _word(table, "name", where, check, siglum),
        _word(table, "file", where, check),
        hand,
        LineMode(lines),
        tuple(_practices(table, where, check)),
        Place(check.source.name, check.line(where, "file")),
    )


def _practices(table: Table, where: str, check: _Check) -> Iterator[Practice]:
    """Yield the practice of the main hand, then of each other hand (practice.hand-2)."""
    practice = table.get("practice")
    if practice is None:
        return
    if not isinstance(practice, dict):
        check.fault(where, "practice is a table: write [witness.practice] and the signs under it", "practice")
        return
    main = {sign: value for sign, value in practice.items() if not sign.startswith("hand-")}
    yield _practice(main, "1", where, check)
    for name, value in practice.items():
        if name.startswith("hand-") and isinstance(value, dict):
            yield _practice(value, name.removeprefix("hand-"), where, check)
        elif name.startswith("hand-"):
            check.fault(where, f"{name} is a table: write [witness.practice.{name}]", name)


def _practice(table: Table, hand: str, where: str, check: _Check) -> Practice:
    pairs = []
    for sign, value in table.items():
        if sign == "otiose":
            continue
        if not check.is_sign(sign):
            check.fault(where, f"{sign!r} in the practice is no sign of docs/transcribing.md", sign)
        elif isinstance(value, str):
            pairs.append((unicodedata.normalize("NFC", sign.removeprefix("◌")), value))
        else:
            check.fault(where, f'the sign {sign!r} needs its expansion: "{sign}" = "..."', sign)
    otiose = tuple(unicodedata.normalize("NFC", s) for s in _words(table, "otiose", where, check))
    for sign in otiose:
        if not check.is_sign(sign):
            check.fault(where, f"{sign!r} among the otiose is no sign of docs/transcribing.md", "otiose")
    return Practice(tuple(pairs), tuple(sign.removeprefix("◌") for sign in otiose), hand)


def _person(table: Table, where: str, check: _Check, edtf: Edtf) -> Person:
    _known(table, _PERSON, where, check)
    person = Person(
        _word(table, "name", where, check),
        _words(table, "written", where, check),
        *(_optional(table, key, where, check) for key in ("office", "from", "to", "died", "authority")),
    )
    for key, forms in (("name", (person.name,)), ("written", person.written)):
        if any(form and not any(map(str.isalpha, form)) for form in forms):
            check.fault(where, f"a {key} without a letter is none: write it as the text has it", key)
    stated = {"from": person.held_from, "to": person.held_to, "died": person.died}
    dates = {key: _edtf(stated[key], key, where, check, edtf) for key in stated}
    for first, last, said in _ORDER:
        one, other = dates[first].not_before, dates[last].not_after
        if one is not None and other is not None and other < one:
            check.fault(
                where, f"{last} = {stated[last]!r} {said} {first} = {stated[first]!r}: mend one", last
            )
            break
    return person


_ORDER = (
    ("from", "died", "is a death before the office began,"),
    ("to", "died", "is a death before the office ended,"),
    ("from", "to", "is an end before the beginning,"),
)
"""Which date of a person may not lie before which, and what is said where it does."""


def _edtf(stated: str | None, key: str, where: str, check: _Check, edtf: Edtf) -> Bounds:
    """Return the bounds of a person's date; one that is no EDTF is a fault."""
    if not stated:
        return Bounds()
    try:
        return edtf(stated)
    except ValueError as error:
        check.fault(where, f"{key}: {error}", key)
        return Bounds()


def _match(table: Table, where: str, check: _Check, sigla: Sequence[str]) -> FixedMatch:
    """Read a ruling on items: which are one, or apart, and why."""
    _known(table, _MATCH, where, check)
    apart = table.get("apart", False)
    if not isinstance(apart, bool):
        check.fault(where, "apart is true or false, without quotation marks", "apart")
    named = table.get("items")
    items: list[tuple[str, str]] = []
    if isinstance(named, dict):
        for siglum, labels in named.items():
            if siglum not in sigla:
                check.fault(
                    where, f"there is no witness {siglum!r}: the sigla are {', '.join(sigla)}", "items"
                )
            items.extend((siglum, label) for label in _labels(labels, siglum, where, check))
    misspelt = named is None and not table.keys() <= {*_MATCH}
    if (not isinstance(named, dict) or len(named) < 2) and not misspelt:
        check.fault(
            where, 'items names an item of two witnesses or more: items = { A = "12", B = "9" }', "items"
        )
    place = check.place(where, "items")
    return FixedMatch(tuple(items), _word(table, "reason", where, check), place, apart=apart is True)


def _labels(value: Value, siglum: str, where: str, check: _Check) -> tuple[str, ...]:
    """Return the labels of one witness's items: one, or a list where several answer together."""
    labels = value if isinstance(value, list) else [value]
    named = [
        str(label).strip() for label in labels if isinstance(label, str | int) and not isinstance(label, bool)
    ]
    if not labels or len(named) < len(labels) or not all(named):
        said = f'{siglum} should be the number or name of an item: {siglum} = "12", or a list of them'
        check.fault(where, said, "items")
    return tuple(label for label in named if label)


def _switches(top: Table, check: _Check) -> tuple[tuple[str, ...], tuple[str, ...]]:
    table = top.get("normalise", {})
    if not isinstance(table, dict):
        said = "normalise is a table: write [normalise] and under it on = [...] or off = [...]"
        check.fault("", said, "normalise")
        return (), ()
    _known(table, ("on", "off"), "normalise", check)
    on, off = (_words(table, key, "normalise", check) for key in ("on", "off"))
    for key, names in (("on", on), ("off", off)):
        for name in names:
            if name not in check.rules:
                check.fault(
                    "normalise", f"there is no rule {name!r}: the rules are {', '.join(check.rules)}", key
                )
    for name in sorted(set(on) & set(off)):
        check.fault("normalise", f"rule {name!r} is both on and off: take it out of one", "off")
    return on, off


def _silence(top: Table, check: _Check, sigla: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield (code, reason): a silenced fault needs its reason."""
    table = top.get("silence", {})
    if not isinstance(table, dict):
        check.fault("", 'silence is a table: write [silence] and under it code = "the reason"', "silence")
        return
    for key in table:
        siglum, _, code = key.rpartition(" ")
        if siglum and siglum not in sigla:
            said = f"there is no witness {siglum!r}: the sigla are {', '.join(sigla)}"
            check.fault("silence", said, key)
        if code not in CODES:
            check.fault("silence", f"there is no code {code!r}: the codes are in docs/checks.md", key)
        yield key, _word(table, key, "silence", check)
