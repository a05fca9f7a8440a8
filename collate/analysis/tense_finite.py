"""One verb that carries the tense in, its tense or mood out, with the ground (rules in docs/method.md)."""

from collate.analysis.tense_context import Hangs
from collate.analysis.tense_participles import participle_after_noun, takes_object
from collate.analysis.tense_setting import PRESENTS, PRETERITES, Earlier, Finding, Setting
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_endings
from collate.lexicon.verbs import verb_forms
from collate.model.tense import Subject, SubjectKind, Tense

_WISHED = (Hangs.CONDITION, Hangs.WISH, Hangs.UNTIL, Hangs.RESULT, Hangs.QUESTION)


def decide(setting: Setting) -> Finding:
    """Return the tense of a verb that stands alone or begins a chain."""
    word = setting.word
    governed = _governed(setting)
    if governed is not None:
        return governed
    if word.only("past-participle"):
        return _participle(setting)
    if word.only("present-participle"):
        return Finding(Tense.PRESENT_PARTICIPLE, "the form is a present participle")
    subject = None if _commanded(setting) else setting.clause.subject
    if subject is None and setting.joined() and setting.before is not None:
        return _joined(setting, setting.before)
    if subject is None:
        return _without_subject(setting)
    return _with_subject(setting, subject)


def _participle(setting: Setting) -> Finding:
    """Return what a form listed as a participle is: after *þei* the strong plural that is spelled alike."""
    word, clause = setting.word, setting.clause
    pronoun = clause.stopper is not None and setting.words[clause.stopper].role is Role.SUBJECT
    several = clause.subject is not None and clause.subject.plural is not False
    strong = word.key.endswith(rule_endings("strong-plural")) and not word.key.startswith("i")
    if pronoun and several and strong and clause.subject is not None:
        reason = f"{word.text} is a preterite plural, its subject {clause.subject.text}"
        return Finding(Tense.PRETERITE, reason, clause.subject)
    return Finding(Tense.PAST_PARTICIPLE, "the form is a participle only")


def _commanded(setting: Setting) -> bool:
    """Say whether the noun before a command belongs to another verb: *if it be fysch day take mylk*."""
    word, stopper = setting.word, setting.clause.stopper
    if not (setting.clause.of_noun and stopper is not None and setting.words[stopper].role is Role.VERB):
        return False
    participle = setting.words[stopper].only("past-participle")
    return setting.instructs and not participle and word.may("imperative") and not word.only("present-3s")


def _governed(setting: Setting) -> Finding | None:
    """Return an infinitive after *to* or a verb that takes one."""
    word, words, stopper = setting.word, setting.words, setting.clause.stopper
    if not word.may("infinitive") or stopper is None:
        return None
    if words[stopper].role is Role.TO:
        return Finding(Tense.INFINITIVE, "after to")
    governs = words[stopper]
    if governs.named("don") and words[stopper + 1].key == "so":
        return None
    plain = not word.only(*PRETERITES) and (not word.may("present-3s") or word.may("present"))
    if any(each.breaks for each in words[stopper + 1 : setting.at + 1]):
        return None
    if governs.role is Role.VERB and _takes_infinitive(governs) and plain:
        return Finding(Tense.INFINITIVE, f"after {governs.text}")
    return None


def _takes_infinitive(word: Word) -> bool:
    return "causative" in word.uses


def _alike(word: Word, subject: Subject | None = None) -> bool:
    """Say whether one form may be present and preterite, with this subject.

    Of one person only the forms listed as alike are so: the present would have an ending.
    """
    if "alike" in word.uses:
        return True
    if _listed_past(word.key) or not word.may(*PRETERITES):
        return False
    single = subject is not None and subject.plural is False
    if single and not word.may("preterite"):
        return False
    if single:
        return word.may(*PRESENTS) and word.key in verb_forms("alike")
    return word.may("infinitive", "present", "present-plural")


def _listed_past(key: str) -> bool:
    """Say whether a table says that a form, or the same in -en, is a preterite: *wesshen*, *wesshyn*."""
    past = verb_forms("preterite")
    return key in past or (key[-2:] == "in" and f"{key[:-2]}en" in past)


def _with_subject(setting: Setting, subject: Subject) -> Finding:
    word = setting.word
    if _alike(word, subject):
        if subject.text == "God" and word.may("present") and setting.hangs is Hangs.NOTHING:
            return Finding(Tense.SUBJUNCTIVE, f"{word.text} of God is a wish", subject)
        return Finding(
            Tense.AMBIGUOUS, f"{word.text} may be present or preterite", subject, free=_full(setting, subject)
        )
    first = subject.plural is False and not subject.third
    if first and word.may("infinitive") and word.key not in verb_forms("preterite"):
        return _present(setting, subject)
    if word.may("preterite") or (word.may("preterite-plural") and _preterite_only(word, subject)):
        return _past(setting, subject)
    return _present(setting, subject)


def _full(setting: Setting, subject: Subject) -> bool:
    """Say whether an alike form of one person cannot be a present without ending: *sette*, *wex*."""
    key = setting.word.key
    full = key.endswith(rule_endings("full-weak-preterite"))
    full = full or not key.endswith(rule_endings("bare-third"))
    whole = full and setting.word.may(*PRETERITES)
    return (
        whole
        and subject.plural is False
        and subject.third
        and setting.hangs in (Hangs.NOTHING, Hangs.RELATIVE)
    )


def _preterite_only(word: Word, subject: Subject) -> bool:
    """Say whether a plural preterite can be one here: with several persons, or no other part to be."""
    return subject.plural is not False or not word.may(*PRESENTS)


def _past(setting: Setting, subject: Subject) -> Finding:
    word, clause = setting.word, setting.clause
    if word.may("past-participle") and clause.of_noun and not _has_participle(setting):
        doubt = participle_after_noun(setting, subject)
        if doubt is not None:
            return doubt
    if word.named("ben", "nis"):
        return _was_or_were(setting, subject)
    if setting.hangs in (Hangs.CONDITION, Hangs.WISH) or _may_wish(word, setting):
        reason = f"{word.text} in a clause of {setting.hangs or 'wishing'} may be subjunctive"
        return Finding(
            Tense.AMBIGUOUS, reason, subject, free=setting.hangs is Hangs.RELATIVE and not clause.relative
        )
    said = f"its subject {subject.text}" if subject.text else "its subject left out"
    return Finding(Tense.PRETERITE, f"{word.text} is a preterite, {said}", subject)


def _has_participle(setting: Setting) -> bool:
    """Say whether *hadde* has a participle after it."""
    after = setting.after()
    have = setting.word.named("hauen", "nabben")
    return have and after is not None and after.role is Role.VERB and after.may("past-participle")


def _may_wish(word: Word, setting: Setting) -> bool:
    """Say whether a preterite spelled like an infinitive stands where a subjunctive may."""
    listed = word.key in verb_forms("preterite")
    if listed or not word.may("infinitive") or setting.hangs not in (*_WISHED, Hangs.RELATIVE):
        return False
    past = {s.headword.name for s in word.verbs if "preterite" in s.features}
    return any("infinitive" in s.features and s.headword.name in past for s in word.verbs)


def _was_or_were(setting: Setting, subject: Subject) -> Finding:
    """Tell *was* and the plural *were* from *were* the subjunctive."""
    word = setting.word
    if not word.may("preterite-plural", "past-subjunctive"):
        return Finding(Tense.PRETERITE, f"{word.text} is the preterite of be", subject)
    if subject.plural is False and (
        subject.third or not subject.text.casefold().startswith(rule_endings("thou-begins"))
    ):
        return Finding(Tense.SUBJUNCTIVE, f"{word.text} with a singular subject is subjunctive", subject)
    if setting.hangs in _WISHED:
        return Finding(
            Tense.AMBIGUOUS, f"{word.text} in a clause of {setting.hangs} may be subjunctive", subject
        )
    many = word.key.endswith("n")
    if subject.plural is None and subject.kind is SubjectKind.NONE and not many:
        return Finding(Tense.AMBIGUOUS, f"{word.text} without a subject may be subjunctive", subject)
    return Finding(Tense.PRETERITE, f"{word.text} is the preterite plural of be", subject)


def _present(setting: Setting, subject: Subject) -> Finding:
    """Decide between present and subjunctive by the ending and the number of the subject."""
    word = setting.word
    said = f"its subject {subject.text}" if subject.text else "its subject left out"
    third = word.may("present-3s")
    if word.named("ben") and word.may("present") and not word.may("infinitive", "present-plural"):
        return Finding(Tense.PRESENT, f"{word.text} is the present of be", subject)
    if word.named("ben") and word.may("present-plural") and not word.may("imperative"):
        return Finding(Tense.PRESENT, f"{word.text} is the present plural of be", subject)
    plain = word.may("present-plural") or (word.may("present", "infinitive") and not third)
    if third and subject.plural is not True:
        return Finding(Tense.PRESENT, f"{word.text} is a present, {said}", subject)
    if subject.plural is False and subject.third:
        if word.may("present-plural") and not word.may("present", "imperative"):
            return Finding(Tense.PRESENT, f"{word.text} is a present, {said}", subject)
        return Finding(
            Tense.SUBJUNCTIVE, f"{word.text} without an ending, {said}: a wish or condition", subject
        )
    bare = plain and not third and word.may("infinitive")
    if bare and setting.hangs in _WISHED:
        reason = f"{word.text} in a clause of {setting.hangs} may be subjunctive"
        return Finding(Tense.AMBIGUOUS, reason, subject)
    ended = word.may("present-plural") and not word.may("imperative")
    if subject.plural is None and subject.third and not ended and word.may("imperative", "infinitive"):
        return Finding(Tense.AMBIGUOUS, f"{word.text}: the number of the subject is open", subject)
    return Finding(Tense.PRESENT, f"{word.text} is a present, {said}", subject)


def _joined(setting: Setting, before: Earlier) -> Finding:
    """Decide a verb that *and* joins to one before it, whose subject it shares."""
    word, subject = setting.word, before.subject
    if _alike(word, subject):
        return _alike_joined(setting, before)
    if before.tense is Tense.PRESENT and _contracted(word) and subject.plural is False:
        return Finding(Tense.AMBIGUOUS, f"{word.text} beside a present may be one too, contracted", subject)
    if word.may(*PRETERITES):
        return _past_joined(setting, before)
    commands = word.may("imperative", "imperative-plural")
    if before.tense is Tense.IMPERATIVE and commands:
        return Finding(Tense.IMPERATIVE, "joined to a command")
    base = word.may("infinitive") and not word.may("present-3s")
    if base and before.tense in (Tense.INFINITIVE, Tense.MODAL, Tense.MODAL_PAST):
        return Finding(Tense.INFINITIVE, "joined to an infinitive", subject)
    if before.tense in (Tense.IMPERATIVE, Tense.INFINITIVE) and commands and subject.kind is SubjectKind.NONE:
        return Finding(Tense.IMPERATIVE, "no subject")
    if base and before.tense is Tense.PAST_PARTICIPLE and word.may("past-participle"):
        return Finding(Tense.PAST_PARTICIPLE, "joined to a participle")
    if subject.kind is SubjectKind.NONE and not subject.text:
        return _without_subject(setting)
    if base and before.built and word.may("past-participle"):
        return Finding(Tense.PAST_PARTICIPLE, "shares the auxiliary of the verb before", subject)
    ended = word.may("present-plural") and not commands
    if (
        base
        and not ended
        and subject.plural is False
        and subject.third
        and before.tense is not Tense.SUBJUNCTIVE
    ):
        if commands and setting.instructs:
            return Finding(Tense.IMPERATIVE, "no subject of its own, in an instruction")
        return Finding(Tense.AMBIGUOUS, f"{word.text} may be a command or a wish", subject)
    return _present(setting, subject)


def _contracted(word: Word) -> bool:
    """Say whether a preterite may be a contracted present: *sent* is *sendeth* too."""
    return word.may("preterite") and word.may("present-3s") and word.key.endswith("nt")


def _alike_joined(setting: Setting, before: Earlier) -> Finding:
    word = setting.word
    if before.tense is Tense.IMPERATIVE and word.may("imperative"):
        return Finding(Tense.IMPERATIVE, "joined to a command")
    if before.built and word.may("past-participle") and before.tense not in (Tense.MODAL, Tense.MODAL_PAST):
        return Finding(Tense.PAST_PARTICIPLE, "shares the auxiliary of the verb before", before.subject)
    reason, full = f"{word.text} may be present or preterite", _full(setting, before.subject)
    return Finding(Tense.AMBIGUOUS, reason, before.subject, free=full)


_PASSIVES = (Tense.PRESENT_PASSIVE, Tense.PAST_PASSIVE)
_PERFECTS = (Tense.PERFECT, Tense.PLUPERFECT)


def _past_joined(setting: Setting, before: Earlier) -> Finding:
    """Decide a preterite form after *and*: it may share the auxiliary of the verb before."""
    word, subject = setting.word, before.subject
    after = setting.after()
    active = after is not None and takes_object(after)
    if not word.may("past-participle"):
        return _past(setting, subject)
    if _follows_noun(setting):
        return Finding(Tense.AMBIGUOUS, f"{word.text} after a noun may be a participle", subject, free=True)
    if before.tense in _PERFECTS or (before.built and before.tense in _PASSIVES and not active):
        reason = f"{word.text} shares the auxiliary of the verb before"
        return Finding(Tense.PAST_PARTICIPLE, reason, subject, free=True)
    if before.tense is Tense.PAST_PARTICIPLE:
        return Finding(Tense.PAST_PARTICIPLE, "joined to a participle")
    simple = before.tense in (Tense.PRETERITE, Tense.PRESENT)
    told = before.subject.text and (simple or (before.tense is Tense.AMBIGUOUS and not before.built))
    copula = setting.words[before.at].named("ben", "nis")
    if (active and before.tense in _PASSIVES) or (told and (active or not copula)):
        return _past(setting, subject)
    return Finding(Tense.AMBIGUOUS, f"{word.text} may be a preterite or a participle", subject, free=True)


def _follows_noun(setting: Setting) -> bool:
    """Say whether a noun stands straight before a verb, past adverbs: *and of a spence wel reuled*."""
    for k in range(setting.at - 1, -1, -1):
        word = setting.words[k]
        if word.role not in (Role.ADVERB, Role.PREFIX):
            return word.role is Role.NOUN
    return False


def _without_subject(setting: Setting) -> Finding:
    """Decide a verb that no subject stands before: a command, or a subject unseen."""
    word = setting.word
    first = setting.clause.stopper is None or setting.words[setting.clause.stopper].role in (
        Role.COORDINATOR,
        Role.SUBORDINATOR,
        Role.OPENER,
        Role.VERB,
    )
    commands = word.may("imperative", "imperative-plural")
    impersonal = "impersonal" in word.uses
    if impersonal and word.may("present-3s") and not word.may(*PRETERITES):
        return Finding(Tense.PRESENT, f"{word.text} is a present that needs no subject")
    if word.may(*PRETERITES) and not _alike(word) and not word.may("past-participle"):
        return _past(setting, Subject())
    states = not word.may("imperative") and not setting.instructs and word.may("present-3s")
    after = setting.after()
    if states and not (after is not None and takes_object(after)):
        return Finding(Tense.PRESENT, f"{word.text} has the ending of the present")
    if commands and first and not word.only("preterite") and (setting.instructs or not _alike(word)):
        doubtful = not word.may("imperative") and word.may("present-3s")
        return Finding(Tense.IMPERATIVE, "first in its clause, with no subject", free=doubtful)
    if _alike(word):
        return Finding(Tense.AMBIGUOUS, f"{word.text} may be present or preterite")
    if word.may(*PRETERITES):
        impersonal = impersonal and bool(setting.at and setting.words[setting.at - 1].role is Role.OBJECT)
        if impersonal:
            return _past(setting, Subject())
        return Finding(Tense.AMBIGUOUS, f"{word.text} may be a preterite or a participle", free=True)
    if word.may("present-3s"):
        return Finding(Tense.PRESENT, f"{word.text} has the ending of the present")
    return Finding(Tense.AMBIGUOUS, f"{word.text} may be a command, a wish or an infinitive")
