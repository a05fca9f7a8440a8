"""Words struck out in, the base's own words that they were out."""

from collections.abc import Sequence

from collate.analysis.passages import tokens_beside
from collate.model.collation import Collation, Locus, columns_of
from collate.model.division import one_wording
from collate.model.form import Judge
from collate.model.witness import Aside, Token, TokenKind


def base_words(collation: Collation, ours: int, w: int, aside: Aside, judge: Judge) -> Locus | None:
    """Return the columns of the base's words that witness `w` lacks where it struck out just these words.

    None where the words struck out are no words of the base at their place, or the witness has those too.
    """
    struck = [token for token in tokens_beside(aside) if token.kind is not TokenKind.PUNCTUATION]
    lacks = _lacking(collation, w, aside.at)
    before = collation.tokens(ours, 0, lacks.first)
    words = [
        (at, token)
        for at, token in enumerate(collation.tokens(ours, lacks.first, lacks.stop), len(before))
        if token.kind is not TokenKind.PUNCTUATION
    ]
    for length in range(max(1, len(struck) - 1), len(struck) + 2):
        for first in range(len(words) - length + 1 if struck else 0):
            here = words[first : first + length]
            if _same([token for _, token in here], struck, judge):
                return columns_of(collation.columns, ours, here[0][0], here[-1][0] + 1)
    return None


def _same(one: Sequence[Token], other: Sequence[Token], judge: Judge) -> bool:
    """Say whether two runs of words are the same, though they may be divided otherwise."""
    letters = ("".join(token.normal for token in each) for each in (one, other))
    return one_wording(one, other, judge) or len({*letters}) == 1


def _lacking(collation: Collation, w: int, at: int) -> Locus:
    """Return the columns between the last word of a witness before token `at` and the next one."""
    tokens = collation.items[w].tokens
    words = [n for n, token in enumerate(tokens) if token.kind is not TokenKind.PUNCTUATION]
    before = max((n for n in words if n < at), default=None)
    after = min((n for n in words if n >= at), default=None)
    columns = collation.columns
    first = 0 if before is None else columns_of(columns, w, before, before + 1).stop
    stop = len(columns) if after is None else columns_of(columns, w, after, after + 1).first
    return Locus(first, max(first, stop))
