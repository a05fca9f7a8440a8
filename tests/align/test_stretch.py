"""Long items are cut where all witnesses run along; what the cuts part is not lost."""

import random
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from collate.align.stretch import LONG, PIECE, cuts


def text(length: int, seed: int) -> list[int]:
    """Return words as a text has them: a few very common, most rare."""
    chance = random.Random(seed)
    return [int(chance.paretovariate(0.7)) % 5000 for _ in range(length)]


def careless(words: list[int], seed: int) -> tuple[list[int], list[int]]:
    """Return a copy with slips, and for each of its words the word of the model."""
    chance = random.Random(seed)
    copied, places = [], []
    for at, word in enumerate(words):
        if chance.random() < 0.03:
            continue
        copied.append(word if chance.random() > 0.05 else 9000 + chance.randrange(100))
        places.append(at)
    return copied, places


def test_a_short_item_is_not_cut() -> None:
    words = text(LONG - 1, 1)
    assert cuts([words, words]) == ((0, 0), (len(words), len(words)))


def test_cuts_part_no_words_that_answer_to_one_another() -> None:
    for seed in range(5):
        model = text(3000, seed)
        copy, places = careless(model, seed)
        found = cuts([model, copy])
        assert len(found) > 5
        for here, there in found[1:-1]:
            assert all(place < here for place in places[:there])
            assert all(place >= here for place in places[there:])


def test_a_long_loss_in_one_copy_is_on_one_side() -> None:
    model = text(3000, 7)
    copy = model[:800] + model[1900:]
    for here, there in cuts([model, copy])[1:-1]:
        assert min(abs(there - true) for true in (min(here, 800), max(here - 1100, 800))) <= 2, here


@given(st.lists(st.integers(0, 20_000), min_size=2, max_size=5), st.integers(0, 3))
def test_the_cuts_cover_all_and_rise(lengths: list[int], kinds: int) -> None:
    texts = [[at % (kinds + 1) for at in range(length)] for length in lengths]
    found = cuts(texts)
    assert found[0] == tuple(0 for _ in texts)
    assert found[-1] == tuple(lengths)
    for before, after in pairwise(found):
        assert all(a <= b for a, b in zip(before, after, strict=True))


def test_texts_with_nothing_in_common_are_cut_by_proportion() -> None:
    found = cuts([list(range(10_000)), list(range(20_000, 26_000))])
    assert max(b[0] - a[0] for a, b in pairwise(found)) <= PIECE
