"""The order of each book against the base: what was moved, what is wanting, and whether a leaf is lost.

What was moved is what stands outside the longest run of items in the base's order (M. L. Fredman, "On
computing the length of longest increasing subsequences", Discrete Mathematics 11 (1975) 29-35).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from collate.align.anchor import chain
from collate.align.divide import is_word
from collate.align.leaves import Gap, loss_of
from collate.model.concordance import BookOrder, Concordance, Loss, Match, Moved
from collate.model.witness import Item, WitnessText


def with_orders(found: Concordance, texts: Sequence[WitnessText]) -> Concordance:
    """Return a concordance with the order of each witness but the base."""
    rows = tuple(_order(found, text) for text in texts if text.siglum != found.base)
    return replace(found, orders=rows)


@dataclass(frozen=True, slots=True)
class _Book:
    """One witness: its text, and the names of its items by their places."""

    text: WitnessText
    names: tuple[str, ...]

    def item(self, name: str, *, last: bool = False) -> Item:
        """Return the first (or last) of the items that go by a name."""
        places = [place for place, each in enumerate(self.names) if each == name]
        return self.text.items[places[-1] if last else places[0]]


def _book(found: Concordance, text: WitnessText) -> _Book:
    names = {
        place: match.key
        for match in found.items
        if (member := match.member(text.siglum))
        for place in member.places
    }
    return _Book(text, tuple(names[place] for place in range(len(text.items))))


def _order(found: Concordance, text: WitnessText) -> BookOrder:
    book = _book(found, text)
    ours = tuple(dict.fromkeys(book.names))
    base = [match.key for match in found.items if match.member(found.base)]
    known = set(base)
    return BookOrder(
        text.siglum,
        ours,
        tuple(_moved(ours, base)),
        tuple(_losses(found, book, base)),
        tuple(name for name in ours if name not in known),
    )


def _moved(every: Sequence[str], base: Sequence[str]) -> Iterator[Moved]:
    """Yield the blocks outside the longest run in the base's order: neighbours here and there together."""
    held, known = set(every), set(base)
    ours = [name for name in every if name in known]
    home = {name: at for at, name in enumerate(name for name in base if name in held)}
    before = dict(zip(every[1:], every, strict=False)), dict(zip(base[1:], base, strict=False))
    kept = {at for at, _ in chain([(at, home[name]) for at, name in enumerate(ours)])}
    fast = {home[ours[at]] for at in kept}
    at = 0
    while at < len(ours):
        stop = at + 1
        if at not in kept:
            while (
                stop < len(ours)
                and stop not in kept
                and _goes_on(home[ours[stop - 1]], home[ours[stop]], fast)
            ):
                stop += 1
            here, there = (order.get(ours[at]) for order in before)
            yield Moved(tuple(ours[at:stop]), here, there)
        at = stop


def _goes_on(last: int, following: int, fast: set[int]) -> bool:
    """Say whether one item follows another in the base, with nothing but moved ones between them."""
    return last < following and all(between not in fast for between in range(last + 1, following))


def _losses(found: Concordance, book: _Book, base: Sequence[str]) -> Iterator[Loss]:
    """Yield what the witness lacks of the base, in runs of neighbours there."""
    held = set(book.names)
    words = {match.key: _words(match, found.base) for match in found.items}
    per_leaf = _per_leaf(book.text)
    at = 0
    while at < len(base):
        stop = at
        while stop < len(base) and base[stop] not in held:
            stop += 1
        if stop > at:
            before = base[at - 1] if at else None
            after = base[stop] if stop < len(base) else None
            gap = Gap(
                tuple(base[at:stop]),
                book.item(before, last=True) if before is not None else None,
                book.item(after) if after is not None else None,
                _follow(book.names, before, after),
                sum(words[name] for name in base[at:stop]),
                per_leaf,
            )
            yield replace(loss_of(gap), after=before)
        at = stop + 1


def _follow(names: Sequence[str], before: str | None, after: str | None) -> bool:
    """Say whether nothing stands between two items, or between one and the end of the book."""
    return any(pair == (before, after) for pair in pairwise([None, *names, None]))


def _words(match: Match, siglum: str) -> int:
    member = match.member(siglum)
    return sum(map(is_word, member.item.tokens)) if member else 0


def _per_leaf(text: WitnessText) -> float:
    """Return how many words a leaf of a witness holds, 0 where its pages are not marked."""
    tokens = [token for item in text.items for token in item.tokens if is_word(token)]
    pages = {token.place.folio for token in tokens}
    return 0.0 if None in pages or len(pages) < 2 else 2 * len(tokens) / len(pages)
