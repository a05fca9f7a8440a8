"""By what the words of two witnesses are compared, wherever they stand: one key for one word."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass

from collate.model.bones import bones
from collate.model.collation import Collation, Locus
from collate.model.division import joined
from collate.model.form import Form, Judge, form_of, one_word
from collate.model.witness import Token, TokenKind, without_points

LOST = "?"
"""What stands for lost words: they are like no others."""


@dataclass(frozen=True, slots=True)
class Cell:
    """The words of a witness in one column, and by what they are compared."""

    column: int
    key: str
    words: tuple[Token, ...]


Cells = tuple[Cell, ...]


class Text:
    """The words of a witness in their columns, and the same by column; no column is there twice."""

    def __init__(self, cells: Cells) -> None:
        """Keep the words of a witness, in order."""
        self.cells = cells
        self.columns = [cell.column for cell in cells]
        self.by_column = {cell.column: cell.key for cell in cells}
        self.times = Counter(self.by_column.values())


class Names:
    """Gives words the keys they are compared by: to those that are one word, one key."""

    def __init__(self, judge: Judge) -> None:
        """Begin with nothing known."""
        self.judge = judge
        self._known: dict[tuple[Form, ...], str] = {(): ""}
        self._written: dict[tuple[str, TokenKind, tuple[str, ...]], str] = {}
        self._forms: dict[str, list[tuple[Form, ...]]] = defaultdict(list)
        self._by_normal: dict[str, list[tuple[Form, str]]] = defaultdict(list)
        self._content: dict[str, bool] = {}
        self._heads: dict[str, str] = {}
        self._by_bones: dict[str, list[tuple[Form, str]]] = defaultdict(list)

    def __call__(self, words: Sequence[Token]) -> str:
        """Return the key of the words of one column."""
        if len(words) != 1:
            return self.head(self._of(words))
        written = words[0].expanded, words[0].kind, words[0].headwords
        key = self._written.get(written)
        if key is None:
            key = self._written[written] = self._of(words)
        return self.head(key)

    def head(self, key: str) -> str:
        """Return the key of the words that were united with those of a key."""
        while key in self._heads:
            key = self._heads[key]
        return key

    def unite(self, keys: Sequence[str]) -> None:
        """Give one key to those words, of all that stand in one column, that are one word."""
        for at, other in enumerate(keys):
            for one in keys[:at]:
                if self.head(one) != self.head(other) and LOST not in (one, other):
                    ours, theirs = (joined(self._forms[key][0]) for key in (one, other))
                    if self.one(ours, theirs):
                        self._join(one, other)

    def one(self, ours: Form, theirs: Form) -> bool:
        """Say whether two forms are one word."""
        return one_word(self.judge(ours, theirs))

    def _join(self, one: str, other: str) -> None:
        low, high = sorted((self.head(one), self.head(other)))
        self._heads[high] = low
        self._forms[low] += self._forms[high]

    def alike(self, one: Cell, other: Cell) -> bool:
        """Say whether the words of two cells are the same."""
        if one.key == other.key or LOST in (one.key, other.key):
            return one.key == other.key != LOST
        return self.one(joined([*map(form_of, one.words)]), joined([*map(form_of, other.words)]))

    def has_content(self, key: str) -> bool:
        """Say whether a key is that of more than a function word, a number or lost words."""
        found = self._content.get(key)
        if found is None:
            forms = [form for words in self._forms[key] for form in words if form.kind is TokenKind.WORD]
            found = self._content[key] = not all(map(self.judge.is_function, forms))
        return found

    def _of(self, words: Sequence[Token]) -> str:
        forms = tuple([form_of(t) for t in words if t.kind is not TokenKind.PUNCTUATION])
        key = self._known.get(forms)
        if key is None:
            key = self._known[forms] = self._named(forms)
            self._forms[key].append(forms)
        return key

    def _named(self, forms: tuple[Form, ...]) -> str:
        if any(form.kind is TokenKind.GAP for form in forms):
            return LOST
        whole = joined(forms)
        like = self._by_normal[whole.normal]
        for form, key in like:
            if self.one(form, whole):
                return key
        key = self.judge.keys(whole)[0] or whole.folded
        like.append((whole, key))
        self._by_spelling(whole, key)
        return key

    def _by_spelling(self, whole: Form, key: str) -> None:
        """Unite a word with those of its consonants that are one word with it, if one is in no table."""
        like = self._by_bones[bones(whole.normal)]
        for form, other in like:
            if self.head(key) != self.head(other) and "~" in (key[:1], other[:1]) and self.one(form, whole):
                self._join(key, other)
        like.append((whole, key))


@dataclass(frozen=True, slots=True)
class Keys:
    """The keys of all witnesses in the columns that vary, "" for no word; `of` gives those of other words.

    `known` are the words of the witnesses of which all have been asked for (see `text_of`).
    """

    rows: Mapping[int, Sequence[str]]
    of: Names
    known: dict[int, Text]

    def content(self, keys: Iterable[str]) -> bool:
        """Say whether any of some words is one of content."""
        return any(map(self.of.has_content, keys))

    def common(self, pair: tuple[int, int]) -> Set[str]:
        """Return the words that each of two has where the other has not."""
        a, b = pair
        rows = [row for row in self.rows.values() if row[a] != row[b]]
        return {row[a] for row in rows}.intersection([row[b] for row in rows]) - {"", LOST}


def by_siglum(collation: Collation) -> list[int]:
    """Return the numbers of the witnesses in the order of their sigla, whatever order they were given in."""
    return sorted(range(len(collation.sigla)), key=collation.sigla.__getitem__)


def keys_of(collation: Collation, judge: Judge) -> Keys:
    """Return by what the words of each witness are compared, for each column of words that varies."""
    key_of, order = Names(judge), by_siglum(collation)
    rows: dict[int, list[str]] = {}
    for locus in collation.loci:
        for column in range(locus.first, locus.stop):
            spans = collation.columns[column].spans
            row = [""] * len(order)
            for w in order:
                span = spans[w]
                if span.start < span.stop:
                    row[w] = key_of(collation.items[w].tokens[span.start : span.stop])
            rows[column] = row
            key_of.unite(sorted(filter(None, {*row})))
    for column, row in rows.items():
        rows[column] = [key_of.head(key) for key in row]
    return Keys(rows, key_of, {})


def cells_of(collation: Collation, w: int, window: Locus, keys: Keys) -> tuple[Cell, ...]:
    """Return the columns of some in which a witness has words."""
    found = []
    for column in range(window.first, window.stop):
        words = without_points(collation.tokens(w, column, column + 1))
        if words:
            found.append(Cell(column, keys.of(words), words))
    return tuple(found)


def text_of(collation: Collation, w: int, keys: Keys) -> Text:
    """Return all words of a witness by their columns."""
    if w in keys.known:
        return keys.known[w]
    tokens, found = collation.items[w].tokens, []
    for at, column in enumerate(collation.columns):
        span = column.spans[w]
        if span.start == span.stop:
            continue
        words = tokens[span.start : span.stop]
        row = keys.rows.get(at)
        key = keys.of(words) if row is None else row[w]
        if key:
            found.append(Cell(at, key, words if len(words) == 1 else without_points(words)))
    keys.known[w] = Text(tuple(found))
    return keys.known[w]


def is_content(cell: Cell, judge: Judge) -> bool:
    """Say whether a cell is more than a number or a function word."""
    return any(w.kind is TokenKind.WORD and not judge.is_function(form_of(w)) for w in cell.words)
