"""Words that may be a determiner (*þer*, *þis*, *many*, *ye*) in their seat: that, or subject, object."""

from collate.analysis.tense_seat import (
    FINITE,
    NO_DETAILS,
    Found,
    Seat,
    finite_follows,
    is_aux,
    is_modal,
    nominal_first,
    pronoun_object,
    turned,
)
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_words


def here_role(seat: Seat) -> Found | None:
    """Decide *here*, *þer*: the adverb, or else *her*, *their*."""
    word, after, before = seat.word, seat.after(), seat.before()
    verb = before is not None and before.role is Role.VERB and not is_aux(before)
    if verb and after is not None and not nominal_first(after) and word.closed_as(Role.OBJECT):
        return Role.OBJECT, NO_DETAILS
    if nominal_first(after) and not _lies(seat) and not turned(seat, 1):
        return Role.DETERMINER, NO_DETAILS
    return Role.OPENER, NO_DETAILS


def _lies(seat: Seat) -> bool:
    """Say whether what follows is rather a verb than an adjective, no noun after it: *þer lith by þe wey*."""
    after, second = seat.after(), seat.after(2)
    finite = after is not None and after.may("present-3s", "preterite")
    if (
        finite
        and second is not None
        and seat.word.key.startswith("ther")
        and second.closed_as(Role.DETERMINER)
    ):
        return True
    finite = finite and after is not None and not after.is_class("noun", "name")
    return finite and second is not None and second.closed_as(Role.PREPOSITION) is not None


def determiner_role(seat: Seat) -> Found | None:
    """Decide *þis*, *al*, *many*: before a noun a determiner, else the subject or object itself."""
    word, after = seat.word, seat.after()
    found = word.closed_as(Role.DETERMINER)
    if found is None or (word.verbs and _is_rather_verb(seat, after)):
        return None
    if word.key == "this" and after is not None and after.surely and _governs(seat):
        return Role.SUBJECT, frozenset({"singular", "thing"})
    if word.key == "this" and _over(seat):
        return Role.OBJECT, NO_DETAILS
    special = _named_or_then(seat, found.details)
    if special is not None:
        return special
    if word.is_class("noun") and _noun_wanted_by_verb(seat):
        return Role.NOUN, frozenset({"singular"})
    if (
        word.key in rule_words("all")
        and seat.role_before() is Role.SUBJECT
        and after is not None
        and after.verbs
    ):
        return Role.ADVERB, NO_DETAILS
    subject = word.closed_as(Role.SUBJECT)
    if subject is not None and (not nominal_first(after) or _acts_on(seat)):
        return Role.SUBJECT, subject.details
    parted = after is not None and after.key == "of" and seat.role_before() in _BEFORE_SUBJECTS
    if "alone" in found.details and parted and not (word.key == "that" or word.key in rule_words("all")):
        return Role.SUBJECT, found.details
    bare = after is None or not after.closed_as(Role.DETERMINER)
    people = after is not None and (after.key == "men" or (word.key == "the" and _named(after)))
    alone = not (nominal_first(after) or people) or (after is not None and after.breaks)
    if word.closed_as(Role.OBJECT) and seat.role_before() in (Role.VERB, Role.PREPOSITION) and bare and alone:
        return Role.OBJECT, NO_DETAILS
    many = after is not None and after.may("present-plural")
    verb = (finite_follows(after) or many) and not nominal_first(after) and bare
    itself = "alone" in found.details or word.key.startswith("euerich")
    if itself and (verb or _several_act(seat, found.details)) and seat.role_before() is not Role.PREPOSITION:
        return Role.SUBJECT, found.details
    return Role.DETERMINER, found.details


def _is_rather_verb(seat: Seat, after: Word | None) -> bool:
    """Say whether what may be a determiner or a verb is the verb: the others tell, or what stands before."""
    word = seat.word
    relative = seat.role_before() is Role.RELATIVE and word.may(*FINITE)
    return relative or (fell(seat) and not nominal_first(after)) or word.surely or verb_wanted(seat)


def _governs(seat: Seat) -> bool:
    """Say whether a present and its object with an article follow: *þis hastes þe stomak*."""
    after, second = seat.after(), seat.after(2)
    article = second is not None and second.closed_as(Role.DETERMINER) is not None and not second.breaks
    return article and after is not None and after.may("present-3s", "preterite")


def _over(seat: Seat) -> bool:
    """Say whether *þis* is the object between *þat* and its verb: *ich þat þis wrot*."""
    before, after = seat.before(), seat.after()
    over = before is not None and before.role is Role.RELATIVE and "over" in before.details
    second = seat.after(2)
    noun = after is not None and after.is_class("noun") and second is not None and bool(second.verbs)
    return over and after is not None and bool(after.verbs) and not noun


def _named_or_then(seat: Seat, details: frozenset[str]) -> Found | None:
    """Decide *Ich Thomas*, *þo rood þe baillif*, *many stale*: I, then, and many as a subject."""
    word, after, second = seat.word, seat.after(), seat.after(2)
    if after is None:
        return None
    if word.key == "ich" and after.text[:1].isupper():
        return Role.SUBJECT, frozenset({"first", "singular"})
    acts = after.may("present-3s", "preterite") and (after.surely or not after.nominal())
    opens = seat.role_before() in (None, Role.COORDINATOR)
    if word.key == "tho" and opens and second is not None and not after.breaks:
        subject = second.closed_as(Role.DETERMINER) or second.closed_as(Role.SUBJECT)
        return (Role.OPENER, NO_DETAILS) if acts and subject else None
    if "alone" in details and "plural" in details and after.surely and after.may(*FINITE) and opens:
        return Role.SUBJECT, details
    return None


def fell(seat: Seat) -> bool:
    """Say whether what may be *fele* is rather *fell*, straight after a noun: *þe tre fel doun*."""
    return seat.word.may("preterite") and seat.role_before() is Role.NOUN


def _noun_wanted_by_verb(seat: Seat) -> bool:
    """Say whether an article stands before a word and a finite verb after it: *þe ouen fell*."""
    after = seat.after()
    return seat.role_before() is Role.DETERMINER and after is not None and after.may(*FINITE)


def _several_act(seat: Seat, details: frozenset[str]) -> bool:
    """Say whether *many*, *other* has its verb after it, and that its object: *many token it*."""
    other = "other" in seat.word.names
    if other and seat.role_before() is Role.DETERMINER and _ends(seat):
        return True
    return (other or "plural" in details) and _acts_on(seat)


def _ends(seat: Seat) -> bool:
    """Say whether a verb that is no noun follows and ends its clause: *þat oþer lough*."""
    after, second = seat.after(), seat.after(2)
    if after is None or not after.may("preterite", "present-3s") or after.is_class("noun"):
        return False
    return second is None or second.breaks or second.closed_as(Role.COORDINATOR) is not None


def _acts_on(seat: Seat) -> bool:
    """Say whether a finite verb and its pronoun follow: *ye slowe me*."""
    after, second = seat.after(), seat.after(2)
    if after is None or second is None or not after.may("present", *FINITE):
        return False
    return pronoun_object(second)


_BEFORE_SUBJECTS = (None, Role.COORDINATOR, Role.SUBORDINATOR, Role.OPENER)
"""What stands before a subject that begins its clause: *some of hem*."""


def _named(word: Word) -> bool:
    """Say whether a word that may be small may be a noun or adjective too: *þe hye table*."""
    return word.is_class("noun", "name", "adjective")


def verb_wanted(seat: Seat) -> bool:
    """Say whether what stands before a word asks for a verb."""
    before = seat.before(Role.ADVERB)
    if before is None:
        return False
    return before.role in (Role.SUBJECT, Role.TO) or (before.role is Role.VERB and is_modal(before))
