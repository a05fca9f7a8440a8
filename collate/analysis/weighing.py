"""What a difference between copies shows of date and what it does not: groups in, sentences out."""

from collections.abc import Iterator, Sequence

from collate.model.days import bounds_said
from collate.model.evidence import Certainty, Evidence, EvidenceKind, Layer, Standing

Group = tuple[tuple[str, ...], Sequence[Evidence]]
"""The witnesses that have the same at a place, and their evidence there."""

_STRENGTH = (Standing.DEAD, Standing.FORMER, Standing.LIVING)


def weighed(groups: Sequence[Group]) -> tuple[str, str]:
    """Return what a difference shows, and what it does not."""
    shows = [said for group in groups for said in _shows(group)]
    return " ".join(dict.fromkeys(shows)) or "No date follows from this.", " ".join(_not_shown(groups))


def standing_of(evidence: Sequence[Evidence]) -> Standing:
    """Return the strongest thing that evidence makes of a person: dead, then former, then living."""
    held = {each.standing for each in evidence}
    return next((standing for standing in _STRENGTH if standing in held), Standing.NEUTRAL)


def joined(sigla: Sequence[str]) -> str:
    """Return sigla as a list in words: A; A and B; A, B and C."""
    if len(sigla) < 2:
        return "".join(sigla)
    return f"{', '.join(sigla[:-1])} and {sigla[-1]}"


def _shows(group: Group) -> Iterator[str]:
    """Yield what one group's words show, the surest evidence of each sort alone."""
    sigla, evidence = group
    bound = [each for each in evidence if each.bounds]
    standing = standing_of(bound)
    of_person = [each for each in bound if each.standing is standing and standing in _STRENGTH]
    if of_person:
        yield _of_person(sigla, max(of_person, key=_surety))
    for each in bound:
        if each.kind in (EvidenceKind.REGNAL_DATE, EvidenceKind.CALENDAR_DATE):
            yield f"{joined(sigla)}: {_of_date(each)}"
        elif each.kind is EvidenceKind.OFFICE and not of_person:
            said = bounds_said(each.on(Layer.WORDING))
            yield f"{joined(sigla)}: the title is {said}, and so is the wording."
    if not bound and evidence and any(each.name and not each.lives for each in evidence):
        yield f"{joined(sigla)}: while {evidence[0].name} is unidentified, no date follows."


def _surety(each: Evidence) -> int:
    return (Certainty.POSSIBLE, Certainty.LIKELY, Certainty.CERTAIN).index(each.certainty)


def _of_person(sigla: Sequence[str], each: Evidence) -> str:
    who, wording = joined(sigla), each.on(Layer.WORDING)
    name = " and ".join(life.name for life in each.lives)
    said = bounds_said(wording)
    many = len(sigla) > 1
    copies = "the copies were" if many else "the copy was"
    if each.standing is Standing.DEAD:
        sure = "certainly" if each.certainty is Certainty.CERTAIN else "perhaps"
        return (
            f"{who}: {sure}, if the identification of {name} is right, the wording was made or revised"
            f" after the death, {said}, and {copies} written after it."
        )
    if each.standing is Standing.LIVING:
        return (
            f"{who}: the wording is {said}, in the lifetime of {name}, unless somebody who copied it turned"
            " a past into a present, or dropped a formula."
        )
    if each.certainty is Certainty.POSSIBLE:
        return (
            f"{who}: perhaps the wording is {said}; but a past tense may only tell what was so at the time."
        )
    return f"{who}: the wording is {said}, when the office was over; that is not the death of {name}."


def _of_date(each: Evidence) -> str:
    copy, wording = each.on(Layer.COPY), each.on(Layer.WORDING)
    if copy.not_after is not None:
        return f"the writing is dated {bounds_said(copy)}, unless the date was copied with the text."
    if each.on(Layer.ADDITION).not_before is not None:
        return f"the addition is {bounds_said(each.on(Layer.ADDITION))}."
    return f"wording and copy are {bounds_said(wording)}; what is dated is what is told, not the copy."


def _not_shown(groups: Sequence[Group]) -> Iterator[str]:
    """Yield what must not be concluded from a difference."""
    by = {standing: [g for g in groups if standing_of(g[1]) is standing] for standing in _STRENGTH}
    gone = [*by[Standing.DEAD], *by[Standing.FORMER]]
    if by[Standing.LIVING] and gone:
        living = joined([siglum for sigla, _ in by[Standing.LIVING] for siglum in sigla])
        yield (
            "Nothing here orders the copies: words for the living can be copied at any later date."
            f" That {living} had an earlier state of this wording is at most probable, and needs a second"
            " ground."
        )
    shared = [sigla for sigla, _ in gone if len(sigla) > 1]
    if shared:
        yield (
            f"That {joined(shared[0])} agree groups them only weakly: such a change can be made twice"
            " independently."
        )
    silent = [siglum for sigla, evidence in groups if not evidence for siglum in sigla]
    if silent:
        yield f"That {joined(silent)} {'has' if len(silent) == 1 else 'have'} nothing of it proves nothing."
