"""What words about a person say of the day they were worded: lives in, bounds out.

Where several persons may be meant, or a date is known only between two days, the bound is the one
that holds in every case.
"""

from collections.abc import Iterable, Sequence

from collate.lexicon.offices import office_among, office_of
from collate.lexicon.patterns import word_of
from collate.model.dates import Bounds, Day
from collate.model.evidence import Life, Term


def earliest(days: Iterable[Day | None]) -> Day | None:
    """Return the earliest of several days, None if one of them is not known."""
    held = list(days)
    known = [day for day in held if day is not None]
    return min(known) if known and len(known) == len(held) else None


def latest(days: Iterable[Day | None]) -> Day | None:
    """Return the latest of several days, None if one of them is not known."""
    held = list(days)
    known = [day for day in held if day is not None]
    return max(known) if known and len(known) == len(held) else None


def terms_of(life: Life, office: str) -> tuple[Term, ...]:
    """Return the terms of a life in an office, named by its English name; all terms for ""."""
    if not office:
        return life.terms
    return tuple(term for term in life.terms if office in offices_in(term.office))


def offices_in(said: str) -> frozenset[str]:
    """Return the offices that a phrase of the edition names."""
    words = (word_of(part.strip(",;")) for part in said.split())
    return frozenset(office.name for word in words if (office := office_of(word)))


def office_head(said: str) -> str:
    """Return the first office that a phrase names, "" for none."""
    office = office_among(tuple(word_of(part.strip(",;")) for part in said.split()))
    return office.name if office else ""


def after_death(lives: Sequence[Life]) -> Bounds:
    """Return the bounds of words that know of a death."""
    return Bounds(not_before=earliest(life.died.not_before for life in lives))


def in_lifetime(lives: Sequence[Life]) -> Bounds:
    """Return the bounds of words said of the living."""
    return Bounds(not_after=latest(life.died.not_after for life in lives))


def in_office(lives: Sequence[Life], office: str) -> Bounds:
    """Return the bounds of words said of somebody who now holds an office."""
    terms = [(term, life) for life in lives for term in terms_of(life, office)]
    if not terms or not all(terms_of(life, office) for life in lives):
        return in_lifetime(lives)
    return Bounds(
        earliest(term.began.not_before for term, _ in terms),
        latest(_last_day(term, life) for term, life in terms),
    )


def _last_day(term: Term, life: Life) -> Day | None:
    """Return the last day on which a term can have run: no later than the death."""
    known = [day for day in (term.ended.not_after, life.died.not_after) if day is not None]
    return min(known) if known else None


def since_office(lives: Sequence[Life], office: str) -> Bounds:
    """Return the bounds of words that give somebody an office's title: not before it began."""
    held = [terms_of(life, office) for life in lives]
    if not held or not all(held):
        return Bounds()
    return Bounds(not_before=earliest(term.began.not_before for terms in held for term in terms))


def after_office(lives: Sequence[Life], office: str) -> Bounds:
    """Return the bounds of words that know an office to be over: not before its end.

    Where the end is not known they are not before its beginning. Death is not the end of an office
    unless the edition says so.
    """
    held = [terms_of(life, office) for life in lives]
    if not held or not all(held):
        return Bounds()
    return Bounds(
        not_before=earliest(term.ended.not_before or term.began.not_before for t in held for term in t)
    )
