"""Verbs of an item in, out what two of them are to one another: another tense, another mood, neither."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from collate.analysis.tense_places import Place
from collate.analysis.tense_shifts import settled
from collate.model.apparatus import VariantKind
from collate.model.collation import Collation
from collate.model.tense import PAST_SIDE, PRESENT_SIDE, Tense, VerbGroup
from collate.model.witness import Token

_MOODS = frozenset({Tense.IMPERATIVE, Tense.SUBJUNCTIVE})
_MODALS = frozenset({Tense.MODAL, Tense.MODAL_PAST})
_FINITE = PRESENT_SIDE | PAST_SIDE


@dataclass(frozen=True, slots=True)
class VerbKinds:
    """The verbs of each witness by their tokens."""

    groups: Mapping[tuple[str, int], VerbGroup] = field(default_factory=dict)

    def between(self, a: str, ours: Token, b: str, theirs: Token) -> tuple[VariantKind, str] | None:
        """Return what the verbs of two witnesses, of one headword, differ in, and the reason.

        None where nothing is known of either; inflection where the words do not settle it. Where neither
        is a verb in its sentence, and they are unlike nouns, they are two words.
        """
        first, second = self.groups.get((a, ours.index)), self.groups.get((b, theirs.index))
        if first is None and second is None:
            return _two_nouns(ours, theirs)
        if first is None or second is None:
            return None
        if first.finite != ours.index or second.finite != theirs.index:
            return VariantKind.INFLECTION, f"{_said(ours, first)}; {_said(theirs, second)}"
        return _between(first, second), f"{_said(ours, first)}; {_said(theirs, second)}"


def _two_nouns(ours: Token, theirs: Token) -> tuple[VariantKind, str] | None:
    """Return that two words are no one word, which are forms of one verb elsewhere but here unlike nouns."""
    if any(name in theirs.headwords and not name.endswith("(verb)") for name in ours.headwords):
        return None
    names = [[name for name in each.headwords if not name.endswith("(verb)")] for each in (ours, theirs)]
    if not all(names):
        return None
    first, second = (min(each, key=lambda name: not name.endswith("(noun)")) for each in names)
    said = f"{ours.expanded} is {first}, {theirs.expanded} {second}"
    return VariantKind.SUBSTITUTION, f"unlike words, and no verbs here: {said}"


def _between(a: VerbGroup, b: VerbGroup) -> VariantKind:
    tenses = {a.tense, b.tense}
    if tenses & PRESENT_SIDE and tenses & PAST_SIDE:
        return VariantKind.TENSE
    if tenses == _MODALS:
        return VariantKind.MOOD
    if a.tense is not b.tense and tenses & _MOODS and tenses <= _MOODS | _FINITE:
        return VariantKind.MOOD
    return VariantKind.INFLECTION


def _said(token: Token, group: VerbGroup) -> str:
    """Return what is said of a verb: its reason, with the word and the tense if these are not in it."""
    said = group.reason
    if token.expanded.casefold() not in said.casefold().split():
        said = f"{token.expanded}: {said}"
    tense = str(group.tense).replace("-", " ")
    return said if tense in said else f"{said} ({tense})"


def verb_kinds(collation: Collation, found: Sequence[Place]) -> VerbKinds:
    """Return the verbs of a collation by witness and token."""
    return VerbKinds(
        {
            (collation.sigla[placed.witness], at): placed.group
            for place in found
            for placed in settled(place)
            for at in placed.group.verbs
        }
    )
