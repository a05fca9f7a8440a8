"""A concordance in, data out: JSON or CSV, with the names of docs/formats.md."""

from collections.abc import Iterator, Sequence

from collate.model.concordance import BookOrder, Concordance, Match, Member
from collate.reports.json import Object, document
from collate.reports.table import rows


def json(found: Concordance) -> Iterator[str]:
    """Yield the concordance as JSON: one line an item."""
    return document(
        {
            "base": found.base,
            "items": (_match(match, found) for match in found.items),
            "unlike": [
                {
                    "siglum": each.siglum,
                    "label": each.label,
                    "likest": {"siglum": each.other, "label": each.other_label},
                    "likeness": each.likeness,
                    "answered": {"label": each.answered, "likeness": each.alike} if each.answered else None,
                }
                for each in found.unlike
            ],
            "orders": [_order(order) for order in found.orders],
        }
    )


def _match(match: Match, found: Concordance) -> Object:
    held = {siglum: match.member(siglum) for siglum in found.sigla}
    here = {member.siglum: member for member in match.members}
    return {
        "item": match.key,
        "kind": match.kind,
        "places": {siglum: member.item.label if member else None for siglum, member in held.items()},
        "order": {siglum: member.places[0] + 1 if member else None for siglum, member in held.items()},
        "likeness": {s: member.likeness for s, member in here.items() if member.likeness is not None},
        "certainty": {siglum: member.certainty for siglum, member in here.items()},
        "reasons": {siglum: member.reason for siglum, member in here.items()},
        "parts": {
            siglum: [place + 1 for place in member.places]
            for siglum, member in here.items()
            if len(member.places) > 1
        },
        "headings": {siglum: member.item.heading for siglum, member in here.items()},
        "folios": {siglum: _folio(member) for siglum, member in here.items()},
    }


def _folio(member: Member) -> str | None:
    return member.item.tokens[0].place.folio if member.item.tokens else member.item.place.folio


def _order(order: BookOrder) -> Object:
    return {
        "siglum": order.siglum,
        "items": order.items,
        "moved": [{"items": m.items, "after": m.after, "home": m.home} for m in order.moved],
        "wanting": [
            {
                "items": loss.items,
                "kind": loss.kind,
                "lost": loss.lost,
                "reason": loss.reason,
                "after": loss.after,
                "leaves": loss.leaves,
            }
            for loss in order.losses
        ],
        "more": order.more,
    }


def table(found: Concordance) -> Iterator[str]:
    """Yield the concordance as CSV: for each witness its label, place, page, likeness, certainty, ground."""
    yield from rows(_rows(found))


def _rows(found: Concordance) -> Iterator[Sequence[str]]:
    columns = ("", "_order", "_folio", "_likeness", "_certainty", "_reason")
    yield ["item", "kind", *(siglum + column for siglum in found.sigla for column in columns)]
    for match in found.items:
        cells = [cell for siglum in found.sigla for cell in _cells(match.member(siglum))]
        yield [match.key, match.kind, *cells]


def _cells(member: Member | None) -> list[str]:
    if member is None:
        return [""] * 6
    likeness = "" if member.likeness is None else f"{member.likeness:.2f}"
    place = str(member.places[0] + 1)
    return [member.item.label, place, _folio(member) or "", likeness, member.certainty, member.reason]
