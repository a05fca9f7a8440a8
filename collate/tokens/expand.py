"""A word as written in, the word written out: each abbreviation by the best evidence there is."""

import unicodedata
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from collate.lexicon.signs import (
    DOT_BELOW,
    Choice,
    base_letter,
    candidates,
    choices,
    has_signs,
    keeps_letters,
    raise_letters,
    whole_word,
)
from collate.lexicon.spelling import fold
from collate.model.edition import Practice

SHARE = 0.7
"""The least share of a word's written-out spellings that settles its expansion."""

Known = Callable[[str], tuple[str, ...]]
"""The headwords of a form, () where the lexicon does not know it."""


def _never(form: str) -> tuple[str, ...]:
    """Know no form."""
    return ()


@dataclass(frozen=True, slots=True)
class Evidence:
    """What an expansion is decided by: the scribe's stated practice, and words written out in full.

    `own` counts this hand's words, `others` those of all other witnesses, by folded form. `known`
    knows listed forms, `regular` those that a listed stem and a regular ending make.
    """

    siglum: str
    practice: Practice
    own: Mapping[str, int]
    others: Mapping[str, int]
    known: Known
    regular: Known = _never


@dataclass(frozen=True, slots=True)
class Expansion:
    """A word written out. `spans` are the letters supplied, each with its ground.

    `offsets[i]` is where character i of the written word begins in `text`. `open` says that
    nothing but the usual value spoke for an ambiguous sign.
    """

    text: str
    spans: tuple[tuple[int, int, str], ...]
    offsets: tuple[int, ...]
    uncertain: tuple[int, ...] = ()
    open: bool = False


def expand(written: str, language: str, evidence: Evidence) -> Expansion:
    """Write a word out; one without signs comes back as it is."""
    if DOT_BELOW not in unicodedata.normalize("NFD", written) and not has_signs(written):
        return Expansion(written, (), tuple(range(len(written) + 1)))
    found = _expand(*_without_dots(raise_letters(written)), language, evidence)
    return replace(found, offsets=_of_written(written, found.offsets))


def _expand(bare: str, uncertain: tuple[int, ...], language: str, evidence: Evidence) -> Expansion:
    """Write out a word without dots and carets; `offsets` are of its characters."""
    whole = whole_word(bare, language)
    stated = dict(evidence.practice.expansions)
    if bare in stated:
        return _whole(
            bare, (stated[bare],), f"the practice stated for {evidence.siglum}", uncertain, evidence
        )
    if whole is not None and not _is_stated(bare, stated, evidence.practice):
        kept = tuple(option for option in whole.options if keeps_letters(bare, option))
        return _whole(bare, kept or whole.options, whole.authority, uncertain, evidence)
    return _by_signs(bare, uncertain, stated, evidence)


def _of_written(written: str, offsets: Sequence[int]) -> tuple[int, ...]:
    """Return the offsets of a written word's characters: a dot or a caret has that of the next letter."""
    found, at = [], 0
    for character in written:
        found.append(offsets[at])
        at += character not in ("^", DOT_BELOW)
    return (*found, offsets[-1])


def _without_dots(written: str) -> tuple[str, tuple[int, ...]]:
    """Take the dots below out; return the word and the indices of the letters that had one."""
    letters: list[str] = []
    dotted: list[int] = []
    for character in written:
        parts = unicodedata.normalize("NFD", character)
        if DOT_BELOW in parts:
            rest = unicodedata.normalize("NFC", parts.replace(DOT_BELOW, ""))
            dotted.append(len(letters) if rest else len(letters) - 1)
            letters.extend([rest] if rest else [])
        else:
            letters.append(character)
    return "".join(letters), tuple(at for at in dotted if at >= 0)


@dataclass(frozen=True, slots=True)
class _Decision:
    """The candidate chosen, why, and whether the choice is open."""

    index: int
    reason: str
    open: bool


def _decide(words: Sequence[str], authority: str, evidence: Evidence) -> _Decision:
    """Choose among candidate words, the default first, by the evidence in its order.

    A form that may be another word besides ("an", and or the article) is no evidence.
    """
    if len(words) == 1:
        return _Decision(0, f"usual expansion ({authority})", open=False)
    folded = [fold(word) for word in words]
    headwords = [evidence.known(word) for word in words]
    telling = dict.fromkeys(
        form for form, found in zip(folded, headwords, strict=True) if set(found) <= set(headwords[0])
    )
    for counts, where in ((evidence.own, f"in {evidence.siglum}"), (evidence.others, "in other witnesses")):
        seen = {form: counts.get(form, 0) for form in telling}
        best = max(seen, key=lambda form: seen[form])
        if seen[best] and seen[best] >= SHARE * sum(seen.values()):
            return _Decision(folded.index(best), _counted(best, seen, where), open=False)
    first = next((index for index, found in enumerate(headwords) if found), None)
    if first is None:
        regular = evidence.regular(words[0])
        return _Decision(0, f"usual expansion ({authority})", open=not regular)
    rivals = [found for found in headwords if found and not set(found) & set(headwords[first])]
    if first == 0:
        return _Decision(0, f"usual expansion ({authority})", open=bool(rivals))
    return _Decision(first, f"{words[first]} is in the lexicon, {words[0]} is not", open=bool(rivals))


def _counted(best: str, seen: Mapping[str, int], where: str) -> str:
    times = f"{seen[best]} time{'s' if seen[best] > 1 else ''}"
    rest = [f"{form} {count}" for form, count in seen.items() if count and form != best]
    never = next((form for form, count in seen.items() if not count), None)
    against = ", ".join(rest) if rest else f"{never} never" if never else "nothing else"
    return f"{best} written out {times} {where}, {against}"


def _whole(
    bare: str, options: Sequence[str], authority: str, uncertain: tuple[int, ...], evidence: Evidence
) -> Expansion:
    decision = _decide(options, authority, evidence)
    text = options[decision.index]
    spans, offsets = _match(bare, text, decision.reason)
    return Expansion(text, spans, offsets, tuple(offsets[at] for at in uncertain), decision.open)


def _match(bare: str, text: str, reason: str) -> tuple[tuple[tuple[int, int, str], ...], tuple[int, ...]]:
    """Find the letters of the abbreviation in the word, in order; the rest are supplied."""
    offsets, at, kept = [], 0, set()
    for character in bare:
        letter = base_letter(character)
        found = text.casefold().find(letter, at) if letter else -1
        offsets.append(found if found >= 0 else at)
        if found >= 0:
            kept.add(found)
            at = found + 1
    spans: list[tuple[int, int, str]] = []
    for index in range(len(text)):
        if index in kept:
            continue
        if spans and spans[-1][1] == index:
            spans[-1] = (spans[-1][0], index + 1, reason)
        else:
            spans.append((index, index + 1, reason))
    return tuple(spans), (*offsets, len(text))


def _by_signs(
    bare: str, uncertain: tuple[int, ...], stated: Mapping[str, str], evidence: Evidence
) -> Expansion:
    found = tuple(_practised(choice, bare, stated, evidence.practice) for choice in choices(bare))
    combinations = candidates(bare, found)
    words = [_assemble(bare, found, combination)[0] for combination in combinations]
    decision = _decide(words, found[0].authority if found else "", evidence)
    text, offsets, supplied = _assemble(bare, found, combinations[decision.index])
    reasons = {
        choice.at: f"the practice stated for {evidence.siglum}"
        for choice, original in zip(found, choices(bare), strict=True)
        if choice is not original
    }
    spans = tuple(
        (start, stop, reasons.get(at, decision.reason)) for at, start, stop in supplied if start < stop
    )
    unsettled = decision.open and any(len(choice.options) > 1 for choice in found)
    return Expansion(text, spans, offsets, tuple(offsets[at] for at in uncertain), unsettled)


def _practised(choice: Choice, bare: str, stated: Mapping[str, str], practice: Practice) -> Choice:
    """Narrow a sign to what the practice states of it, alone or on its letter."""
    rides = unicodedata.combining(choice.sign) != 0
    letter = unicodedata.normalize("NFD", bare[choice.at])[0]
    if rides and unicodedata.combining(letter):
        letter = bare[choice.at - 1] if choice.at else ""
    names = (unicodedata.normalize("NFC", letter + choice.sign), choice.sign) if rides else (choice.sign,)
    for name in names:
        if name in stated:
            return _narrowed(
                choice, stated[name].removeprefix(letter) if name != choice.sign else stated[name]
            )
        if name in practice.otiose:
            return _narrowed(choice, choice.kept)
    return choice


def _is_stated(bare: str, stated: Mapping[str, str], practice: Practice) -> bool:
    """Say whether the practice gives the value of any sign of a word."""
    return any(
        (after := _practised(choice, bare, stated, practice)) is not choice
        and after.options[0] != choice.kept
        for choice in choices(bare)
    )


def _narrowed(choice: Choice, expansion: str) -> Choice:
    return Choice(
        choice.at, choice.sign, (expansion,), expansion, choice.kept, choice.kind, "stated practice"
    )


def _assemble(
    bare: str, found: Sequence[Choice], expansions: Sequence[str]
) -> tuple[str, tuple[int, ...], list[tuple[int, int, int]]]:
    """Put the word together: its text, where each character begins, and (sign's index, start, stop)."""
    by_place: dict[int, list[tuple[Choice, str]]] = {}
    for choice, expansion in zip(found, expansions, strict=True):
        by_place.setdefault(choice.at, []).append((choice, expansion))
    text, offsets, supplied = "", [], []
    for at, character in enumerate(bare):
        offsets.append(len(text))
        here = by_place.get(at, ())
        parts = unicodedata.normalize("NFD", character)
        signs = {choice.sign for choice, _ in here}
        text += unicodedata.normalize("NFC", "".join(part for part in parts if part not in signs))
        for choice, expansion in here:
            kept = choice.kept if expansion.startswith(choice.kept) else ""
            supplied.append((at, len(text) + len(kept), len(text) + len(expansion)))
            text += expansion
    return text, (*offsets, len(text)), supplied


def count_written_out(words: Sequence[str], otiose: Sequence[str]) -> Counter[str]:
    """Count the words that are written without any sign but strokes stated to be otiose, by folded form."""
    counts: Counter[str] = Counter()
    for word, times in Counter(words).items():
        bare = without_otiose(word, otiose) if otiose and not word.isascii() else word
        if not has_signs(bare):
            counts[fold(bare)] += times
    return counts


def without_otiose(word: str, otiose: Sequence[str]) -> str:
    """Return a word with its otiose strokes taken off: ħ is h, n̄ (or a bar stated alone) is n."""
    for sign in otiose:
        if sign in word:
            parts = unicodedata.normalize("NFD", sign)
            plain = base_letter(sign) if len(parts) == 1 and not unicodedata.combining(sign) else parts[0]
            word = word.replace(sign, "" if unicodedata.combining(plain or "a") else plain)
    return word
