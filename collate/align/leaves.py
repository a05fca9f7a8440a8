"""What a witness lacks, and why: items wanting one by one, together, or with a leaf that is lost."""

import re
from dataclasses import dataclass

from collate.model.concordance import Loss, Wanting
from collate.model.witness import Item, Token, TokenKind

_FOLIO = re.compile(r"(?:p\. ?(?P<page>\d{1,6}))|(?:(?P<leaf>\d{1,6})(?P<side>[rv]))")


NO_SIGN = "no sign"
"""What is said of a loss where nothing shows that text is lost."""


@dataclass(frozen=True, slots=True)
class Gap:
    """A run of items that a witness lacks, and what stands on either side of it there.

    `before` and `after` are None at the ends of the book. `follow` says that nothing stands between them.
    `words` is how many words the base has in the run; `per_leaf` how many a leaf of the witness holds (0: not
    known).
    """

    items: tuple[str, ...]
    before: Item | None
    after: Item | None
    follow: bool
    words: int
    per_leaf: float


def loss_of(gap: Gap) -> Loss:
    """Say how the items of a gap come to be wanting.

    A leaf is likely to be lost where the text breaks off or begins in a gap, or where the count of the leaves
    jumps; it may be lost where two items or more are wanting between the back of one leaf and the front of
    the next. Anything else says nothing of leaves.
    """
    broken = " and ".join(_breaks(gap))
    leaves, jump = _jump(gap)
    extent = _extent(gap)
    if gap.before is None and gap.after is None:
        return Loss(gap.items, Wanting.TOGETHER, NO_SIGN, "the witness has nothing else of the base")
    end = _at_end(gap)
    if broken or jump:
        reason = "; ".join(part for part in (broken, jump, extent) if part)
        return Loss(gap.items, end or Wanting.LOST_LEAF, "likely", reason, leaves=leaves)
    if end is not None and len(gap.items) > 1:
        where = "begins" if end is Wanting.BEGINNING else "ends"
        return Loss(gap.items, end, "possible", f"the book {where} here; nothing marks a loss")
    if len(gap.items) == 1:
        return Loss(gap.items, Wanting.SINGLE, NO_SIGN, "its neighbours stand undamaged")
    if gap.follow and _between_leaves(gap):
        reason = f"a leaf ends here, and nothing marks a loss{f'; {extent}' if extent else ''}"
        return Loss(gap.items, Wanting.LOST_LEAF, "possible", reason)
    return Loss(gap.items, Wanting.TOGETHER, NO_SIGN, _no_leaf(gap))


def _no_leaf(gap: Gap) -> str:
    """Say why nothing speaks for a lost leaf."""
    if not gap.follow:
        return "what stands on either side of them in the base does not stand together here"
    if _pages(gap) is None:
        return "the pages are not marked here"
    return "no leaf ends where they would stand"


def _at_end(gap: Gap) -> Wanting | None:
    """Say whether the gap is at an end of the book, and at which."""
    if not gap.follow:
        return None
    if gap.before is None:
        return Wanting.BEGINNING
    return Wanting.END if gap.after is None else None


def _breaks(gap: Gap) -> list[str]:
    """Return what shows on either side that text is lost."""
    found = []
    if gap.before and gap.before.tokens and gap.before.tokens[-1].kind is TokenKind.GAP:
        found.append(f"{gap.before.label} breaks off")
    if gap.after and gap.after.tokens and gap.after.tokens[0].kind is TokenKind.GAP:
        found.append(f"{gap.after.label} begins imperfectly")
    return found


@dataclass(frozen=True, slots=True)
class _Page:
    """A page: its number, counted in pages, and whether it is the back of a leaf (None: not known)."""

    number: int
    name: str
    back: bool | None


def _page(token: Token | None) -> _Page | None:
    if token is None or token.place.folio is None:
        return None
    found = _FOLIO.search(token.place.folio)
    if found is None:
        return None
    if found["page"]:
        return _Page(int(found["page"]), f"p. {found['page']}", None)
    back = found["side"] == "v"
    return _Page(2 * int(found["leaf"]) + back, f"f. {found['leaf']}{found['side']}", back)


def _pages(gap: Gap) -> tuple[_Page, _Page] | None:
    """Return the last page before a gap and the first after it, where both are known."""
    if gap.before is None or gap.after is None or not gap.before.tokens or not gap.after.tokens:
        return None
    last, first = _page(gap.before.tokens[-1]), _page(gap.after.tokens[0])
    return (last, first) if last and first else None


def _jump(gap: Gap) -> tuple[int, str]:
    """Say how many leaves the count passes over, and where; 0 and "" where it does not jump.

    Of pages two are a leaf: a single page that is passed over may be blank, or not marked.
    """
    pages = _pages(gap)
    if not gap.follow or pages is None:
        return 0, ""
    last, first = pages
    paged = last.back is None or first.back is None
    leaves = (first.number - last.number - 1) // 2 if paged else first.number // 2 - last.number // 2 - 1
    return (leaves, f"the count goes from {last.name} to {first.name}") if leaves > 0 else (0, "")


def _between_leaves(gap: Gap) -> bool:
    pages = _pages(gap)
    return pages is not None and pages[1].number == pages[0].number + 1 and pages[0].back is not False


def _extent(gap: Gap) -> str:
    """Say how much of a leaf the words would fill, where that can be reckoned."""
    if not gap.per_leaf or not gap.words:
        return ""
    leaves = gap.words / gap.per_leaf
    return f"the base has {gap.words} words there, some {leaves:.1f} of a leaf's" if leaves < 20 else ""
