"""Words of witnesses that share them in, the TEI elements and blanks that say them out."""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence

from collate.model.extents import Unit
from collate.model.numbers import figures
from collate.model.transcript import Mark
from collate.model.witness import TokenKind
from collate.reports.tei_mixed import Mixed, Nested
from collate.reports.tei_words import Inset, Letter, Written

_Element = tuple[str, tuple[tuple[str, str], ...]]

LOST = "\ufffc"
"""Stands in the text of an aside for each letter that cannot be read."""

_MOST = 40
"""The most illegible letters that one gap tells of."""

_OUTER: tuple[tuple[Mark, _Element], ...] = (
    (Mark.INSERTED, ("add", (("place", "above"),))),
    (Mark.SUPPLIED, ("supplied", (("reason", "lost"),))),
    (Mark.ADDED, ("supplied", (("reason", "omitted-in-original"),))),
    (Mark.SURPLUS, ("surplus", ())),
    (Mark.RUBRIC, ("hi", (("rend", "rubric"),))),
    (Mark.INITIAL, ("hi", (("rend", "initial"),))),
)
_INNER: tuple[tuple[Mark, _Element], ...] = ((Mark.UNCERTAIN, ("unclear", ())), (Mark.EXPANDED, ("ex", ())))
"""Marks and their elements, outermost first."""

_OUTER_MARKS = frozenset(mark for mark, _ in _OUTER)
_POINTS = frozenset(".,:;/·¶!?")
_SECTIONS = frozenset("¶⸿")
_ROMAN = re.compile(r"[ivxlcdmjuIVXLCDMJU0-9]+")


def wants_blank(pairs: Sequence[tuple[Written, Written]]) -> bool:
    """Say whether a blank divides two words, given as each of some witnesses has them.

    The first witness decides. That another has a blank counts only where its words might be cut
    otherwise without it.
    """
    return any(
        _would_join(*pair) or (pair[0].spaced and (number == 0 or needs_blank(*pair)))
        for number, pair in enumerate(pairs)
    )


def needs_blank(first: Written, second: Written) -> bool:
    """Say whether two words that a blank divides might be cut otherwise without it."""
    return _would_join(first, second) or (first.spaced and not _cannot_join(first, second))


def _cannot_join(first: Written, second: Written) -> bool:
    """Say whether a point set right after a word is cut off again whatever follows it."""
    wordlike = first.kind in (TokenKind.WORD, TokenKind.NUMERAL) and not _ROMAN.fullmatch(first.text)
    return wordlike and second.kind is TokenKind.PUNCTUATION and _POINTS.issuperset(second.text)


def _would_join(first: Written, second: Written) -> bool:
    """Say whether two words without a blank would be one.

    Two points that stand apart without a blank do so only by what follows (..ij.): a blank makes it sure.
    """
    if first.kind is second.kind is TokenKind.PUNCTUATION:
        return not first.spaced and _SECTIONS.isdisjoint(first.text + second.text)
    return TokenKind.PUNCTUATION not in (first.kind, second.kind) and None not in (first.kind, second.kind)


def write(mixed: Mixed, shared: Sequence[Sequence[Written]]) -> None:
    """Write the words that some witnesses share, `shared` being those of each; breaks come from all."""
    nested = Nested(mixed)
    for index, word in enumerate(shared[0]):
        every = [words[index] for words in shared]
        wanted = _elements(_whole(word), _OUTER)
        if index:
            nested.keep(wanted)
            if wants_blank([(words[index - 1], words[index]) for words in shared]):
                mixed.text(" ")
        insets = tuple(_merged(every)) if any(each.insets for each in every) else ()
        _before(nested, wanted, word, [inset for inset in insets if not _is_within(inset)])
        nested.hold(wanted)
        _word(mixed, word, every, [inset for inset in insets if _is_within(inset)])
    nested.hold(())
    if any(words and words[-1].closed for words in shared):
        mixed.text(" ")


def _is_within(inset: Inset) -> bool:
    return inset.within or inset.at > 0


def _elements(marks: frozenset[Mark], order: Sequence[tuple[Mark, _Element]]) -> tuple[_Element, ...]:
    return tuple(element for mark, element in order if mark in marks) if marks else ()


def _whole(word: Written) -> frozenset[Mark]:
    """Return the marks that stand over all of a word, and that words may share."""
    if not word.letters:
        return frozenset()
    return _OUTER_MARKS.intersection(*(letter.marks for letter in word.letters))


def _merged(every: Sequence[Written]) -> Iterator[Inset]:
    """Yield the insets of witnesses at one word in order, breaks of the others before the first's.

    What is no break they have in common: each break stays on its side of it.
    """
    slots = [_slots(word.insets) for word in (*every[1:], every[0])]
    shared = [inset for inset in every[0].insets if not inset.is_break]
    for number in range(len(shared) + 1):
        breaks = (inset for each in slots for inset in each[number])
        yield from sorted(breaks, key=lambda inset: inset.at)
        yield from shared[number : number + 1]


def _slots(insets: Sequence[Inset]) -> list[list[Inset]]:
    """Return the breaks before, between and after the insets that are none."""
    slots: list[list[Inset]] = [[]]
    for inset in insets:
        if inset.is_break:
            slots[-1].append(inset)
        else:
            slots.append([])
    return slots


def _before(nested: Nested, wanted: Sequence[_Element], word: Written, insets: Sequence[Inset]) -> None:
    """Write what stands before a word; only breaks stand inside the elements shared with the word before."""
    if word.boundary or any(not inset.is_break for inset in insets):
        nested.hold(())
    else:
        nested.keep(wanted)
    for number, inset in enumerate(insets):
        _inset(nested.mixed, inset)
        last = number == len(insets) - 1
        if inset.text and word.apart and (word.kind is not None or not last):
            nested.mixed.text(" ")
    if word.boundary:
        nested.mixed.empty(word.boundary, {})


def _inset(mixed: Mixed, inset: Inset) -> None:
    mixed.begin(inset.tag, dict(inset.attributes))
    for number, piece in enumerate(re.split(f"({LOST}+)", inset.text)):
        if number % 2:
            mixed.empty("gap", {"reason": "illegible", "quantity": str(len(piece)), "unit": "chars"})
        else:
            mixed.text(piece)
    mixed.end()


def _word(mixed: Mixed, word: Written, every: Sequence[Written], insets: Sequence[Inset]) -> None:
    expanded = any(Mark.EXPANDED in letter.marks for letter in word.letters)
    signs = word.signs if all(each.signs == word.signs for each in every) else ""
    opened = 0
    if word.kind is TokenKind.NUMERAL and word.value is not None:
        mixed.begin("num", {"value": figures(word.value)})
        opened += 1
    if signs and not insets and _is_plain(word):
        mixed.begin("choice", {})
        _abbreviation(mixed, signs)
        opened += 1
    if expanded or signs:
        mixed.begin("expan", {})
        opened += 1
    _spelled(mixed, word, insets)
    if signs and not expanded:
        mixed.empty("ex", {})
    for _ in range(opened):
        mixed.end()


def _is_plain(word: Written) -> bool:
    """Say whether no mark but of an expansion stands over a part of a word only."""
    whole = _whole(word)
    return all(letter.marks - whole <= {Mark.EXPANDED} for letter in word.letters)


def _abbreviation(mixed: Mixed, signs: str) -> None:
    """Write an abbreviation; letters after a caret are raised."""
    head, _, raised = signs.partition("^")
    mixed.begin("abbr", {})
    mixed.text(head)
    if raised:
        mixed.whole("hi", {"rend": "superscript"}, raised.replace("^", ""))
    mixed.end()


def _spelled(mixed: Mixed, word: Written, insets: Sequence[Inset]) -> None:
    """Write the letters of a word with the marks over some of them, and what stands between them."""
    if not insets and word.is_bare:
        mixed.text(word.text)
        return
    nested, waiting, whole = Nested(mixed), list(insets), _whole(word)
    for group in _groups(word.letters, {inset.at for inset in insets}):
        first = group[0]
        while waiting and waiting[0].at <= first.at:
            nested.hold(())
            _inset(mixed, waiting.pop(0))
        outer = _elements(first.marks - whole, _OUTER)
        if first.lacks:
            nested.hold(outer)
            mixed.empty("gap", _gap(group))
        else:
            nested.hold((*outer, *_elements(first.marks, _INNER)))
            mixed.text(first.text)
    nested.hold(())
    for inset in waiting:
        _inset(mixed, inset)


def _groups(letters: Sequence[Letter], cuts: Collection[int]) -> Iterator[tuple[Letter, ...]]:
    """Yield letters one by one, illegible ones together where nothing stands between them."""
    group: list[Letter] = []
    for letter in letters:
        joins = group and Mark.ILLEGIBLE in letter.marks and letter.marks == group[0].marks
        if group and not (joins and len(group) < _MOST and letter.at not in cuts):
            yield tuple(group)
            group = []
        group.append(letter)
    if group:
        yield tuple(group)


def _gap(group: Sequence[Letter]) -> Mapping[str, str]:
    if Mark.ILLEGIBLE in group[0].marks:
        return {"reason": "illegible", "quantity": str(len(group)), "unit": "chars"}
    size = group[0].lost
    if size is None:
        return {"reason": "lost", "extent": "unknown"}
    return {"reason": "lost", "quantity": str(size.count), "unit": _UNITS[size.unit]}


_UNITS = {Unit.LETTER: "chars", Unit.WORD: "words", Unit.LINE: "lines"}
