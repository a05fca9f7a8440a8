"""A collation in, what the scribes of each copy did to their own text out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from collate.analysis.begun import false_start
from collate.analysis.passages import tokens_beside
from collate.analysis.struck import base_words
from collate.model.apparatus import Entry, Weight
from collate.model.collation import Collation, Locus, columns_of
from collate.model.form import Judge
from collate.model.hands import Act, Correction
from collate.model.transcript import Mark
from collate.model.witness import Aside, Token, TokenKind, shown, shown_aside, without_points

_NOWHERE = Locus(0, 0)
_EXPANDED = (Mark.EXPANDED,)
_FIRST = "1"


@dataclass(frozen=True, slots=True)
class _Done:
    """An act at tokens [start, stop) of one witness; its `correction` still lacks its place."""

    start: int
    stop: int
    correction: Correction
    aside: Aside | None = None


def corrections(
    collation: Collation, base: str, entries: Sequence[Entry], judge: Judge
) -> tuple[Correction, ...]:
    """Return the acts of the scribes: those in headings, then in the order of the columns, of the witnesses.

    Words written in above the line beside words struck out are one correction. Words struck out alone
    are told of the base's words, if they are these; else they may be a false start as well as the first
    reading of what follows: they are said to stand beside it.
    """
    found = []
    ours = collation.sigla.index(base)
    for w, siglum in enumerate(collation.sigla):
        item = collation.items[w]
        acts = list(_acts(siglum, item.tokens, item.asides, _last_hand(item.heading_tokens)))
        differing = _differing(siglum, entries) if acts else []
        for each in acts:
            if each.aside is not None and (own := base_words(collation, ours, w, each.aside, judge)):
                found.append(replace(each.correction, act=Act.DELETED, locus=own))
                continue
            done = _with_its_like(collation, ours, w, each)
            done = _begun(done, item.tokens, judge)
            locus = columns_of(collation.columns, w, done.start, done.stop)
            agrees = not any(at.first < locus.stop and locus.first < at.stop for at in differing)
            found.append(replace(done.correction, locus=locus, agrees=agrees))
    in_order = sorted(found, key=lambda each: (each.locus.first, each.locus.stop))
    return (*_of_headings(collation, ours), *in_order)


def _begun(done: _Done, tokens: Sequence[Token], judge: Judge) -> _Done:
    """Return an act, a false start said to be one where words struck out break off in the word after them."""
    told = done.correction
    if told.act is not Act.CANCELLED or done.aside is None or told.after:
        return done
    words = without_points(tokens_beside(done.aside))
    after = without_points(tokens[done.start : done.start + len(words) + 1])
    full = false_start(words, (), after, judge)
    return replace(done, correction=replace(told, begun=full)) if full else done


def _of_headings(collation: Collation, ours: int) -> Iterator[Correction]:
    """Yield the acts in the headings of an item, in the order of the witnesses."""
    base = collation.items[ours].heading_tokens
    for siglum, item in zip(collation.sigla, collation.items, strict=True):
        for done in _acts(siglum, item.heading_tokens, item.heading_asides, _FIRST):
            yield _told_of_heading(done, item.heading_tokens, base)


def _told_of_heading(done: _Done, tokens: Sequence[Token], base: Sequence[Token]) -> Correction:
    """Return an act in a heading, told of the same words in the base's, or of all of it if it lacks them."""
    own = [token.normal for token in tokens[done.start : done.stop]]
    for at in range(len(base)):
        here = base[at : at + len(own)]
        if [token.normal for token in here] == own:
            return replace(done.correction, heading=_written(here))
    whole = replace(done.correction, heading=_written(base) or "(none)", agrees=False)
    if whole.act is not Act.CORRECTED:
        return whole
    before, after = _written(tokens[: done.start]), _written(tokens[done.stop :])
    states = (" ".join(filter(None, (before, state, after))) for state in (whole.first, whole.second))
    first, second = states
    return replace(whole, first=first, second=second)


def _written(tokens: Sequence[Token]) -> str:
    return " ".join(shown(token, _EXPANDED) for token in without_points(tokens))


def _last_hand(tokens: Sequence[Token]) -> str:
    """Return the hand in which a heading ends, the first where there is none."""
    places = [place for token in tokens for place in (token.place, *(each.place for each in token.breaks))]
    return places[-1].hand if places else _FIRST


def _with_its_like(collation: Collation, ours: int, w: int, done: _Done) -> _Done:
    """Return words written in together with the equal word beside them that may answer to the base's.

    Where A has "sugre and salt" and B wrote "and wyn" in above the line after its sugre, either "and"
    of B may stand beside that of A: B had one at first.
    """
    tokens, start, stop, told = collation.items[w].tokens, done.start, done.stop, done.correction
    if told.act is not Act.CORRECTED or told.first:
        return done
    locus = columns_of(collation.columns, w, start, stop)
    if not 0 < len(collation.tokens(ours, locus.first, locus.stop)) < stop - start:
        return done
    if stop < len(tokens) and tokens[stop].normal == tokens[start].normal:
        like = shown(tokens[stop], _EXPANDED)
        return _Done(start, stop + 1, replace(told, first=like, second=f"{told.second} {like}"))
    if start and tokens[start - 1].normal == tokens[stop - 1].normal:
        like = shown(tokens[start - 1], _EXPANDED)
        return _Done(start - 1, stop, replace(told, first=like, second=f"{like} {told.second}"))
    return done


def _differing(siglum: str, entries: Sequence[Entry]) -> list[Locus]:
    """Return the places where a witness reads otherwise than the base, in substance."""
    return [
        entry.locus
        for entry in entries
        if any(v.weight is Weight.SUBSTANTIVE and siglum in v.reading.sigla for v in entry.variants)
    ]


def _acts(siglum: str, tokens: Sequence[Token], asides: Sequence[Aside], hand: str) -> Iterator[_Done]:
    """Yield what was done in a text or heading, in the order of its words; `hand` is that before it."""
    struck = _joined([_loosened(aside, tokens) for aside in asides if aside.mark is Mark.DELETED])
    notes = _joined([aside for aside in asides if aside.mark is Mark.MARGIN])
    within: dict[int, list[int]] = {}
    for n, aside in enumerate(struck):
        if aside.letter is not None:
            within.setdefault(aside.at - 1, []).append(n)
    used: set[int] = set()
    found: list[_Done] = []
    above = list(_written_in(tokens))
    for start, stop in above:
        beside = [n for n, a in enumerate(struck) if a.letter is None and a.at in (start, stop)]
        near = [n for n in beside if struck[n].at == start] or beside
        used.update(near)
        found.append(_replaced(siglum, tokens, start, stop, [struck[n] for n in near]))
    for index, token in enumerate(tokens):
        inner = within.get(index, [])
        if inner or _is_partly_above(token):
            used.update(inner)
            found.append(_mended(siglum, tokens, index, [struck[n] for n in inner]))
    rest = [aside for n, aside in enumerate(struck) if n not in used]
    found.extend(_beside(siglum, tokens, aside) for aside in (*rest, *notes) if tokens)
    found.extend(_changes(siglum, tokens, hand, above))
    yield from sorted(found, key=lambda done: done.start)


def _loosened(aside: Aside, tokens: Sequence[Token]) -> Aside:
    """Return letters struck out at either end of a word written in above the line as beside that word."""
    word = None if aside.letter is None else tokens[aside.at - 1]
    if word is None or not (_is_above(word) and all(_above(word))):
        return aside
    if aside.letter == 0:
        return replace(aside, at=aside.at - 1, letter=None)
    return replace(aside, letter=None) if aside.letter == len(word.expanded) else aside


def _joined(asides: Sequence[Aside]) -> list[Aside]:
    """Bring together words struck out one after another at one place."""
    joined: list[Aside] = []
    for aside in asides:
        last = joined[-1] if joined else None
        same = last and (last.at, last.letter, last.note) == (aside.at, aside.letter, aside.note)
        if last and same and aside.mark is Mark.DELETED:
            between = " " if aside.letter is None else ""
            joined[-1] = replace(last, text=f"{last.text}{between}{shown_aside(aside)}")
        else:
            joined.append(aside)
    return joined


def _above(token: Token) -> list[bool]:
    """Say of each letter whether it was written in above the line."""
    over = [(mark.start, mark.stop) for mark in token.marks if mark.mark is Mark.INSERTED]
    return [any(start <= at < stop for start, stop in over) for at in range(len(token.expanded))]


def _is_above(token: Token) -> bool:
    """Say whether a letter, or more, was written in above the line."""
    return bool(token.marks) and any(mark.mark is Mark.INSERTED for mark in token.marks)


def _is_partly_above(token: Token) -> bool:
    return _is_above(token) and any(_above(token)) and not all(_above(token))


def _written_in(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Yield the spans of whole words written in above the line, each by one hand."""

    def key(index: int) -> tuple[bool, str]:
        above = _above(tokens[index]) if _is_above(tokens[index]) else ()
        return bool(above) and all(above), tokens[index].place.hand

    for (above, _), indices in groupby(range(len(tokens)), key):
        span = list(indices)
        if above:
            yield span[0], span[-1] + 1


def _replaced(siglum: str, tokens: Sequence[Token], start: int, stop: int, struck: Sequence[Aside]) -> _Done:
    """Return a correction by whole words above the line, of those struck out beside them if any are."""
    gone = " ".join(shown_aside(aside) for aside in struck)
    second = " ".join(shown(token, _EXPANDED) for token in tokens[start:stop])
    hand = _other_hand(tokens, start, stop)
    done = Correction(siglum, _NOWHERE, Act.CORRECTED, gone, second, gone, hand=hand, above=True)
    return _Done(start, stop, done)


def _other_hand(tokens: Sequence[Token], start: int, stop: int) -> str:
    """Return the hand of words written in, "" where it is the hand of the words about them."""
    about = [tokens[at].place.hand for at in (start - 1, stop) if 0 <= at < len(tokens)]
    hand = tokens[start].place.hand
    return "" if hand in (about or ["1"]) else hand


def _mended(siglum: str, tokens: Sequence[Token], index: int, struck: Sequence[Aside]) -> _Done:
    """Return a correction within a word: letters written in, struck out, or both."""
    token = tokens[index]
    above = _above(token)
    first = ""
    for at in range(len(token.expanded) + 1):
        first += "".join(shown_aside(aside) for aside in struck if aside.letter == at)
        first += "".join(token.expanded[at : at + 1]) if not any(above[at : at + 1]) else ""
    gone = ", ".join(shown_aside(aside) for aside in struck)
    second = shown(token, _EXPANDED)
    hand = _hand_within(token, above)
    done = Correction(siglum, _NOWHERE, Act.CORRECTED, first, second, gone, hand=hand, above=any(above))
    return _Done(index, index + 1, done)


def _hand_within(token: Token, above: Sequence[bool]) -> str:
    """Return the hand of letters written in within a word, "" where it is that of the others."""
    hands = _hands_of(token)
    own = {hand for hand, over in zip(hands, above, strict=True) if not over}
    others = [hand for hand, over in zip(hands, above, strict=True) if over and hand not in own]
    return others[0] if others else ""


def _hands_of(token: Token) -> list[str]:
    """Return the hand of each letter of a word."""
    begins = {0: token.place.hand, **{each.at: each.place.hand for each in token.breaks}}
    hands, hand = [], token.place.hand
    for at in range(len(token.expanded)):
        hand = begins.get(at, hand)
        hands.append(hand)
    return hands


def _beside(siglum: str, tokens: Sequence[Token], aside: Aside) -> _Done:
    """Return words struck out, or in the margin, with the word beside which they stand."""
    before = [at for at, token in enumerate(tokens[: aside.at]) if token.kind is not TokenKind.PUNCTUATION]
    follows = aside.at < len(tokens) and tokens[aside.at].kind is not TokenKind.PUNCTUATION
    if aside.mark is Mark.MARGIN:
        at = before[-1] if before else 0
        done = Correction(siglum, _NOWHERE, Act.NOTED, second=shown_aside(aside), hand=aside.note)
    else:
        after = not follows and bool(before)
        at = before[-1] if after else min(aside.at, len(tokens) - 1)
        done = Correction(siglum, _NOWHERE, Act.CANCELLED, struck=shown_aside(aside), after=after)
    struck = None if aside.mark is Mark.MARGIN else aside
    return _Done(at, at + 1, replace(done, word=shown(tokens[at], _EXPANDED)), struck)


def _changes(
    siglum: str, tokens: Sequence[Token], hand: str, above: Sequence[tuple[int, int]]
) -> Iterator[_Done]:
    """Yield where another hand than that before begins to write, but for the words written in `above`."""
    over_the_line = {at for start, stop in above for at in range(start, stop)}
    for index, token in enumerate(tokens):
        if index in over_the_line or (token.place.hand == hand and not token.breaks):
            continue
        for own, over in zip(_hands_of(token), _above(token), strict=True):
            if own != hand and not over:
                hand = own
                word = shown(token, _EXPANDED)
                done = Correction(siglum, _NOWHERE, Act.TAKEN_UP, word=word, hand=hand)
                yield _Done(index, index + 1, done)
