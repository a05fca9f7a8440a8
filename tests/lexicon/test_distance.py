from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from collate.lexicon import distance as module
from collate.lexicon.distance import FAR, alternations, distance, one_move_away
from collate.lexicon.words import key_of, lexicon
from tests.scribes import Everything

WORDS = st.text("abcdeghiklmnoprstuw", min_size=1, max_size=8)


@given(WORDS, WORDS)
def test_the_way_there_is_the_way_back(a: str, b: str) -> None:
    assert distance(a, b, 0.6).cost == distance(b, a, 0.6).cost


@given(WORDS)
def test_a_form_is_no_way_from_itself(a: str) -> None:
    assert distance(a, a, 0.6).cost == 0


@given(WORDS)
def test_one_move_costs_no_more_than_its_row(a: str) -> None:
    for other, _ in one_move_away(a, 0.2, Everything()):
        assert distance(a, other, 0.6).cost <= 0.2 + 1e-9


def test_the_quick_no_is_never_wrong() -> None:
    words = [key for key in list(lexicon().forms)[::61] if not key.startswith("=")]
    for a, b in combinations(words[:260], 2):
        if module._fast(a) - set(b) or module._fast(b) - set(a):
            assert distance(a, b, 1.0).cost > 0.6, (a, b)  # at a limit of 1 the quick no is not asked


def test_usual_alternations_are_cheap_and_others_are_not() -> None:
    cheap = ["fysshe/fyssche", "þorw/thorgh", "clowys/cloues", "straynoure/streynour"]
    dear = ["fresche/flesche", "pecys/perys", "sauce/saue", "broyle/boyle", "fete/sette"]
    for pair in cheap:
        a, b = (key_of(word) for word in pair.split("/"))
        assert distance(a, b, 0.6).cost <= 0.6, pair
    for pair in dear:
        a, b = (key_of(word) for word in pair.split("/"))
        assert distance(a, b, 0.6).cost == FAR, pair


def test_every_row_has_an_authority() -> None:
    assert all(row.authority and 0 <= row.cost <= 1 for row in alternations())
