"""A collation in, its shifts of tense out: one verb present in some witnesses, past in others, both clear."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from collate.analysis.tense import INSTRUCTIONS
from collate.analysis.tense_places import Place, Placed
from collate.lexicon.rule_words import rule_words
from collate.lexicon.verbs import verb_classes
from collate.lexicon.words import key_of
from collate.model.collation import Collation
from collate.model.tense import (
    PAST_SIDE,
    PRESENT_SIDE,
    ShiftKind,
    SubjectKind,
    Tense,
    TenseShift,
    VerbGroup,
    VerbSetting,
)
from collate.model.witness import ItemKind


def shifts(
    collation: Collation, base: str, kind: ItemKind, answering: Sequence[Place]
) -> tuple[TenseShift, ...]:
    """Return the shifts of an item in the order of their columns; `answering` are its verbs brought together.

    Of the witnesses at one place those of one tense stand together; `from_` is the base's side, or
    that of the first witness. Not told: modals, commands, wishes, participles and forms that may be
    either; what an authority says or said; *here begynneth*; and in an instruction the passive of
    what was done before (*þe water þat it was soden in*).
    """
    found = [shift for place in answering for shift in _of_place(collation, base, kind, settled(place))]
    return tuple(sorted(found, key=lambda shift: (shift.column, shift.stop)))


def settled(place: Place) -> Place:
    """Return a place with the open forms that another witness's clear one settles.

    Where one witness has an active present, a form without auxiliary beside it (*loued*) is finite too;
    where one has a clear preterite, *-eth* without a subject is a present and no command.
    """
    for tense, doubts, says in _SETTLES:
        clear = [placed for placed in place if placed.group.tense is tense and not placed.group.free]
        if clear:
            place = tuple(_settle(placed, clear[0], doubts, says) for placed in place)
    return place


_OTHER = {Tense.PRESENT: Tense.PRETERITE, Tense.PRETERITE: Tense.PRESENT}
_SETTLES = (
    (
        Tense.PRESENT,
        (Tense.AMBIGUOUS, Tense.PAST_PARTICIPLE),
        "taken for a preterite, since it stands beside a present",
    ),
    (Tense.PRETERITE, (Tense.IMPERATIVE,), "taken for a present, since it stands beside a preterite"),
)


def _settle(placed: Placed, clear: Placed, doubts: Sequence[Tense], says: str) -> Placed:
    group = placed.group
    if not group.free or group.tense not in doubts:
        return placed
    subject = group.subject if group.subject.text else clear.group.subject
    tense = _OTHER[clear.group.tense]
    return replace(placed, group=replace(group, tense=tense, reason=says, subject=subject, free=False))


def _of_place(collation: Collation, base: str, kind: ItemKind, place: Place) -> Iterator[TenseShift]:
    sides: dict[Tense, list[Placed]] = {}
    tenses = {placed.group.tense for placed in place}
    if tenses.isdisjoint(PRESENT_SIDE) or tenses.isdisjoint(PAST_SIDE):
        return
    for placed in sorted(place, key=lambda each: (collation.sigla[each.witness] != base, each.witness)):
        if placed.group.tense in PRESENT_SIDE | PAST_SIDE:
            sides.setdefault(placed.group.tense, []).append(placed)
    if any(silent(placed.group, kind) for side in sides.values() for placed in side):
        return
    ours = next(iter(sides)) in PRESENT_SIDE
    for from_tense, from_side in sides.items():
        for to_tense, to_side in sides.items():
            other_side = (from_tense in PRESENT_SIDE) == ours and (to_tense in PRESENT_SIDE) != ours
            if other_side and not _voices(from_side[0].group, to_side[0].group):
                yield _shift(collation, from_side, to_side)


def _voices(a: VerbGroup, b: VerbGroup) -> bool:
    """Say whether one is a passive and the other has the same participle without be: *is loued*, *loued*."""
    passive, other = (a, b) if a.tense is Tense.PRESENT_PASSIVE else (b, a)
    bare = len(other.verbs) == 1 and VerbSetting.BE not in other.settings
    return passive.tense is Tense.PRESENT_PASSIVE and other.tense is Tense.PRETERITE and bare


def silent(group: VerbGroup, kind: ItemKind) -> bool:
    """Say whether a verb's tense says nothing of time: a citation, *here begynneth*, what was done before."""
    classes = verb_classes().get(group.headword, frozenset())
    simple = group.tense in (Tense.PRESENT, Tense.PRETERITE, Tense.PERFECT, Tense.PLUPERFECT)
    text = group.subject.kind is SubjectKind.AUTHORITY
    if "textual" in classes and (VerbSetting.HERE in group.settings or (text and simple)):
        return True
    if "citing" in classes and simple and _cited(group):
        return True
    return kind in INSTRUCTIONS and _done_before(group)


def _cited(group: VerbGroup) -> bool:
    """Say whether a verb cites; what *þou* and *ȝe* say in a letter is no citation."""
    general = group.subject.text.casefold() in rule_words("general-people")
    addressed = not group.subject.third and key_of(group.subject.text) in rule_words("ye-or-thou")
    return (
        (VerbSetting.AS in group.settings and not addressed)
        or group.subject.kind is SubjectKind.AUTHORITY
        or general
    )


def _done_before(group: VerbGroup) -> bool:
    """Say whether a verb tells, within an instruction, in what state a thing is or was by then."""
    relative = VerbSetting.RELATIVE in group.settings
    third = VerbSetting.HAVE in group.settings and group.subject.third
    stays = relative and group.subject.kind in (SubjectKind.THING, SubjectKind.NONE)
    if stays and VerbSetting.WITHIN in group.settings and VerbSetting.COMMANDED in group.settings:
        return True
    hangs = relative or (VerbSetting.HANGING in group.settings and not third)
    built = group.settings & {VerbSetting.BE, VerbSetting.HAVE}
    if not hangs or not built or VerbSetting.AGENT in group.settings:
        return False
    perfect = group.tense in (Tense.PERFECT, Tense.PLUPERFECT)
    if perfect and not group.subject.third:
        return VerbSetting.COMMANDED in group.settings
    pronoun = group.subject.kind is SubjectKind.PEOPLE and " " not in group.subject.text
    if not pronoun and group.subject.kind not in (SubjectKind.THING, SubjectKind.NONE):
        return False
    return VerbSetting.COMMANDED in group.settings


def _shift(collation: Collation, ours: Sequence[Placed], theirs: Sequence[Placed]) -> TenseShift:
    first, second = ours[0], theirs[0]
    both = (*ours, *theirs)
    kind = kind_of(first.group, second.group)
    subject = first.group.subject if first.group.subject.text else second.group.subject
    return TenseShift(
        first.finite,
        max(placed.stop for placed in both),
        _sigla(collation, ours),
        _text(collation, first),
        first.group.tense,
        _sigla(collation, theirs),
        _text(collation, second),
        second.group.tense,
        kind,
        first.group.headword,
        subject,
        f"{first.group.reason}; {second.group.reason}: {_SAID[kind]}",
    )


def _sigla(collation: Collation, side: Sequence[Placed]) -> tuple[str, ...]:
    return tuple(collation.sigla[w] for w in sorted(placed.witness for placed in side))


def _text(collation: Collation, placed: Placed) -> str:
    """Return the verb's own words, with points where others stand between."""
    tokens = collation.items[placed.witness].tokens
    parts: list[str] = []
    for before, at in zip((None, *placed.group.verbs), placed.group.verbs, strict=False):
        if before is not None and at != before + 1:
            parts.append("…")
        parts.append(tokens[at].expanded)
    return " ".join(parts)


_SAID = {
    ShiftKind.STATE: "what one person is, has or does lastingly",
    ShiftKind.WRITING: "the making or telling of the text",
    ShiftKind.NAMING: "how a thing is called",
    ShiftKind.ASPECT: "perfect beside preterite, an aspect more than a time",
    ShiftKind.OTHER: "another verb",
}


def kind_of(a: VerbGroup, b: VerbGroup) -> ShiftKind:
    """Return what a shift between two verbs is about: naming, writing, aspect, state, in that order."""
    classes = verb_classes().get(a.headword, frozenset()) | verb_classes().get(b.headword, frozenset())
    if "naming" in classes:
        return ShiftKind.NAMING
    said = a.settings | b.settings
    if "writing" in classes or VerbSetting.TEXT in said:
        return ShiftKind.WRITING
    if Tense.PERFECT in (a.tense, b.tense):
        return ShiftKind.ASPECT
    return ShiftKind.STATE if VerbSetting.ONE in said else ShiftKind.OTHER
