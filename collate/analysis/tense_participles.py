"""A form that may be preterite or participle after a noun in, out what it is there."""

from collate.analysis.tense_context import Hangs
from collate.analysis.tense_seat import object_follows, pronoun_object
from collate.analysis.tense_setting import PRETERITES, Finding, Setting
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_words
from collate.model.tense import Subject, SubjectKind, Tense


def participle_after_noun(setting: Setting, subject: Subject) -> Finding | None:
    """Return what a form that may be a participle is after a noun, None if a preterite."""
    word, words, stopper = setting.word, setting.words, setting.clause.stopper
    governed = stopper is not None and words[stopper].role is Role.VERB
    if word.breaks and pronoun_object(setting.after()):
        return None
    if governed and stopper is not None and not words[stopper].only("past-participle"):
        if _resumes(setting):
            return None
        reason = f"{word.text} belongs to the object {subject.text}"
        return Finding(Tense.PAST_PARTICIPLE, reason, free=True)
    after = setting.after()
    if after is not None and after.role is Role.PREPOSITION and after.key in rule_words("by"):
        return Finding(Tense.AMBIGUOUS, f"{word.text} after a noun may be a participle", subject, free=True)
    if not _has_own(setting) and _finite_ahead(setting):
        return Finding(Tense.PAST_PARTICIPLE, f"{word.text} belongs to {subject.text}, whose verb follows")
    naming = "naming" in word.uses
    hangs = stopper is not None and words[stopper].role is Role.SUBORDINATOR
    if hangs and stopper is not None and words[stopper].key in rule_words("when"):
        return None
    if subject.kind is SubjectKind.THING and naming:
        return Finding(Tense.AMBIGUOUS, f"{word.text} after a thing may be a participle", subject, free=True)
    if subject.kind is SubjectKind.THING and not (after is not None and takes_object(after)):
        return Finding(Tense.AMBIGUOUS, f"{word.text} after a noun may be a participle", subject, free=True)
    return None


def _has_own(setting: Setting) -> bool:
    """Say whether a verb after a noun is no participle: it has an object, or ends a relative clause.

    *þe man whos wif made it is ded*; *þe ale þat þe cook made is good*.
    """
    words, stopper, after = setting.words, setting.clause.stopper, setting.after()
    if after is not None and pronoun_object(after):
        return True
    if not stopper or not setting.word.may(*PRETERITES):
        return False
    that = words[stopper].role is Role.SUBORDINATOR and "that" in words[stopper].details
    return words[stopper].role is Role.RELATIVE or (that and words[stopper - 1].role is Role.NOUN)


def _resumes(setting: Setting) -> bool:
    """Say whether a verb takes up its clause again: *þe abbot þat loueth mesure ordeyned it*."""
    before, after = setting.before, setting.after()
    hanging = before is not None and before.hangs is Hangs.RELATIVE
    return hanging and (setting.word.breaks or (after is not None and takes_object(after)))


def takes_object(after: Word) -> bool:
    """Say whether a word after a verb may begin its object or a clause that hangs on it."""
    return (
        object_follows(after) or after.role in (Role.NOUN, Role.ADJECTIVE) or after.role is Role.SUBORDINATOR
    )


def _finite_ahead(setting: Setting) -> bool:
    """Say whether another finite verb follows in the same clause."""
    before, after = setting.word, setting.after()
    naming = "naming" in before.uses
    stopper = setting.clause.stopper
    hanging = stopper is not None and setting.words[stopper].role is Role.SUBORDINATOR
    if hanging and not naming and after is not None and after.role is Role.DETERMINER:
        return False
    for word in setting.words[setting.at + 1 : setting.at + 12]:
        if word.opens or word.role in (Role.COORDINATOR, Role.SUBORDINATOR, Role.RELATIVE, Role.SUBJECT):
            return False
        if word.role is Role.VERB and before.role is Role.PREPOSITION:
            return False
        before = word
        if word.role is Role.VERB:
            return word.may("present-3s", *PRETERITES) and not word.may("past-participle", "infinitive")
    return False
