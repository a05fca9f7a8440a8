"""A verb among words with roles in, its subject out: before it, or after it where they are turned about."""

from collections.abc import Sequence
from dataclasses import replace

from collate.analysis.tense_seat import is_aux, is_modal, names_person
from collate.analysis.tense_words import Role, Word
from collate.lexicon.rule_words import rule_endings, rule_words
from collate.lexicon.verbs import authorities
from collate.model.tense import Subject, SubjectKind
from collate.model.value import value

_PASSED = (Role.ADVERB, Role.PREFIX, Role.OBJECT, Role.OPENER)
_PHRASE = (Role.NOUN, Role.ADJECTIVE, Role.DETERMINER, Role.PREPOSITION)


@value
class Clause:
    """What stands before a verb in its clause.

    `subject` is None where there is none; `stopper` is the word that ends the search (None at the
    beginning of a sentence); `of_noun` says that the subject is a noun, `relative` that it is *þat*.
    `bare` says that nothing at all stands between the stopper and the verb.
    """

    subject: Subject | None
    stopper: int | None
    of_noun: bool = False
    relative: bool = False
    bare: bool = False


def clause_before(words: Sequence[Word], at: int) -> Clause:
    """Return the clause before a verb: its subject, and the word at which the clause begins."""
    chain: list[int] = []
    passed = False
    for k in range(at - 1, words[at].start - 1, -1):
        word = words[k]
        if word.role is Role.OPENER and word.breaks and not word.opens:
            return _ended(words, chain, k, passed=True)
        if word.role in _PASSED and not (chain and word.role is Role.OBJECT):
            passed = True
        elif word.role in _PHRASE or (word.role is Role.OBJECT and words[k - 1].role is Role.PREPOSITION):
            chain.insert(0, k)
        elif word.role is Role.SUBJECT and (
            not _head(words, chain) or (words[chain[0]].breaks and chain[0] == k + 1)
        ):
            return Clause(of_pronoun(word), k, bare=not passed)
        elif word.role is Role.RELATIVE and ("over" in word.details or not _head(words, chain)):
            return Clause(_antecedent(words, k), k, relative=True)
        elif word.role is Role.COORDINATOR and _joins_nouns(words, k, chain):
            chain.insert(0, k)
        else:
            stopper = k - 1 if _after_verb(words, k) else k
            return _apposed(words, k, chain) or _ended(words, chain, stopper, passed=passed)
    return _ended(words, chain, None, passed=passed)


def _after_verb(words: Sequence[Word], at: int) -> bool:
    """Say whether a word is the pronoun object of a verb before it: *bryngeþ vs þe breem*."""
    if words[at].role is not Role.OBJECT or at == 0 or words[at].opens:
        return False
    return words[at - 1].role is Role.VERB


def _apposed(words: Sequence[Word], at: int, chain: Sequence[int]) -> Clause | None:
    """Return the clause of *I Robert*, *we pore men*: the pronoun is its subject, whatever noun follows."""
    if words[at].role is not Role.SUBJECT or not words[at].details & {"first", "second"}:
        return None
    near = bool(chain) and chain[0] == at + 1 and words[chain[0]].role is not Role.PREPOSITION
    return Clause(of_pronoun(words[at]), at) if near else None


def _ended(words: Sequence[Word], chain: list[int], stopper: int | None, *, passed: bool) -> Clause:
    head = _head(words, chain) or _bare_plural(words, chain)
    if not head:
        return Clause(None, stopper, bare=not chain and not passed)
    plural = any(words[k].role is Role.COORDINATOR for k in chain) or None
    return Clause(_of_nouns(words, head, plural=plural), stopper, of_noun=True)


def _bare_plural(words: Sequence[Word], chain: Sequence[int]) -> list[int]:
    """Return a plural without article straight after another noun: *bi lawe of þis lond men ben hanged*."""
    if len(chain) < 3:
        return []
    last, before = words[chain[-1]], words[chain[-2]]
    nouns = chain[-1] == chain[-2] + 1 and last.role is Role.NOUN and before.role is Role.NOUN
    return [chain[-1]] if nouns and "plural" in last.details and "plural" not in before.details else []


def _joins_nouns(words: Sequence[Word], at: int, chain: list[int]) -> bool:
    """Say whether *and* joins two nouns before one verb."""
    if not chain or at == 0 or words[at].opens or words[at].breaks:
        return False
    return (
        words[at - 1].role is Role.NOUN
        and words[chain[0]].role is not Role.PREPOSITION
        and _opens_clause(words, at - 1)
    )


def _opens_clause(words: Sequence[Word], at: int) -> bool:
    """Say whether the nouns that end at a word open their clause: no verb's object, no preposition's."""
    for k in range(at, -1, -1):
        if words[k].opens:
            return words[k].role is not Role.PREPOSITION
        if words[k].role not in (Role.NOUN, Role.ADJECTIVE, Role.DETERMINER):
            return words[k].role in (Role.SUBORDINATOR, Role.COORDINATOR, Role.OPENER, Role.RELATIVE)
    return True


def of_pronoun(word: Word) -> Subject:
    """Return the subject that a pronoun is."""
    said = word.details
    kinds = {"person": SubjectKind.PERSON, "people": SubjectKind.PEOPLE, "thing": SubjectKind.THING}
    kind = next((kinds[name] for name in sorted(said & kinds.keys())), SubjectKind.PERSON)
    plural = "plural" in said if said & {"plural", "singular"} else None
    other = bool(said & {"first", "second"})
    if other:
        plural = "plural" in said
    if word.is_class("determiner") and not other:
        kind = SubjectKind.THING
    return Subject(word.text, kind, plural, third=not other)


def _head(words: Sequence[Word], chain: Sequence[int]) -> list[int]:
    """Return the words of the first noun, with its titles and names, that no preposition governs."""
    clusters = _clusters(words, chain)
    for governed, cluster in clusters:
        if not governed:
            return cluster
    if chain and "for" in words[chain[0]].details and clusters:
        return clusters[0][1]
    return []


def _clusters(words: Sequence[Word], chain: Sequence[int]) -> list[tuple[bool, list[int]]]:
    """Cut a chain of words into nouns with what belongs to them, and say which a preposition governs."""
    found: list[tuple[bool, list[int]]] = []
    governed, cluster, noun = False, list[int](), False
    for k in chain:
        role = words[k].role
        fresh = role in (Role.PREPOSITION, Role.COORDINATOR) or (role is Role.DETERMINER and noun)
        if fresh or (noun and k != cluster[-1] + 1):
            if noun:
                found.append((governed, cluster))
            governed, cluster, noun = role is Role.PREPOSITION, [], False
        if role in (Role.NOUN, Role.ADJECTIVE, Role.DETERMINER, Role.OBJECT):
            cluster = [*cluster, k]
            noun = noun or role in (Role.NOUN, Role.OBJECT)
    if cluster and (noun or words[cluster[0]].role is Role.DETERMINER):
        found.append((governed, cluster))
    return found


def _of_nouns(words: Sequence[Word], cluster: Sequence[int], *, plural: bool | None = None) -> Subject:
    nouns = [words[k] for k in cluster if words[k].role is Role.NOUN] or [words[k] for k in cluster]
    text = " ".join(words[k].text for k in cluster if words[k].role is not Role.DETERMINER)
    number = plural if plural is not None else _plural(words, cluster, nouns)
    return Subject(text or nouns[-1].text, _kind(nouns, words, cluster, plural=bool(number)), number)


def _plural(words: Sequence[Word], cluster: Sequence[int], nouns: Sequence[Word]) -> bool | None:
    """Return the number of nouns; *þe moste part* has a verb of one or of several."""
    these = rule_words("these-with-noun")
    several = any("plural" in noun.details and noun.senses for noun in nouns[-1:])
    if several and any(words[k].is_class("numeral") for k in cluster):
        return True
    for k in cluster:
        if several and words[k].key in these:
            return True
        if words[k].role is Role.DETERMINER and words[k].details & {"plural", "singular"}:
            return "plural" in words[k].details
    if any(words[k].role is Role.ADJECTIVE and "plural" in words[k].details for k in cluster):
        return True
    last = nouns[-1]
    if len(cluster) > 1 and last.is_class("numeral") and last.key.startswith(rule_endings("both-begins")):
        return True
    peoples = not last.senses and last.text[:1].isupper() and last.key.endswith(rule_endings("es"))
    if peoples and words[cluster[0]].role is Role.DETERMINER:
        return True
    if last.key in rule_words("group-noun"):
        return None
    if any({"singular", "plural"}.issubset(sense.features) for sense in last.senses):
        return True
    alone = last.is_class("adjective") and len(nouns) == 1
    if last.role is not Role.NOUN or (alone and words[cluster[0]].role is Role.DETERMINER):
        return None
    return "plural" in last.details


def _kind(
    nouns: Sequence[Word], words: Sequence[Word], cluster: Sequence[int], *, plural: bool
) -> SubjectKind:
    """Return what nouns name: a person, people, one whose words are cited, or a thing."""
    said = {s.headword.identity for k in cluster for s in words[k].senses}
    if said & authorities() and not _certain_one(words, cluster):
        return SubjectKind.AUTHORITY
    kept = [s for noun in nouns for s in noun.senses if s.headword.identity in noun.kept]
    kinds = {s.headword.kind for s in kept if not s.headword.gloss.startswith("Latin:")}
    first = cluster[0]
    before = words[first - 1] if first else None
    unknown = [noun for noun in nouns if not noun.senses and noun.text[:1].isupper()]
    place = before is not None and before.role is Role.PREPOSITION and before.key in rule_words("at-place")
    if kinds & {"person", "office"} or "person" in nouns[-1].details or (unknown and not place):
        return SubjectKind.PEOPLE if plural else SubjectKind.PERSON
    return SubjectKind.THING


def _certain_one(words: Sequence[Word], cluster: Sequence[int]) -> bool:
    """Say whether nouns name persons who are not cited: *þe clerk of þe spicerie*, *two clerkes*."""
    last = cluster[-1]
    learned = "clerk" in words[last].names
    if not learned:
        return False
    of = last + 1 < len(words) and words[last + 1].key == "of" and not words[last + 1].opens
    return of or any(words[k].is_class("numeral") for k in cluster)


def _antecedent(words: Sequence[Word], at: int) -> Subject:
    """Return what a relative stands for: the nearest noun before it, or the person whose house that is."""
    chain: list[int] = []
    for k in range(at - 1, -1, -1):
        role = words[k].role
        if words[k + 1].opens:
            break
        if role in (Role.SUBJECT, Role.OBJECT) and not chain:
            return of_pronoun(words[k]) if role is Role.SUBJECT else _of_object(words[k])
        if role in _PHRASE or (role in (Role.ADVERB, Role.OBJECT) and chain):
            chain.insert(0, k)
        elif role is not Role.ADVERB:
            break
    every = [cluster for _, cluster in _clusters(words, chain)]
    quoted = chain[0] - 1 if chain else 0
    if quoted > 0 and _quotes(words, quoted):
        return _of_nouns(words, [quoted - 1])
    clusters = [cluster for cluster in every if any(words[k].role is not Role.DETERMINER for k in cluster)]
    if not clusters:
        such = words[at].key in rule_words("as")
        if chain and ("plural" in words[chain[-1]].details or words[chain[-1]].key == "alle"):
            return Subject(words[chain[-1]].text, SubjectKind.PEOPLE, plural=True)
        return Subject(words[at].text, SubjectKind.PEOPLE if such else SubjectKind.NONE, None)
    first = clusters[-1][0]
    if first and words[first].breaks and not words[first].opens and words[first - 1].role is Role.SUBJECT:
        return of_pronoun(words[first - 1])
    nearest = _of_nouns(words, clusters[-1])
    if nearest.kind is SubjectKind.THING:
        owners = [_of_nouns(words, cluster) for cluster in clusters[:-1]]
        person = [owner for owner in owners if owner.kind in (SubjectKind.PERSON, SubjectKind.PEOPLE)]
        return person[-1] if person and not owners[-1].plural else nearest
    return nearest


def _quotes(words: Sequence[Word], at: int) -> bool:
    """Say whether *quod* with its subject after it parts a noun from its relative."""
    quoth = words[at].role is Role.VERB and words[at].named("quethen", "seien")
    return quoth and not words[at].opens and words[at - 1].role is Role.NOUN


def resumed_subject(words: Sequence[Word], at: int) -> Subject | None:
    """Return what opens a sentence, has a clause hanging on it and waits for its verb.

    *þe boke, as it is founden here, lakketh a lef*; *he þat made it first called it so*.
    """
    start = words[at].start
    while start < at and words[start].role in (Role.COORDINATOR, Role.OPENER, Role.ADVERB):
        start += 1
    stop = start
    while stop < at and words[stop].role in (*_PHRASE, Role.SUBJECT):
        stop += 1
    if stop in (start, at):
        return None
    if words[stop].role not in (Role.RELATIVE, Role.SUBORDINATOR) and not words[stop].breaks:
        return None
    if words[start].role is Role.SUBJECT:
        apposed = stop > start + 1 and words[start + 1].breaks
        return of_pronoun(words[start]) if stop == start + 1 or apposed else None
    head = _head(words, list(range(start, stop)))
    return _of_nouns(words, head) if head else None


def _of_object(word: Word) -> Subject:
    thing = word.key in rule_words("it")
    plural = not word.names.isdisjoint(rule_words("several-persons"))
    kind = SubjectKind.PEOPLE if plural else SubjectKind.PERSON
    return Subject(word.text, SubjectKind.THING if thing else kind, plural)


def _another_noun(words: Sequence[Word], k: int) -> bool:
    """Say whether a plural follows a noun in the singular: *þer dwellen in þe strete bakeres*."""
    noun = words[k - 1].role is Role.NOUN and words[k].role is Role.NOUN
    return noun and "plural" in words[k].details and "singular" in words[k - 1].details


def _past_phrase(words: Sequence[Word], start: int) -> int:
    """Return where a noun with its article begins after a phrase: *þer lay by þe weye a man*."""
    if start >= len(words) or words[start].role is not Role.PREPOSITION or words[start].opens:
        return start
    noun = False
    for k in range(start + 1, min(start + 6, len(words))):
        if words[k].opens or words[k].role not in (Role.NOUN, Role.ADJECTIVE, Role.DETERMINER):
            return start
        if noun and (words[k].role is Role.DETERMINER or _another_noun(words, k)):
            return k
        noun = noun or words[k].role is Role.NOUN
    return start


def subject_after(words: Sequence[Word], at: int, *, any_verb: bool) -> Subject | None:
    """Return the subject that follows a verb: *þus was þe boke made*, *were he*.

    A noun is the subject only of an auxiliary, or of `any_verb`.
    """
    cluster: list[int] = []
    start = _past_phrase(words, at + 1) if any_verb else at + 1
    for k in range(start, min(start + 7, len(words))):
        word = words[k]
        if word.opens or (word.breaks and (cluster or k == at + 1)):
            break
        if word.role is Role.SUBJECT and not cluster:
            return of_pronoun(word)
        if word.role in (Role.NOUN, Role.ADJECTIVE, Role.DETERMINER):
            if cluster and words[cluster[-1]].role is Role.NOUN and word.role is not Role.NOUN:
                break
            cluster.append(k)
        elif not cluster and k == at + 1 and is_aux(words[at]) and word.may("past-participle"):
            continue
        elif cluster or word.role not in (Role.ADVERB, Role.PREFIX, Role.OPENER):
            break
    has = words[at].named("hauen", "nabben") and not _participle_ahead(words, at)
    turned = any_verb or (is_aux(words[at]) and not has) or is_modal(words[at])
    nouns = any(words[k].role is not Role.DETERMINER for k in cluster)
    if not (nouns and turned):
        return None
    found = _of_nouns(words, cluster)
    several = found.plural is False and _and_another(words, cluster[-1] + 1)
    return replace(found, kind=SubjectKind.PEOPLE, plural=None) if several else found


def _and_another(words: Sequence[Word], at: int) -> bool:
    """Say whether *and* and another person with an article end a sentence: *þe lady and ek hire doughter*."""
    if at >= len(words) or words[at].opens or words[at].role is not Role.COORDINATOR:
        return False
    k = at + 1
    while (
        k < len(words)
        and words[k].role in (Role.ADVERB, Role.DETERMINER, Role.ADJECTIVE)
        and not words[k].opens
    ):
        k += 1
    last = k < len(words) and words[k].role is Role.NOUN and words[k - 1].role is not Role.COORDINATOR
    ends = k + 1 >= len(words) or words[k + 1].opens or words[k + 1].role is Role.PREPOSITION
    return last and ends and names_person(words[k])


def person_after_it(words: Sequence[Word], at: int) -> Subject | None:
    """Return the person who follows *it* after a verb as its subject: *so smyt it þe keruer*."""
    after = words[at + 1] if at + 1 < len(words) else None
    if after is None or after.opens or "hit" not in after.names:
        return None
    cluster: list[int] = []
    for k in range(at + 2, min(at + 7, len(words))):
        if (
            words[k].opens
            or words[k].breaks
            or words[k].role not in (Role.NOUN, Role.ADJECTIVE, Role.DETERMINER)
        ):
            break
        cluster.append(k)
    if not any(words[k].role is Role.NOUN for k in cluster):
        return None
    found = _of_nouns(words, cluster)
    return found if found.kind in (SubjectKind.PERSON, SubjectKind.PEOPLE) else None


def _participle_ahead(words: Sequence[Word], at: int) -> bool:
    """Say whether a participle follows *have* in its sentence: *hadde þe kyng knowen*."""
    for word in words[at + 1 : at + 8]:
        if word.opens:
            return False
        if word.role is Role.VERB:
            return word.may("past-participle")
    return False
