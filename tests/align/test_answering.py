"""Parts of items: which answer to which, what another would do as well for, and prefaces of which a book has two."""

from collections.abc import Mapping, Sequence

import pytest

from collate.align.concord import concord
from collate.align.sequence import with_orders
from collate.lexicon.items import item_key
from collate.model.concordance import Certainty, Concordance, Match
from collate.reports.concordance import sections
from tests.making import witness_text

FIGES = (
    "Take figes and wasshe hem in wyn and boyle hem tendre; draw hem þorow a streynour with sugre and canel"
)
ELYS = (
    "Flee elys and cutte hem in gobettes and parboyle hem; ley hem in a cofyn of paste with dates and clowes"
)
HARE = "Hewe an hare and kepe þe blode in a vessel; crush rye brede tosted and draw it with longe wortes and tyme"
PERES = "Pare wardens and seeth hem in rede vernage; stamp hem smal with mustard seed and lete hem stonde two nyghtes"
LECHE = "Take hony and stere it with a slyce tyl it be stif; knede it to a lofe and gilde it with foyle and boxe leves"
STOCK = "Take good broth and do þerto pouder and salt and boyle it wel and serue it forth"
TAIL = "do þerto onyons and safroun and salt and pouder and boyle it wel and serue it forth"


def short(root: str, herb: str, spice: str) -> str:
    return (
        f"Take {root} and sethe hem in good broth do þerto {herb} and {spice} and salt and pouder boyle it wel"
        " and serue it forth"
    )


def books(held: Mapping[str, Sequence[str]]) -> Concordance:
    texts = [
        witness_text("".join(f"\n## {at}\n{text}.\n" for at, text in enumerate(items, 1)), siglum)
        for siglum, items in held.items()
    ]
    return with_orders(concord(texts, "A", item_key), texts)


def parted(found: Concordance) -> list[Match]:
    return [match for match in found.items if any(len(member.places) > 1 for member in match.members)]


def told(found: Concordance, heading: str) -> list[str]:
    return dict(sections(found)).get(heading, [])


def halves(text: str) -> list[str]:
    return text.split("; ")


def test_chained_joins_say_which_answers_to_which() -> None:
    """Two books join one item with another, but not with the same."""
    single = [FIGES, ELYS, HARE, PERES, LECHE]
    found = books(
        {
            "A": single,
            "B": [FIGES, f"{ELYS} {HARE}", PERES, LECHE],
            "C": [FIGES, ELYS, f"{HARE} {PERES}", LECHE],
            "D": single,
        }
    )
    (match,) = parted(found)
    reasons = {member.siglum: member.reason for member in match.members}
    assert reasons["B"] == "A 2+3 = B 2 (1.00); A 4 = B 3 (1.00)"
    assert reasons["C"] == "A 2 = C 2 (1.00); A 3+4 = C 3 (1.00)"


def test_three_parts_are_told_with_their_likeness() -> None:
    wide = f"{HARE}; seeth it with galyngale and ypocras tyl þe bones fallen oute"
    found = books({"A": [FIGES, wide, PERES], "B": [FIGES, *halves(wide), PERES], "C": [FIGES, wide, PERES]})
    assert told(found, "In parts") == ["2: A 2 = B 2 + B 3 + B 4 (1.00); one item in C"]


def test_a_part_that_stands_apart_is_told() -> None:
    first, second = halves(HARE)
    found = books({"A": [FIGES, HARE, PERES, ELYS], "B": [FIGES, first, PERES, ELYS, second]})
    assert told(found, "In parts") == ["2: A 2 = B 2 + B 5 (1.00); B 5 stands apart, after 4"]


SHORT = [
    short("rapes", "onyons", "safroun"),
    short("caboches", "lekes", "canel"),
    short("spynoches", "oyle", "verious"),
    short("borage", "mynt", "vynegre"),
    short("gourdes", "eyren", "sugre"),
]
FIRST = "Take figes and wasshe hem clene in wyn and boyle hem tyl þei ben tendre"
LONG = f"{FIRST} and {TAIL}"


@pytest.mark.parametrize("far", [False, True])
def test_a_part_of_stock_phrases_is_uncertain(*, far: bool) -> None:
    """Any recipe of the book would do as well for the second part."""
    rest = [ELYS, HARE]
    theirs = [*SHORT, FIRST, *rest, STOCK] if far else [*SHORT, FIRST, STOCK, *rest]
    (match,) = parted(books({"A": [*SHORT, LONG, *rest], "B": theirs}))
    (member,) = (member for member in match.members if member.siglum == "B")
    assert member.certainty is Certainty.UNCERTAIN
    assert f"with B 1 for B {theirs.index(STOCK) + 1} it is" in member.reason


def test_what_the_base_lacks_does_not_part_its_neighbours() -> None:
    found = books({"A": [FIGES, ELYS, HARE], "B": [FIGES, PERES, ELYS, HARE], "C": [FIGES, ELYS, HARE]})
    assert told(found, "Order, beside A") == ["B  1–3", "B has besides: B:2", "C  1–3"]


def test_of_two_prefaces_the_likest_answers() -> None:
    """All three are reworked: none is as like as two items must be that are no prefaces."""
    ours = (
        "Here bigynneth þe boke of þe kechyn þat þe maister cook of þe abbey made for his brethren and gestes"
    )
    theirs = (
        "The maister of oure kechyn gadered in tyme passed many thynges newe and straunge for lordes and"
        " ladyes of astate and for his brethren, as ye shul fynde in ordre whan ye rede forthermore"
    )
    other = (
        "Who so wil be a good leche of mete moste knowe alle herbes and spyces and here vertues and colours"
    )
    texts = [
        witness_text(f"\n## preface\n{ours}.\n\n## 1\n{ELYS}.\n", "A"),
        witness_text(f"\n## preface\n{other}.\n\n## prologue\n{theirs}.\n\n## 1\n{ELYS}.\n", "B"),
    ]
    found = concord(texts, "A", item_key)
    preface = next(match for match in found.items if match.member("A") and match.key == "preface")
    (member,) = (member for member in preface.members if member.siglum == "B")
    assert member.item.label == "prologue"
    assert member.certainty is Certainty.UNCERTAIN
    assert member.reason.startswith("the likest preface of its book")
