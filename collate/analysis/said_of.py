"""Of whom a formula or a verb speaks: its place and the persons named about it in, the persons out."""

from collections.abc import Sequence
from dataclasses import dataclass

from collate.analysis.persons import Known, Mention
from collate.analysis.service import of_other_case, possessive, preposition
from collate.lexicon.formulas import FormulaHit
from collate.lexicon.offices import office_of
from collate.lexicon.patterns import Word, is_slot

REACH = 12
"""How many words may stand between a person and what is said of him."""

_AFTER, _CLOSE, _LINK = 6, 2, 6


@dataclass(frozen=True, slots=True)
class Whom:
    """The persons meant, and whether it is one of them (`either`) or all of them.

    `others` are persons of whom the words might be meant as well. `beside` says that the words stand
    outside the text, beside the name.
    """

    mentions: tuple[Mention, ...] = ()
    either: bool = False
    others: tuple[Mention, ...] = ()
    beside: bool = False


@dataclass(frozen=True, slots=True)
class Scene:
    """The words of a passage, who is named in it, its formulas, and its dates (spans of words).

    `beside` is the person last named in the text before words that stand outside it.
    """

    words: tuple[Word, ...]
    mentions: tuple[Mention, ...]
    hits: tuple[FormulaHit, ...] = ()
    clauses: tuple[tuple[int, int], ...] = ()
    beside: tuple[Mention, ...] = ()


def before(scene: Scene, start: int, *, many: bool = False) -> Whom:
    """Return the person last named before a word; for words about several, all who stand together."""
    pool = [m for m in scene.mentions if m.stop <= start and start - m.stop <= REACH]
    if not pool:
        return Whom(scene.beside, beside=bool(scene.beside))
    nearest, rest = pool[-1], pool[:-1]
    together = _together(scene, nearest, rest)
    if many:
        return Whom((*together, nearest))
    outside = [m for m in rest if not _dated(scene, m)]
    if _dated(scene, nearest) and outside:
        return Whom((outside[-1], nearest), either=True)
    return Whom((nearest,), others=together)


def after(scene: Scene, stop: int, within: int = _AFTER) -> Whom:
    """Return the person first named from a word on, with no verb between."""
    found = next((m for m in scene.mentions if m.start >= stop and m.start - stop <= within), None)
    if found is None or any(is_slot(word, "finite") for word in scene.words[stop : found.start]):
        return Whom()
    return Whom((found,))


def about(scene: Scene, start: int, stop: int) -> Whom:
    """Return the person named in words, else close after them, else before, else after.

    A person named as lord of the office that the words give somebody is passed over: "sumtyme cook to Hugh".
    """
    inside = [m for m in scene.mentions if m.start < stop and start < m.stop]
    named = [m for m in inside if m.known not in _UNNAMED] or inside
    close = after(scene, stop, _CLOSE)
    lord = _lord(scene, start, stop)
    if named and close.mentions and not lord and _named_after(named[-1], close.mentions[0]):
        return close
    if named:
        return Whom((named[-1],))
    if close.mentions and not lord and close.mentions[0].known is not Known.OFFICE:
        return close
    if _of_another(scene, start):
        return Whom()
    earlier = _but_owner(scene, before(scene, start), start)
    if earlier.mentions or lord is None:
        return earlier if earlier.mentions else after(scene, stop)
    return Whom(tuple(m for m in scene.mentions if m.start == lord.stop))


_UNNAMED = (Known.NOBODY, Known.HOLDER)


def _lord(scene: Scene, start: int, stop: int) -> Mention | None:
    """Return the person named after words that hold an office, as the lord of him who has it."""
    person = next((m for m in scene.mentions if stop <= m.start <= stop + _AFTER), None)
    last = office_of(scene.words[stop - 1])
    if person is None or last is None or last.kind in ("courtesy", "title"):
        return None
    bound = preposition(scene.words, person.start) == stop
    genitive = person.start == stop and of_other_case(scene.words, stop)
    return person if bound or genitive else None


def _but_owner(scene: Scene, whom: Whom, start: int) -> Whom:
    """Return persons, but nobody where the last of them only owns what follows: "Hughes late cook"."""
    last = whom.mentions[-1:]
    owns = any(m.stop == start and possessive(scene.words[m.stop - 1], m.lives) for m in last)
    return Whom() if owns and not whom.beside else whom


def _of_another(scene: Scene, start: int) -> bool:
    """Say whether words are said of somebody in another's name: "sone of þe late lord"."""
    at = start - 1
    while at > 0 and (is_slot(scene.words[at], "before-office") or is_slot(scene.words[at], "epithet")):
        at -= 1
    return at > 0 and is_slot(scene.words[at], "place") and office_of(scene.words[at - 1]) is not None


def _named_after(holder: Mention, person: Mention) -> bool:
    """Say whether an office is one whose holder is named next: "þe kyng þat now is, Edward þe þridde"."""
    alone = holder.known in (Known.HOLDER, Known.OFFICE)
    return alone and person.known in (Known.NAME, Known.KING)


def _together(scene: Scene, last: Mention, rest: Sequence[Mention]) -> tuple[Mention, ...]:
    """Return the persons joined to one by "and" before him, or named as in his service."""
    held: list[Mention] = []
    for mention in reversed(rest):
        follower = held[0] if held else last
        between = scene.words[mention.stop : follower.start]
        served = bool(mention.offices) and preposition(scene.words, follower.start) == mention.stop
        if len(between) > _LINK or not (served or any(is_slot(word, "and") for word in between)):
            break
        held.insert(0, mention)
    return tuple(held)


def _dated(scene: Scene, mention: Mention) -> bool:
    return any(start < mention.stop and mention.start < stop for start, stop in scene.clauses)
