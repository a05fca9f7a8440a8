"""Biopython's PairwiseAligner (PyPI, P. J. A. Cock et al., Bioinformatics 25 (2009) 1422-3): on two
witnesses our score is the optimum under the same scores."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from collate.align.grow import Ease, Guest, grow, standing
from collate.align.score import UNIT, Table, table
from collate.align.together import finished
from collate.lexicon.letters import letters_judge
from collate.model.form import form_of
from collate.settings import Aligning
from tests.making import witness_text

Align = pytest.importorskip("Bio.Align", reason="install the extra `test` for Biopython")
matrices = pytest.importorskip("Bio.Align.substitution_matrices")

WORDS = st.sampled_from(
    [
        "take",
        "eyren",
        "eyroun",
        "and",
        "an",
        "hem",
        "smal",
        "small",
        "grynde",
        "grinde",
        "hewe",
        "ale",
        "alle",
        "peper",
        "pepir",
    ]
)
TEXTS = st.lists(WORDS, min_size=1, max_size=15).map(" ".join)


@settings(deadline=None)
@given(TEXTS, TEXTS)
def test_our_score_is_the_optimum(a: str, b: str) -> None:
    aligning = Aligning()
    texts = [[form_of(token) for token in witness_text(text).items[0].tokens] for text in (a, b)]
    ours = table(texts, letters_judge, aligning)
    eases = [Ease(np.ones((2, len(words) + 1))) for words in ours.words]
    grid = finished(grow(ours, eases, aligning))
    assert standing(grid, Guest(1, ours, eases[1].places, 1)) == optimum(ours, aligning)


def optimum(ours: Table, aligning: Aligning) -> float:
    aligner = Align.PairwiseAligner()
    every = np.arange(len(ours.forms))
    names = tuple(map(str, every))
    scores = matrices.Array(alphabet=names, dims=2)
    scores[:, :] = ours.pairs(every[:, np.newaxis], every)
    aligner.substitution_matrix = scores
    aligner.open_gap_score = UNIT * (aligning.gap_open + aligning.gap_extend)
    aligner.extend_gap_score = UNIT * aligning.gap_extend
    first, second = ([names[at] for at in words] for words in ours.words)
    return float(aligner.score(first, second))
