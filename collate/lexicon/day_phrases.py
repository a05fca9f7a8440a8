"""Days of the year as copies write them, in English, Latin or French: words in, rules of days out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from collate.lexicon.calendar import month_names, weekday_names
from collate.lexicon.date_numbers import Number, numbers_at
from collate.lexicon.date_words import Word, is_at, month_of, plays, skip, weekday_of
from collate.lexicon.days import Anchor, Base, DayRule, Side, plain_day
from collate.lexicon.feasts import Named, feasts_at

_SHIFTS = {"eve": -1, "morrow": 1, "octave": 7, "quindene": 14}
_MOVABLE = (Base.EASTER, Base.ADVENT, Base.EMBER)
_BEFORE_FEAST = ("feast", "day", "saint", "saintly", "our", *_SHIFTS)
_LITTLE = ("article", "of", "in")
_ORDINALS = ("", "first ", "second ", "third ", "fourth ", "fifth ", "sixth ", "seventh ", "eighth ")


class DayKind(StrEnum):
    """How plainly words name a day: by its number or beside a feast, by a feast, a month, a weekday."""

    EXACT = "exact"
    FEAST = "feast"
    MONTH = "month"
    WEEKDAY = "weekday"


@dataclass(frozen=True, slots=True)
class DayPhrase:
    """The words [start, stop) that name a day, and every rule they may mean; `weekday` if one alone."""

    start: int
    stop: int
    kind: DayKind
    rules: tuple[DayRule, ...] = ()
    weekday: int | None = None
    month: int | None = None


def day_at(words: Sequence[Word], at: int, month: int | None = None) -> DayPhrase | None:
    """Return the day named from a word on, or None; `month` is that of "the same month"."""
    if at >= len(words):
        return None
    for parse in (_numbered, _roman, _beside, _feast, _month, _weekday):
        found = parse(words, at, month)
        if found is not None:
            return found
    return None


def _numbered(words: Sequence[Word], at: int, month: int | None) -> DayPhrase | None:
    """Read "the xx day of May", "vicesimo die mensis Maii", "die xx Maii", "20 May", "May 20"."""
    if is_at(words, at, "last"):
        return _last_of_month(words, at, month)
    if (named := month_of(words[at].key)) is not None:
        for number in numbers_at(words, skip(words, at + 1, "article")):
            if number.value <= 31 and not is_at(words, number.stop, "year", "king"):
                return _on(at, skip(words, number.stop, "day"), named, number.value)
    first = skip(words, at, "day")
    for number in numbers_at(words, first):
        if 1 <= number.value <= 31 and (found := _month_after(words, number.stop, month)):
            return _on(at, found[0], found[1], number.value)
    return None


def _on(at: int, stop: int, month: int, day: int) -> DayPhrase:
    return DayPhrase(at, stop, DayKind.EXACT, (plain_day(month, day),), month=month)


def _month_after(words: Sequence[Word], at: int, month: int | None) -> tuple[int, int] | None:
    """Return where the month after "day of the month of" stops, and which it is."""
    at = skip(words, at, "day", "article", "of", "in", "month", "same")
    if at < len(words) and not words[at].broken and (named := month_of(words[at].key)):
        return at + 1, named
    if month and is_at(words, at - 1, "same", "month") and _says_same(words, at):
        return at, month
    return None


def _says_same(words: Sequence[Word], at: int) -> bool:
    near = words[max(0, at - 3) : at]
    return any(plays(word, "same") for word in near) and any(plays(word, "month") for word in near)


def _last_of_month(words: Sequence[Word], at: int, month: int | None) -> DayPhrase | None:
    found = _month_after(words, at + 1, month) if is_at(words, at + 1, "day") else None
    if found is None:
        return None
    anchor = Anchor("", Base.ROMAN, found[1] % 12 + 1, 2, offset=1)
    rule = DayRule(f"the last day of {month_names()[found[1]]}", anchor)
    return DayPhrase(at, found[0], DayKind.EXACT, (rule,), month=found[1])


def _roman(words: Sequence[Word], at: int, _: int | None) -> DayPhrase | None:
    """Read "iij nonas Maii", "pridie kalendas Iunii", "idibus Martii"; both ends are counted."""
    counts: list[tuple[int, int]] = [(number.value, number.stop) for number in numbers_at(words, at)]
    counts += [(2, at + 1)] if is_at(words, at, "pridie") else []
    for count, stop in (*counts, (1, at)):
        stop = skip(words, stop, "day", "article")
        if not is_at(words, stop, "kalends", "nones", "ides"):
            continue
        after = skip(words, stop + 1, "of", "article", "month")
        month = month_of(words[after].key) if after < len(words) else None
        if month and count <= 19:
            return _roman_day(at, after + 1, words[stop], count, month)
    return None


def _roman_day(at: int, stop: int, word: Word, count: int, month: int) -> DayPhrase:
    late = 2 if month in (3, 5, 7, 10) else 0
    name, day = ("kalends", 1) if plays(word, "kalends") else ("ides", 13 + late)
    name, day = ("nones", 5 + late) if plays(word, "nones") else (name, day)
    which = "the day before the" if count == 2 else f"the {count}th day, both ends counted, before the"
    said = f"{'the' if count == 1 else which} {name} of {month_names()[month]}".replace("3th", "3rd")
    rule = DayRule(said, Anchor("", Base.ROMAN, month, count, offset=day))
    return DayPhrase(at, stop, DayKind.EXACT, (rule,))


def _weekday_word(words: Sequence[Word], at: int) -> tuple[int, int] | None:
    """Return a weekday and where it stops: Monday, die lune, lundi, feria secunda."""
    at = skip(words, at, "day")
    if at >= len(words):
        return None
    if plays(words[at], "feria"):
        for number in numbers_at(words, at + 1):
            if 1 <= number.value <= 7:
                return (number.value - 2) % 7, number.stop
        return None
    found = weekday_of(words[at].key)
    return None if found is None else (found, at + 1)


def _beside(words: Sequence[Word], at: int, month: int | None) -> DayPhrase | None:
    """Read a weekday before, after or in something: "the Monday next after Michaelmas"."""
    counts = [(number.value, number.stop) for number in numbers_at(words, at) if number.value <= 30]
    for count, stop in (*counts, (1, at)):
        found = _weekday_word(words, stop)
        if found is None:
            continue
        weekday, stop = found
        side, stop = _side(words, stop)
        anchored = _anchor(words, stop, month) if side else None
        if side and anchored is not None:
            rules = tuple(_placed(rule, weekday, side, count) for rule in anchored.rules)
            return DayPhrase(at, anchored.stop, DayKind.EXACT, rules)
    return None


def _side(words: Sequence[Word], at: int) -> tuple[Side | None, int]:
    """Return on which side of what follows a weekday lies, and where that is said."""
    near = skip(words, at, "next", "article", "day")
    if is_at(words, near, "within"):
        return Side.WITHIN, near + 1
    if is_at(words, near, "after", "following"):
        return Side.AFTER, skip(words, near + 1, "next", "after", "following")
    if is_at(words, near, "before"):
        return Side.BEFORE, skip(words, near + 1, "next")
    return (Side.WITHIN, near + 1) if is_at(words, near, "in", "of") else (None, at)


def _placed(rule: DayRule, weekday: int, side: Side, count: int) -> DayRule:
    shift = 0 if side is Side.WITHIN and rule.shift == 7 else rule.shift
    which = _ORDINALS[count] if count < len(_ORDINALS) else f"{count}th "
    season = side is Side.WITHIN and (rule.anchor.length > 7 or rule.anchor.base is Base.MONTH)
    which = which if count > 1 or season else ""
    week = "in the week of" if rule.anchor.length == 1 and not season and not rule.shift else "in"
    said = f"{which}{weekday_names()[weekday]} {week if side is Side.WITHIN else side} {rule.said}"
    return replace(rule, said=said, shift=shift, weekday=weekday, side=side, count=count)


def _anchor(words: Sequence[Word], at: int, month: int | None) -> DayPhrase | None:
    """Return what a weekday is counted from: a day of a month, a feast, its eve or octave, a month."""
    at = skip(words, at, "article")
    if at >= len(words):
        return None
    found = _numbered(words, at, month) or _feast(words, at, month) or _month(words, at, month)
    return found if found is None or found.rules else None


def _feast(words: Sequence[Word], at: int, month: int | None) -> DayPhrase | None:
    """Read a feast, its eve, morrow or octave: "on seynt Iohn eue", "in crastino sancti Martini"."""
    shift, place, shown = 0, at, False
    while place < len(words) and not (place > at and words[place].broken):
        if twelfth := _twelfth_day(words, place):
            return _of(at, twelfth, shift, _epiphany())
        found = feasts_at(words, place)
        if found is not None and (found.alone or shown or is_at(words, found.stop, "day", *_SHIFTS)):
            rules, stop = _with_weekday(words, place, found)
            shift += sum(_shift(word) for word in words[place : found.stop]) + _suffix(words, stop)
            return _of(at, _after(words, stop), shift, rules)
        if not is_at(words, place, *_BEFORE_FEAST) and (place == at or not is_at(words, place, *_LITTLE)):
            return None
        shown = shown or is_at(words, place, "feast", "day", "saint", *_SHIFTS)
        shift += _shift(words[place])
        place, step = _beside_feast(words, place)
        shift += step
    return None


def _beside_feast(words: Sequence[Word], at: int) -> tuple[int, int]:
    """Step over a word before a feast; "the day after" and "the day before" move it by a day."""
    following = skip(words, at + 1, "next")
    if is_at(words, at, "morrow", "day", "eve") and is_at(words, following, "after", "before"):
        if is_at(words, at, "day"):
            return following + 1, -1 if is_at(words, following, "before") else 1
        return following + 1, 0
    return at + 1, 0


def _with_weekday(words: Sequence[Word], at: int, found: Named) -> tuple[tuple[DayRule, ...], int]:
    """Take a weekday that follows a movable feast with it: Trinity Sunday, Easter Monday, Ember Friday."""
    rules = tuple(DayRule(anchor.name, anchor) for anchor in found.anchors)
    ember = is_at(words, at, "ember") and at + 1 < found.stop
    place = at + 1 if ember else found.stop
    weekday = weekday_of(words[place].key) if place < len(words) else None
    if weekday is None or any(anchor.base not in _MOVABLE for anchor in found.anchors):
        return rules, found.stop
    sunday = weekday == 6 and all(anchor.length == 1 for anchor in found.anchors)
    placed = rules if sunday else tuple(_placed(rule, weekday, Side.WITHIN, 1) for rule in rules)
    return placed, max(found.stop, place + 1)


def _of(at: int, stop: int, shift: int, rules: tuple[DayRule, ...]) -> DayPhrase:
    names = {-1: "the eve of ", 1: "the morrow of ", 7: "the octave of ", 14: "the quindene of "}
    before = names.get(shift, f"{shift} days from " if shift else "")
    moved = tuple(replace(rule, said=before + rule.said, shift=shift) for rule in rules)
    return DayPhrase(at, stop, DayKind.FEAST, moved)


def _suffix(words: Sequence[Word], at: int) -> int:
    at = skip(words, at, "saintly")
    return _shift(words[at]) if at < len(words) else 0


def _shift(word: Word) -> int:
    """Return by how many days a word moves the feast it stands with: its eve, its morrow, its octave."""
    return next((days for role, days in _SHIFTS.items() if plays(word, role)), 0)


def _after(words: Sequence[Word], at: int) -> int:
    """Return where a feast's name stops, with what may follow it: the apostle, day, eve."""
    at = skip(words, at, "saintly")
    ahead = skip(words, at, "article", "of", "our", "and", "saint")
    if ahead > at and is_at(words, ahead, "saintly") and not is_at(words, ahead, "king"):
        return _after(words, ahead)
    return at + is_at(words, at, "day", *_SHIFTS)


def _epiphany() -> tuple[DayRule, ...]:
    anchor = Anchor("the Epiphany", Base.FIXED, 1, 6, authority="Cheney & Jones 2000")
    return (DayRule(anchor.name, anchor),)


def _twelfth_day(words: Sequence[Word], at: int) -> int | None:
    """Return where "the xij. day" (Epiphany) stops; the twelfth day of a month is none."""
    for number in numbers_at(words, at):
        if number.value == 12 and is_at(words, number.stop, "day") and not _goes_on(words, number):
            return number.stop + 1
    return None


def _goes_on(words: Sequence[Word], number: Number) -> bool:
    after = skip(words, number.stop, "day", "article", "of", "in")
    if is_at(words, after, "month", "same"):
        return True
    return after < len(words) and month_of(words[after].key) is not None


def _month(words: Sequence[Word], at: int, _: int | None) -> DayPhrase | None:
    at_name = skip(words, at, "month", "of", "article")
    month = month_of(words[at_name].key) if at_name < len(words) else None
    if month is None:
        return None
    rule = DayRule(month_names()[month], Anchor(month_names()[month], Base.MONTH, month))
    return DayPhrase(at, at_name + 1, DayKind.MONTH, (rule,), month=month)


def _weekday(words: Sequence[Word], at: int, _: int | None) -> DayPhrase | None:
    found = _weekday_word(words, at)
    if found is None:
        return None
    return DayPhrase(at, found[1], DayKind.WEEKDAY, weekday=found[0])
