"""The order chart: every item has its label, nothing runs over the edge, and signs differ in form."""

import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest

from collate.model.concordance import (
    BookOrder,
    Certainty,
    Concordance,
    Loss,
    Match,
    Member,
    Moved,
    Wanting,
)
from collate.model.source import Place
from collate.model.witness import Item, ItemKind
from collate.reports.order_chart import svg

SVG = "{http://www.w3.org/2000/svg}"


def chart(items: int, sigla: list[str], title: str = "T", order: BookOrder | None = None) -> ET.Element:
    def member(siglum: str, at: int) -> Member:
        item = Item(str(at + 1), "", ItemKind.RECIPE, "", (), Place("x"))
        return Member(siglum, item, (at,), None, Certainty.CERTAIN, "")

    rows = tuple(
        Match(str(at + 1), ItemKind.RECIPE, tuple(member(siglum, at) for siglum in sigla))
        for at in range(items)
    )
    names = tuple(row.key for row in rows)
    plain = tuple(BookOrder(siglum, names, (), (), ()) for siglum in sigla[1:])
    found = Concordance(sigla[0], tuple(sigla), rows, (), (order,) if order else plain)
    return ET.fromstring("".join(svg(found, title)))


def size(page: ET.Element) -> tuple[float, float]:
    _, _, width, height = map(float, page.attrib["viewBox"].split())
    return width, height


@pytest.mark.parametrize(("items", "copies"), [(8, 2), (60, 4), (190, 9), (30, 20)])
def test_every_item_has_its_label_with_room_for_it(items: int, copies: int) -> None:
    page = chart(items, [f"W{number}" for number in range(copies)])
    columns: dict[tuple[str, float], list[float]] = {}
    for text in page.iter(f"{SVG}text"):
        if (text.text or "").isdecimal():
            columns.setdefault((text.attrib["x"], 0.0), []).append(float(text.attrib["y"]))
    heights = [sorted(column) for column in columns.values()]
    assert sum(map(len, heights)) == items * 2 * (copies - 1)
    assert min(b - a for column in heights for a, b in pairwise(column)) >= 2.5
    _, height = size(page)
    assert all(0 < y < height for column in heights for y in column)


def test_long_names_and_titles_stay_on_the_page() -> None:
    sigla = ["Pellbridge_Guildhall_Library_MS_208_hand1", "Pellbridge_Guildhall_Library_MS_208_hand2"]
    page = chart(4, sigla, "The boke of the kechyn of Eldernesse " * 12)
    width, _ = size(page)
    shown = [text for text in page.iter(f"{SVG}text") if text.text or len(text)]
    for text in shown:
        said, large = "".join(text.itertext()), float(text.attrib["font-size"])
        room = 0.4 * large * len(text[-1].tail or "" if len(text) else said)
        x = float(text.attrib["x"])
        left = {"start": x, "middle": x - room / 2, "end": x - room}[text.attrib["text-anchor"]]
        assert left >= 0
        assert left + room <= width, said
    heads = {"".join(t.itertext()) for t in shown if "hand" in "".join(t.itertext())}
    assert len([head for head in heads if "beside" not in head]) == 2, "the two sigla can be told apart"


def test_losses_and_moves_differ_in_form() -> None:
    losses = (
        Loss(("2",), Wanting.SINGLE, "no sign", "r"),
        Loss(("3", "4"), Wanting.TOGETHER, "no sign", "r"),
        Loss(("5", "6"), Wanting.LOST_LEAF, "possible", "r", after="1"),
        Loss(("7", "8"), Wanting.END, "likely", "r"),
    )
    order = BookOrder("B", ("9", "10", "1"), (Moved(("9", "10"), None, "8"),), losses, ())
    page = chart(10, ["A", "B"], order=order)
    signs = [group for group in page.findall(f"{SVG}g") if group.find(f"{SVG}title") is not None]
    fills = [bar.attrib["fill"] for group in signs for bar in group.findall(f"{SVG}rect")]
    assert fills == ["white", "url(#hatch)", "black"]
    assert [group.find(f"{SVG}path") is not None for group in signs] == [True, False, False, False]
    assert len(page.findall(f"{SVG}path")) == 1, "the double stroke of a lost leaf"
    braces = [line for line in page.findall(f"{SVG}line") if line.attrib["x1"] == line.attrib["x2"]]
    assert len(braces) == 2
