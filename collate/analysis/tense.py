"""An item's words in, its verbs out: each with its auxiliaries, tense or mood, subject and ground."""

from collections.abc import Sequence

from collate.analysis.tense_about import about
from collate.analysis.tense_chains import Build, Chain, chain_at, is_be, is_have
from collate.analysis.tense_context import Hangs, hangs_on, settings_of
from collate.analysis.tense_finite import decide
from collate.analysis.tense_roles import with_roles
from collate.analysis.tense_seat import is_modal
from collate.analysis.tense_setting import PRESENTS, PRETERITES, Earlier, Finding, Setting
from collate.analysis.tense_subjects import (
    Clause,
    clause_before,
    of_pronoun,
    person_after_it,
    resumed_subject,
    subject_after,
)
from collate.analysis.tense_words import Hints, Role, Word, read_words
from collate.lexicon.rule_words import rule_endings
from collate.lexicon.verbs import contracted_verbs
from collate.lexicon.words import Lexicon
from collate.model.tense import Subject, SubjectKind, Tense, VerbGroup
from collate.model.value import value
from collate.model.witness import ItemKind, Token

INSTRUCTIONS = frozenset({ItemKind.RECIPE, ItemKind.MENU})
"""The kinds of item in which a verb without a subject is a command."""

RECENT = 40
"""How many of the verbs before are still heard where a verb is read."""


def verb_groups(
    tokens: Sequence[Token], kind: ItemKind, lexicon: Lexicon, hints: Hints | None = None
) -> tuple[VerbGroup, ...]:
    """Return the verbs of an item (or of its heading) in order.

    `hints` name for some tokens the verbs they may be, where the other witnesses tell.
    """
    words = with_roles(read_words(tokens, lexicon, hints or {}))
    parts: list[_Part] = []
    used: set[int] = set()
    for at, word in enumerate(words):
        if word.role is Role.VERB and at not in used:
            part = _part(words, at, parts[-RECENT:], instructs=kind in INSTRUCTIONS)
            while parts and set(parts[-1].chain.verbs) & set(part.chain.verbs):
                parts.pop()
            parts.append(part)
            used.update(part.chain.verbs)
    return tuple(_group(words, part, instructs=kind in INSTRUCTIONS) for part in parts)


_LAST = 40
"""How many verbs back one sentence is looked through."""


@value
class _Part:
    """A verb with its auxiliaries among the words, and what was found of it."""

    chain: Chain
    tense: Tense
    finding: Finding
    subject: Subject
    hangs: Hangs


def _part(words: Sequence[Word], at: int, parts: Sequence[_Part], *, instructs: bool) -> _Part:
    nearest = clause = clause_before(words, at)
    if _after_purpose(words, at, clause) or _turned_about(words, at, clause):
        clause = Clause(None, clause.stopper, bare=clause.bare)
    chain = chain_at(words, at, clause)
    if chain.main == at - 1 and clause.subject is None:
        clause = clause_before(words, at - 1)
    if clause.subject is None:
        clause = _with_subject_after(words, at, clause, instructs=instructs)
    clause = _resumed(words, at, clause, parts)
    if words[at].key.endswith(rule_endings("enclitic-thou")):
        clause = Clause(Subject("þou", SubjectKind.PERSON, plural=False, third=False), clause.stopper)
    before = _before(words, at, clause, parts, instructs=instructs)
    hangs = hangs_on(words, at, nearest, _finite_since(words[at].start, parts))
    setting = Setting(words, at, clause, hangs, before, instructs)
    if before is not None and hangs is Hangs.NOTHING and (setting.joined() or _wish_goes_on(setting, before)):
        setting = Setting(words, at, clause, before.hangs, before, instructs)
    if is_have(words[at]) and at + 1 < len(words) and _is_rather(words[at + 1]):
        finding = Finding(Tense.AMBIGUOUS, f"{words[at].text} leuer is a wish", clause.subject or Subject())
        return _Part(chain, Tense.AMBIGUOUS, finding, finding.subject, hangs)
    finding = decide(setting) if chain.build is not Build.MODAL else _modal(words[at], setting)
    return _Part(chain, _built(chain, finding.tense), finding, finding.subject, setting.hangs)


def _finite_since(start: int, parts: Sequence[_Part]) -> set[int]:
    """Return the places of the finite verbs since the beginning of a sentence."""
    return {part.chain.verbs[0] for part in _finite(start, parts)}


def _finite(start: int, parts: Sequence[_Part]) -> list[_Part]:
    """Return the finite verbs since the beginning of a sentence, the last first."""
    found = []
    for part in reversed(parts[-_LAST:]):
        if part.chain.verbs[0] < start:
            break
        if part.tense not in _NOT_FINITE:
            found.append(part)
    return found


def _wish_goes_on(setting: Setting, before: Earlier) -> bool:
    """Say whether *and* joins a clause with *be* to a condition: *if it were clene and þei were sobre*."""
    stopper = setting.clause.stopper
    condition = before.hangs is Hangs.CONDITION and before.tense in (Tense.SUBJUNCTIVE, Tense.AMBIGUOUS)
    joined = stopper is not None and setting.words[stopper].role is Role.COORDINATOR
    return condition and joined and is_be(setting.word) and not is_modal(setting.words[before.at])


def _resumed(words: Sequence[Word], at: int, clause: Clause, parts: Sequence[_Part]) -> Clause:
    """Return a clause with the subject that waits since the sentence began, where the verb is its verb."""
    word, stopper = words[at], clause.stopper
    if stopper is None or words[stopper].role is not Role.VERB or not word.may("present", *_INDICATIVE):
        return clause
    many = word.may("present-plural") and not word.may("imperative")
    base = word.may("imperative", "infinitive") and not many
    if clause.of_noun and not _parted(word):
        return clause
    start = word.start
    since = _finite(start, parts)
    hanging = all(part.hangs is Hangs.RELATIVE or _hangs(words, part, start) for part in since)
    waits = bool(since) or (word.breaks and words[stopper].only("past-participle", "preterite"))
    subject = resumed_subject(words, at) if waits and hanging and len(since) < 3 else None
    first = subject is not None and not subject.third and subject.plural is False
    if (
        subject is None
        or (base and not first)
        or (word.may("infinitive") and subject.plural is False and not first)
    ):
        return clause
    return Clause(subject, stopper if _verb_ahead(words, at) else None)


def _verb_ahead(words: Sequence[Word], at: int) -> bool:
    """Say whether the sentence has another verb yet to come."""
    for k in range(at + 1, len(words)):
        word = words[k]
        if word.opens:
            return False
        if word.role is Role.VERB and word.may(*_INDICATIVE):
            return True
    return False


_INDICATIVE = ("present-3s", "present-plural", *PRETERITES)


def _parted(word: Word) -> bool:
    return word.breaks or not word.may("past-participle")


def _hangs(words: Sequence[Word], part: _Part, start: int) -> bool:
    """Say whether a conjunction stands between the sentence's beginning and a verb."""
    return any(words[k].role is Role.SUBORDINATOR for k in range(start, part.chain.verbs[0]))


def _is_rather(word: Word) -> bool:
    """Say whether a word is *leuer*: *he had leuer* is a wish."""
    return any("rather" in small.details for small in word.closed)


_NOT_FINITE = (Tense.INFINITIVE, Tense.PAST_PARTICIPLE, Tense.PRESENT_PARTICIPLE)


def _with_subject_after(words: Sequence[Word], at: int, clause: Clause, *, instructs: bool) -> Clause:
    """Return a clause with the subject that follows the verb, where none stands before it."""
    stopper, word = clause.stopper, words[at]
    governed = stopper is not None and words[stopper].role in (Role.TO, Role.VERB)
    opener = at > 0 and not word.opens and words[at - 1].role in (Role.OPENER, Role.SUBORDINATOR)
    ended = opener and not word.may("infinitive", "imperative")
    if _pronoun_follows(words, at) and not (governed and words[stopper or 0].role is Role.TO):
        return Clause(of_pronoun(words[at + 1]), stopper, bare=clause.bare)
    quoted = word.breaks and "citing" in word.uses and word.may("present-3s", "preterite")
    if governed and not (is_be(word) or is_have(word) or ended or quoted):
        return clause
    person = person_after_it(words, at) if opener else None
    if person is not None:
        return Clause(person, stopper, bare=clause.bare)
    turned = opener or quoted or (not instructs and _after_phrase(words, at, stopper))
    so = opener and words[at - 1].key == "so" and word.named("don")
    there = opener and words[at - 1].key.startswith("ther") and not word.may("imperative")
    plain = not word.may("imperative", "imperative-plural")
    told = quoted or so or there or plain or not instructs
    states = word.may("present-3s", "preterite") or (not word.may("imperative") and word.may(*_INDICATIVE))
    subject = subject_after(words, at, any_verb=turned and told and states)
    if subject is None:
        return clause
    return Clause(subject, stopper, bare=clause.bare)


def _pronoun_follows(words: Sequence[Word], at: int) -> bool:
    """Say whether a pronoun that can be nothing but a subject follows, and has no verb of its own."""
    word, after = words[at], words[at + 1] if at + 1 < len(words) else None
    if after is None or after.opens or after.breaks or after.role is not Role.SUBJECT:
        return False
    if not _is_nominative(after) or not word.may("present", *_INDICATIVE) or is_be(word):
        return False
    own = words[at + 2] if at + 2 < len(words) else None
    return own is None or own.opens or not (own.role is Role.VERB and own.may(*_INDICATIVE))


def _turned_about(words: Sequence[Word], at: int, clause: Clause) -> bool:
    """Say whether the noun or adjective before a verb is not its subject: *þat day was he*, *wys was he*."""
    after = words[at + 1] if at + 1 < len(words) else None
    if after is None or after.opens or after.breaks or not clause.of_noun or clause.subject is None:
        return False
    if after.role is Role.SUBJECT and _is_nominative(after):
        own = words[at + 2] if at + 2 < len(words) else None
        built = is_be(words[at]) or is_have(words[at]) or is_modal(words[at])
        return built or own is None or not (own.role is Role.VERB and own.may(*_INDICATIVE))
    alone = at > 0 and words[at - 1].opens and words[at - 1].is_class("adjective")
    return alone and is_be(words[at]) and after.role is Role.DETERMINER


def _is_nominative(word: Word) -> bool:
    """Say whether a pronoun can be nothing but a subject: *he*, *they*; not *it*, *this*."""
    return bool(word.details & {"person", "people", "first", "second"}) and not word.closed_as(Role.OBJECT)


def _after_purpose(words: Sequence[Word], at: int, clause: Clause) -> bool:
    """Say whether the noun before *be* is the object of *to* at the sentence's head: *to teche men is it*."""
    stopper = clause.stopper
    if not (is_be(words[at]) and clause.of_noun and stopper is not None and at + 1 < len(words)):
        return False
    before = words[stopper - 1] if stopper else None
    head = all(word.role in (Role.TO, Role.PREPOSITION) for word in words[:stopper] if not word.opens)
    purpose = before is not None and before.role is Role.TO and (before.opens or head)
    return purpose and words[at + 1].role in (Role.DETERMINER, Role.SUBJECT)


def _only_object(before: Sequence[Word]) -> bool:
    """Say whether nothing but an object and small words stands before a verb: *hem lakkeþ bred*."""
    return all(word.role in (Role.OBJECT, Role.ADVERB, Role.OPENER) for word in before)


def _after_phrase(words: Sequence[Word], at: int, stopper: int | None) -> bool:
    """Say whether nothing but a phrase with its preposition stands before a verb: *in þat hous is he*."""
    if stopper is not None and words[stopper].role is not Role.SUBORDINATOR:
        stays = words[stopper].role is Role.COORDINATOR and words[at].uses & {"motion", "posture"}
        if not stays:
            return False
    start = words[at].start if stopper is None else stopper + 1
    before = words[start:at]
    first = next((word for word in before if word.role not in (Role.ADVERB, Role.OPENER)), None)
    return bool(before) and (first is None or first.role is Role.PREPOSITION or _only_object(before))


def _before(
    words: Sequence[Word], at: int, clause: Clause, parts: Sequence[_Part], *, instructs: bool
) -> Earlier | None:
    """Return the verb before in the same sentence, past the verbs of clauses that hang on it."""
    if not parts or words[at].start > parts[-1].chain.verbs[-1]:
        return None
    near = parts[-1]
    if instructs and clause.subject is None and _only_command(words[at]):
        command = next((part for part in reversed(parts[-_LAST:]) if part.tense is Tense.IMPERATIVE), None)
        if command is not None:
            return _earlier(command)
    chosen = near
    finite = near.tense is Tense.INFINITIVE and not words[at].may("infinitive") and clause.subject is None
    if finite or (near.hangs is Hangs.RELATIVE and not _same_shape(words[at], near)):
        outer = (
            part
            for part in reversed(parts[-_LAST:])
            if part.hangs is not Hangs.RELATIVE and part.tense not in _NOT_FINITE
        )
        chosen = next(outer, near)
    return _earlier(chosen)


def _only_command(word: Word) -> bool:
    return word.may("imperative") and not word.may("present-3s")


def _same_shape(word: Word, part: _Part) -> bool:
    """Say whether a verb looks like the one before: both present, or both past."""
    if part.tense is Tense.PRESENT:
        return word.may("present-3s")
    return part.tense is Tense.PRETERITE and word.may("preterite")


def _earlier(part: _Part) -> Earlier:
    built = part.chain.build not in (Build.SIMPLE, Build.PROGRESSIVE)
    return Earlier(part.tense, part.subject, built, part.chain.verbs[0], part.chain.main, part.hangs)


def _modal(word: Word, setting: Setting) -> Finding:
    """Return the tense of may, shall, will: never evidence of time."""
    subject = setting.clause.subject or (setting.before.subject if setting.before else Subject())
    if setting.clause.stopper is not None and setting.words[setting.clause.stopper].role is Role.TO:
        return Finding(Tense.INFINITIVE, "after to", subject)
    past = word.may("preterite", "preterite-plural")
    if past and word.may("present", "present-3s", "present-plural"):
        return Finding(Tense.AMBIGUOUS, f"{word.text} may be present or preterite", subject)
    reason = f"{word.text} is a modal: no time by itself"
    return Finding(Tense.MODAL_PAST if past else Tense.MODAL, reason, subject)


_BUILT = {
    Build.PERFECT: {Tense.PRESENT: Tense.PERFECT, Tense.PRETERITE: Tense.PLUPERFECT},
    Build.MOTION: {Tense.PRESENT: Tense.PERFECT, Tense.PRETERITE: Tense.PLUPERFECT},
    Build.PASSIVE: {Tense.PRESENT: Tense.PRESENT_PASSIVE, Tense.PRETERITE: Tense.PAST_PASSIVE},
}


def _built(chain: Chain, tense: Tense) -> Tense:
    """Return the tense of a chain from that of its first verb."""
    return _BUILT.get(chain.build, {}).get(tense, tense)


_WANTED = frozenset({"past-participle", "infinitive"})
_WANTED_ALONE = {Tense.PRETERITE: frozenset(PRETERITES), Tense.PRESENT: frozenset(PRESENTS)}
"""What a form must be able to be for a verb to be named first, by what was found of it."""


def _group(words: Sequence[Word], part: _Part, *, instructs: bool) -> VerbGroup:
    verbs = tuple(sorted(words[k].at for k in part.chain.verbs))
    main = words[part.chain.main]
    kept = [s for s in main.verbs if s.headword.identity in main.kept]
    wanted = _WANTED if len(verbs) > 1 else _WANTED_ALONE.get(part.tense, _WANTED)
    several = len(main.verbs) > 1
    fitting = [s for s in (*kept, *main.verbs) if not wanted.isdisjoint(s.features)] if several else []
    heads = tuple(dict.fromkeys(_plain(s.headword.name) for s in (*fitting, *kept, *main.verbs)))
    headword = heads[0] if heads else ""
    places, subject = part.chain.verbs, part.subject
    settings = frozenset(settings_of(words, places, part.hangs))
    ordered = sorted(places)
    settings |= frozenset(about(words, ordered, headword, subject, settings, instructs=instructs))
    return VerbGroup(
        verbs[0],
        verbs[-1] + 1,
        verbs,
        words[part.chain.verbs[0]].at,
        main.at,
        part.tense,
        headword,
        subject,
        part.finding.reason,
        heads[1:],
        free=part.finding.free and len(verbs) == 1,
        settings=settings,
    )


def _plain(headword: str) -> str:
    return contracted_verbs().get(headword, headword)
