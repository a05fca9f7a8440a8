"""The small words of a clause: the role of each by what stands before and after it."""

from collections.abc import Callable
from functools import lru_cache

from collate.analysis.tense_determiners import determiner_role, fell, here_role, verb_wanted
from collate.analysis.tense_forms import FormReading
from collate.analysis.tense_keyed import keyed, keyed_role
from collate.analysis.tense_seat import (
    FINITE,
    NO_DETAILS,
    Found,
    Rule,
    Seat,
    finite_follows,
    impersonal,
    is_aux,
    is_for,
    is_modal,
    nominal_first,
    object_follows,
    pronoun_object,
    rather_noun,
)
from collate.analysis.tense_that import that_role
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_endings, rule_words


def _prefix(seat: Seat) -> Found | None:
    """*y made*, *y nogh*: the prefix of a participle written apart; *who so*."""
    word = seat.word
    after, before = seat.after(), seat.before(Role.ADVERB)
    if word.key == "i" and after is not None and after.may("past-participle") and not after.breaks:
        aux = before is not None and before.role is Role.VERB and (is_aux(before) or is_modal(before))
        if aux and word.text != "I" and not _awaits_subject(seat):
            return Role.PREFIX, NO_DETAILS
        if before is not None and before.role is Role.COORDINATOR and after.only("past-participle"):
            return Role.PREFIX, NO_DETAILS
    if word.key != "i" and before is not None and before.key in rule_words("who"):
        return Role.PREFIX, NO_DETAILS
    return None


def _awaits_subject(seat: Seat) -> bool:
    """Say whether the auxiliary before a word has no subject before it: *þus haue y*."""
    clause = seat.clause()[1:]
    for word in clause:
        if word.role not in (Role.ADVERB, Role.OPENER, Role.PREFIX):
            return word.role in (Role.COORDINATOR, Role.SUBORDINATOR)
    return bool(clause)


def _together(seat: Seat) -> Found | None:
    """Decide *to geder*: one adverb in two words."""
    word = seat.word
    if word.key == "to":
        after, second = seat.after(), seat.after(2)
        if after is not None and after.key.startswith(rule_endings("together-begins")):
            noun = second is not None and (object_follows(second) or nominal_first(second))
            return None if noun else (Role.ADVERB, NO_DETAILS)
        return None
    before = seat.before()
    joined = before is not None and before.key == "to" and before.role is Role.ADVERB
    return (Role.ADVERB, NO_DETAILS) if joined else None


def _be(seat: Seat) -> Found | None:
    """*be*: the verb, or *by* spelled so."""
    word = seat.word
    if not word.closed_as(Role.PREPOSITION):
        return None
    after, before = seat.after(), seat.before(Role.ADVERB, Role.OBJECT, Role.PREFIX)
    noun_follows = after is not None and bool(
        nominal_first(after) or after.closed_as(Role.DETERMINER) or after.closed_as(Role.OBJECT)
    )
    if not noun_follows or before is None or after is None:
        return Role.VERB, NO_DETAILS
    if before.role is Role.VERB and (is_modal(before) or before.named("hauen", "nabben", "leten")):
        return Role.VERB, NO_DETAILS
    if before.role in (Role.SUBJECT, Role.RELATIVE, Role.TO, Role.SUBORDINATOR, Role.OPENER):
        return Role.VERB, NO_DETAILS
    if after.may("past-participle") or after.is_class("adjective"):
        return Role.VERB, NO_DETAILS
    if before.role is Role.NOUN and (_awaits_verb(seat) or _so_many(seat)):
        return Role.VERB, NO_DETAILS
    return Role.PREPOSITION, NO_DETAILS


def _so_many(seat: Seat) -> bool:
    """Say whether *many*, *fewe* follows and ends its clause: *his seruantes be many*."""
    after, second = seat.after(), seat.after(2)
    number = after.closed_as(Role.DETERMINER) if after is not None else None
    ends = second is None or second.breaks or second.closed_as(Role.COORDINATOR) is not None
    return number is not None and ends and "plural" in number.details


def _awaits_verb(seat: Seat) -> bool:
    """Say whether a conjunction or a modal stands before in the clause, and no verb since."""
    for word in seat.clause():
        if word.role is Role.VERB:
            return is_modal(word)
        if word.role in (Role.SUBORDINATOR, Role.RELATIVE, Role.COORDINATOR):
            return word.role is not Role.COORDINATOR
    return False


def _may_be_to(form: FormReading) -> bool:
    return Role.TO in {small.role for small in form.closed}


def _for_to(seat: Seat) -> Found | None:
    """*to*, *for to* before an infinitive; *for* before a clause."""
    word = seat.word
    if word.closed_as(Role.TO):
        after = seat.after()
        if after is not None and after.closed_as(Role.ADVERB) and not after.verbs:
            after = seat.after(2)
        infinitive = after is not None and after.may("infinitive") and not after.closed_as(Role.DETERMINER)
        if infinitive and after is not None and (not nominal_first(after) or is_for(seat.before())):
            return Role.TO, NO_DETAILS
        second = seat.after(2)
        if infinitive and not rather_noun(after) and (object_follows(second) or nominal_first(second)):
            return Role.TO, NO_DETAILS
        return Role.PREPOSITION, NO_DETAILS
    if is_for(word):
        after = seat.after()
        if after is not None and after.closed_as(Role.SUBJECT) and not after.closed_as(Role.DETERMINER):
            return Role.SUBORDINATOR, frozenset({"plain"})
        if word.breaks or word.opens or _clause_follows(seat):
            return Role.PREPOSITION, frozenset({"for"})
    return None


def _clause_follows(seat: Seat) -> bool:
    """Say whether *for* has a noun after it and that its verb, with its object: *for þe lady loued it*."""
    for distance in range(1, 8):
        word, second = seat.after(distance), seat.after(distance + 1)
        if word is None or word.closed_as(Role.COORDINATOR) or word.closed_as(Role.SUBORDINATOR):
            return False
        if word.verbs and not word.nominal() and not word.closed:
            return word.may("present-3s", "preterite") and pronoun_object(second)
    return False


def _it(seat: Seat) -> Found | None:
    """Decide *it*, *hit*: the object of a verb before it, or else the subject of one after it."""
    subject = seat.word.closed_as(Role.SUBJECT)
    if subject is None:
        return None
    before, after = seat.before(), seat.after()
    if before is not None and before.role is Role.PREPOSITION:
        return Role.OBJECT, NO_DETAILS
    if before is not None and before.role is Role.VERB and not (seat.word.breaks and finite_follows(after)):
        if before.named("hauen") and not (after is not None and after.verbs) and seat.at > 1:
            return (
                Role.OBJECT if seat.words[seat.at - 2].role is Role.COORDINATOR else Role.SUBJECT
            ), subject.details
        if is_aux(before) or is_modal(before) or before.named(*rule_words("subject-it")):
            return Role.SUBJECT, subject.details
        return Role.OBJECT, NO_DETAILS
    if before is not None and before.role is Role.SUBJECT:
        return Role.OBJECT, NO_DETAILS
    return Role.SUBJECT, subject.details


def _men(seat: Seat) -> Found | None:
    """*men*: people in general, or the plural of *man*; *me*: the same people, or the object."""
    word = seat.word
    subject = word.closed_as(Role.SUBJECT)
    if subject is None:
        return None
    after, before = seat.after(), seat.role_before()
    if word.key == "me":
        general = after is not None and after.may("present-3s", "preterite") and not impersonal(after)
        if before in (None, Role.COORDINATOR, Role.SUBORDINATOR, Role.RELATIVE, Role.OPENER) and general:
            return Role.SUBJECT, frozenset({"singular", "people"})
        return Role.OBJECT, NO_DETAILS
    if before in (Role.DETERMINER, Role.ADJECTIVE, Role.PREPOSITION) or after is None:
        return Role.NOUN, frozenset({"plural"})
    return Role.SUBJECT, subject.details


def _small_or_verb(seat: Seat) -> Found | None:
    """Small words that may be verbs too (*wel*, *saue*, *seche*, *are*): as the word before asks."""
    word = seat.word
    after, before = seat.after(), seat.before(Role.ADVERB)
    if _give(seat):
        return Role.VERB, NO_DETAILS
    told = word.surely and before is not None
    if told and before is not None and before.role in (Role.SUBJECT, Role.RELATIVE, Role.NOUN, Role.OPENER):
        return Role.VERB, NO_DETAILS
    if told and impersonal(word) and before is not None and before.role is Role.OBJECT:
        return Role.VERB, NO_DETAILS
    conjunction = word.closed_as(Role.SUBORDINATOR) is not None
    dated = conjunction and after is not None and any(s.headword.kind == "time" for s in after.senses)
    if fell(seat) and word.closed_as(Role.DETERMINER) and not nominal_first(after):
        return Role.VERB, NO_DETAILS
    last = conjunction and (seat.role_before() is Role.DETERMINER or (dated and word.is_class("adjective")))
    if last and not is_aux(word):
        return Role.ADJECTIVE if dated or nominal_first(after) else Role.NOUN, NO_DETAILS
    if is_modal(word) or is_aux(word):
        return (Role.VERB, NO_DETAILS) if _modal_wanted(seat) else _closed_role(word)
    if verb_wanted(seat) and not (after is not None and after.only(*FINITE)):
        return Role.VERB, NO_DETAILS
    if before is not None and before.role is Role.RELATIVE and word.may(*FINITE):
        return Role.VERB, NO_DETAILS
    if _participle_wanted(word, before, after):
        return Role.VERB, NO_DETAILS
    opens = before is None or before.role in (Role.COORDINATOR, Role.OPENER)
    if (
        (opens or word.named("leten"))
        and word.key != "bi"
        and word.may("imperative")
        and after is not None
        and object_follows(after)
    ):
        return (
            _closed_role(word) if conjunction and after.closed_as(Role.SUBJECT) else (Role.VERB, NO_DETAILS)
        )
    return _closed_role(word)


def _give(seat: Seat) -> bool:
    """Say whether *gif* is the verb and not *if*: *gif it to þe seke man*."""
    word, after, second = seat.word, seat.after(), seat.after(2)
    if not word.named("yeven") or after is None or second is None or not word.may("imperative"):
        return False
    begins = seat.role_before() in (None, Role.COORDINATOR)
    return begins and object_follows(after) and not after.closed_as(Role.DETERMINER) and second.key == "to"


def _participle_wanted(word: Word, before: Word | None, after: Word | None) -> bool:
    """Say whether *sen* after *was* is seen, and not since."""
    if (
        before is None
        or before.role is not Role.VERB
        or not is_aux(before)
        or not word.may("past-participle")
    ):
        return False
    ends = after is None or bool(after.closed_as(Role.PREPOSITION) or after.closed_as(Role.COORDINATOR))
    return ends and word.closed_as(Role.SUBORDINATOR) is not None


def _modal_wanted(seat: Seat) -> bool:
    """Say whether *wil*, *wel*, *moste*, *are* ... are verbs here: a subject before, an infinitive after."""
    word, before = seat.word, seat.before(Role.ADVERB, Role.PREFIX)
    wanted = before is not None and before.role in (Role.SUBJECT, Role.RELATIVE, Role.NOUN)
    after = next(
        (w for w in (seat.after(), seat.after(2)) if w is not None and not w.closed_as(Role.ADVERB)), None
    )
    bare = after is not None and after.may("infinitive") and not after.closed_as(Role.DETERMINER)
    if word.key in rule_words("well-or-will"):
        that = after is not None and after.closed_as(Role.RELATIVE) is not None
        at = seat.at
        turned = at > 1 and seat.words[at - 2].role is Role.VERB and not seat.words[at - 1].breaks
        wanted = wanted and not (turned and before is not None and before.role is Role.SUBJECT)
        return wanted and (that or (bare and not rather_noun(after)))
    follows = seat.after()
    clause = (
        follows is not None and follows.closed_as(Role.SUBJECT) and not follows.closed_as(Role.DETERMINER)
    )
    if is_aux(word) and word.closed_as(Role.SUBORDINATOR) and clause and before and before.role is Role.NOUN:
        return False
    if not is_aux(word) or before is None:
        return wanted
    participle = before.role is Role.ADJECTIVE and after is not None and after.may("past-participle")
    return wanted or participle or before.role in (Role.OPENER, Role.COORDINATOR)


def _closed_role(word: Word) -> Found:
    """Return the role of a small word: *or* before *er*, *then* before *than*."""
    return _first_role(word.form)


@lru_cache(maxsize=4096)
def _first_role(form: FormReading) -> Found:
    named = {small.role: small for small in reversed(form.closed)}
    also = named.get(Role.ADVERB) if form.key == "also" else None
    first = also or named.get(Role.COORDINATOR) or named.get(Role.OPENER) or form.closed[0]
    return Role(first.role), first.details


def _noun_wanted(seat: Seat) -> bool:
    """Say whether a determiner or adjective waits for its noun and a verb follows: *þe eldest sone hath*."""
    after = seat.after()
    before = seat.before()
    whose = before is not None and before.key == "whos"
    near = whose or seat.role_before() in (Role.DETERMINER, Role.ADJECTIVE)
    if near and after is not None and after.key == "of":
        return True
    return near and (after is None or is_aux(after) or is_modal(after) or finite_follows(after))


def small(seat: Seat) -> Found | None:
    """Small words that are nothing else; before a noun what may be both is the adjective."""
    word = seat.word
    role, details = _closed_role(word)
    if role is Role.ADVERB and word.is_class("adjective") and nominal_first(seat.after()):
        return Role.ADJECTIVE, NO_DETAILS
    if role is Role.SUBJECT and seat.role_before() is Role.PREPOSITION:
        return Role.OBJECT, NO_DETAILS
    if role is Role.SUBJECT and word.is_class("adjective") and seat.role_before() is Role.DETERMINER:
        return Role.ADJECTIVE, NO_DETAILS
    if role in (Role.ADVERB, Role.OPENER) and word.is_class("noun") and _noun_wanted(seat):
        return Role.NOUN, frozenset({"singular"})
    return role, details


def small_alone(form: FormReading) -> Found | None:
    """Return the role that `small` finds of a form whatever stands beside it, None where that is heard."""
    found = _first_role(form)
    if found[0] is Role.SUBJECT:
        return None
    other = found[0] in (Role.ADVERB, Role.OPENER) and not form.classes.isdisjoint(("noun", "adjective"))
    return None if other else found


RULES: tuple[tuple[Rule, Callable[[FormReading], bool]], ...] = (
    (_prefix, lambda form: form.key in rule_words("prefix-apart")),
    (_together, lambda form: form.key == "to" or form.key.startswith(rule_endings("together-begins"))),
    (that_role, lambda form: "that" in form.names and bool(form.closed)),
    (_be, lambda form: "ben" in form.verb_names and bool(form.closed)),
    (_for_to, lambda form: bool(form.closed) and (_may_be_to(form) or "for" in form.names)),
    (keyed_role, lambda form: form.key in keyed() and bool(form.closed)),
    (_it, lambda form: "hit" in form.names and bool(form.closed)),
    (_men, lambda form: "men" in form.names and bool(form.closed)),
    (here_role, lambda form: {"opener", "determiner"} <= {small.role for small in form.closed}),
    (determiner_role, lambda form: "determiner" in {small.role for small in form.closed}),
    (_small_or_verb, lambda form: bool(form.closed and form.verbs)),
    (small, lambda form: bool(form.closed and not form.verbs)),
)
"""The rules for small words, in the order in which they are asked, each with the forms that ask it."""
