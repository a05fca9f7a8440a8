"""What a reading is beside the lemma: its kind, its weight, and the rule that says so."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache

from collate.analysis.lacking import letters_fit
from collate.lexicon.causes import EXPANSION, in_expansion, likely_cause, likely_cause_of_number
from collate.lexicon.numerals import lone_letter
from collate.model.apparatus import VariantKind, Weight
from collate.model.collation import Presence
from collate.model.division import MOST, divided, joined, letters, paired
from collate.model.form import Judge, Judgement, Relation, form_of, one_word
from collate.model.numbers import figures
from collate.model.transcript import Mark
from collate.model.value import value
from collate.model.witness import Token, TokenKind, shown


@value
class Verdict:
    """What a reading is, how much it weighs, and by which rule."""

    kind: VariantKind
    weight: Weight
    reason: str
    cause: str = ""
    confusion: str = ""


_OF_RELATION = {
    Relation.SAME: VariantKind.SPELLING,
    Relation.SPELLING: VariantKind.SPELLING,
    Relation.INFLECTION: VariantKind.INFLECTION,
    Relation.TENSE: VariantKind.TENSE,
    Relation.MOOD: VariantKind.MOOD,
    Relation.DIFFERENT: VariantKind.SUBSTITUTION,
}
_ACCIDENTAL = frozenset(
    {
        VariantKind.SPELLING,
        VariantKind.ABBREVIATION,
        VariantKind.DIVISION,
        VariantKind.PUNCTUATION,
        VariantKind.NUMERAL,
    }
)
_GRAVITY = (
    VariantKind.PUNCTUATION,
    VariantKind.ABBREVIATION,
    VariantKind.SPELLING,
    VariantKind.NUMERAL,
    VariantKind.DIVISION,
    VariantKind.INFLECTION,
    VariantKind.MOOD,
    VariantKind.TENSE,
    VariantKind.SUBSTITUTION,
)


@lru_cache(maxsize=65536)
def verdict(kind: VariantKind, reason: str, *, slight: bool = False) -> Verdict:
    """Return a verdict, its weight by Greg 1950: accidental is what touches presentation only.

    An inflection weighs unless it is `slight`, changing neither number nor tense.
    """
    light = kind in _ACCIDENTAL or (slight and kind is VariantKind.INFLECTION)
    return Verdict(kind, Weight.ACCIDENTAL if light else Weight.SUBSTANTIVE, reason)


Verbs = Callable[[Token, Token], tuple[VariantKind, str] | None]
"""What says of two tokens what they are as verbs in their sentences, None where they are none."""


def _no_verbs(_: Token, __: Token) -> None:
    """Say nothing of verbs."""


def classify(
    lemma: Sequence[Token],
    reading: Sequence[Token],
    presence: Presence,
    judge: Judge,
    verbs: Verbs = _no_verbs,
) -> Verdict:
    """Return the kind of a reading beside the lemma, and the reason.

    The judge knows two forms only; `verbs` says what they are where they stand, and has the last
    word on tense and mood.
    """
    if presence is Presence.LACUNOSE:
        return LOST
    ours, theirs = _words(lemma), _words(reading)
    if not ours and not theirs:
        return _POINTS
    if not theirs:
        return _LACKING
    if not ours:
        return _ADDED
    if len(ours) == len(theirs) == 1:
        gravest: Verdict | None = _of_pair(ours[0], theirs[0], judge, verbs)
    else:
        gravest = _of_several(ours, theirs, judge, verbs)
    if gravest is None:
        return _of_unequal(ours, theirs, judge)
    if gravest.kind is VariantKind.PUNCTUATION and len(lemma) == len(ours) and len(reading) == len(theirs):
        return verdict(VariantKind.SPELLING, gravest.reason)
    return gravest


LOST = verdict(VariantKind.LACUNA, "the text is lost here: nothing can be said")
BEYOND = verdict(
    VariantKind.LACUNA,
    "the copy breaks off, or takes up after a loss, within the item: nothing can be said",
)
"""The verdict where a fragment has no words, the loss being marked in the item before or after."""

IN_HOLE = verdict(
    VariantKind.LACUNA,
    "it may have stood in the hole at the word beside it: whether it was omitted cannot be said",
)
"""The verdict where a copy lacks words beside a word whose letters are lost at that edge."""


_POINTS = verdict(VariantKind.PUNCTUATION, "only the punctuation differs")
_LACKING = verdict(VariantKind.OMISSION, "no word stands here")
_ADDED = verdict(VariantKind.ADDITION, "the base has no word here")
_CAPITAL = verdict(VariantKind.SPELLING, "capital and small letter")
_WRITTEN_OUT = verdict(VariantKind.ABBREVIATION, "the same word, abbreviated or written out")


def beside_lost(found: Verdict, lemma: Sequence[Token], reading: Sequence[Token]) -> Verdict:
    """Return the verdict where the base's own text is lost: no word there is no difference of points."""
    if _words(lemma):
        return found
    if _words(reading):
        return verdict(
            VariantKind.ADDITION, "the base's text is lost here: whether it had these words is unknown"
        )
    return verdict(VariantKind.OMISSION, "no word stands here; what the base had is lost")


def _words(tokens: Sequence[Token]) -> list[Token]:
    return [token for token in tokens if token.kind is TokenKind.WORD or token.kind is TokenKind.NUMERAL]


def _of_several(ours: Sequence[Token], theirs: Sequence[Token], judge: Judge, verbs: Verbs) -> Verdict | None:
    """Return the gravest verdict on words that answer to words, None where they do not go up."""
    if numbers := _two_numbers(ours, theirs, judge):
        return numbers
    groups = paired([*map(form_of, ours)], [*map(form_of, theirs)], judge)
    if groups is None:
        return None
    verdicts = [
        _of_pair(ours[i], theirs[j], judge, verbs)
        if i2 - i + j2 - j == 2
        else _divided(ours[i:i2], theirs[j:j2], judge)
        for i, i2, j, j2 in groups
    ]
    return max(verdicts, key=lambda each: (_GRAVITY.index(each.kind), each.weight))


def _two_numbers(ours: Sequence[Token], theirs: Sequence[Token], judge: Judge) -> Verdict | None:
    """Return the verdict where each reading as a whole is a number: another, or one in very many words."""
    if not all(judge.counts(form_of(words[0])) for words in (ours, theirs)):
        return None
    values = [_number(words, judge) for words in (ours, theirs)]
    if None in values:
        return None
    lone = any(len(words) == 1 and _is_lone(words[0]) for words in (ours, theirs))
    doubt = "; a lone letter may be no number" if lone else ""
    if values[0] == values[1]:
        long = max(len(ours), len(theirs)) > MOST and len(ours) != len(theirs)
        return verdict(VariantKind.NUMERAL, _ONE_NUMBER + doubt) if long or lone else None
    lesser, greater = sorted(value for value in values if value is not None)
    return verdict(VariantKind.SUBSTITUTION, f"two numbers, {figures(lesser)} and {figures(greater)}{doubt}")


def _number(words: Sequence[Token], judge: Judge) -> float | None:
    """Return the number that some words write as a whole, a lone letter taken for one."""
    value = judge.number(tuple(map(form_of, words)))
    return lone_letter(words[0].expanded) if value is None and len(words) == 1 else value


def _is_lone(token: Token) -> bool:
    return token.kind is TokenKind.WORD and lone_letter(token.expanded) is not None


def _of_lone(ours: Token, theirs: Token, judge: Judge) -> Verdict | None:
    """Return the verdict on a lone letter beside a number, or on one between points beside a word."""
    lone, other = (ours, theirs) if lone_letter(ours.expanded) is not None else (theirs, ours)
    value = lone_letter(lone.expanded)
    if value is None or lone_letter(other.expanded) is not None:
        return None
    if judge.number((form_of(other),)) is not None:
        return _two_numbers([ours], [theirs], judge) if _is_lone(lone) else None
    if lone.kind is TokenKind.NUMERAL:
        said = f"{lone.expanded} beside a word: the number {figures(value)}, a label, or a word shortened"
        return verdict(VariantKind.SUBSTITUTION, said)
    return None


def _divided(ours: Sequence[Token], theirs: Sequence[Token], judge: Judge) -> Verdict:
    """Return the verdict on one text divided in two ways; a number is one whatever words it is written in."""
    one, other = ("".join(letters(form_of(token).folded) for token in tokens) for tokens in (ours, theirs))
    if one != other and judge.number(tuple(map(form_of, ours))) is not None:
        return verdict(VariantKind.NUMERAL, _ONE_NUMBER)
    return DIVIDED


def _of_unequal(ours: Sequence[Token], theirs: Sequence[Token], judge: Judge) -> Verdict:
    judgement = judge(joined([*map(form_of, ours)]), joined([*map(form_of, theirs)]))
    if judgement.sure and judgement.relation is Relation.INFLECTION:
        return verdict(VariantKind.INFLECTION, judgement.reason, slight=judgement.slight)
    whole, parts = sorted((tuple(map(form_of, ours)), tuple(map(form_of, theirs))), key=len)
    if len(whole) == 1 and one_word(judgement) and divided(whole, parts, judge):
        return DIVIDED
    said = (" ".join(token.expanded for token in tokens) for tokens in (theirs, ours))
    return verdict(VariantKind.SUBSTITUTION, "other words: {} for {}".format(*said))


def _of_pair(ours: Token, theirs: Token, judge: Judge, verbs: Verbs) -> Verdict:
    if ours.expanded == theirs.expanded:
        alike = shown(ours, (Mark.EXPANDED,)) == shown(theirs, (Mark.EXPANDED,))
        return _POINTS if alike else _WRITTEN_OUT
    if ours.expanded.casefold() == theirs.expanded.casefold():
        return _CAPITAL
    judgement = judge(form_of(ours), form_of(theirs))
    if judgement.relation is Relation.DIFFERENT and letters_fit(ours, theirs):
        return verdict(VariantKind.SPELLING, "letters are lacking; those that are left fit the other")
    if found_lone := _of_lone(ours, theirs, judge):
        return found_lone
    if ours.value is not None or theirs.value is not None:
        return _with_cause(_of_numbers(ours, theirs, judgement), ours, theirs)
    if _one_number(ours, theirs, judgement, judge):
        return verdict(VariantKind.NUMERAL, judgement.reason)
    found = _as_verbs(judgement, verbs(ours, theirs))
    return found if judgement.one_sense else _with_cause(found, ours, theirs)


def _one_number(ours: Token, theirs: Token, judgement: Judgement, judge: Judge) -> bool:
    """Say whether two words of two headwords write one number: *two* and *tweyne*."""
    if judgement.relation is not Relation.SPELLING or ours.headwords == theirs.headwords != ():
        return False
    if not set(ours.headwords).isdisjoint(theirs.headwords):
        return False
    value = judge.number((form_of(ours),))
    return value is not None and value == judge.number((form_of(theirs),))


def _with_cause(found: Verdict, ours: Token, theirs: Token) -> Verdict:
    """Add the likely cause of another word or number."""
    if found.kind is not VariantKind.SUBSTITUTION:
        return found
    a, b = ours.expanded.casefold(), theirs.expanded.casefold()
    if ours.value is not None and theirs.value is not None:
        cause = likely_cause_of_number(a, b)
    else:
        cause = likely_cause(a, b) or (EXPANSION if _in_expansion(ours, theirs) else None)
    if cause is None:
        return found
    said = f"{found.reason}; {cause.said}"
    return replace(found, reason=said, cause=cause.name, confusion=cause.kind)


def _in_expansion(ours: Token, theirs: Token) -> bool:
    for one, other in ((ours, theirs), (theirs, ours)):
        marks = [(mark.start, mark.stop) for mark in one.marks if mark.mark is Mark.EXPANDED]
        if in_expansion(one.expanded.casefold(), other.expanded.casefold(), marks):
            return True
    return False


def _as_verbs(judgement: Judgement, told: tuple[VariantKind, str] | None) -> Verdict:
    """Return the verdict on two forms of one word; where they are verbs, by their sentences."""
    kind = _OF_RELATION[judgement.relation]
    if kind is not VariantKind.SUBSTITUTION and told is not None:
        found, reason = told
        if found is VariantKind.SUBSTITUTION:
            one = kind in (VariantKind.SPELLING, VariantKind.SUBSTITUTION) or judgement.slight
            return verdict(kind, judgement.reason, slight=judgement.slight) if one else verdict(found, reason)
        if found is not VariantKind.INFLECTION and not (
            found is VariantKind.MOOD and kind is VariantKind.SPELLING
        ):
            return verdict(found, reason)
        if kind in (VariantKind.TENSE, VariantKind.MOOD):
            return verdict(found, reason)
    if kind in (VariantKind.TENSE, VariantKind.MOOD):
        return verdict(VariantKind.INFLECTION, f"{judgement.reason}; not both plain verbs here")
    if judgement.one_sense:
        return Verdict(kind, Weight.ACCIDENTAL, judgement.reason)
    return verdict(kind, judgement.reason, slight=judgement.slight)


def _of_numbers(ours: Token, theirs: Token, judgement: Judgement) -> Verdict:
    if judgement.relation is Relation.DIFFERENT:
        return verdict(VariantKind.SUBSTITUTION, judgement.reason)
    return verdict(VariantKind.NUMERAL, _ONE_NUMBER)


_ONE_NUMBER = "one number in two notations"


DIVIDED = verdict(VariantKind.DIVISION, "the same words divided otherwise")
"""The verdict on one text divided in two ways."""

MOVED = verdict(VariantKind.TRANSPOSITION, "the same words stand elsewhere in this witness")
"""The verdict on either end of a move."""
