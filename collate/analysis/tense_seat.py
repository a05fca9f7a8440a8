"""A word in its place, and what is asked of it and of its neighbours."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from collate.analysis.tense_forms import FormReading
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_endings, rule_words

NO_DETAILS = frozenset[str]()
FINITE = ("present-3s", "preterite", "preterite-plural", "imperative-plural", "present-plural")
BASE = ("infinitive", "imperative", "present")

Found = tuple[Role, frozenset[str]]
"""A role, and what more is said of it."""


@dataclass(slots=True, eq=False)
class Seat:
    """A word in its place: those before it have roles, those after it have none yet.

    Nothing is written into it (it is not frozen: that would make it too dear to make).
    """

    words: Sequence[Word]
    at: int
    word: Word

    def before(self, *skipped: Role) -> Word | None:
        """Return the word before, past those of the roles given; None where a sentence begins."""
        if self.word.opens:
            return None
        words, at = self.words, self.at - 1
        while words[at].role in skipped:
            if words[at].opens:
                return None
            at -= 1
        return words[at]

    def role_before(self, *skipped: Role) -> Role | None:
        """Return the role of the word before."""
        before = self.before(*skipped)
        return before.role if before else None

    def after(self, distance: int = 1) -> Word | None:
        """Return a word after; None where a sentence ends before it."""
        words, last = self.words, self.at + distance
        if last >= len(words):
            return None
        after = words[last]
        return after if after.start == self.word.start else None

    def clause(self) -> Sequence[Word]:
        """Return the words before it as far as the beginning of the sentence, nearest first."""
        return self.words[self.word.start : self.at][::-1]


Rule = Callable[[Seat], Found | None]
"""What decides the role of a word in its seat, None where it has nothing to say."""


def is_aux(word: Word) -> bool:
    """Say whether a word is a form of be or have."""
    return "auxiliary" in word.uses


def is_modal(word: Word) -> bool:
    """Say whether a word is a form of may, shall, will, can, must, ought or dare."""
    return "modal" in word.uses


def nominal_first(word: Word | None) -> bool:
    """Say whether a word is rather a noun, name or adjective than a verb or a small word."""
    return word is not None and _nominal_first(word.form)


_NOMINAL = frozenset({"noun", "name", "adjective"})


@lru_cache(maxsize=16384)
def _nominal_first(form: FormReading) -> bool:
    if any(small.role in (Role.SUBJECT, Role.DETERMINER) for small in form.closed):
        return False
    if not form.senses:
        return not form.parts or not form.parts.issubset(FINITE) or form.key.endswith(rule_endings("es"))
    if form.classes.isdisjoint(_NOMINAL) and "numeral" not in form.classes:
        return False
    if form.verbs and ("auxiliary" in form.uses or "modal" in form.uses or form.key in rule_words("do")):
        return False
    return not form.closed or not form.classes.isdisjoint(_NOMINAL)


def verbal(word: Word | None) -> bool:
    """Say whether a word can only be a verb."""
    return word is not None and bool(word.verbs) and not word.nominal() and not word.closed


def is_for(word: Word | None) -> bool:
    """Say whether a word is *for*."""
    return word is not None and "for" in word.names


def rather_noun(word: Word | None) -> bool:
    """Say whether context has kept a noun of a word that may be a noun or a verb, and no verb."""
    if word is None:
        return False
    return _no_verb_kept(word.form, word.kept)


@lru_cache(maxsize=16384)
def _no_verb_kept(form: FormReading, kept: frozenset[str]) -> bool:
    return not any(s.headword.word_class == "verb" and s.headword.identity in kept for s in form.senses)


def finite_follows(after: Word | None) -> bool:
    """Say whether a word is a verb that is no infinitive."""
    return after is not None and after.may(*FINITE) and not after.may("infinitive")


def object_follows(after: Word | None) -> bool:
    """Say whether a word begins an object: *hem*, *it*, *þe*, *ij*."""
    if after is None:
        return False
    it = "hit" in after.names
    number = after.is_class("numeral") or not (after.senses or after.verbs)
    return it or number or bool(after.closed_as(Role.OBJECT) or after.closed_as(Role.DETERMINER))


def pronoun_object(word: Word | None) -> bool:
    """Say whether a word is a pronoun that may be an object, and nothing else: *hem*, *it*; not *her*."""
    if word is None or word.breaks or word.closed_as(Role.DETERMINER):
        return False
    return word.closed_as(Role.OBJECT) is not None or "hit" in word.names


def turned(seat: Seat, distance: int) -> bool:
    """Say whether a finite verb stands at a distance and a pronoun that is its subject after it: *rod he*."""
    verb, subject = seat.after(distance), seat.after(distance + 1)
    if verb is None or subject is None or subject.breaks or not verb.may(*FINITE):
        return False
    if not subject.closed_as(Role.SUBJECT) or subject.closed_as(Role.DETERMINER):
        return False
    own = seat.after(distance + 2)
    return not (own is not None and own.may(*FINITE) and not own.closed)


def impersonal(word: Word) -> bool:
    """Say whether a word is a verb that needs no subject: *me semeth*."""
    return "impersonal" in word.uses


def names_person(word: Word) -> bool:
    """Say whether a word may name a person: *a marchaunt*, *abbot*."""
    return any(sense.headword.kind in ("person", "office") for sense in word.senses)


_FIGURES = frozenset("iulxcdm")


def in_figures(word: Word) -> bool:
    """Say whether a word is a number in figures: *ix names*."""
    return not word.senses and not word.verbs and _FIGURES.issuperset(word.key)


def is_number(word: Word) -> bool:
    """Say whether a word is a number, in figures or in letters."""
    return word.is_class("numeral") or in_figures(word)


def no_finite_yet(seat: Seat) -> bool:
    """Say whether the clause before a word has a subject and no finite verb."""
    for word in seat.clause():
        if word.role is Role.VERB:
            return False
        if word.role in (Role.SUBORDINATOR, Role.RELATIVE, Role.COORDINATOR):
            return True
    return True


def past_its_verb(seat: Seat) -> bool:
    """Say whether a word after a preposition or noun is a noun, though others make it a verb: *to dede*.

    It may be one, and its clause has its finite verb already; after a relative the preposition or the noun
    may be the relative's own, and after a conjunction the verb.
    """
    if not seat.word.is_class("noun", "name") or no_finite_yet(seat):
        return False
    return all(word.role not in (Role.RELATIVE, Role.SUBORDINATOR) for word in seat.clause())


def commanded(seat: Seat) -> bool:
    """Say whether a command opens the clause of a word: *put þerto brede crommes*."""
    words = (word for word in seat.clause() if word.role not in (Role.COORDINATOR, Role.ADVERB, Role.OPENER))
    first = next(words, None)
    verb = first is not None and first.role is Role.VERB and first.may("imperative")
    return verb and first is not None and not is_aux(first) and not is_modal(first)
