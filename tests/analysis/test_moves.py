"""Moved words as printed: by common practice one entry, whatever other copies have in these places."""

import pytest

from collate.model.apparatus import VariantKind
from collate.reports.text import item as page
from collate.settings import Printing
from tests.making import all_found, found


def lines(*texts: str) -> list[str]:
    """Return the substantive entries as printed, each without the place."""
    findings = all_found(dict(zip("ABCD", texts, strict=False)))
    text = "".join(page(item, findings.edition, Printing(width=400)) for item in findings.items)
    part = text.split("   Substantive\n")[1].split("   Accidental")[0]
    return [line.split("  ")[-1].strip() for line in part.strip().splitlines()]


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        (
            [
                "take quinces and pare hem clene and seth hem in wyn",
                "take quinces and seth hem in wyn and pare hem clene",
            ],
            ["pare hem clene and seth hem in wyn] tr. B"],
        ),
        (
            [
                "strewe it with sugre and dresse it vp colde . Amen",
                "dresse it vp colde and strewe it with sugre . Amen",
            ],
            ["strewe it with sugre and dresse it vp colde] tr. B"],
        ),
        (
            ["sage and percely and ysope and saueray", "percely and sage and saueray and ysope"],
            ["sage and percely] tr. B", "ysope and saueray] tr. B"],
        ),
        (
            [
                "seth the elys with rede wyn and broth of flessh and medle it with sugre and dresse it vp",
                "seth the elys and broth of flessh and medle it with sugre with rede wyn and a litel salt and dresse it vp",
            ],
            ["with rede wyn] tr. after sugre B", "sugre] add. and a litel salt B"],
        ),
        (
            [
                "first washe the rootes and the leues and pare hem and than couere it",
                "first couere it and than washe the rootes and the leues and pare hem",
            ],
            ["washe the rootes and the leues and pare hem and than couere it] tr. B"],
        ),
    ],
)
def test_clauses_that_changed_places_about_and_are_one_entry(texts: list[str], said: list[str]) -> None:
    assert lines(*texts) == said


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        (
            [
                "take quinces in a panne and seth hem with ale",
                "take quinces and seth hem in a panne with ale",
                "in a panne take quinces and seth hem with ale",
            ],
            ["take quinces in a panne] tr. C", "in a panne and seth hem] tr. B"],
        ),
        (
            [
                "do therto floure of rys and sugre and salt and kepe it",
                "do therto sugre and floure of rys and salt and kepe it",
                "do therto sugre and salt and floure of rys and kepe it",
            ],
            ["floure of rys and sugre] tr. B", "floure of rys and sugre and salt] tr. C"],
        ),
        (
            [
                "take rys and hony and wyn and ale and salt",
                "take hony and rys and wyn and salt and ale",
                "take wyn and hony and rys and ale and salt",
            ],
            [
                "rys and hony] tr. B",
                "rys and hony and wyn] wyn and hony and rys C (tr.)",
                "ale and salt] tr. B",
            ],
        ),
    ],
)
def test_a_move_is_told_though_another_copy_moved_something_else(texts: list[str], said: list[str]) -> None:
    assert lines(*texts) == said


def test_three_words_in_another_order_are_one_transposition() -> None:
    texts = [
        "put þerto sage ysope and saueray and stampe it",
        "put þerto saueray sage and ysope and stampe it",
        "put þerto ysope saueray and sage and stampe it",
    ]
    said = "sage ysope and saueray] saueray sage and ysope B (tr.); ysope saueray and sage C (tr.)"
    assert lines(*texts) == [said]
    (entry,) = found(dict(zip("ABC", texts, strict=True))).substantive
    assert {variant.kind for variant in entry.variants} == {VariantKind.TRANSPOSITION}


@pytest.mark.parametrize(
    ("base", "other", "said"),
    [
        ("til it is stamped and is thikke", "til it stamped is and is thikke", ["is stamped] tr. B"]),
        ("do therto floure of rys", "do floure therto of rys", ["therto floure] tr. B"]),
        ("cast it forth on the bord", "cast forth it on the bord", ["it forth] tr. B"]),
        (
            "take ij quinces and iij peres",
            "take iij quinces and ij peres",
            ["ij] iij B (ij/iij?)", "iij] ij B (iij/ij?)"],
        ),
        (
            "take sugre and salt and kepe it",
            "take salt and swete sugre and kepe it",
            ["sugre and salt] salt and swete sugre B"],
        ),
    ],
)
def test_neighbours_that_changed_places(base: str, other: str, said: list[str]) -> None:
    assert lines(base, other) == said


def test_a_transposition_says_of_which_copies_it_is_told() -> None:
    """A move that the alignment of all does not know is among the transpositions all the same."""
    item = found(
        {
            "A": "take quinces and pare hem clene and seth hem in wyn",
            "B": "take quinces and seth hem in wyn and pare hem clene",
        }
    )
    ((moved, of),) = item.moved.items()
    words = item.collation.items[1].tokens[moved.start : moved.stop]
    assert (" ".join(word.expanded for word in words), of) == ("pare hem clene", ("B",))
    assert item.collation.transpositions == (moved,)


@pytest.mark.parametrize(
    ("base", "other", "said"),
    [
        (
            "seth hem with floure of rys and stampe hem smale in a morter and do therto salt",
            "seth hem and stampe hem smale in a morter with good floure of rys and do therto salt",
            ["with floure of rys] tr. after morter B", "with] with good B"],
        ),
        (
            "seth hem with floure of rys and stampe hem smale and do therto salt",
            "seth hem and stampe hem right smale with floure of rys and do therto salt",
            ["with floure of rys] tr. after smale B", "hem] hem right B"],
        ),
        (
            "take quinces and seth hem in clere ale and pare hem smale and do therto sugre and serue it forth",
            "take quinces and pare hem smale and do therto sugre and seth hem wel in clere broth and serue it forth",
            ["seth … and] tr. after and (w. 17) B", "hem] hem wel B", "ale] broth B"],
        ),
    ],
)
def test_what_differs_within_moved_words_is_told_by_itself(base: str, other: str, said: list[str]) -> None:
    assert lines(base, other) == said


@pytest.mark.parametrize(
    ("base", "other", "said"),
    [
        (
            "couche it in leues of cole swete rounde cakes and so",
            "couche it rounde cakes swete in leues of cole and so",
            ["in leues of cole swete rounde cakes] rounde cakes swete in leues of cole B (tr.)"],
        ),
        (
            "and sprede on it suet and bake it",
            "and bake it and strewe on it suet and honye",
            ["sprede] bake it and strewe B", "bake it] honye B"],
        ),
        (
            "take trypes and kerf hem smale and wessh hem in lye and sethe hem",
            "take trypes fayre and wessh hem in lye and kerf hem smale and sethe hem",
            ["and] fayre and B", "kerf hem smale and] tr. after and (w. 12) B"],
        ),
    ],
)
def test_nothing_that_a_copy_reads_is_lost_about_moved_words(base: str, other: str, said: list[str]) -> None:
    assert lines(base, other) == said
