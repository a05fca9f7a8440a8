"""Feasts and seasons by the names that copies give them: words in, what a day is reckoned from out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from collate.lexicon.calendar import month_names
from collate.lexicon.date_words import Word, find, is_at, loose, month_of, plays, skip, weekday_of
from collate.lexicon.days import Anchor, Base
from collate.lexicon.tables import table

_FILLER = ("article", "of", "in", "our", "saint", "and")
_WITHIN = (*_FILLER, "day", "days", "week", "saintly", "king", "eve", "morrow", "octave", "quindene")


@dataclass(frozen=True, slots=True)
class Phrase:
    """One way to name a feast; unless it stands `alone`, a saint's title or *feast*, *day* must show it."""

    words: tuple[str, ...]
    anchor: Anchor
    alone: bool


@dataclass(frozen=True, slots=True)
class Named:
    """The feasts that words up to `stop` may name."""

    stop: int
    anchors: tuple[Anchor, ...] = ()
    alone: bool = False


def _fixed() -> Iterator[tuple[str, Anchor, bool]]:
    columns = ("name", "month", "day", "leap", "alone", "saint", "authority", "note")
    for name, month, day, leap, alone, saint, authority, _ in table("feasts", *columns):
        anchor = Anchor(name, Base.FIXED, int(month), int(day), leap=int(leap), authority=authority)
        yield alone, anchor, True
        yield saint, anchor, False


def _movable() -> Iterator[tuple[str, Anchor, bool]]:
    columns = ("name", "base", "month", "day", "offset", "length", "forms", "authority", "note")
    for name, base, month, day, offset, length, forms, authority, _ in table("movable", *columns):
        numbers = (int(month), int(day), int(offset), int(length))
        yield forms, Anchor(name, Base(base), *numbers, authority=authority), True


@cache
def _phrases() -> dict[str, tuple[Phrase, ...]]:
    """Return the phrases by their first word, the longest first."""
    found: dict[str, list[Phrase]] = {}
    for forms, anchor, alone in (*_fixed(), *_movable()):
        for form in filter(None, forms.split("|")):
            keys = [loose(word) for word in form.split(" ")]
            words = tuple(_canonical(key) for key in keys if not _is_filler(key))
            found.setdefault(words[0], []).append(Phrase(words, anchor, alone))
    return {
        first: tuple(sorted(phrases, key=lambda phrase: (-len(phrase.words), phrase.words)))
        for first, phrases in found.items()
    }


def _canonical(key: str) -> str:
    """Return one key for all spellings of a weekday; any other key as it is."""
    day = weekday_of(key)
    return key if day is None else f"weekday {day}"


def _is_filler(key: str) -> bool:
    return plays(Word(0, key, key), *_FILLER)


def feasts_at(words: Sequence[Word], at: int) -> Named | None:
    """Return the feasts that the words from `at` on name: all that share the longest name found there."""
    if at >= len(words) or words[at].key.isdigit():
        return None
    found: dict[tuple[str, ...], Named] = {}
    for phrase in _beginning(words[at].key):
        stop = _matched(words, at, phrase.words)
        if stop is not None:
            known = found.get(phrase.words, Named(stop))
            anchors = dict.fromkeys((*known.anchors, phrase.anchor))
            found[phrase.words] = Named(stop, tuple(anchors), known.alone or phrase.alone)
    best = max(found, key=len, default=None)
    if best is None and plays(words[at], "ember"):
        return _ember(words, at)
    return found[best] if best else None


@cache
def _embers() -> tuple[Anchor, ...]:
    return tuple(anchor for _, anchor, _ in _movable() if anchor.base is Base.EMBER)


def _ember(words: Sequence[Word], at: int) -> Named:
    """Return the Ember days: those beside the feast or month that is named with them, or all four."""
    at = skip(words, at + 1, "day", "days", "week")
    if at < len(words) and weekday_of(words[at].key) is not None:
        at += 1
    beside = {row[0]: row[1] for row in table("embers", "beside", "ember", "authority")}
    near = skip(words, at, "next", "before", "after", "in", "of", "article", "week", "feast", "day", "saint")
    found = feasts_at(words, near) if near < len(words) and not is_at(words, near, "ember") else None
    month = month_of(words[near].key) if near < len(words) else None
    names = [anchor.name for anchor in found.anchors] if found else [month_names()[month]] if month else []
    wanted = {beside[name] for name in names if name in beside}
    if not wanted or near == at:
        return Named(at, _embers(), alone=True)
    stop = skip(words, found.stop if found else near + 1, "week")
    return Named(stop, tuple(anchor for anchor in _embers() if anchor.name in wanted), alone=True)


@lru_cache(maxsize=4096)
def _beginning(key: str) -> tuple[Phrase, ...]:
    """Return the phrases that begin with a word, be it a genitive."""
    for stem in (_canonical(key), key.removesuffix("s"), key.removesuffix("es")):
        if found := _phrases().get(stem):
            return found
    return find(_phrases(), key) or () if len(key) > 5 else ()


def begins_feast(key: str) -> bool:
    """Say whether a feast's name may begin with a word of this loose spelling."""
    return bool(_beginning(key))


def _is(word: Word, key: str) -> bool:
    stems = (word.key, word.key.removesuffix("s"), word.key.removesuffix("es"))
    return _canonical(word.key) == key or any(find({key: True}, stem) for stem in stems)


def _matched(words: Sequence[Word], at: int, phrase: Sequence[str]) -> int | None:
    """Return where a phrase stops that begins at a word, whatever little words stand in it."""
    for key in phrase[1:]:
        at += 1
        while is_at(words, at, *_WITHIN) and not _is(words[at], key):
            at += 1
        if at >= len(words) or words[at].broken or not _is(words[at], key):
            return None
    return at + 1
