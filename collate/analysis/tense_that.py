"""*þat* in its seat: a determiner, a conjunction, or the relative that is the subject of what follows."""

from collate.analysis.tense_seat import (
    BASE,
    FINITE,
    NO_DETAILS,
    Found,
    Seat,
    names_person,
    nominal_first,
    object_follows,
    pronoun_object,
    verbal,
)
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_words
from collate.lexicon.verbs import verb_forms


def that_role(seat: Seat) -> Found | None:
    """*þat*: a determiner, a conjunction, or the subject of what follows."""
    after = seat.after()
    if seat.role_before() is Role.PREPOSITION or after is None:
        return (Role.DETERMINER if after is not None and nominal_first(after) else Role.NOUN), NO_DETAILS
    if _there_is(seat):
        return Role.RELATIVE, NO_DETAILS
    if _adjective_and_be(seat):
        return Role.RELATIVE, NO_DETAILS
    if _verb_first(seat):
        return Role.RELATIVE, NO_DETAILS
    if _object_between(seat):
        return Role.RELATIVE, frozenset({"over"})
    if after.closed_as(Role.SUBJECT) or (after.closed_as(Role.DETERMINER) and not _same(after)):
        return Role.SUBORDINATOR, frozenset({"that"})
    if after.key in rule_words("that-and-conjunction"):
        return Role.SUBORDINATOR, frozenset({"that"})
    if _same(after):
        return Role.DETERMINER, frozenset({"singular"})
    second = seat.after(2)
    if after.surely and seat.role_before() is not Role.DETERMINER:
        return Role.RELATIVE, NO_DETAILS
    if after.closed_as(Role.ADVERB) and second is not None and second.verbs and not nominal_first(second):
        return Role.RELATIVE, NO_DETAILS
    if nominal_first(after) and not (after.may(*FINITE) and not after.may(*BASE)):
        return _that_noun(seat)
    return Role.RELATIVE, NO_DETAILS


def _verb_first(seat: Seat) -> bool:
    """Say whether a word like *heren* (their, or to hear) is the verb after *þat*: *alle þat heren it*."""
    after, second = seat.after(), seat.after(2)
    if after is None or second is None or not after.closed_as(Role.DETERMINER):
        return False
    return after.may(*FINITE) and object_follows(second)


def _object_between(seat: Seat) -> bool:
    """Say whether *þis* or *þis* thing stands between *he þat* and its verb: *heo þat þis arerde*."""
    after = seat.after()
    if seat.role_before() is not Role.SUBJECT or after is None or after.key != "this" or seat.word.breaks:
        return False
    for distance in (2, 3):
        word = seat.after(distance)
        if word is None:
            return False
        if word.verbs and not word.closed and (not word.nominal() or distance == 2):
            return True
        if names_person(word):
            return False
    return False


def _adjective_and_be(seat: Seat) -> bool:
    """Say whether an adjective and *is* follow a noun and *þat*: *Maud þat deed is*."""
    after, second = seat.after(), seat.after(2)
    adjective = after is not None and (after.is_class("adjective") or after.key in verb_forms("adjective"))
    be = second is not None and second.named("ben", "nis") and not second.breaks
    return adjective and be and seat.role_before() in (Role.NOUN, Role.SUBJECT)


def _there_is(seat: Seat) -> bool:
    """Say whether *þat þere* and a verb follow a noun: *þe nonnes þat þere dwellen*."""
    after, second = seat.after(), seat.after(2)
    if after is None or second is None or not after.closed_as(Role.OPENER):
        return False
    verb = bool(second.verbs) and not nominal_first(second)
    return verb and seat.role_before() in (Role.NOUN, Role.SUBJECT, Role.OBJECT)


def _that_noun(seat: Seat) -> Found:
    """*þat* before what may be a noun: *þat hous*, *þat God made*, *þat made*."""
    after, second = seat.after(), seat.after(2)
    assert after is not None
    before = seat.before()
    plural = before is not None and ("plural" in before.details or before.key in rule_words("all"))
    if plural and after.may("present", "infinitive") and (nominal_first(second) or pronoun_object(second)):
        return Role.RELATIVE, NO_DETAILS
    if before is not None and before.role is Role.NOUN and _noun_and_verb(seat):
        return Role.SUBORDINATOR, frozenset({"that"})
    if _only_plural(after) and second is not None and not nominal_first(second):
        return Role.SUBORDINATOR, frozenset({"that"})
    if after.is_class("name") or not after.senses or (after.key == "god"):
        return Role.SUBORDINATOR, frozenset({"that"})
    if after.verbs and not nominal_first(second) and not verbal(second):
        noun = before is not None and before.role is Role.NOUN
        if noun and after.may("present-3s", "preterite"):
            return Role.RELATIVE, NO_DETAILS
    return Role.DETERMINER, frozenset({"singular"})


def _only_plural(word: Word) -> bool:
    """Say whether a word is a noun in the plural and nothing else: no *þat* belongs to it."""
    parts = {f for s in word.senses for f in s.features}
    return not word.verbs and word.is_class("noun") and "plural" in parts and "singular" not in parts


def _noun_and_verb(seat: Seat) -> bool:
    """Say whether a noun with its titles follows and then its verb: *þat holy chirche hath*."""
    for distance in range(2, 7):
        word = seat.after(distance)
        if word is None or (word.breaks and distance > 2):
            return False
        if _states(word):
            return distance == 2 or not seat.word.breaks
        if not (nominal_first(word) or word.closed_as(Role.DETERMINER) or word.key == "of"):
            return False
    return False


def _states(word: Word) -> bool:
    return bool(word.verbs) and not word.nominal() and word.may(*FINITE)


def _same(word: Word) -> bool:
    return not word.names.isdisjoint(rule_words("same"))
