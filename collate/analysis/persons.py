"""Whom a passage names: its words and the persons known in, mentions of persons out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from collate.analysis.lifetimes import offices_in
from collate.analysis.service import of_other_case, possessive
from collate.lexicon.distance import distance
from collate.lexicon.names import forenames, is_forename, is_latin_place, is_story_name, king_name, stem
from collate.lexicon.offices import LEADS, Office, office_of
from collate.lexicon.patterns import Word, is_slot
from collate.lexicon.rule_words import rule_words
from collate.lexicon.words import key_of
from collate.model.evidence import Life

_BETWEEN = 9
_NEAR = 0.35
"""The distance in spelling up to which two forms of a name are taken for one."""


class Known(StrEnum):
    """By what a person is known."""

    NAME = "by name"
    PART = "by part of the name"
    KING = "by name and number"
    UNNUMBERED = "a king without a number"
    OFFICE = "by the office alone"
    STORY = "a person of story"
    HOLDER = "an unidentified holder of an office"
    NOBODY = "unidentified"


@dataclass(frozen=True, slots=True)
class Mention:
    """Words [start, stop) that name a person; `name` is as written, `lives` who it may be.

    `offices` are the offices the words give him, each with the place of its word.
    """

    start: int
    stop: int
    name: str
    known: Known
    lives: tuple[Life, ...] = ()
    offices: tuple[tuple[int, Office], ...] = ()


@dataclass(frozen=True, slots=True)
class King:
    """Words [start, stop) that name a king by his number."""

    start: int
    stop: int
    life: Life


def mentions(words: Sequence[Word], lives: Sequence[Life], kings: Sequence[King]) -> tuple[Mention, ...]:
    """Return the persons a passage names, in order; no two share a word."""
    found: list[Mention] = []
    for finder in (_by_name(words, lives), _numbered(words, kings), _unnumbered(words)):
        _take(found, finder)
    found = [_with_titles(mention, words, found) for mention in found]
    _take(found, _by_part(words, lives))
    _take(found, (_with_titles(m, words, found) for m in _unknown(words, found)))
    _take(found, _by_office(words, lives, found))
    return tuple(sorted(found, key=lambda mention: mention.start))


def _take(found: list[Mention], new: Iterator[Mention]) -> None:
    """Add the mentions none of whose words is taken."""
    for mention in sorted(new, key=lambda m: (m.start - m.stop, m.start)):
        if not any(mention.start < other.stop and other.start < mention.stop for other in found):
            found.append(mention)


def _text(words: Sequence[Word], start: int, stop: int) -> str:
    return " ".join(word.text for word in words[start:stop])


def _by_name(words: Sequence[Word], lives: Sequence[Life]) -> Iterator[Mention]:
    spans: dict[tuple[int, int], list[Life]] = {}
    for life in lives:
        for written in life.written:
            parts = written.split()
            for start in range(len(words) - len(parts) + 1):
                stop = start + len(parts)
                if all(same_name(w, part) for w, part in zip(words[start:stop], parts, strict=True)):
                    held = spans.setdefault((start, stop), [])
                    held.extend([life] if life not in held else [])
    for (start, stop), held in spans.items():
        yield Mention(start, stop, _text(words, start, stop), Known.NAME, tuple(held))


def same_name(word: Word, part: str) -> bool:
    """Say whether a word is a part of a name, in any spelling or Latin case."""
    key, other = key_of(word.text), key_of(part)
    if key == other or (min(len(key), len(other)) > 3 and stem(word.text) == stem(part)):
        return True
    if forenames(word.text) & forenames(part):
        return True
    return min(len(key), len(other)) > 3 and distance(key, other, _NEAR).cost <= _NEAR


def _numbered(words: Sequence[Word], kings: Sequence[King]) -> Iterator[Mention]:
    for king in kings:
        name = _text(words, king.start, king.stop)
        yield Mention(king.start, king.stop, name, Known.KING, (king.life,))


def _unnumbered(words: Sequence[Word]) -> Iterator[Mention]:
    for at, word in enumerate(words[:-1]):
        office = office_of(word)
        if office is None or office.name != "king":
            continue
        if lives := king_name(words[at + 1]):
            yield Mention(at, at + 2, _text(words, at, at + 2), Known.UNNUMBERED, lives, ((at, office),))
        elif is_story_name(words[at + 1]):
            yield Mention(at, at + 2, _text(words, at, at + 2), Known.STORY, (), ((at, office),))


def _with_titles(mention: Mention, words: Sequence[Word], taken: Sequence[Mention]) -> Mention:
    """Draw in the titles before a name and the offices after it."""
    start, offices = mention.start, list(mention.offices)
    others = [other for other in taken if other is not mention]
    while start > 0 and _leads(words[start - 1]) and not _of_servant(words, start):
        start -= 1
        office = office_of(words[start])
        offices.extend([(start, office)] if office else [])
    stop = mention.stop
    owns = mention.known is not Known.KING and possessive(words[stop - 1], mention.lives)
    while not owns and (end := _apposed(words, stop)) is not None:
        named = next(n for n in range(stop, end) if office_of(words[n]) is not None)
        office = office_of(words[named])
        offices.extend([(named, office)] if office else [])
        stop = end
    start = max([start, *(other.stop for other in others if other.stop <= mention.start)])
    stop = _short_of(words, mention.stop, stop, others)
    kept = tuple((at, office) for at, office in sorted(offices, key=lambda o: o[0]) if start <= at < stop)
    return replace(mention, start=start, stop=stop, offices=kept)


def _short_of(words: Sequence[Word], first: int, stop: int, others: Sequence[Mention]) -> int:
    """Return where words end that do not run into another's name, nor into the *of* before it."""
    end = min([stop, *(other.start for other in others if other.start >= first)])
    while first < end < stop and not office_of(words[end - 1]) and _leads_on(words[end - 1]):
        end -= 1
    return end


def _leads_on(word: Word) -> bool:
    return is_slot(word, "place") or is_slot(word, "before-office") or is_slot(word, "epithet")


def _of_servant(words: Sequence[Word], at: int) -> bool:
    """Say whether an office before a name is another's: *cocus domini Roberti*, *cocus Roberti*."""
    if of_other_case(words, at):
        return True
    before, here = office_of(words[at - 1]), office_of(words[at])
    courtesy = here is not None and here.kind in ("courtesy", "title")
    return (
        courtesy and before is not None and words[at - 1].foreign and before.kind not in ("courtesy", "title")
    )


def _leads(word: Word) -> bool:
    office = office_of(word)
    return (office is not None and office.kind in LEADS) or is_slot(word, "epithet")


def _apposed(words: Sequence[Word], at: int) -> int | None:
    """Return where an office after a name ends: "þe abbot of Eldernesse"; None if there is none."""
    here = at
    if here < len(words) and is_slot(words[here], "and"):
        here += 1
    here = _past_grace(words, here)
    while here < len(words) and here - at < _BETWEEN and is_slot(words[here], "between-office"):
        here += 1
    here += _of_place(words, here)
    if here >= len(words) or (office := office_of(words[here])) is None:
        return None
    if office.kind == "saint" or (office.name in rule_words("kin-office") and _has_place(words, here + 1)):
        return None
    if here > at and is_slot(words[at], "and") and not _has_place(words, here + 1):
        return None
    return _place_end(words, here + 1)


def _of_place(words: Sequence[Word], at: int) -> int:
    """Return 1 where a Latin word of a place stands before the office: "Solwicensis episcopi"."""
    if at + 1 >= len(words) or office_of(words[at]) is not None or office_of(words[at + 1]) is None:
        return 0
    return int(is_latin_place(words[at]))


def _past_grace(words: Sequence[Word], at: int) -> int:
    """Return where "by þe grace of God", "dei gracia" ends; the same place where it does not stand."""
    if at + 1 < len(words) and is_slot(words[at], "grace") and is_slot(words[at + 1], "grace"):
        return at + 2
    if at < len(words) and is_slot(words[at], "by"):
        stop = next((n for n in range(at, min(at + 6, len(words))) if is_slot(words[n], "god")), None)
        if stop is not None:
            more = is_slot(words[min(stop + 1, len(words) - 1)], "grace")
            return stop + (2 if more else 1)
    return at


def _has_place(words: Sequence[Word], at: int) -> bool:
    return at + 1 < len(words) and is_slot(words[at], "place")


def _place_end(words: Sequence[Word], at: int) -> int:
    """Return where "of Eldernesse", "of þat same hous", "Eldernessensis" ends, from its first word on."""
    if at < len(words) and is_latin_place(words[at]):
        return at + 1
    if not _has_place(words, at):
        return at
    stop = at + 1
    while stop < len(words) and stop - at < 4 and is_slot(words[stop], "before-office"):
        stop += 1
    holder = any(office_of(word) or is_slot(word, "former") for word in words[at + 1 : stop + 1])
    return at if holder else min(stop + 1, len(words))


def _by_part(words: Sequence[Word], lives: Sequence[Life]) -> Iterator[Mention]:
    """Yield persons named by surname alone, or by forename beside their office."""
    for at, word in enumerate(words):
        if not word.capital and not (at and _leads(words[at - 1])):
            continue
        if at > 1 and is_slot(words[at - 1], "place") and office_of(words[at - 2]) is not None:
            continue
        by_surname = tuple(life for life in lives if _is_part(word, life, -1) and _fits(words, at - 1, life))
        by_forename = tuple(
            life
            for life in lives
            if _is_part(word, life, 0) and _fits(words, at + 1, life) and _office_near(words, at, life)
        )
        if held := by_surname or by_forename:
            mention = Mention(at, at + 1, word.text, Known.PART, held)
            yield _with_titles(mention, words, ())


def _fits(words: Sequence[Word], at: int, life: Life) -> bool:
    """Say whether the word beside part of a name is no name of somebody else."""
    if not 0 <= at < len(words) or not _may_be_name(words[at]):
        return True
    named = is_forename(words[at]) or (at and is_forename(words[at - 1]))
    return not named or any(same_name(words[at], part) for w in life.written for part in w.split())


def _is_part(word: Word, life: Life, which: int) -> bool:
    parts = [written.split() for written in life.written]
    return any(len(part) > 1 and same_name(word, part[which]) for part in parts)


def _office_near(words: Sequence[Word], at: int, life: Life) -> bool:
    about = (*words[max(0, at - 3) : at], *words[at + 1 : at + 9])
    named = {office.name for word in about if (office := office_of(word))}
    return any(named & offices_in(term.office) for term in life.terms)


def _unknown(words: Sequence[Word], taken: Sequence[Mention]) -> Iterator[Mention]:
    """Yield names of nobody known: after a title, or a forename with a name after it."""
    held = {at for mention in taken for at in range(mention.start, mention.stop)}
    at = 0
    while at < len(words):
        stop = _name_end(words, at)
        if at in held or stop == at or not _begins_name(words, at, stop):
            at += 1
            continue
        known = Known.STORY if any(is_story_name(word) for word in words[at:stop]) else Known.NOBODY
        yield Mention(at, stop, _text(words, at, stop), known)
        at = stop


def _name_end(words: Sequence[Word], at: int) -> int:
    stop = at
    while stop < len(words) and stop - at < 4 and _may_be_name(words[stop]):
        stop += 1
    return stop


def _may_be_name(word: Word) -> bool:
    return word.capital and office_of(word) is None and not is_slot(word, "god") and not is_latin_place(word)


def _begins_name(words: Sequence[Word], at: int, stop: int) -> bool:
    if at and (office := office_of(words[at - 1])) is not None and office.kind in LEADS:
        return True
    return stop - at > 1 and is_forename(words[at])


def _by_office(words: Sequence[Word], lives: Sequence[Life], taken: Sequence[Mention]) -> Iterator[Mention]:
    """Yield persons spoken of by a definite office: "þe abbot of Eldernesse", "oure lord"."""
    for at, word in enumerate(words):
        office = office_of(word)
        if office is None or office.kind not in ("crown", "church", "lay", "house"):
            continue
        start = at
        while start and (is_slot(words[start - 1], "epithet") or is_slot(words[start - 1], "former")):
            start -= 1
        before = words[start - 1] if start else None
        definite = before is not None and is_slot(before, "before-office")
        if not definite and (not word.foreign or (before is not None and is_slot(before, "any"))):
            continue
        stop = _short_of(words, at + 1, _place_end(words, at + 1), taken)
        held = tuple(life for life in lives if any(office.name in offices_in(t.office) for t in life.terms))
        known = Known.OFFICE if held else Known.HOLDER
        yield Mention(start, stop, _text(words, start, stop), known, held, ((at, office),))
