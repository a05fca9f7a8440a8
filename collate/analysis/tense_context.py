"""A verb among words in, out what its clause hangs on: a condition, a wish, a time to come."""

from collections.abc import Iterator, Sequence, Set
from enum import StrEnum

from collate.analysis.tense_seat import names_person
from collate.analysis.tense_subjects import Clause
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_endings, rule_words
from collate.lexicon.verbs import authorities
from collate.model.tense import VerbSetting


class Hangs(StrEnum):
    """What a clause hangs on, as far as it asks for the subjunctive."""

    NOTHING = ""
    CONDITION = "condition"
    WISH = "wish"
    UNTIL = "until"
    RESULT = "result"
    QUESTION = "question"
    RELATIVE = "relative"


_SUBJUNCTIVE = frozenset({"condition", "wish", "until"})


def hangs_on(words: Sequence[Word], at: int, clause: Clause, earlier: Set[int]) -> Hangs:
    """Return what the clause of a verb hangs on; `earlier` are the places of finite verbs before it.

    The nearest conjunction decides, unless a finite verb stands between. A verb with its subject
    after it and nothing before (*were he hool*) makes a condition.
    """
    for k in range(at - 1, words[at].start - 1, -1):
        if k in earlier:
            break
        word = words[k]
        if word.role is Role.RELATIVE:
            return _relative(words, k, earlier)
        if word.role is Role.SUBORDINATOR:
            return _of_conjunction(words, k, earlier)
    return Hangs.CONDITION if _verb_first(words, at, clause) else Hangs.NOTHING


def _relative(words: Sequence[Word], k: int, earlier: Set[int]) -> Hangs:
    """Read *þat* straight after a verb of wishing as the conjunction it may be."""
    that = "that" in words[k].names
    wishes = that and k > 0 and words[k - 1].role is Role.VERB and _wishes(words[k - 1])
    return Hangs.WISH if wishes else Hangs.RELATIVE


def _of_conjunction(words: Sequence[Word], k: int, earlier: Set[int]) -> Hangs:
    said = words[k].details
    for name in (Hangs.CONDITION, Hangs.WISH, Hangs.UNTIL, Hangs.QUESTION):
        if name in said:
            return name
    if "that" not in said:
        return Hangs.NOTHING
    if k and words[k - 1].key == "so":
        return Hangs.RESULT
    return Hangs.WISH if _so(words, k) or _wished(words, k) else Hangs.NOTHING


def _so(words: Sequence[Word], k: int) -> bool:
    """Say whether *lest þat*, *if þat*, *til þat* stands here."""
    before = words[k - 1] if k else None
    return before is not None and bool(before.details & {"condition", "wish", "until"})


def _wished(words: Sequence[Word], k: int) -> bool:
    """Say whether a verb of wishing stands before *þat*, or an earlier *þat* of the same wish."""
    for j in range(k - 1, max(-1, k - 25), -1):
        if words[j + 1].opens:
            return False
        word = words[j]
        if word.role is Role.VERB:
            if _wishes(word):
                return True
            if not word.only("past-participle", "infinitive", "present-participle") and k - j < 4:
                return False
        if word.role is Role.NOUN and k - j == 1 and word.key.startswith(rule_endings("wish-noun-begins")):
            return True
    return False


def _wishes(word: Word) -> bool:
    """Say whether a verb asks for a wish after *þat*: *wolde*, *bad*; of some only the command: *loke*."""
    return "volition" in word.uses or ("watchfulness" in word.uses and word.may("imperative"))


def settings_of(words: Sequence[Word], verbs: Sequence[int], hangs: Hangs) -> Iterator[VerbSetting]:
    """Yield where a verb stands: after *here* or *as*, in a clause that hangs on another, with an agent."""
    first, last = verbs[0], max(verbs)
    near = words[max(words[first].start, first - 3) : first]
    openers = [word.key for word in near if word.role is Role.OPENER]
    if (openers and not rule_words("here").isdisjoint(openers)) or _ends_too(words, first):
        yield VerbSetting.HERE
    conjunctions = [word.key for word in near if word.role is Role.SUBORDINATOR]
    if (conjunctions and not rule_words("as").isdisjoint(conjunctions)) or _in_book(words, last):
        yield VerbSetting.AS
    conjunction = _conjunction(words, first)
    if hangs is Hangs.RELATIVE or (conjunction and _of_noun(words, conjunction)):
        yield VerbSetting.RELATIVE
    elif hangs is not Hangs.NOTHING or (conjunction is not None and words[conjunction].key != "for"):
        yield VerbSetting.HANGING
    if _ends_in(words, last):
        yield VerbSetting.WITHIN
    if words[first].named("hauen", "nabben"):
        yield VerbSetting.HAVE
    if words[first].named("ben", "nis"):
        yield VerbSetting.BE
        if _office(words, first):
            yield VerbSetting.OFFICE
    if _agent(words, last) or _where(words, last):
        yield VerbSetting.AGENT


def _ends_in(words: Sequence[Word], last: int) -> bool:
    """Say whether *in* follows a verb and no noun after it: *þe bryne þat þe bacoun lay in*."""
    after, second = words[last + 1 : last + 2], words[last + 2 : last + 3]
    if not after or after[0].opens or after[0].key not in rule_words("ends-relative"):
        return False
    return not second or second[0].breaks or second[0].role in (Role.COORDINATOR, Role.VERB)


def _ends_too(words: Sequence[Word], at: int) -> bool:
    """Say whether *and* joins a verb to one after *here*: *here endeth … and bigynneth*."""
    if (
        "textual" not in words[at].uses
        or at < 3
        or words[at].opens
        or words[at - 1].role is not Role.COORDINATOR
    ):
        return False
    for k in range(at - 2, 0, -1):
        if words[k].opens:
            return False
        if words[k].role is Role.VERB:
            return "textual" in words[k].uses and words[k - 1].key in rule_words("here")
    return False


def _in_book(words: Sequence[Word], last: int) -> bool:
    """Say whether *in his boke* or the like follows soon: what is told there is cited."""
    for k in range(last + 1, min(last + 6, len(words) - 2)):
        if words[k].opens or words[k].role in (Role.VERB, Role.COORDINATOR, Role.SUBORDINATOR):
            return False
        if words[k].role is Role.PREPOSITION and words[k].key == "in" and words[k + 1].key == "his":
            return any(s.headword.identity in authorities() for w in words[k + 2 : k + 4] for s in w.senses)
    return False


_PREDICATE = (Role.ADVERB, Role.ADJECTIVE, Role.DETERMINER, Role.OPENER, Role.NOUN)


def _office(words: Sequence[Word], at: int) -> bool:
    """Say whether what follows is the name of an office or of a person: *is abbot*, *was þan a gret lord*."""
    for word in words[at + 1 : at + 6]:
        if word.opens or word.role not in _PREDICATE:
            return False
        if word.role is Role.NOUN:
            return names_person(word)
    return False


def _conjunction(words: Sequence[Word], at: int) -> int | None:
    """Return the conjunction before a verb, None where another verb stands between."""
    for k in range(at - 1, words[at].start - 1, -1):
        role = words[k].role
        if role is Role.VERB:
            return None
        if role is Role.SUBORDINATOR or role is Role.RELATIVE:
            return k
    return None


def _of_noun(words: Sequence[Word], at: int) -> bool:
    """Say whether a conjunction follows the noun of which it tells: *þe water þat it was soden in*.

    *Wherin*, *whom* are no subject.
    """
    word = words[at]
    wherein = word.key.startswith(rule_endings("wherein-begins"))
    that = "that" in word.details or wherein or word.role is Role.RELATIVE
    return that and at > 0 and words[at - 1].role in (Role.NOUN, Role.OBJECT, Role.PREPOSITION)


def _agent(words: Sequence[Word], last: int) -> bool:
    """Say whether *by* and a person follow soon."""
    for k in range(last + 1, min(last + 7, len(words) - 1)):
        if words[k].opens or words[k].role in (Role.VERB, Role.COORDINATOR):
            return False
        if words[k].role is Role.PREPOSITION and words[k].key in rule_words("by"):
            return any(map(names_person, words[k + 1 : k + 5]))
    return False


def _land(word: Word) -> bool:
    return any(s.headword.word_class == "name" and s.headword.kind == "place" for s in word.senses)


def _where(words: Sequence[Word], last: int) -> bool:
    """Say whether *in* and a country or a part of the world follow: *as it was vsed in þe north*."""
    if last + 2 >= len(words) or words[last + 1].opens or words[last + 1].key != "in":
        return False
    near, parts = words[last + 2 : last + 4], rule_endings("part-of-world-begins")
    return any(not word.opens and (word.key.startswith(parts) or _land(word)) for word in near)


def _verb_first(words: Sequence[Word], at: int, clause: Clause) -> bool:
    """Say whether a verb stands first in its clause with a pronoun after it."""
    if clause.subject is not None or at + 1 >= len(words) or words[at + 1].opens or words[at + 1].breaks:
        return False
    second = words[at + 2] if at + 2 < len(words) else None
    if second is not None and second.role is Role.VERB and second.may("present-3s", "preterite"):
        return False
    first = clause.bare and not _opener_before(words, at)
    return first and words[at + 1].role is Role.SUBJECT


def _opener_before(words: Sequence[Word], at: int) -> bool:
    before = words[at - 1] if at and not words[at].opens else None
    return before is not None and before.role in (Role.OPENER, Role.ADVERB, Role.PREPOSITION)
