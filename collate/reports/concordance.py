"""A concordance in, a table to read out: text for the terminal, or Markdown."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from textwrap import wrap

from collate.model.concordance import BookOrder, Certainty, Concordance, Likest, Loss, Match, Member, Wanting
from collate.model.witness import folio
from collate.settings import Printing

ABSENT = "–"

TWICE = 0.7
"""How like two items of one book must be for it to have one thing twice."""

_FLAGS = {Certainty.UNCERTAIN: "?", Certainty.FIXED: "!", Certainty.CERTAIN: ""}


def text(found: Concordance, title: str, printing: Printing) -> Iterator[str]:
    """Yield the concordance for the terminal: the table, what is to be looked at, the order of each book."""
    yield f"{title}\n\n"
    yield from _table(found, printing.width)
    for heading, lines in sections(found):
        yield f"\n{heading}\n"
        for line in lines:
            yield from _wrapped(line, printing.width)


def _wrapped(line: str, width: int) -> Iterator[str]:
    lines = wrap(line, width, initial_indent="   ", subsequent_indent="      ", break_long_words=False)
    yield from (each + "\n" for each in lines)


def _table(found: Concordance, width: int) -> Iterator[str]:
    """Yield the table; where the sigla do not fit beside one another, in several."""
    names = [match.key for match in found.items]
    first = max([4, *map(len, names)]) + 2
    columns = {siglum: [_cell(match.member(siglum)) for match in found.items] for siglum in found.sigla}
    widths = {siglum: max(map(len, [siglum, *cells])) + 2 for siglum, cells in columns.items()}
    for number, sigla in enumerate(_fitted(found.sigla, widths, width - first)):
        yield "\n" if number else ""
        yield (" " * first + "".join(f"{siglum:<{widths[siglum]}}" for siglum in sigla)).rstrip() + "\n"
        room = width - first - sum(widths[siglum] for siglum in sigla)
        for at, match in enumerate(found.items):
            cells = "".join(f"{columns[siglum][at]:<{widths[siglum]}}" for siglum in sigla)
            yield f"{match.key:<{first}}{cells}{_short(heading_of(match), room)}".rstrip() + "\n"


def _fitted(sigla: Sequence[str], widths: dict[str, int], room: int) -> Iterator[list[str]]:
    row: list[str] = []
    for siglum in sigla:
        if row and sum(widths[each] for each in (*row, siglum)) > room:
            yield row
            row = []
        row.append(siglum)
    yield row


def _cell(member: Member | None) -> str:
    return ABSENT if member is None else member.item.label + _FLAGS[member.certainty]


def _short(heading: str, room: int) -> str:
    """Return as much of a heading as there is room for, "" where there is hardly any."""
    if room < 12:
        return ""
    return heading if len(heading) <= room else heading[: room - 1].rstrip() + "…"


def heading_of(match: Match) -> str:
    """Return the first heading that any witness has."""
    return next((member.item.heading for member in match.members if member.item.heading), "")


def sections(found: Concordance) -> Iterator[tuple[str, list[str]]]:
    """Yield what there is to say besides the table, under headings; nothing under one that has nothing."""
    told = {
        "Uncertain (?)": list(_of_certainty(found, Certainty.UNCERTAIN)),
        "Matched by the editor (!)": list(_of_certainty(found, Certainty.FIXED)),
        "In parts": list(_parts(found)),
        "Without a counterpart": list(_lonely(found)),
        f"Order, beside {found.base}": [line for order in found.orders for line in order_lines(found, order)],
    }
    yield from ((heading, lines) for heading, lines in told.items() if lines)


def _of_certainty(found: Concordance, certainty: Certainty) -> Iterator[str]:
    for match in found.items:
        for member in match.members:
            if member.certainty is certainty:
                likeness = "" if member.likeness is None else f" ({member.likeness:.2f})"
                yield f"{match.key}: {member.siglum} {member.item.label}{likeness}: {member.reason}"


def _parts(found: Concordance) -> Iterator[str]:
    """Yield what answers to what, where a witness has an item in parts, and which parts stand apart there."""
    labels = {siglum: _labels(found, siglum) for siglum in found.sigla}
    for match in found.items:
        head = next(member for member in match.members if member.likeness is None)
        one = [member.siglum for member in match.members if len(member.places) == 1]
        for member in match.members:
            apart = "".join(f"; {line}" for line in _apart(member, labels[member.siglum]))
            if len(member.places) == 1 == len(head.places) or (member is head and not apart):
                continue
            if member is head:
                yield f"{match.key}: {_cited(member, labels)}{apart}"
                continue
            likeness = f" ({member.likeness:.2f})" if member.likeness is not None else ""
            equal = f"{_cited(head, labels)} = {_cited(member, labels)}{_FLAGS[member.certainty]}{likeness}"
            others = [siglum for siglum in one if siglum not in (head.siglum, member.siglum)]
            beside = f"; one item in {', '.join(others)}" if others and len(member.places) > 1 else ""
            told = f": {member.reason}" if len(head.places) > 1 and " = " in member.reason else ""
            yield f"{match.key}: {equal}{told}{beside}{apart}"


def _labels(found: Concordance, siglum: str) -> dict[int, str]:
    """Return the label of each item of a witness by its place."""
    members = [member for match in found.items if (member := match.member(siglum))]
    return {
        place: label
        for member in members
        for place, label in zip(member.places, _parted(member), strict=True)
    }


def _parted(member: Member) -> list[str]:
    """Return the label of each part of a member; where a label has the sign that joins them, all have all."""
    labels = member.item.label.split("+")
    return labels if len(labels) == len(member.places) else [member.item.label] * len(member.places)


def _cited(member: Member, labels: Mapping[str, Mapping[int, str]]) -> str:
    own = labels[member.siglum]
    return " + ".join(f"{member.siglum} {own[place]}" for place in member.places)


def _apart(member: Member, labels: Mapping[int, str]) -> Iterator[str]:
    """Yield which parts of a member do not stand beside another of them, and after what."""
    for place in member.places[1:]:
        if not {place - 1, place + 1} & set(member.places):
            after = f"after {labels[place - 1]}" if place else "at the beginning"
            yield f"{member.siglum} {labels[place]} stands apart, {after}"


def _lonely(found: Concordance) -> Iterator[str]:
    likest = {(each.siglum, each.label): each for each in found.unlike}
    for match in found.items:
        if len(match.members) == 1 and len(found.sigla) > 1:
            member = match.members[0]
            near = likest.get((member.siglum, member.item.label))
            yield f"{match.key}: {_place(member)}{_likest(near) if near else ''}"


def _likest(near: Likest) -> str:
    """Say what a lonely item is like, and whether its own book has that already."""
    if near.answered and near.alike >= TWICE:
        return f"; {near.siglum} has it twice: {near.answered} is like it ({near.alike:.2f})"
    said = f"; the likest is {near.other} {near.other_label} ({near.likeness:.2f})"
    return f"{said}, to which {near.siglum} {near.answered} answers" if near.answered else said


def _place(member: Member) -> str:
    """Return a member as it is cited, with its page where that is known."""
    page = folio(member.item.tokens[0].place) if member.item.tokens else ""
    return f"{member.siglum} {member.item.label}{f', {page}' if page else ''}"


def order_lines(found: Concordance, order: BookOrder) -> Iterator[str]:
    """Yield the strip of a book, moved items in brackets, then what is wanting or stands only there."""
    yield f"{order.siglum}  {strip(found, order)}"
    leaves = [loss for loss in order.losses if loss.kind is not Wanting.SINGLE]
    single = [loss.items[0] for loss in order.losses if loss.kind is Wanting.SINGLE]
    if single:
        yield f"{order.siglum} lacks, one by one: {', '.join(single)}"
    for loss in leaves:
        yield f"{order.siglum} {_loss(found, loss)}"
    if order.more:
        yield f"{order.siglum} has besides: {', '.join(order.more)}"


def _loss(found: Concordance, loss: Loss) -> str:
    lost = _SAID[loss.kind, loss.lost]
    if loss.kind is Wanting.LOST_LEAF and loss.leaves > 1:
        lost = f"{loss.leaves} leaves are likely lost"
    return f"lacks {' '.join(ranges(loss.items, found))} ({lost}): {loss.reason}"


_SAID = {
    (Wanting.TOGETHER, "no sign"): "together",
    (Wanting.BEGINNING, "possible"): "at the beginning",
    (Wanting.BEGINNING, "likely"): "the beginning is likely lost",
    (Wanting.END, "possible"): "at the end",
    (Wanting.END, "likely"): "the end is likely lost",
    (Wanting.LOST_LEAF, "possible"): "a leaf may be lost",
    (Wanting.LOST_LEAF, "likely"): "a leaf is likely lost",
}


def strip(found: Concordance, order: BookOrder) -> str:
    """Return the items of a book in its order, neighbours of the base drawn together.

    Moved ones stand in brackets; a double bar is where a leaf may be lost.
    """
    leaves = {loss.after for loss in order.losses if loss.kind is Wanting.LOST_LEAF}
    moved = {block.items[0]: block.items for block in order.moved}
    away = {name for block in order.moved for name in block.items}
    parts: list[str] = []
    run: list[str] = []
    for name in order.items:
        if name in away:
            parts.extend(ranges(run, found))
            run = []
            if name in moved:
                parts.append(f"[{' '.join(ranges(moved[name], found))}]")
        else:
            run.append(name)
        if name in leaves:
            parts.extend([*ranges(run, found), "‖"])
            run = []
    return " ".join([*parts, *ranges(run, found)])


def ranges(names: Iterable[str], found: Concordance) -> list[str]:
    """Return names with three or more neighbours of the concordance drawn together: "3–7".

    What the base lacks does not part neighbours of the base.
    """
    at = {match.key: number for number, match in enumerate(found.items)}
    base = [number for number, match in enumerate(found.items) if match.member(found.base)]
    following = dict(pairwise(base))
    runs: list[list[str]] = []
    for name in names:
        last = at[runs[-1][-1]] if runs else -1
        if runs and at[name] in (last + 1, following.get(last)):
            runs[-1].append(name)
        else:
            runs.append([name])
    return [part for run in runs for part in ([f"{run[0]}–{run[-1]}"] if len(run) > 2 else run)]


def markdown(found: Concordance, title: str) -> Iterator[str]:
    """Yield the concordance as a Markdown page: number, page and likeness of every item."""
    yield f"# {_plain(title)}\n\n"
    yield f"| item | {' | '.join(map(_plain, found.sigla))} | heading |\n"
    yield f"|{'---|' * (len(found.sigla) + 2)}\n"
    for match in found.items:
        cells = [_full(match.member(siglum)) for siglum in found.sigla]
        yield f"| {' | '.join(map(_plain, [match.key, *cells, heading_of(match)]))} |\n"
    for heading, lines in sections(found):
        yield f"\n## {_plain(heading)}\n\n"
        yield from (f"- {_plain(line)}\n" for line in lines)


def _full(member: Member | None) -> str:
    if member is None:
        return ABSENT
    page = folio(member.item.tokens[0].place) if member.item.tokens else ""
    likeness = "" if member.likeness is None else f"{member.likeness:.2f}"
    notes = ", ".join(part for part in (page, likeness) if part)
    return _cell(member) + (f" ({notes})" if notes else "")


def _plain(words: str) -> str:
    """Return words in which nothing has a meaning in Markdown."""
    return "".join(f"\\{c}" if c in "\\|`*_[]<>#" else c for c in " ".join(words.split()))
