"""Which item answers to which, by what they say: on books whose truth is known, and on the sample edition."""

import random
import re
from dataclasses import replace
from functools import cache
from itertools import count

import pytest

from collate import pipeline
from collate.align.concord import concord
from collate.align.parted import joined
from collate.align.verify import verify
from collate.lexicon.items import item_key
from collate.model.concordance import Certainty, Concordance, Wanting
from collate.model.source import Source
from collate.model.witness import WitnessText, read_back
from collate.settings import Settings
from tests.bench.books import counts, cut, f1
from tests.books import Shape, book
from tests.making import ROOT, witness_text

ENOUGH = 0.98
SAMPLE = ROOT / "samples" / "eldernesse"
SIGLA = "ABCDLM"


def test_books_without_a_word_are_brought_together_by_their_labels() -> None:
    heads = ("\n## 1 Tart of frute\n", "\n## preface Here bigynneth\n")
    held = {"A": heads, "1": heads[:1], "A*": heads[1:], "B": heads}
    texts = [witness_text("".join(heads), siglum) for siglum, heads in held.items()]
    assert [row.key for row in concord(texts, "A", item_key).items] == ["1", "preface"]


@pytest.mark.parametrize(
    ("seeds", "shape", "least"),
    [
        (range(60, 62), Shape(), ENOUGH),
        (range(50, 52), Shape(items=40, copies=5, twins=7, headed=0.0, splits=0, joins=0), ENOUGH),
        (range(40, 42), Shape(items=40, copies=5, twins=7), 0.95),
    ],
    ids=["60 items, 7 copies", "no headings, no splits", "fewer copies, with splits and joins"],
)
def test_books_whose_truth_is_known(seeds: range, shape: Shape, least: float) -> None:
    """The fewer copies, the fewer third books to tell a lost recipe from its twin."""
    total = [0, 0, 0]
    for seed in seeds:
        made = book(seed, shape)
        texts = cut(made)
        here = counts(made, concord(texts, texts[0].siglum, item_key))
        total = [a + b for a, b in zip(total, here, strict=True)]
    assert f1(total) >= least, total


def groups(found: Concordance) -> set[frozenset[tuple[str, int]]]:
    return {
        frozenset((m.siglum, place) for m in match.members for place in m.places) for match in found.items
    }


def test_the_order_in_which_witnesses_are_given_decides_nothing() -> None:
    texts = list(cut(book(7, Shape(items=20, copies=4, twins=4))))
    first = concord(texts, "W1", item_key)
    for seed in range(3):
        random.Random(seed).shuffle(texts)
        again = concord(texts, "W1", item_key)
        assert groups(again) == groups(first)
        assert {m.key for m in again.items if m.member("W1")} == {
            m.key for m in first.items if m.member("W1")
        }


def test_every_item_stands_in_the_concordance_once() -> None:
    made = book(8, Shape(items=20, copies=4, twins=4))
    found = concord(cut(made), "W0", item_key)
    places = [
        (member.siglum, place) for match in found.items for member in match.members for place in member.places
    ]
    assert sorted(places) == sorted((s, at) for s, items in made.copies.items() for at in range(len(items)))
    keys = [match.key for match in found.items]
    assert len(keys) == len(set(keys))


def sample(text: str, siglum: str) -> str:
    """Return a copy of the sample with numbers of its own and no headings; prefaces and explicits stay."""
    numbers = count(1)
    shift = 100 * SIGLA.index(siglum)
    return re.sub(r"^## (\d\w*)\b.*$", lambda _: f"## {next(numbers) + shift}", text, flags=re.MULTILINE)


@cache
def bare() -> tuple[tuple[WitnessText, ...], Concordance, dict[tuple[str, str], str]]:
    """Return the sample renumbered, its concordance, and what the labels were."""
    edition = pipeline.edition(Source("edition.toml", (SAMPLE / "edition.toml").read_bytes()))
    sources, labels = [], {}
    for witness in edition.witnesses:
        text = (SAMPLE / witness.file).read_text("utf-8")
        changed = sample(text, witness.siglum)
        pattern = re.compile(r"^## (\w+)", re.MULTILINE)
        for old, new in zip(pattern.findall(text), pattern.findall(changed), strict=True):
            labels[witness.siglum, new] = old
        sources.append(Source(witness.file, changed.encode()))
    _, texts = pipeline.texts(edition, sources, Settings())
    return texts, pipeline.ordered(edition, texts), labels


def test_the_sample_is_matched_by_its_words_alone() -> None:
    texts, found, labels = bare()
    for match in found.items:
        held = {
            labels[member.siglum, label].removesuffix("b")
            for member in match.members
            for label in member.item.label.split("+")
        }
        assert len(held) == 1, match.key
    there = {labels[text.siglum, item.label].removesuffix("b") for text in texts for item in text.items}
    assert len(found.items) == len(there)


def test_the_split_of_the_sample_is_found_and_its_parts_joined() -> None:
    texts, found, labels = bare()
    (match,) = [match for match in found.items if any(len(member.places) > 1 for member in match.members)]
    member = match.member("B")
    assert member is not None
    assert [labels["B", label] for label in member.item.label.split("+")] == ["12", "12b"]
    b = next(text for text in texts if text.siglum == "B")
    assert read_back(replace(b, items=(member.item,))) == read_back(
        replace(b, items=tuple(b.items[place] for place in member.places))
    )
    assert [token.index for token in member.item.tokens] == list(range(len(member.item.tokens)))
    edition = pipeline.edition_of_files([f"{text.siglum}.txt" for text in texts])
    (one,) = pipeline.find(edition, (match,), Settings())
    verify(one.collation)


@pytest.mark.parametrize(
    ("siglum", "moved", "single", "leaves"),
    [
        ("B", [["4"], ["14", "16"], ["15"], ["7"], ["8"], ["19"]], ["11", "17"], []),
        ("D", [], [], [["9", "10", "11", "12"]]),
        ("L", [], ["5", "10", "19"], []),
        ("M", [], ["7", "14", "18"], []),
    ],
)
def test_moves_and_losses_of_the_sample(
    siglum: str, moved: list[list[str]], single: list[str], leaves: list[list[str]]
) -> None:
    """The order of each copy, as samples/eldernesse/README.md states it."""
    _, found, labels = bare()
    order = next(order for order in found.orders if order.siglum == siglum)

    def old(names: tuple[str, ...]) -> list[str]:
        return [labels["A", name] for name in names]

    assert [old(block.items) for block in order.moved] == moved
    assert [old(loss.items)[0] for loss in order.losses if loss.kind is Wanting.SINGLE] == single
    assert [old(loss.items) for loss in order.losses if loss.kind is Wanting.LOST_LEAF] == leaves


def test_what_breaks_off_and_begins_imperfectly_is_likely_lost() -> None:
    _, found, _ = bare()
    order = next(order for order in found.orders if order.siglum == "D")
    assert [(loss.kind, loss.lost) for loss in order.losses] == [
        (Wanting.BEGINNING, "likely"),
        (Wanting.LOST_LEAF, "likely"),
        (Wanting.END, "possible"),
    ]


def test_two_files_of_one_item_match_whatever_they_say() -> None:
    texts = pipeline.texts(
        pipeline.edition_of_files(["A.txt", "B.txt"]),
        [Source("A.txt", b"Take figes and ale."), Source("B.txt", b"Nym clene watur")],
        Settings(),
    )[1]
    (match,) = concord(texts, "A", item_key).items
    member = match.member("B")
    assert member is not None
    assert member.certainty is Certainty.UNCERTAIN
    assert member.reason.startswith("each is all of its book")


def test_items_that_share_a_number_and_no_words_are_not_matched() -> None:
    a = "## 1\nTake figes and ale and grynde hem smal.\n## 2\nNym þe pyke and sethe hym in wyn.\n"
    b = "## 1\nNym þe pyke and seþe hym in wyne.\n## 2\nTak fygys and ale and grynd hem smale.\n"
    texts = pipeline.texts(
        pipeline.edition_of_files(["A.txt", "B.txt"]),
        [Source("A.txt", a.encode()), Source("B.txt", b.encode())],
        Settings(),
    )[1]
    found = concord(texts, "A", item_key)
    assert [[member.item.label for member in match.members] for match in found.items] == [
        ["1", "2"],
        ["2", "1"],
    ]


def two(a: str, b: str) -> Concordance:
    edition = pipeline.edition_of_files(["A.txt", "B.txt"])
    sources = [Source("A.txt", a.encode()), Source("B.txt", b.encode())]
    return concord(pipeline.texts(edition, sources, Settings())[1], "A", item_key)


def test_very_long_items_are_matched_by_their_words() -> None:
    chance = random.Random(1)
    words = [f"w{chance.choice('aeiou')}{chance.choice('bdgklmnprst')}{number % 7}" for number in range(6000)]
    first = [chance.choice(words[:300]) for _ in range(6000)]
    other = [word for at, word in enumerate(first) if at % 40]
    found = two(
        f"## 1\nTake figes\n## 2\n{' '.join(first)}\n", f"## 1\n{' '.join(other)}\n## 2\nNym þe pyke\n"
    )
    member = next(match for match in found.items if match.key == "2").member("B")
    assert member is not None
    assert member.item.label == "1"
    assert member.likeness is not None
    assert member.likeness > 0.9


def test_an_item_without_words_answers_by_its_heading_or_not_at_all() -> None:
    found = two(
        "## 1 Tart of figes\n## 2\nNym þe pyke and sethe hym\n## 3\n",
        "## j Tarte of fyges\nTake figes and ale.\n",
    )
    rows = {match.key: match.member("B") for match in found.items}
    assert rows["1"] is not None
    assert rows["1"].certainty is Certainty.UNCERTAIN
    assert rows["2"] is rows["3"] is None


def test_five_thousand_items_in_one_file() -> None:
    chance = random.Random(2)
    lines = [
        " ".join(f"{chance.choice('bdfglmnprst')}{chance.randrange(10**6)}a" for _ in range(4))
        for _ in range(5000)
    ]
    order = list(range(5000))
    chance.shuffle(order)
    a = "\n".join(f"## {at + 1}\n{line}" for at, line in enumerate(lines))
    b = "\n".join(f"## {at + 1}\n{lines[number]}" for at, number in enumerate(order))
    found = two(a, b)
    assert len(found.items) == 5000
    places = [(member.places[0] if (member := match.member("B")) else -1) for match in found.items]
    assert [order[place] for place in places] == list(range(5000))


def test_what_stands_beside_the_heading_of_a_later_part_is_kept() -> None:
    text = witness_text("## 1 Tart\nTake figes.\n## 2 Tart [[olde]] newe\nBake hem.\n", "A")
    whole = joined(text.items)
    (aside,) = whole.heading_asides
    assert aside.text == "olde"
    assert [token.normal for token in whole.heading_tokens[: aside.at]] == ["tart", "tart"]


def book_of(*names: str) -> str:
    """Return a book of recipes that differ in one word each."""
    rest = "and boyle hem in wyn and do therto sugre and salt and poudre of gynger and serue hem forth hote"
    return "".join(f"## {at} {name}\nTake {name} {rest}.\n" for at, name in enumerate(names, 1))


@pytest.mark.parametrize(
    ("ours", "theirs", "item", "reason"),
    [
        (("figges", "dates", "peres", "eles"), ("dates", "eles", "quynces"), "3", "A 1 is just as like"),
        (("figges", "peres", "eles"), ("figges", "quynces", "peres"), "3", ""),
        (("dates", "peres", "eles"), ("dates", "quynces"), "2", "A 3 is just as like"),
    ],
)
def test_where_only_the_number_speaks_for_a_twin_it_is_uncertain(
    ours: tuple[str, ...], theirs: tuple[str, ...], item: str, reason: str
) -> None:
    found = two(book_of(*ours), book_of(*theirs))
    member = next(match for match in found.items if match.key == item).member("B")
    if not reason:
        assert member is None or member.certainty is Certainty.UNCERTAIN
        return
    assert member is not None
    assert member.certainty is Certainty.UNCERTAIN
    assert reason in member.reason


def test_what_is_said_of_a_rival_is_true_of_the_figures_printed() -> None:
    found = two(book_of("figges", "dates", "peres", "eles"), book_of("quynces", "dates", "eles", "hares"))
    told = [member for match in found.items for member in match.members if "like (" in member.reason]
    assert told
    for member in told:
        said, figure = re.findall(r"is (\w+)(?: as)? like \((.*?)\)", member.reason)[0]
        assert member.likeness is not None
        beside = {"just": 0.0, "nearly": -1.0, "more": 1.0}[said]
        assert (float(figure) - round(member.likeness, 2)) * beside >= 0, member.reason
        assert beside or float(figure) == round(member.likeness, 2), member.reason


@pytest.mark.parametrize(
    ("ours", "theirs", "certain"),
    [
        ("## 1 Salt\nSalt\n## 2 Pepir\nPepir\n", "## 1 Pepyr\npepyr\n## 2 Salt\nsalte\n", True),
        ("## 1 Salt\nSalt\n## 2 Pepir\nPepir\n", "## 1 Pepyr\nqybebes\n## 2 Salt\nvinegre\n", False),
        ("## 1 Salt\nTak salt\n## 2 Pepir\n", "## 1 Pepir\n## 2 Salt\nSalte\n", False),
    ],
)
def test_items_of_a_word_or_two_go_by_their_headings(ours: str, theirs: str, *, certain: bool) -> None:
    found = two(ours, theirs)
    assert [[m.item.label for m in match.members] for match in found.items] == [["1", "2"], ["2", "1"]]
    sure = {match.members[1].certainty for match in found.items}
    assert sure == {Certainty.CERTAIN if certain else Certainty.UNCERTAIN}


def test_one_common_word_of_two_makes_no_match_certain() -> None:
    found = two("## 1\nTake wyn\n## 2\nPepir\n", "## 1\ntake ale\n## 2\nbake figes\n")
    member = found.items[0].member("B")
    assert member is None or member.certainty is Certainty.UNCERTAIN
