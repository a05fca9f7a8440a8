"""A dossier in, a paragraph in careful words out: what was seen, what follows from it, and what does not.

Certainty is said only in these words, each with its ground: dated; not before, not after; certainly, if
the identification is right; probably, on two independent grounds; perhaps, on one weak ground; no
inference possible. Words between asterisks are quoted from the copy.
"""

from collections.abc import Iterator, Sequence

from collate.model.dates import Bounds, Day
from collate.model.days import bounds_said, day_said, death_said, end_said, start_said
from collate.model.evidence import (
    Certainty,
    Dating,
    Dossier,
    Evidence,
    EvidenceKind,
    Interval,
    Layer,
    Life,
    Standing,
)
from collate.reports.dating_phrases import interval_said, person_said, place_said

_OF_PERSON = (Standing.DEAD, Standing.FORMER, Standing.LIVING)
_DATES = (EvidenceKind.REGNAL_DATE, EvidenceKind.CALENDAR_DATE)


def paragraph(dossier: Dossier) -> str:
    """Return a paragraph on one witness."""
    said = [
        *_hand(dossier),
        *([dossier.absent] if dossier.absent else []),
        *_dates(dossier),
        *_persons(dossier),
        *_other_grounds(dossier),
        *_additions(dossier),
        *_result(dossier),
    ]
    return " ".join(said)


def closing(found: Dating) -> str:
    """Return what must be said of all copies together, "" where nothing need be."""
    living, gone = _apart(found)
    if not living or not gone:
        return ""
    alive, over = _listed(living), _listed(gone)
    have = _verb(living, "has", "have")
    return (
        f"{alive} {_verb(living, 'speaks', 'speak')} of the living where {over}"
        f" {_verb(gone, 'does', 'do')} not. Nothing in this orders the books: words for the living can be"
        " copied at any later date, and words for the dead can be brought in twice independently."
        f" That {alive} {have} an earlier state of the wording is at most probable, and needs a second"
        " ground."
    )


def _apart(found: Dating) -> tuple[list[str], list[str]]:
    """Return the copies that speak of somebody as living, and those that speak of him as gone."""
    told = {
        life: [
            [d.witness.siglum for d in found.dossiers if _speaks(d, life, standings)]
            for standings in ((Standing.LIVING,), (Standing.DEAD, Standing.FORMER))
        ]
        for life in found.lives
    }
    opposed = [(alive, gone) for alive, gone in told.values() if alive and set(gone) - set(alive)]
    if not opposed:
        return [], []
    living = {siglum for alive, _ in opposed for siglum in alive}
    over = {siglum for _, gone in opposed for siglum in gone} - living
    order = [d.witness.siglum for d in found.dossiers]
    return [s for s in order if s in living], [s for s in order if s in over]


def _speaks(dossier: Dossier, life: Life, standings: Sequence[Standing]) -> bool:
    return any(each.standing in standings and each.lives == (life,) for each in dossier.evidence)


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _verb(subjects: Sequence[str], one: str, many: str) -> str:
    return one if len(subjects) == 1 else many


def _hand(dossier: Dossier) -> Iterator[str]:
    siglum, hand = dossier.witness.siglum, dossier.witness.hand
    if hand is None:
        yield f"The hand of {siglum} is not dated."
    else:
        years = f"{hand.not_before}–{hand.not_after}"
        yield f"By its hand {siglum} is {hand.stated} ({years} under the scheme “{hand.scheme}”)."


def _quoted(evidence: Evidence, *, place: bool = True) -> str:
    return f"(*{evidence.text}*, {place_said(evidence, line=False)})" if place else f"(*{evidence.text}*)"


def _dates(dossier: Dossier) -> Iterator[str]:
    """Yield a sentence on each dated clause."""
    siglum = dossier.witness.siglum
    for each in dossier.evidence:
        if each.kind not in _DATES:
            continue
        why = each.why.rstrip(".").replace(": ", ", ", 1)
        if not each.bounds:
            yield f"A date in it {_quoted(each)} dates nothing: {why}. No inference is possible from it."
        elif each.standing is Standing.SCRIBE:
            sure = "" if each.certainty is Certainty.LIKELY else "perhaps "
            yield (
                f"A date of the writing is given {_quoted(each)}: {why}. By it {siglum} is {sure}dated"
                f" {bounds_said(each.on(Layer.COPY))}, unless the date was copied with the text."
            )
        else:
            first = each.on(Layer.WORDING).not_before
            yield (
                f"What it tells is dated {_quoted(each)}: {why}. That is the date of the story and not of the"
                f" copy; but if the date is rightly copied, neither wording nor copy is before"
                f" {start_said(first) if first else 'it'}."
            )


def _persons(dossier: Dossier) -> Iterator[str]:
    """Yield what is said of each person, and what follows from it."""
    held = [each for each in dossier.evidence if each.standing in _OF_PERSON]
    for key in dict.fromkeys((each.lives, each.name if not each.lives else "") for each in held):
        group = [each for each in held if (each.lives, each.name if not each.lives else "") == key]
        yield _said_of(group, dossier)
        yield from _follows(group, dossier)


def _said_of(group: Sequence[Evidence], dossier: Dossier) -> str:
    """Return what is said of one person, each claim with the words that make it."""
    names = " or ".join(life.name for life in group[0].lives) or group[0].name or "Somebody who is not named"
    parts = []
    place = ""
    for each in group:
        here = place_said(each, line=False)
        parts.append(f"{each.says} {_quoted(each, place=here != place)}")
        place = here
    return f"In {dossier.witness.siglum} {names} is {_listed(list(dict.fromkeys(parts)))}."


def _follows(group: Sequence[Evidence], dossier: Dossier) -> Iterator[str]:
    lives = group[0].lives
    if not lives:
        who = group[0].name or "The person"
        yield f"{who} is unidentified: no inference is possible from these words."
        return
    bound = [each for each in group if each.bounds]
    if not bound:
        yield "No inference is possible from these words."
        return
    strong = next((s for s in _OF_PERSON if any(e.standing is s for e in bound)), Standing.NEUTRAL)
    for standing in _OF_PERSON:
        held = [each for each in bound if each.standing is standing]
        weak = all(each.certainty is Certainty.POSSIBLE for each in held)
        if held and not (standing is Standing.FORMER and weak and strong is Standing.DEAD):
            yield _CONSEQUENCE[standing](held, dossier)


def _who(held: Sequence[Evidence]) -> str:
    return " or ".join(life.name for life in held[0].lives)


def _of_dead(held: Sequence[Evidence], dossier: Dossier) -> str:
    siglum = dossier.witness.siglum
    best = max(held, key=_surety)
    day = best.on(Layer.WORDING).not_before
    deaths = " and ".join(_death(life) for life in best.lives)
    sure = "certainly" if best.certainty is Certainty.CERTAIN else "perhaps"
    if best.certainty is Certainty.LIKELY and len(held) > 1:
        sure = "probably"
    since = f"not before {start_said(day)}" if day else "after the death"
    later = dossier.hand.not_before
    by_hand = f" (its hand is later still, from {start_said(later)})" if day and later and later > day else ""
    return (
        f"{_sentence(deaths, best.authority)}. So {siglum} was {sure} written {since}, if the identification"
        f" of {_who(held)} is right{by_hand}; and its wording as it stands was made or revised {since}."
    )


def _death(life: Life) -> str:
    said = death_said(life.died).removeprefix("† ")
    return f"{life.name} died {'on ' if said[:1].isdigit() and ' ' in said and '–' not in said else ''}{said}"


def _sentence(fact: str, authority: str) -> str:
    return f"{fact} ({authority})" if authority else fact


def _of_former(held: Sequence[Evidence], dossier: Dossier) -> str:
    best = max(held, key=_surety)
    bound = bounds_said(best.on(Layer.WORDING))
    if best.certainty is Certainty.POSSIBLE:
        return (
            f"A past tense is one weak ground: perhaps the wording is {bound}, when the office was over, and"
            " perhaps it only tells what was so at the time."
        )
    return (
        f"The wording is {bound}, when the office ended, if the identification of {_who(held)} is right; that"
        f" {_who(held)} was dead is not said."
    )


def _of_living(held: Sequence[Evidence], dossier: Dossier) -> str:
    siglum = dossier.witness.siglum
    grounds = {(each.kind, each.formula) for each in held if each.certainty is not Certainty.POSSIBLE}
    sure = "probably" if len(grounds) > 1 else "perhaps"
    firsts = [day for each in held if (day := each.on(Layer.WORDING).not_before)]
    lasts = [day for each in held if (day := each.on(Layer.WORDING).not_after)]
    span = f"not after {day_said(min(lasts))}" if lasts else "of that lifetime"
    if firsts and lasts:
        span = f"between {start_said(max(firsts))} and {day_said(min(lasts))}"
    return (
        f"The wording {sure} goes back to the lifetime of {person_said(held[0].lives[0])}: {span}, unless a"
        f" copyist turned a past into a present or dropped a formula. {_copy_after(dossier, siglum, lasts)}"
    )


def _copy_after(dossier: Dossier, siglum: str, lasts: Sequence[Day]) -> str:
    first, hand = dossier.copy.bounds.not_before, dossier.witness.hand
    if first is not None and lasts and first > min(lasts):
        return f"{siglum} itself is later, not before {start_said(first)}, and carries the words on."
    by_hand = f", {hand.stated} by its hand," if hand else ""
    return f"{siglum} itself{by_hand} may be later than that."


_CONSEQUENCE = {
    Standing.DEAD: _of_dead,
    Standing.FORMER: _of_former,
    Standing.LIVING: _of_living,
}


def _surety(each: Evidence) -> int:
    return (Certainty.POSSIBLE, Certainty.LIKELY, Certainty.CERTAIN).index(each.certainty)


def _other_grounds(dossier: Dossier) -> Iterator[str]:
    """Yield titles and numbered kings that an end of the wording's interval rests on."""
    for ground in dossier.wording.lower:
        each = ground.evidence
        if each is not None and each.kind in (EvidenceKind.OFFICE, EvidenceKind.PERSON):
            names = " or ".join(life.name for life in each.lives)
            titled = each.kind is EvidenceKind.OFFICE
            said = f"{names} is {each.says}" if titled else f"{names} is named by number"
            unless = ", if the identification is right" if titled else ""
            bounds = bounds_said(each.on(Layer.WORDING))
            yield f"{said} {_quoted(each)}: wording and copy are {bounds}{unless}."


def _additions(dossier: Dossier) -> Iterator[str]:
    for each in dossier.additions:
        if each.on(Layer.ADDITION).not_before is not None:
            yield (
                f"An addition {_quoted(each)} is {bounds_said(each.on(Layer.ADDITION))}; it dates neither the"
                " text nor the copy."
            )


def _result(dossier: Dossier) -> Iterator[str]:
    siglum = dossier.witness.siglum
    if dossier.conflicts:
        told = "; and ".join(dossier.conflicts)
        yield f"{told[:1].upper()}{told[1:]}. Nothing is chosen between them."
    wording, copy = dossier.wording, dossier.copy
    if wording.agree and copy.agree:
        more = ""
        if dossier.perhaps.agree and dossier.perhaps.bounds != wording.bounds:
            more = f" (perhaps {bounds_said(dossier.perhaps.bounds)})"
        yield from _intervals(dossier, more)
    else:
        ends = [name for name, each in (("wording", wording), ("copy", copy)) if not each.agree]
        yield f"No interval is given for the {_listed(ends)} of {siglum}."


def _intervals(dossier: Dossier, more: str) -> Iterator[str]:
    """Yield the two intervals; one that rests on words for the living holds only if they are unchanged."""
    siglum, wording, copy = dossier.witness.siglum, dossier.wording, dossier.copy
    if wording.bounds == copy.bounds == Bounds():
        yield f"No inference is possible for the wording or the copy of {siglum}."
        return
    kept = any(g.evidence is not None and g.evidence.standing is Standing.LIVING for g in wording.upper)
    if kept:
        yield (
            f"On these grounds the wording of {siglum} {_of(wording)}{more}, if nobody changed the words, and"
            f" the copy {_of(copy)}."
        )
    else:
        yield f"On these grounds the wording of {siglum} {_of(wording)}{more}, and the copy {_of(copy)}."


def _of(interval: Interval) -> str:
    first, last = interval.bounds.not_before, interval.bounds.not_after
    if first is not None and last is not None:
        return f"lies between {start_said(first)} and {end_said(last)}"
    return f"is {interval_said(interval)}"
