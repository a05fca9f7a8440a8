"""Formulas about persons, dead, former or living: the words of a passage in, what is said of someone out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache

from collate.lexicon.patterns import Word, compiled, is_slot, matches
from collate.lexicon.tables import table
from collate.model.evidence import Certainty, Standing


class Use(StrEnum):
    """What is peculiar to a formula: it is told though it names nobody; it speaks of one in his office."""

    NONE = ""
    ALONE = "alone"
    OFFICE = "office"


@dataclass(frozen=True, slots=True)
class Formula:
    """One row of the formulas' table: what it makes of a person, how surely, and what may be said against."""

    number: str
    standing: Standing
    certainty: Certainty
    use: Use
    says: str
    against: str
    authority: str


@dataclass(frozen=True, slots=True)
class Wording:
    """One way in which a formula is worded; `person` says on which side its person stands."""

    formula: str
    language: str
    pattern: str
    person: str


@dataclass(frozen=True, slots=True)
class FormulaHit:
    """A formula in a passage: words [start, stop); `many` where it speaks of several persons."""

    formula: Formula
    start: int
    stop: int
    person: str
    many: bool


@dataclass(frozen=True, slots=True)
class FalseHit:
    """Words that look like a formula and are none, with the reason."""

    formula: str
    start: int
    stop: int
    reason: str


@cache
def formulas() -> dict[str, Formula]:
    """Return the formulas by their numbers."""
    rows = table("formulas", "formula", "standing", "certainty", "use", "says", "against", "authority")
    return {
        number: Formula(number, Standing(standing), Certainty(certainty), Use(use), says, against, authority)
        for number, standing, certainty, use, says, against, authority in rows
    }


@cache
def wordings() -> tuple[Wording, ...]:
    """Return all wordings of all formulas."""
    rows = table("formula_wordings", "formula", "language", "pattern", "person", "authority")
    return tuple(Wording(*row[:4]) for row in rows)


@cache
def _false() -> tuple[tuple[str, str, str, str], ...]:
    rows = table("formula_false", "formula", "language", "pattern", "reason", "authority")
    return tuple((formula, language, pattern, reason) for formula, language, pattern, reason, _ in rows)


def formula_hits(words: Sequence[Word]) -> tuple[FormulaHit, ...]:
    """Return the formulas of a passage in order; of those that overlap, one number, the longest stands."""
    wrong = false_hits(words)
    found: list[FormulaHit] = []
    for wording in _likely(words):
        for match in matches(wording.pattern, wording.language, words):
            if any(_overlap(match.start, match.stop, w) for w in wrong if w.formula == wording.formula):
                continue
            many = any(_speaks_of_many(word) for word in words[match.start : match.stop])
            found.append(
                FormulaHit(formulas()[wording.formula], match.start, match.stop, wording.person, many)
            )
    return _longest(found)


def false_hits(words: Sequence[Word]) -> tuple[FalseHit, ...]:
    """Return what only looks like a formula."""
    return tuple(
        FalseHit(formula, match.start, match.stop, reason)
        for formula, language, pattern, reason in _false()
        for match in matches(pattern, language, words)
    )


def _likely(words: Sequence[Word]) -> Iterator[Wording]:
    """Yield the wordings all of whose needed elements some word of the passage answers."""
    heard = frozenset().union(*(word.keys for word in words))
    for wording in wordings():
        needed = (e for e in compiled(wording.pattern, wording.language) if not e.optional and not e.gap)
        if all(element.keys & heard for element in needed):
            yield wording


def _overlap(start: int, stop: int, wrong: FalseHit) -> bool:
    return start < wrong.stop and wrong.start < stop


def _speaks_of_many(word: Word) -> bool:
    return is_slot(word, "many") or "~soule+plural" in word.keys


def _longest(found: Sequence[FormulaHit]) -> tuple[FormulaHit, ...]:
    """Join hits of one formula that overlap; of others of one standing the longest stands."""
    kept: list[FormulaHit] = []
    for hit in sorted(_joined(found), key=lambda hit: (hit.start - hit.stop, hit.start, hit.formula.number)):
        same = (other for other in kept if other.formula.standing is hit.formula.standing)
        if not any(_meet(hit, other) for other in same):
            kept.append(hit)
    return tuple(sorted(kept, key=lambda hit: (hit.start, hit.stop, hit.formula.number)))


def _joined(found: Sequence[FormulaHit]) -> list[FormulaHit]:
    joined: list[FormulaHit] = []
    for hit in sorted(found, key=lambda hit: (hit.formula.number, hit.start, -hit.stop)):
        last = joined[-1] if joined else None
        if last and last.formula is hit.formula and _about_what_follows(last, hit):
            joined[-1] = hit
        elif last and last.formula is hit.formula and _meet(last, hit) and last.person == hit.person:
            stop, many = max(last.stop, hit.stop), last.many or hit.many
            joined[-1] = replace(last, stop=stop, many=many)
        else:
            joined.append(hit)
    return joined


def _about_what_follows(last: FormulaHit, hit: FormulaHit) -> bool:
    """Say whether the word that ends one hit begins the other: "archiepiscopus, quondam episcopus"."""
    return last.formula.standing is Standing.FORMER and hit.start == last.stop - 1


def _meet(one: FormulaHit, other: FormulaHit) -> bool:
    return one.start < other.stop and other.start < one.stop
