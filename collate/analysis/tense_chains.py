"""A verb among words with roles in, the verbs that make one with it out: *hath ordeyned*, *is wel made*."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from collate.analysis.tense_forms import LATE_PARTICIPLE
from collate.analysis.tense_seat import is_modal, pronoun_object
from collate.analysis.tense_subjects import Clause
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_endings
from collate.lexicon.verbs import verb_classes
from collate.model.tense import Subject
from collate.model.value import value

_PARTICIPLES = ("past-participle", LATE_PARTICIPLE)

REACH = 14
"""How many words on a participle or an infinitive is looked for."""


class Build(StrEnum):
    """How a verb is put together."""

    SIMPLE = "simple"
    MODAL = "modal"
    PERFECT = "perfect"
    PASSIVE = "passive"
    MOTION = "motion"
    PROGRESSIVE = "progressive"


@value
class Chain:
    """The places of the verbs that make one, the one with the tense first; `main` carries the sense."""

    verbs: tuple[int, ...]
    main: int
    build: Build


def is_have(word: Word) -> bool:
    """Say whether a word is a form of have."""
    return word.named("hauen", "nabben")


def is_be(word: Word) -> bool:
    """Say whether a word is a form of be."""
    return word.named("ben", "nis")


def chain_at(words: Sequence[Word], at: int, clause: Clause) -> Chain:
    """Return the chain that a verb begins."""
    word = words[at]
    inverted = clause.subject is None
    if is_modal(word):
        return _modal(words, at)
    if is_have(word):
        found = _seek(words, at, _PARTICIPLES, past_nouns=True)
        if found is not None and not inverted and _two_objects(words, at, found):
            found = None
        found = _far(words, at) if found is None else found
        return _perfect(words, at, found) if found is not None else _done_has(words, at)
    if is_be(word) and at > 1 and _is_so(words, at):
        return Chain((at,), at, Build.SIMPLE)
    if is_be(word):
        existential = at > 0 and words[at - 1].role is Role.OPENER and words[at - 1].key.startswith("th")
        past_nouns = inverted and not (existential and words[at - 1].key.endswith(rule_endings("there")))
        found = _seek(words, at, (*_PARTICIPLES, "present-participle"), past_nouns=past_nouns)
        built = found is not None and not is_be(words[found]) and not _commands(words, at, found)
        built = built and found is not None and not _other_clause(words, at, found)
        return _with_be(words, at, found) if found is not None and built else _turned(words, at)
    return Chain((at,), at, Build.SIMPLE)


def _is_so(words: Sequence[Word], at: int) -> bool:
    """Say whether a relative and an adjective stand before *be*: *þat deed is*."""
    return words[at - 1].role is Role.ADJECTIVE and words[at - 2].role is Role.RELATIVE


def _far(words: Sequence[Word], at: int) -> int | None:
    """Return what is nothing but a participle, past the object of *have* and a remark between points."""
    points = 0
    for k in range(at + 1, min(at + 1 + REACH, len(words))):
        word = words[k]
        points += word.breaks
        if word.opens or word.role in (Role.COORDINATOR, Role.SUBORDINATOR, Role.RELATIVE, Role.TO):
            return None
        if word.role is Role.VERB and word.only("past-participle", LATE_PARTICIPLE):
            return k if points != 1 else None
        if word.role is Role.VERB and points != 1:
            return None
    return None


def _done_has(words: Sequence[Word], at: int) -> Chain:
    """Return *have* with a participle before it that ends its clause (*wel arered haþ*), or alone."""
    before, after = words[at - 1] if at else None, words[at + 1] if at + 1 < len(words) else None
    alone = Chain((at,), at, Build.SIMPLE)
    if before is None or words[at].opens or words[at].breaks or before.role is not Role.VERB:
        return alone
    if not before.may("past-participle") or before.may("present-3s", "infinitive"):
        return alone
    governs = (
        after is not None and not (after.opens or after.breaks) and after.role in _NOUNS[:1] + _NOUNS[2:]
    )
    return alone if governs else Chain((at, at - 1), at - 1, Build.PERFECT)


def _two_objects(words: Sequence[Word], at: int, found: int) -> bool:
    """Say whether a noun stands before a participle and a pronoun after it: *hath þe keye louede it*."""
    after = words[found + 1] if found + 1 < len(words) else None
    noun = any(words[k].role is Role.NOUN for k in range(at + 1, found))
    return noun and after is not None and not after.opens and pronoun_object(after)


def _commands(words: Sequence[Word], at: int, found: int) -> bool:
    """Say whether what may be a participle is rather a command with its object: *is ynogh take it*."""
    after = words[found + 1] if found + 1 < len(words) else None
    if found == at + 1 or after is None or after.opens or after.breaks or not words[found].may("imperative"):
        return False
    return after.role is Role.OBJECT


def _other_clause(words: Sequence[Word], at: int, found: int) -> bool:
    """Say whether what may be a participle is the verb of another clause.

    *We þat ben of þe gilde holden oure feste*; *where was þe capoun, seide þe cook*.
    """
    word, after = words[found], words[found + 1] if found + 1 < len(words) else None
    if found == at + 1 or after is None or after.opens:
        return False
    pronoun = after.role is Role.SUBJECT and not after.breaks
    if (
        (after.role is Role.DETERMINER or pronoun)
        and "citing" in word.uses
        and word.may("preterite", "present-3s")
    ):
        return True
    if (
        pronoun
        and after.details & {"people", "person", "first", "second"}
        and word.may("preterite-plural", "preterite")
    ):
        return any(words[k].role is Role.NOUN for k in range(at + 1, found))
    relative = any(words[k].role is Role.RELATIVE for k in range(max(0, at - 2), at))
    nouns = any(words[k].role is Role.NOUN for k in range(at + 1, found))
    acts = word.may("present-plural", "preterite", "preterite-plural")
    return relative and nouns and acts and after.role is Role.DETERMINER and "naming" not in word.uses


def _modal(words: Sequence[Word], at: int) -> Chain:
    found = _seek(words, at, ("infinitive",), past_nouns=True)
    sole = any("modal" not in verb_classes().get(s.headword.name, ()) for s in words[at].verbs)
    if found is None and (sole or words[at].only_named("owen")) and not _to_ahead(words, at):
        return Chain((at,), at, Build.SIMPLE)
    if found is None:
        return Chain((at,), at, Build.MODAL)
    if is_have(words[found]) or is_be(words[found]):
        inner = chain_at(words, found, Clause(Subject(), None))
        return Chain((at, *inner.verbs), inner.main, Build.MODAL)
    return Chain((at, found), found, Build.MODAL)


def _to_ahead(words: Sequence[Word], at: int) -> bool:
    """Say whether *to* and an infinitive follow soon: *oweth euer to kepe*; without, *oweth* is owns."""
    noun = False
    for word in words[at + 1 : at + 7]:
        noun = noun or word.role is Role.NOUN
        if word.opens or word.role in (Role.COORDINATOR, Role.SUBORDINATOR, Role.RELATIVE, Role.VERB):
            return False
        if word.role is Role.TO or (word.key == "to" and not noun):
            return True
    return False


def _perfect(words: Sequence[Word], at: int, found: int) -> Chain:
    if is_be(words[found]):
        inner = _seek(words, found, _PARTICIPLES, past_nouns=False)
        if inner is not None:
            return Chain((at, found, inner), inner, Build.PERFECT)
    return Chain((at, found), found, Build.PERFECT)


def _with_be(words: Sequence[Word], at: int, found: int) -> Chain:
    main = words[found]
    if main.only("present-participle"):
        return Chain((at, found), found, Build.PROGRESSIVE)
    senses = [s for s in main.verbs if {"past-participle", LATE_PARTICIPLE} & set(s.features)]
    motion = all("motion" in verb_classes().get(s.headword.name, ()) for s in senses)
    return Chain((at, found), found, Build.MOTION if motion else Build.PASSIVE)


def _turned(words: Sequence[Word], at: int) -> Chain:
    """Return *be* with a participle that stands before it (*as ordeyned was*), or alone."""
    before = words[at - 1] if at and not words[at].opens and not words[at].breaks else None
    after = words[at + 1] if at + 1 < len(words) else None
    ends = after is None or after.opens or after.breaks or after.role in (*_CLAUSE_ENDS, Role.ADVERB)
    if before is None or before.role is not Role.VERB or not before.may("past-participle"):
        return Chain((at,), at, Build.SIMPLE)
    named = "naming" in before.uses and before.only("past-participle")
    if ends or named or _headed(before):
        earlier = words[at - 2] if at > 1 else None
        noun = earlier is not None and earlier.role in (Role.NOUN, Role.ADJECTIVE)
        if (
            earlier is not None
            and earlier.role is Role.SUBJECT
            and before.may("preterite")
            and _that(words, at)
        ):
            return Chain((at,), at, Build.SIMPLE)
        doubtful = before.may("present-3s", "infinitive") and not _written(before, after)
        if not doubtful and (named or not (noun and _by_itself(words, at))):
            return Chain((at, at - 1), at - 1, Build.PASSIVE)
    return Chain((at,), at, Build.SIMPLE)


def _headed(before: Word) -> bool:
    """Say whether a participle that is no adjective opens the sentence: *ymaad was þe halle*."""
    return before.opens and not before.is_class("adjective")


def _written(before: Word, after: Word | None) -> bool:
    """Say whether a participle opens the sentence and a noun follows *be*: *writen is þis boke*."""
    article = after is not None and after.role in (Role.DETERMINER, Role.SUBJECT)
    return before.opens and article and not before.may("imperative")


def _that(words: Sequence[Word], at: int) -> bool:
    """Say whether *þat* and a pronoun stand before the verb before *was*: *al þat I wende was nouȝt*."""
    return at > 2 and "that" in words[at - 3].details


def _by_itself(words: Sequence[Word], at: int) -> bool:
    """Say whether what stands before a participle is no relative clause: *þe mete ysoden is*."""
    for k in range(at - 1, -1, -1):
        if words[k].role in (Role.RELATIVE, Role.SUBORDINATOR):
            return False
        if words[k].opens:
            break
    return True


_CLAUSE_ENDS = (Role.COORDINATOR, Role.SUBORDINATOR, Role.RELATIVE, Role.PREPOSITION)
_PASSED = (Role.ADVERB, Role.PREFIX, Role.OPENER, Role.OBJECT)
_NOUNS = (Role.NOUN, Role.ADJECTIVE, Role.DETERMINER, Role.SUBJECT)


@dataclass(slots=True)
class _Search:
    """How far a search has come: within a phrase, and whether its noun has been passed."""

    governed: bool = False
    noun: bool = False


def _seek(words: Sequence[Word], at: int, wanted: Sequence[str], *, past_nouns: bool) -> int | None:
    """Return the nearest verb to the right that may be a part wanted, None if something parts it."""
    search = _Search()
    for k in range(at + 1, min(at + 1 + REACH, len(words))):
        word = words[k]
        if word.opens or (word.breaks and word.role not in (Role.PREPOSITION, Role.VERB)):
            return None
        if word.role is Role.VERB:
            return k if word.may(*wanted) and not (word.breaks and search.noun) else None
        if word.role is Role.PREPOSITION:
            search.governed, search.noun = True, False
        elif word.role in _PASSED:
            continue
        elif word.role in _NOUNS:
            if not _passable(words, k, search, past_nouns=past_nouns):
                return None
        elif not (word.role is Role.COORDINATOR and _joins_adverbs(words, k)):
            return None
    return None


def _passable(words: Sequence[Word], k: int, search: _Search, *, past_nouns: bool) -> bool:
    """Say whether a noun, adjective or the like may stand between an auxiliary and its verb."""
    role = words[k].role
    if search.governed:
        if role is Role.DETERMINER and search.noun:
            search.governed = False
        search.noun = search.noun or role is Role.NOUN
        if search.governed:
            return True
    if past_nouns:
        if role is Role.SUBJECT and search.noun:
            it = "hit" in words[k].names
            return it and k + 1 < len(words) and words[k + 1].role is Role.VERB
        search.noun = search.noun or role in (Role.NOUN, Role.ADJECTIVE)
        return True
    follower = words[k + 1].role if k + 1 < len(words) else None
    search.noun = search.noun or role is Role.ADJECTIVE
    return role is Role.ADJECTIVE and follower in (Role.VERB, Role.ADVERB, Role.PREFIX)


def _joins_adverbs(words: Sequence[Word], k: int) -> bool:
    light = (Role.ADVERB, Role.ADJECTIVE)
    return k + 1 < len(words) and words[k - 1].role in light and words[k + 1].role in light
