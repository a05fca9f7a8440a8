"""What verbs and the small words of a clause are for: classes of verbs, subjects, openers of clauses."""

import re
from dataclasses import dataclass
from functools import cache

from collate.lexicon.tables import table
from collate.lexicon.words import key_of


@cache
def verb_classes() -> dict[str, frozenset[str]]:
    """Return the classes of each verb that has any: headword -> classes."""
    found: dict[str, set[str]] = {}
    for headword, kind, _, _ in _class_rows():
        if kind != "is":
            found.setdefault(headword, set()).add(kind)
    return {headword: frozenset(kinds) for headword, kinds in found.items()}


@cache
def contracted_verbs() -> dict[str, str]:
    """Return the verbs that are another verb with *ne* or *me* before it: nis -> ben."""
    return {headword: other for headword, kind, other, _ in _class_rows() if kind == "is"}


def _class_rows() -> tuple[tuple[str, ...], ...]:
    return table("verb_classes", "headword", "class", "note", "authority")


@cache
def verb_forms(reading: str) -> frozenset[str]:
    """Return the keys of the forms that a table gives one reading.

    `alike`: present or preterite, even of one person; `preterite`: that, though it may be spelled like
    an infinitive; `present`: that, though it has been a preterite plural too; `participle` and
    `adjective`: what a form is after *be*.
    """
    rows = table("verb_forms", "form", "reading", "note", "authority")
    return frozenset(key_of(form) for form, told, _, _ in rows if told == reading)


@cache
def unlisted_endings() -> tuple[tuple[re.Pattern[str], tuple[str, ...]], ...]:
    """Return the endings an unknown word may have as a verb, and what each makes it: the first counts."""
    rows = table("unlisted_endings", "pattern", "features", "authority")
    return tuple((re.compile(pattern), tuple(features.split(","))) for pattern, features, _ in rows)


@dataclass(frozen=True, slots=True)
class ClauseWord:
    """What a small word does in a clause: its role, and what more is to be said of it."""

    role: str
    details: frozenset[str]


@cache
def clause_words() -> dict[str, ClauseWord]:
    """Return the role of each small word in a clause by its identity, "he (pronoun)"."""
    return {
        f"{headword} ({word_class})": ClauseWord(role, frozenset(detail.split()))
        for headword, word_class, role, detail, _ in _clause_rows()
        if role not in _NOUNS
    }


@cache
def authorities() -> frozenset[str]:
    """Return the identities of those whose words are cited: Galien, the philosopher, the book."""
    return frozenset(f"{row[0]} ({row[1]})" for row in _clause_rows() if row[2] == "authority")


@cache
def texts() -> frozenset[str]:
    """Return the identities of nouns that name a text, or a part of one: the book, the prologue."""
    return frozenset(f"{row[0]} ({row[1]})" for row in _clause_rows() if row[2] == "text")


@cache
def writers() -> frozenset[str]:
    """Return the identities of those who make a text."""
    return frozenset(f"{row[0]} ({row[1]})" for row in _clause_rows() if row[2] == "writer")


_NOUNS = frozenset({"authority", "text", "writer"})


def _clause_rows() -> tuple[tuple[str, ...], ...]:
    return table("clause_words", "headword", "class", "role", "detail", "authority")
