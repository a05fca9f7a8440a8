"""An item's corrections in, what an apparatus says of them out."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from collate.model.apparatus import Entry, Reading
from collate.model.findings import ItemFindings
from collate.model.hands import Act, Correction
from collate.reports.lemma import Lemma, lemma_of
from collate.reports.phrases import raised

HANDS = "Hands and corrections"
"""What this part of an apparatus is called."""

HEADING = "heading"
"""The place of what was done in the heading of an item."""


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of what is said; a `term` of the editor ("canc.") is set in italics."""

    text: str
    term: bool = False


State = tuple[Part, ...]
"""What one hand has at a place; its parts are divided by blanks."""


@dataclass(frozen=True, slots=True)
class Told:
    """An entry of the part on hands: the lemma, and what each hand has, in parts with their blanks."""

    lemma: Lemma
    parts: tuple[Part, ...]


def told_of_hands(found: ItemFindings) -> Iterator[Told]:
    """Yield the entries of an item: its corrections, words struck out, notes, changes of hand.

    A* is A before it was corrected, Aᶜ after, A² its second hand.
    """
    sigla = frozenset(found.collation.sigla)
    for (heading, locus), acts in groupby(found.corrections, lambda each: (each.heading, each.locus)):
        if heading:
            lemma = Lemma(HEADING, heading, "")
        else:
            lemma = lemma_of(Entry(locus, Reading("", "", ()), ()), found)
        parts: list[Part] = []
        for act in acts:
            for number, state in enumerate(_states(act, lemma, sigla)):
                divider = ", " if number else "; "
                parts.extend([Part(divider)] if parts else [])
                parts.extend(_spaced(state))
        yield Told(lemma, tuple(parts))


def _spaced(state: State) -> Iterator[Part]:
    for number, part in enumerate(state):
        if number:
            yield Part(" ")
        yield part


def _states(done: Correction, lemma: Lemma, sigla: frozenset[str]) -> Iterator[State]:
    if done.act is Act.CORRECTED:
        yield from _corrected(done, lemma, sigla)
        return
    if done.act is Act.NOTED:  # beside the lemma; the copy's own word there would be read as part of the note
        yield Part(done.second), Part("marg.", term=True), Part(_by(done))
        return
    if done.act is Act.DELETED:
        yield Part("canc.", term=True), Part(done.siglum)
        return
    adds = (Part(lemma.adds, term=True),) if lemma.adds else ()
    word = () if done.agrees and not adds else (*adds, Part(done.word))
    if done.act is Act.CANCELLED:
        side = Part("foll. by" if done.after else "prec. by", term=True)
        start = (Part("(false start?)"),) if done.begun else ()
        yield *word, side, Part(done.struck), Part("canc.", term=True), Part(done.siglum), *start
    else:
        yield *word, Part("from here", term=True), Part(_by(done))


def _corrected(done: Correction, lemma: Lemma, sigla: frozenset[str]) -> Iterator[State]:
    """Yield what the witness had at first, unless the base too has nothing, and what it has now."""
    adds = (Part(lemma.adds, term=True),) if lemma.adds else ()
    first = Part(_first_state(done.siglum, sigla))
    if done.first:
        whole = done.struck == done.first
        struck = (Part("(canc.)" if whole else f"({done.struck} canc.)", term=True),) if done.struck else ()
        yield (*adds, Part(done.first), first, *struck)
    elif not lemma.adds:
        yield Part("om.", term=True), first
    where = (Part("sup. lin.", term=True),) if done.above else ()
    second = Part("corr.", term=True) if done.agrees and not lemma.adds else Part(done.second)
    yield (*(adds if done.second else ()), second, *where, Part(_by(done)))


def _first_state(siglum: str, sigla: frozenset[str]) -> str:
    """Return the siglum of a witness before it was corrected; A* may be the name of another."""
    return f"{siglum}ᵃᶜ" if f"{siglum}*" in sigla else f"{siglum}*"


def _by(done: Correction) -> str:
    if done.hand:
        return _numbered(done.siglum, done.hand)
    return f"{done.siglum}ᶜ" if done.act is Act.CORRECTED else done.siglum


def _numbered(siglum: str, hand: str) -> str:
    """Return the siglum of a hand of a witness: A², or A (hand b) where hands have names."""
    return f"{siglum}{raised(hand)}" if hand.isdecimal() and hand.isascii() else f"{siglum} (hand {hand})"
