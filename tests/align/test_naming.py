"""Twins told apart: by what a dish is called, by what stands beside it, by what they say before their number."""

import pytest

from collate.align.concord import concord
from collate.align.sequence import with_orders
from collate.lexicon.items import item_key
from collate.model.concordance import Certainty, Concordance
from tests.making import witness_text

TAIL = (
    "Whan it is colde kerue it with a thred. Caste therto galyngale and sauge. Do awey the skyn and pyke out"
    " the bones. Presse it vnder a bord with a ston. Drawe it thurgh a streynour with saundres."
)
LAST = "And eche man schal haue two."


def book(*items: str) -> str:
    return "".join(f"## {number} {item}\n" for number, item in enumerate(items, 1))


def matched(*books: str) -> Concordance:
    texts = [witness_text(text, siglum) for siglum, text in zip("ABCD", books, strict=False)]
    return concord(texts, "A", item_key)


def rows(found: Concordance) -> set[tuple[str, ...]]:
    return {
        tuple(member.item.label if member else "-" for member in map(match.member, found.sigla))
        for match in found.items
    }


def dish(name: str, *, more: bool, headed: bool = False) -> str:
    heading = f"Cake of {name}" if headed else ""
    return f"{heading}\nTake {name} and smyte hem in pecys. {TAIL} {LAST if more else ''}"


@pytest.mark.parametrize("headed", [False, True])
def test_the_dish_named_weighs_more_than_a_sentence_added(*, headed: bool) -> None:
    ours = book(dish("gees", more=False, headed=headed), dish("hennes", more=True, headed=headed))
    theirs = book(dish("hennes", more=False, headed=headed), dish("gees", more=True, headed=headed))
    assert rows(matched(ours, theirs)) == {("1", "2"), ("2", "1")}


def test_the_same_text_is_found_whatever_its_number() -> None:
    """Books in which every word is common: none is rare enough to be looked for by itself."""
    plain = "\nTake good rys and stepe hem a nyght in mylke. Lye it vp with floure and serue it forth."
    fish = "\nTake good rys and stepe hem a nyght in mylke. And on a fissh day do therto oyle. Lye it vp with floure and serue it forth."
    found = matched(book(plain, fish), book(fish, plain))
    assert rows(found) == {("1", "2"), ("2", "1")}
    assert {m.likeness for match in found.items for m in match.members} == {None, 1.0}


def test_two_dishes_of_other_names_are_never_certain() -> None:
    beside = "\nTake benes and stepe hem and do awey the hulles. Sethe hem in broth and grynde hem with bred."
    found = matched(
        book(dish("peres", more=False, headed=True), beside),
        book(dish("appels", more=False, headed=True), beside),
    )
    member = found.items[0].member("B")
    assert member is not None
    assert member.certainty is Certainty.UNCERTAIN
    assert member.reason == "like in words, but named otherwise (peres, appels)"


def test_a_name_spelled_otherwise_is_one_name() -> None:
    found = matched(
        book(dish("wardouns", more=False), dish("lekes", more=False)),
        book(dish("lekys", more=False), dish("wardonys", more=False)),
    )
    assert rows(found) == {("1", "2"), ("2", "1")}
    assert not any("named otherwise" in m.reason for match in found.items for m in match.members)


def test_of_twins_that_nothing_else_parts_the_neighbours_tell() -> None:
    def text(more: str) -> str:
        return f"\nTake plays and lay hem in a pot. {more} {TAIL}"

    fish = text("And on a fissh day do therto mylke of almaundes.")
    first = "\nSethe benes in broth of beef and hewe onyouns smal therto."
    last = "\nRoste a capoun on a spyt and baste hym with grece and salt."
    found = matched(book(first, text(""), fish, last), book(first, text(""), text(""), last))
    assert ("2", "2") in rows(found)
    assert ("3", "3") in rows(found)


def test_what_is_of_another_kind_but_says_the_same_comes_before_a_kind() -> None:
    says = (
        "Here bigynneth the boke of the kechyn of Hallewick that dan Wauter made for alle that loue mesure."
    )
    other = "The wise man seith that gode mete is the beste leche wherfore I wrot this tretys."
    pike = "## 1\nTake a pike and wasche hym clene and sethe hym in ale and water with persele."
    found = matched(f"## preface\n{says}\n{pike}\n", f"## incipit\n{says}\n## preface\n{other}\n{pike}\n")
    assert rows(found) == {("preface", "incipit"), ("-", "preface"), ("1", "1")}
    by_kind = matched(f"## preface\n{says}\n{pike}\n", f"## preface\n{other}\n{pike}\n")
    assert ("preface", "preface") in rows(by_kind)


def test_what_a_book_has_twice_is_said() -> None:
    pike = "Pike\nTake a pike and wasche hym clene and sethe hym in ale and water with persele and salt."
    benes = "\nTake benes and stepe hem and do awey the hulles. Grynde hem with bred and onyouns."
    found = matched(book(pike, benes), book(pike, benes, pike))
    (lonely,) = found.unlike
    assert (lonely.siglum, lonely.label, lonely.answered, lonely.alike) == ("B", "3", "1", 1.0)


@pytest.mark.parametrize(
    ("last", "first", "leaves"),
    [
        ("|p. 2|", "|p. 5|", 1),
        ("|p. 2|", "|p. 4|", 0),
        ("|p. 2|", "|p. 9|", 3),
        ("|f. 1v|", "|f. 3r|", 1),
        ("|f. 1v|", "|f. 4r|", 2),
        ("|f. 1v|", "|f. 2r|", 0),
    ],
)
def test_the_count_of_leaves_and_pages_tells_what_is_lost(last: str, first: str, leaves: int) -> None:
    """Two pages are a leaf: common practice."""
    items = [
        f"\nTake {name} and sethe hem with {other} and serue hem forth in {vessel}."
        for name, other, vessel in (
            ("benes", "salt", "disshes"),
            ("capouns", "wyn", "bolles"),
            ("figes", "hony", "cofyns"),
            ("lekes", "broth", "pottes"),
        )
    ]
    torn = book(f"\n{last} {items[0].strip()}") + f"## 4\n{first} {items[3].strip()}\n"
    found = concord([witness_text(book(*items), "A"), witness_text(torn, "B")], "A", item_key)

    (order,) = with_orders(found, [witness_text(book(*items), "A"), witness_text(torn, "B")]).orders
    (loss,) = order.losses
    assert (loss.items, loss.leaves) == (("2", "3"), leaves)
    assert (loss.lost == "likely") == (leaves > 0)


def test_what_a_moved_item_follows_is_what_stands_before_it() -> None:
    names = ("benes", "capouns", "figes", "lekes")
    texts = {n: f"\nTake {n} and sethe hem and serue hem with sauce of {n} in {n} broth." for n in names}
    ours = book(*(texts[name] for name in names))
    extra = "\nRoste a swan on a spyt and baste hym with grece and salt til he be ynow."
    theirs = book(extra, texts["lekes"], texts["benes"], texts["figes"])
    both = [witness_text(ours, "A"), witness_text(theirs, "B")]

    (order,) = with_orders(concord(both, "A", item_key), both).orders
    (moved,) = order.moved
    assert (moved.items, moved.after, moved.home) == (("4",), "B:1", "3")
