"""Scribes' habits in, a page for each or JSON out."""

from collections.abc import Iterator, Sequence

from collate.model.profile import Habit, Profile, SignUse
from collate.reports.json import Object, document


def text(profiles: Sequence[Profile]) -> Iterator[str]:
    """Yield one page for each hand: open cases on top, then habits, then signs."""
    for number, profile in enumerate(profiles):
        yield "\n" if number else ""
        yield f"{profile.siglum}, hand {profile.hand}: {profile.words} words\n"
        yield from _open(profile)
        yield "\n  Habits (times written)\n"
        yield from (_habit(habit) for habit in profile.habits if any(times for _, times in habit.counts))
        yield from _signs(profile)


def _open(profile: Profile) -> Iterator[str]:
    if not profile.open_cases:
        return
    yield "\n  Open: written out by the sign's usual value only\n"
    for case in profile.open_cases:
        yield f"    {case.written}  {case.expanded}  {case.citation}\n"


def _habit(habit: Habit) -> str:
    sides = "   ".join(f"{side} {times}" for side, times in habit.counts)
    return f"    {habit.name:<18} {sides}\n"


def _signs(profile: Profile) -> Iterator[str]:
    if profile.signs:
        yield "\n  Signs and how they are written out\n"
        for use in profile.signs:
            yield from _sign(use)
    if profile.otiose:
        strokes = ", ".join(f"{sign} {times}" for sign, times in profile.otiose)
        yield f"\n  Strokes that mean nothing here: {strokes}\n"


def _sign(use: SignUse) -> Iterator[str]:
    shown = f"◌{use.sign}" if use.name.startswith("combining") else use.sign
    for number, (expansion, times, reason) in enumerate(use.expansions):
        head = f"{shown} {use.count}" if not number else ""
        yield f"    {head:<10} {expansion or '(nothing)':<12} {times:>4}  {reason}".rstrip() + "\n"


def json(profiles: Sequence[Profile]) -> Iterator[str]:
    """Yield the profiles as JSON."""
    return document({"profiles": [_object(profile) for profile in profiles]})


def _object(profile: Profile) -> Object:
    return {
        "siglum": profile.siglum,
        "hand": profile.hand,
        "words": profile.words,
        "open": [
            {"written": case.written, "expanded": case.expanded, "place": case.citation}
            for case in profile.open_cases
        ],
        "habits": {habit.name: dict(habit.counts) for habit in profile.habits},
        "signs": [
            {
                "sign": use.sign,
                "name": use.name,
                "count": use.count,
                "expansions": [
                    {"expansion": expansion, "count": times, "reason": reason}
                    for expansion, times, reason in use.expansions
                ],
            }
            for use in profile.signs
        ],
        "otiose": dict(profile.otiose),
    }
