"""Words in, words with their roles out: each decided by what stands before it and after it."""

from collections.abc import Callable, Sequence
from functools import lru_cache

from collate.analysis.tense_forms import FormReading, number_of
from collate.analysis.tense_seat import (
    BASE,
    FINITE,
    NO_DETAILS,
    Found,
    Rule,
    Seat,
    commanded,
    in_figures,
    is_aux,
    is_for,
    is_modal,
    is_number,
    names_person,
    no_finite_yet,
    nominal_first,
    object_follows,
    past_its_verb,
    pronoun_object,
    rather_noun,
    turned,
    verbal,
)
from collate.analysis.tense_small import RULES, small, small_alone
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_endings, rule_words
from collate.lexicon.verbs import verb_classes, verb_forms


def with_roles(words: Sequence[Word]) -> Sequence[Word]:
    """Return the words, each with its role written into it, decided from left to right."""
    for at, word in enumerate(words):
        alone = _role_alone(word.form, capital=word.capital)
        word.role, word.details = alone or _role(Seat(words, at, word))
    return words


@lru_cache(maxsize=16384)
def _role_alone(form: FormReading, *, capital: bool) -> Found | None:
    """Return the role that a form has whatever stands beside it (see `_open`), None where that is heard."""
    rules = _rules_of(form, capital=capital)
    if rules == (small,):
        return small_alone(form)
    if rules or form.verbs or not form.senses or "numeral" in form.classes:
        return None
    if "adjective" not in form.classes:
        return Role.NOUN, number_of(form, capital=capital)
    return (Role.ADJECTIVE, NO_DETAILS) if form.classes.isdisjoint(("noun", "name")) else None


def _role(seat: Seat) -> Found:
    for rule in _rules_of(seat.word.form, capital=seat.word.capital):
        found = rule(seat)
        if found is not None:
            return found
    return _open(seat)


def _open(seat: Seat) -> Found:
    """Decide between verb, noun and adjective."""
    word = seat.word
    if word.verbs and _is_verb(seat):
        return Role.VERB, NO_DETAILS
    if word.is_class("adjective") and not word.is_class("noun", "name"):
        return Role.ADJECTIVE, NO_DETAILS
    after = seat.after()
    if after is not None and (after.surely or (after.key == "men" and _this_one(seat))):
        return Role.NOUN, _number(word)
    if word.is_class("numeral"):
        if after is not None and after.key == "of":
            return Role.NOUN, _number(word)
        if word.is_class("noun"):
            return _noun_or_adjective(word, after)
        return Role.ADJECTIVE, _number(word)
    return _noun_or_adjective(word, after)


def _this_one(seat: Seat) -> bool:
    """Say whether *þis*, *a* stands before: what follows is no adjective of *men*: *þis mete men calle*."""
    before = seat.before()
    return before is not None and before.role is Role.DETERMINER and "singular" in before.details


def _noun_or_adjective(word: Word, after: Word | None) -> Found:
    """Decide between noun and adjective by the word that follows."""
    if after is None or (word.senses and not word.is_class("adjective")):
        return Role.NOUN, _number(word)
    beside = not after.breaks and (after.key == "men" or nominal_first(after))
    if (beside or after.key.endswith(rule_endings("es"))) and in_figures(word):
        return Role.ADJECTIVE, frozenset({"plural"} if word.key != "i" else {"singular"})
    if beside and word.is_class("adjective") and not (names_person(word) and _rode(after)):
        return Role.ADJECTIVE, NO_DETAILS
    return Role.NOUN, _number(word)


def _god(seat: Seat) -> Found | None:
    """*God*, and the wish that follows: *God graunte vs*."""
    word = seat.word
    if word.key == "god" and word.text[:1].isupper() and not (word.opens and nominal_first(seat.after())):
        return Role.NOUN, frozenset({"singular", "person"})
    if not word.may(*BASE):
        return None
    before = seat.before(Role.ADVERB)
    if before is not None and before.key in rule_words("god"):
        wish = _wishes(word, seat.after())
        return (Role.VERB, NO_DETAILS) if wish and not is_aux(word) else None
    return None


def _apposed(seat: Seat) -> Found | None:
    """Decide the name after *I*, whatever small word it may be: *I, Wille of þe Wawes*."""
    word = seat.word
    if word.opens or not word.text[:1].isupper():
        return None
    before = seat.before()
    first = before is not None and before.role is Role.SUBJECT and "first" in before.details
    if first and word.key != "i":
        return Role.NOUN, frozenset({"singular", "person"})
    return None


def _so_is(seat: Seat) -> Found | None:
    """Decide the adjective between *þat* and *is*: *þat deed is*."""
    before, after = seat.before(), seat.after()
    if before is None or before.role is not Role.RELATIVE:
        return None
    return (Role.ADJECTIVE, NO_DETAILS) if after is not None and after.named("ben", "nis") else None


_RULES: tuple[tuple[Rule, Callable[[FormReading], bool]], ...] = (
    (_god, lambda form: form.key == "god" or not form.parts.isdisjoint(BASE)),
    (_apposed, lambda form: bool(form.closed)),
    (_so_is, lambda form: not form.closed and _is_adjective(form)),
    *RULES,
)


@lru_cache(maxsize=16384)
def _rules_of(form: FormReading, *, capital: bool) -> tuple[Rule, ...]:
    """Return the rules that a form asks, in order: of most words of a text none."""
    return tuple(rule for rule, asks in _RULES if asks(form) and (capital or rule is not _apposed))


def _is_adjective(form: FormReading) -> bool:
    """Say whether a form is listed as an adjective after *be*, or is one and no verb."""
    return form.key in verb_forms("adjective") or ("adjective" in form.classes and not form.verbs)


def _wishes(word: Word, after: Word | None) -> bool:
    if after is None or object_follows(after) or not word.is_class("noun"):
        return True
    return after.closed_as(Role.COORDINATOR) is not None and not word.may(*FINITE)


def _rode(after: Word) -> bool:
    """Say whether a word may be a finite verb and no command: *rood*."""
    return after.may("present-3s", "preterite") and not after.may(*BASE)


def _number(word: Word) -> frozenset[str]:
    return number_of(word.form, capital=word.capital)


def _is_verb(seat: Seat) -> bool:
    """Say whether a word that may be a verb is one here."""
    word = seat.word
    before = seat.before(Role.ADVERB, Role.PREFIX)
    near = seat.role_before()
    if is_aux(word) or is_modal(word):
        return _aux_or_noun(seat, before)
    if near is Role.SUBORDINATOR and word.nominal() and seat.words[seat.at - 1].key == "whos":
        return False
    if word.surely and (near not in (Role.DETERMINER, Role.ADJECTIVE) or _no_noun(word)):
        beside = near is Role.PREPOSITION or (near is Role.NOUN and commanded(seat))
        return not (beside and past_its_verb(seat))
    if near not in (Role.DETERMINER, Role.PREPOSITION) and (turned(seat, 0) or _after_have(seat)):
        return True
    if near is Role.ADJECTIVE and _prefixed_after_be(seat):
        return True
    if (near is Role.ADJECTIVE and _governs(seat)) or (near is Role.DETERMINER and _after_this(seat)):
        return True
    if near in (Role.DETERMINER, Role.ADJECTIVE) or (near is Role.PREPOSITION and not _clause_goes_on(seat)):
        return (
            near is Role.ADJECTIVE
            and not word.nominal()
            and not word.only("past-participle", "present-participle")
            and not (is_number(seat.words[seat.at - 1]) and word.key.endswith(rule_endings("es")))
        )
    if not word.senses:
        return _unknown_verb(seat, before)
    if not word.nominal():
        return True
    if _after_subject(seat, before):
        return True
    return _noun_or_verb(seat, before)


def _noun_or_verb(seat: Seat, before: Word | None) -> bool:
    """Say whether a word that may be a noun or adjective is a verb, past the clear cases."""
    word, after = seat.word, seat.after()
    if before is None or before.role in (Role.COORDINATOR, Role.OPENER):
        there = before is not None and word.may("preterite") and _noun_phrase(after)
        return there or _opens_with_verb(word, after) or _pronoun_after(seat) or turned(seat, 0)
    if before.role in (Role.SUBJECT, Role.TO):
        return True
    if before.role is Role.RELATIVE:
        return word.may(*FINITE) or not verbal(after)
    if before.role is Role.VERB and (is_aux(before) or is_modal(before)):
        return _completes(word, before, seat)
    if (word.breaks or before.role is Role.NOUN) and pronoun_object(after) and word.may("preterite"):
        return True
    if not word.may(*FINITE) or not no_finite_yet(seat):
        return False
    if before.role in (Role.NOUN, Role.OBJECT) and not _verb_ahead(seat):
        return True
    return not word.may("infinitive") and not rather_noun(word)


def _no_noun(word: Word) -> bool:
    """Say whether a word can be nothing but a finite verb."""
    return not word.nominal() and word.may(*FINITE) and not word.may("past-participle")


def _after_have(seat: Seat) -> bool:
    """Say whether *have* waits for a participle: *haþ þe fissher lerned how*; *is in Kent cald egges*."""
    word, after = seat.word, seat.after()
    if not word.may("past-participle") or word.key in verb_forms("adjective"):
        return False
    for other in seat.clause():
        if other.role in (Role.COORDINATOR, Role.SUBORDINATOR, Role.RELATIVE):
            return False
        if other.role is Role.VERB:
            names = other.named("ben", "nis") and _names(word)
            return names or (other.named("hauen", "nabben") and not nominal_first(after))
    return False


def _after_subject(seat: Seat, before: Word | None) -> bool:
    """Say whether a pronoun, *so* or *þere* and an adverb stand before: *þat I so longe slep*."""
    opener = before is not None and before.role is Role.OPENER and seat.role_before() is not Role.OPENER
    return opener and seat.role_before(Role.ADVERB, Role.PREFIX, Role.OPENER) is Role.SUBJECT


def _after_this(seat: Seat) -> bool:
    """Say whether *to þis*, *of þat* stands before what can be nothing but a finite verb."""
    word, at = seat.word, seat.at
    if word.nominal() or not word.may(*FINITE) or word.may("past-participle") or at < 2:
        return False
    this = seat.words[at - 1].key in rule_words("this-or-that")
    return this and seat.words[at - 2].role is Role.PREPOSITION


def _governs(seat: Seat) -> bool:
    """Say whether an article follows what may be a finite verb and is no noun: *þe dere herde þe hornes*."""
    word, after = seat.word, seat.after()
    article = after is not None and not after.breaks and after.closed_as(Role.DETERMINER) is not None
    return article and word.may("present-3s", "preterite") and not word.is_class("noun", "name")


def _noun_phrase(after: Word | None) -> bool:
    """Say whether a word begins a noun with its article: *þer song a prest*."""
    return after is not None and not after.breaks and after.closed_as(Role.DETERMINER) is not None


def _prefixed_after_be(seat: Seat) -> bool:
    """Say whether a participle with y- ends its clause after *be*: *is nouȝt litel ypreised*."""
    word = seat.word
    if not (word.key.startswith("i") and word.only("past-participle")) or nominal_first(seat.after()):
        return False
    verb = next((other for other in seat.clause() if other.role is Role.VERB), None)
    return verb is not None and verb.named("ben", "nis")


def _aux_or_noun(seat: Seat, before: Word | None) -> bool:
    """Tell *ben* the verb from beans, *wast* from waste, *salt* from shalt."""
    word, near = seat.word, seat.role_before()
    if before is not None and before.role in (Role.SUBJECT, Role.RELATIVE):
        return True
    if not word.is_class("noun", "name"):
        return True
    following = seat.after()
    if is_modal(word) and following is not None and (following.key == "god" or turned(seat, 0)):
        return True
    verb = seat.before()
    kept = (
        verb is not None
        and verb.role is Role.VERB
        and not (is_aux(verb) or is_modal(verb) or verb.only("past-participle"))
    )
    after = seat.after()
    if kept and is_aux(word) and (after is None or after.closed_as(Role.COORDINATOR)):
        return False
    nominal = near in (None, Role.DETERMINER, Role.ADJECTIVE, Role.PREPOSITION, Role.TO)
    return is_aux(word) and not nominal and word.key != "wast" and not (before and before.may("imperative"))


def _clause_goes_on(seat: Seat) -> bool:
    """Say whether a preposition before a verb ends its phrase: *þat þe beef was soþin yn is good*."""
    before = seat.before()
    word = seat.word
    finite = word.may(*FINITE) and not word.nominal() and before is not None and not is_for(before)
    return finite and not (word.may("past-participle") and nominal_first(seat.after()))


def _unknown_verb(seat: Seat, before: Word | None) -> bool:
    """Say whether a word that is in no table is a verb: after a subject, *to* or a modal."""
    word = seat.word
    if before is None:
        return False
    if before.role in (Role.SUBJECT, Role.TO):
        return True
    if before.role is Role.VERB and is_modal(before):
        return word.may("infinitive")
    if before.role is Role.VERB and is_aux(before):
        return word.may("past-participle") and word.key.endswith(rule_endings("weak-participle"))
    if before.role is Role.NOUN and "plural" in before.details and word.key.endswith("en"):
        return no_finite_yet(seat) and not _verb_ahead(seat)
    strong = word.may("present-3s", "preterite") and not word.key.endswith(rule_endings("es"))
    return strong and before.role in (Role.RELATIVE, Role.NOUN, Role.COORDINATOR, Role.OBJECT, Role.OPENER)


def _pronoun_after(seat: Seat) -> bool:
    """Say whether *I*, *we* or the like follows and has no other verb: *neuer see I swich*."""
    word, after, second = seat.word, seat.after(), seat.after(2)
    if after is None or after.breaks or not word.may("present", *FINITE) or not after.closed_as(Role.SUBJECT):
        return False
    if after.closed_as(Role.OBJECT) or after.closed_as(Role.DETERMINER):
        return False
    return seat.role_before() is Role.ADVERB and not (second is not None and second.verbs)


def _opens_with_verb(word: Word, after: Word | None) -> bool:
    """Say whether a word that may be a noun is rather the verb that opens a clause."""
    if word.may(*FINITE) and not word.may(*BASE):
        return not rather_noun(word)
    if after is None:
        return False
    if object_follows(after) and word.may(*BASE, *FINITE):
        return True
    if rather_noun(word):
        return False
    return not word.is_class("noun", "name") or nominal_first(after)


def _completes(word: Word, before: Word, seat: Seat) -> bool:
    """Say whether a word that may be an adjective or noun is the participle or infinitive of an auxiliary."""
    if is_modal(before):
        return word.may("infinitive") and not rather_noun(word)
    if word.key in verb_forms("adjective"):
        return (
            before.named("hauen", "nabben")
            and word.may("past-participle")
            and not nominal_first(seat.after())
        )
    if word.key in verb_forms("participle") or (_names(word) and nominal_first(seat.after())):
        return True
    if not word.may("past-participle", "present-participle"):
        return False
    if word.key.startswith("i") and word.only("past-participle"):
        return True
    if word.only("present-participle"):
        after = seat.after()
        return after is None or after.key != "of"
    if before.named("hauen", "nabben") and not word.is_class("noun"):
        return not nominal_first(seat.after())
    if word.is_class("adjective"):
        return len(word.key) > 4 and word.key.endswith(rule_endings("adjectival-participle"))
    return not rather_noun(word)


def _names(word: Word) -> bool:
    """Say whether a word may be a participle of a verb of naming: *are cald potages*."""
    return any(
        "naming" in verb_classes().get(s.headword.name, ()) and "past-participle" in s.features
        for s in word.verbs
    )


def _verb_ahead(seat: Seat) -> bool:
    """Say whether another word of the same clause may be its finite verb."""
    for k in range(seat.at + 1, len(seat.words)):
        word = seat.words[k]
        if word.opens or word.closed_as(Role.COORDINATOR) or word.closed_as(Role.SUBORDINATOR):
            return False
        if word.may(*FINITE) and not word.is_class("noun", "adjective"):
            return True
    return False
