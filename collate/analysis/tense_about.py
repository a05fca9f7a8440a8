"""A verb among words with roles in, out what it is about: a text, or the lasting state of one person."""

from collections.abc import Iterator, Sequence, Set

from collate.analysis.tense_seat import names_person
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_words
from collate.lexicon.verbs import texts, verb_classes, writers
from collate.model.tense import Subject, SubjectKind, VerbSetting

_REACH = 10
"""How many words after a verb its object is looked for."""


def about(
    words: Sequence[Word],
    verbs: Sequence[int],
    headword: str,
    subject: Subject,
    settings: Set[VerbSetting],
    *,
    instructs: bool,
) -> Iterator[VerbSetting]:
    """Yield that a verb makes or tells a text, and that it says what one person lastingly is or does."""
    uses = verb_classes().get(headword, frozenset())
    made = "making" in uses and _of_text(words, verbs, subject, uses, instructs=instructs)
    if made or ("telling" in uses and _tells(words, verbs, subject)):
        yield VerbSetting.TEXT
    if "state" in uses and _of_one(words, verbs, uses, subject, settings):
        yield VerbSetting.ONE


def _is_text(word: Word) -> bool:
    return any(sense.headword.identity in texts() for sense in word.senses)


def _of_text(
    words: Sequence[Word], verbs: Sequence[int], subject: Subject, uses: Set[str], *, instructs: bool
) -> bool:
    """Say whether a text is the subject or the object of a verb, or *it* is and no thing was named."""
    first, last = verbs[0], max(verbs)
    start = _clause_start(words, first)
    inner = [k for k in range(first, last) if k not in verbs]
    near = [
        *_ungoverned(words, range(start, first)),
        *inner,
        *_ungoverned(words, range(last + 1, _end(words, last))),
    ]
    named = set(subject.text.split(" "))
    back = words[first].start
    near += [k for k in range(back, start) if words[k].text in named]
    if any(_is_text(words[k]) for k in near):
        return True
    if "gathering" in uses and any(_these(words, k) for k in near):
        return True
    single = subject.plural is not True or not subject.third
    pronoun = any(_this(words[k]) for k in near)
    return pronoun and single and not instructs and not _thing_before(words, back, first)


def _clause_start(words: Sequence[Word], at: int) -> int:
    """Return where the clause of a verb begins; the noun before its relative is part of it."""
    for k in range(at - 1, -1, -1):
        word = words[k]
        if words[k + 1].opens or word.role is Role.VERB:
            return k + 1
        if word.role in (Role.RELATIVE, Role.SUBORDINATOR) and not word.details - {"that"}:
            return _noun_start(words, k)
        if word.role in (Role.SUBORDINATOR, Role.COORDINATOR):
            return k + 1
    return 0


_PHRASE = (Role.NOUN, Role.ADJECTIVE, Role.DETERMINER, Role.PREPOSITION)


def _noun_start(words: Sequence[Word], at: int) -> int:
    """Return where the noun before a relative begins: *a tretys of fysshe þat*."""
    start = at
    for k in range(at - 1, -1, -1):
        if words[k + 1].opens or words[k].role not in _PHRASE:
            break
        start = k
    return start


def _end(words: Sequence[Word], last: int) -> int:
    """Return where the object of a verb must have come: before the next verb or conjunction."""
    for k in range(last + 1, min(last + 1 + _REACH, len(words))):
        if words[k].opens or words[k].role in (Role.VERB, Role.SUBORDINATOR, Role.RELATIVE, Role.TO):
            return k
        if words[k].role is Role.COORDINATOR:
            return k
    return min(last + 1 + _REACH, len(words))


def _ungoverned(words: Sequence[Word], places: range) -> Iterator[int]:
    """Yield the words among some that no preposition governs."""
    governed = noun = False
    for k in places:
        role = words[k].role
        if role is Role.PREPOSITION:
            governed, noun = True, False
        elif role in (Role.SUBJECT, Role.COORDINATOR, Role.RELATIVE) or (role is Role.DETERMINER and noun):
            governed = False
        noun = noun or role is Role.NOUN
        if not governed:
            yield k


def _these(words: Sequence[Word], k: int) -> bool:
    """Say whether *þise* stands here before a noun: *þise metes*."""
    word = words[k]
    return word.role is Role.DETERMINER and not word.names.isdisjoint(rule_words("these"))


def _this(word: Word) -> bool:
    """Say whether a word is *þis* alone, or *it*."""
    if word.role not in (Role.SUBJECT, Role.OBJECT, Role.NOUN, Role.DETERMINER):
        return False
    alone = word.role is not Role.DETERMINER
    return alone and ("this" in word.names or "hit" in word.names)


def _thing_before(words: Sequence[Word], start: int, stop: int) -> bool:
    """Say whether the noun last named before a verb is a thing, and no text."""
    for k in range(stop - 1, start - 1, -1):
        word = words[k]
        if word.role is Role.NOUN and not _this(word):
            return not _is_text(word) and not names_person(word)
    return False


def _tells(words: Sequence[Word], verbs: Sequence[int], subject: Subject) -> bool:
    """Say whether a verb tells in a book, or its subject is the writer."""
    first, last = verbs[0], max(verbs)
    named = set(subject.text.split(" "))
    near = [word for word in words[max(0, first - _REACH) : last + 1 + _REACH] if word.text in named]
    near += words[last + 1 : last + 4]
    if any(s.headword.identity in writers() for word in near for s in word.senses):
        return True
    here = any(word.key in rule_words("around-here") for word in words[last + 1 : last + 2] if not word.opens)
    if here and not subject.third and subject.plural is False:
        return True
    for k in range(last + 1, _end(words, last)):
        if words[k].role is Role.PREPOSITION and words[k].key == "in":
            return any(_is_text(word) for word in words[k + 1 : k + 4])
    return False


def _of_one(
    words: Sequence[Word],
    verbs: Sequence[int],
    uses: Set[str],
    subject: Subject,
    settings: Set[VerbSetting],
) -> bool:
    """Say whether a verb says something of one person, as its subject or as whom it concerns."""
    if "impersonal" in uses:
        return any(_concerned(words, k) for k in (verbs[0] - 1, max(verbs) + 1))
    if "service" in uses and _serves_thing(words, max(verbs)):
        return False
    named = set(subject.text.split(" "))
    near = [
        k
        for k in range(max(0, verbs[0] - _REACH), min(max(verbs) + _REACH, len(words)))
        if words[k].text in named
    ]
    no = rule_words("no")
    if any(k and words[k - 1].key in no and words[k].role is Role.NOUN for k in near):
        return False
    if subject.kind is SubjectKind.PERSON:
        return subject.plural is False or (
            subject.plural is None and any(names_person(words[k]) for k in near)
        )
    if subject.plural is True or not subject.third:
        return False
    if subject.kind is SubjectKind.AUTHORITY:
        return any(names_person(words[k]) for k in near)
    office = VerbSetting.OFFICE in settings
    if subject.kind is SubjectKind.NONE:
        return office
    unknown = bool(near) and not any(words[k].senses for k in near)
    return (office and VerbSetting.RELATIVE in settings) or ("mind" in uses and unknown)


def _serves_thing(words: Sequence[Word], last: int) -> bool:
    """Say whether a thing is what is served: *he serueþ potage*, and not *he serueþ þe lord*."""
    for word in words[last + 1 : _end(words, last)]:
        if word.role in (Role.NOUN, Role.OBJECT):
            return word.role is Role.NOUN and bool(word.senses) and not names_person(word)
        if word.role not in (Role.DETERMINER, Role.ADJECTIVE):
            break
    return False


def _concerned(words: Sequence[Word], k: int) -> bool:
    """Say whether a word is *me*, *him* and the like: one person."""
    if not 0 <= k < len(words):
        return False
    word = words[k]
    if word.role not in (Role.OBJECT, Role.SUBJECT, Role.DETERMINER, Role.NOUN):
        return False
    one = rule_words("one-person")
    named = not word.names.isdisjoint(one)
    return named and (word.role is Role.OBJECT or word.key in one)
