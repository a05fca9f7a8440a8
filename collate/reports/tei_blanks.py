"""The segments of an item in, after which of them a blank stands out."""

from collections.abc import Sequence
from itertools import pairwise

from collate.reports.tei_segments import Segment
from collate.reports.tei_write import needs_blank, wants_blank


def blanks(parts: Sequence[Segment], sigla: Sequence[str]) -> tuple[bool, ...]:
    """Say after which segments a blank stands. `sigla` begin with the base, whose blanks are kept.

    A witness that has nothing in some segments finds its blank on either side of them.
    """
    words = {siglum: [part.words(siglum) for part in parts] for siglum in sigla}
    found = [
        wants_blank([(has[at][-1], has[at + 1][0]) for has in words.values() if has[at] and has[at + 1]])
        for at in range(len(parts) - 1)
    ]
    for number, has in enumerate(words.values()):
        filled = [at for at, here in enumerate(has) if here]
        for before, after in pairwise(filled):
            first, second = has[before][-1], has[after][0]
            needed = first.spaced if number == 0 else needs_blank(first, second)
            if needed and not any(found[before:after]):
                found[after - 1] = True
    return (*found, False)[: len(parts)]
