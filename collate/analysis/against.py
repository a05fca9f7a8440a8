"""A second pass beside the first: two transcriptions of one witness in, where they differ out."""

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher

from collate.model.notice import Difference
from collate.model.source import Place
from collate.model.witness import Item, Token, WitnessText


def against(first: WitnessText, second: WitnessText) -> tuple[Difference, ...]:
    """Return where two transcriptions differ, marks and punctuation included, item by item."""
    found: list[Difference] = []
    for one, other in _pairs(first.items, second.items):
        if one is None or other is None:
            whole = one or other
            assert whole is not None
            words = written(whole.tokens)
            here = (words, "") if one else ("", words)
            found.append(Difference(whole.label, *here, whole.place, whole.place))
        else:
            found.extend(_differences(one, other))
    return tuple(found)


def _pairs(first: Sequence[Item], second: Sequence[Item]) -> Iterator[tuple[Item | None, Item | None]]:
    others = {item.label: item for item in second}
    for item in first:
        yield item, others.pop(item.label, None)
    for item in others.values():
        yield None, item


def _differences(one: Item, other: Item) -> Iterator[Difference]:
    ours = [*one.heading_tokens, *one.tokens]
    theirs = [*other.heading_tokens, *other.tokens]
    matcher = SequenceMatcher(None, [_bare(t) for t in ours], [_bare(t) for t in theirs], autojunk=False)
    for tag, a, a_stop, b, b_stop in matcher.get_opcodes():
        if tag != "equal":
            yield Difference(
                one.label,
                written(ours[a:a_stop]),
                written(theirs[b:b_stop]),
                _place(ours, a, one),
                _place(theirs, b, other),
            )


def _place(tokens: Sequence[Token], at: int, item: Item) -> Place:
    if at < len(tokens):
        return tokens[at].place
    return tokens[-1].place if tokens else item.place


def _bare(token: Token) -> str:
    """Return a word as written, where lines are broken left aside."""
    return "".join(token.written.replace("¬", "").split())


def written(tokens: Sequence[Token]) -> str:
    """Return words as written, on one line."""
    return " ".join(_bare(token) for token in tokens)
