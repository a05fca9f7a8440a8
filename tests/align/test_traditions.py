"""The alignment on traditions whose truth is known, held to the figures that are promised."""

import pytest

from collate.settings import Aligning
from tests.bench.alignment import measure


@pytest.mark.parametrize(
    ("witnesses", "length", "runs", "wanted"),
    [(5, 80, 8, 0.985), (9, 80, 8, 0.98), (9, 300, 1, 0.98), (20, 150, 1, 0.97)],
)
def test_words_stand_beside_those_they_answer_to(
    witnesses: int, length: int, runs: int, wanted: float
) -> None:
    score, _ = measure(witnesses, length, range(200, 200 + runs), Aligning())
    assert score >= wanted
