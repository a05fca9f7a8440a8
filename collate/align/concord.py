"""Which item of one witness answers to which of another: by what they say, never by number alone."""

from collections.abc import Sequence

from collate.align.clusters import Clusters, clusters
from collate.align.grounds import Grounds, members, unlike
from collate.align.likeness import Corpus, corpus
from collate.align.links import Key, links
from collate.align.pairing import matched
from collate.align.parted import with_parts
from collate.align.rulings import fixed_by
from collate.align.twins import told_apart
from collate.model.concordance import Concordance, Match, Member
from collate.model.edition import FixedMatch
from collate.model.form import Judge
from collate.model.witness import ItemKind, WitnessText


def concord(
    texts: Sequence[WitnessText],
    base: str,
    key: Key,
    rulings: Sequence[FixedMatch] = (),
    judge: Judge | None = None,
) -> Concordance:
    """Bring the items of all witnesses together; `key` gives what a label means, `rulings` are the editor's.

    The `judge`, if there is one, says which names are of one sense.

    Items stand in the order of the base; one it lacks follows the item it follows in the first other
    witness that has it. An item goes by its label in the base, or in the first witness that has it, with
    that siglum ("B:9") where the label alone would name another. The result does not depend on the order of
    `texts`, but for the order of the members. Raises InputError where a ruling names an item that is not
    there, or rulings contradict one another.
    """
    ranked = sorted(texts, key=lambda text: (text.siglum != base, text.siglum))
    book = corpus(ranked)
    fixed = fixed_by(book, ranked, key, rulings)
    known = links(book, key, fixed.pairs(book), judge)
    kept = matched((link for link in known.strong.values() if fixed.allows(link.pair, book)), book)
    found = told_apart(book, clusters(book, kept, known.strong, fixed), known.near, fixed)
    found = with_parts(book, found, known, fixed)
    sigla = tuple(text.siglum for text in ranked)
    grounds = Grounds(book, sigla, found, fixed, known)
    order = [sigla.index(text.siglum) for text in texts]
    groups = _ordered(book, found, order)
    rows = [members(grounds, group, order) for group in groups]
    names = _names(rows, base, key)
    items = tuple(Match(name, _kind(row), row) for name, row in zip(names, rows, strict=True))
    return Concordance(base, tuple(text.siglum for text in texts), items, tuple(unlike(grounds)))


def _ordered(book: Corpus, found: Clusters, order: Sequence[int]) -> list[int]:
    """Return the groups in the order of the base (witness 0), the others where they follow in theirs.

    Of a group that has several items of one witness the first says where it stands.
    """
    after: dict[int, int] = {}
    start = -1
    for witness in (0, *order):
        last = start
        own = (found.of[number] for number, owner in enumerate(book.owner) if owner == witness)
        for group in dict.fromkeys(own):
            if group not in after:
                after[group], after[last] = after.get(last, start), group
            last = group
    row, at = [], after.get(start, start)
    while at != start:
        row.append(at)
        at = after[at]
    return row


def _kind(row: Sequence[Member]) -> ItemKind:
    """Return the kind that any witness gives an item, a recipe being what nothing else is known of."""
    kinds = [member.item.kind for member in row]
    return next((kind for kind in kinds if kind is not ItemKind.RECIPE), kinds[0])


def _names(rows: Sequence[Sequence[Member]], base: str, key: Key) -> list[str]:
    """Return a name for each item: the base's label, or another's; with its siglum if the name is taken."""
    heads = [next((m for m in row if m.siglum == base), row[0]) for row in rows]
    plain = ["+".join(key(label) for label in head.item.label.split("+")) for head in heads]
    taken = {
        part
        for name, head in zip(plain, heads, strict=True)
        if head.siglum == base
        for part in (name, *name.split("+"))
    }
    names = []
    for name, head in zip(plain, heads, strict=True):
        if head.siglum != base and name in taken:
            name = f"{head.siglum}:{name}"
        taken.add(name)
        names.append(name)
    return names
