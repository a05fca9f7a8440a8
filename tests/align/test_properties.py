"""What every collation promises, over texts that a careless scribe might write."""

from hypothesis import given, settings
from hypothesis import strategies as st

from collate.align.graph import spell, variant_graph
from collate.align.verify import faults
from collate.model.collation import Collation
from tests.making import collated

WORDS = ["take", "eyren", "and", "an", "hem", "ȝolkes", "grynde", "hewe", "smal", "ale", "alle", ".iij.", "iiij",
         ".", "/", "¶", "[...]", "wat(er)"]  # fmt: skip
TEXTS = st.lists(st.sampled_from(WORDS), min_size=1, max_size=12).map(" ".join)
TRADITIONS = st.lists(TEXTS, min_size=2, max_size=5).map(
    lambda texts: {"ABCDE"[number]: text for number, text in enumerate(texts)}
)


def spans(collation: Collation) -> dict[str, list[tuple[int, int]]]:
    return {
        siglum: [(column.spans[w].start, column.spans[w].stop) for column in collation.columns]
        for w, siglum in enumerate(collation.sigla)
    }


@given(TRADITIONS)
def test_every_collation_is_sound(texts: dict[str, str]) -> None:
    assert list(faults(collated(texts))) == []


@given(TRADITIONS, st.randoms(use_true_random=False))
def test_the_order_of_the_witnesses_changes_nothing(texts: dict[str, str], random: object) -> None:
    import random as chance

    assert isinstance(random, chance.Random)
    shuffled = list(texts.items())
    random.shuffle(shuffled)
    assert spans(collated(texts)) == spans(collated(dict(shuffled)))


@given(TRADITIONS)
def test_the_same_input_gives_the_same_collation(texts: dict[str, str]) -> None:
    assert collated(texts) == collated(texts)


@given(TEXTS, st.integers(2, 4))
def test_equal_witnesses_agree_word_for_word(text: str, count: int) -> None:
    collation = collated(dict.fromkeys("ABCD"[:count], text))
    assert all(len(set(column.spans)) == 1 for column in collation.columns)
    if "[...]" not in text:
        assert collation.loci == ()


@given(TRADITIONS)
def test_walking_a_siglum_spells_its_witness(texts: dict[str, str]) -> None:
    collation = collated(texts)
    graph = variant_graph(collation)
    for w, siglum in enumerate(collation.sigla):
        normal = [graph.nodes[node]["normal"] for node in spell(graph, siglum)]
        assert " ".join(normal) == " ".join(token.normal for token in collation.items[w].tokens)


@given(TRADITIONS)
def test_the_graph_has_no_way_back(texts: dict[str, str]) -> None:
    graph = variant_graph(collated(texts))
    assert all(graph.nodes[a]["column"] < graph.nodes[b]["column"] for a, b in graph.edges)


@settings(deadline=None, max_examples=5)
@given(st.integers(1, 300), st.integers(1, 300))
def test_one_word_over_and_over(a: int, b: int) -> None:
    collation = collated({"A": "and " * a, "B": "and " * b})
    assert sum(column.spans[0].stop > column.spans[0].start for column in collation.columns) == a
    assert len(collation.columns) == max(a, b)


def test_nothing_in_common() -> None:
    collation = collated({"A": "take figes", "B": "¶ xij", "C": "omnibus"})
    assert list(faults(collation)) == []
