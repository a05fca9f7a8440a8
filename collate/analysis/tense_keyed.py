"""Small words that have a rule of their own (*as*, *an*, *ne*) in their seat: the role of each."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from collate.analysis.tense_seat import (
    NO_DETAILS,
    Found,
    Rule,
    Seat,
    is_aux,
    nominal_first,
    object_follows,
)
from collate.analysis.tense_words import Role
from collate.lexicon.rule_words import rule_words


def _ne(seat: Seat) -> Found | None:
    """*ne* between two nouns: *þe lord ne his men*."""
    after = seat.after()
    if seat.role_before() is not Role.NOUN or after is None:
        return None
    if after.closed_as(Role.DETERMINER) or (nominal_first(after) and not after.verbs):
        return Role.COORDINATOR, NO_DETAILS
    return None


def _such_as(seat: Seat) -> Found | None:
    """Decide *as* after *such*, with a verb straight after it: a relative, the subject of that verb."""
    after, clause = seat.after(), seat.clause()[:3]
    verb = after is not None and bool(after.verbs) and (is_aux(after) or not after.nominal())
    such = any("such" in word.names for word in clause)
    return (Role.RELATIVE, NO_DETAILS) if verb and such else None


def _an(seat: Seat) -> Found | None:
    """Decide *an*: and, or the article."""
    after = seat.after()
    verb = after is not None and bool(after.verbs) and object_follows(seat.after(2))
    if after is not None and after.key[:1] in "aeiouh" and nominal_first(after) and not verb:
        return Role.DETERMINER, frozenset({"singular"})
    return Role.COORDINATOR, NO_DETAILS


def _many_on(seat: Seat) -> Found | None:
    """Decide *on* after *many*: many a one."""
    before = seat.before()
    many = before is not None and before.role is Role.DETERMINER and before.key in rule_words("many")
    return (Role.NOUN, frozenset({"singular", "person"})) if many else None


def _which(seat: Seat) -> Found | None:
    """Decide *which* after a preposition, a noun and its clause after it: *of which boke he drow it*."""
    after, second = seat.after(), seat.after(2)
    if seat.role_before() is not Role.PREPOSITION or after is None or second is None:
        return None
    subject = second.closed_as(Role.SUBJECT) is not None or second.closed_as(Role.DETERMINER) is not None
    return (Role.DETERMINER, NO_DETAILS) if after.is_class("noun") and subject else None


def _since(seat: Seat) -> Found | None:
    """Decide *sen* in *long sen*: an adverb."""
    before = seat.before()
    long = before is not None and before.key in rule_words("long") and not seat.word.breaks
    return (Role.ADVERB, NO_DETAILS) if long else None


def _over_all(seat: Seat) -> Found | None:
    """Decide *oueral* before an article: *oueral þe lond*."""
    after = seat.after()
    article = after is not None and after.closed_as(Role.DETERMINER) is not None
    return (Role.PREPOSITION, NO_DETAILS) if article else None


USES = (("as", _such_as), ("which", _which), ("over-all", _over_all), ("since", _since))
"""The rules of words that are spelled in several ways, by the use of these."""


@cache
def keyed() -> Mapping[str, Rule]:
    """Return the rules by the keys of their words."""
    rules: dict[str, Rule] = {"on": _many_on, "an": _an, "ne": _ne}
    for use, rule in USES:
        rules |= dict.fromkeys(rule_words(use), rule)
    return MappingProxyType(rules)


def keyed_role(seat: Seat) -> Found | None:
    """Decide the words that have a rule of their own: *as*, *an*, *ne*."""
    return keyed()[seat.word.key](seat)
