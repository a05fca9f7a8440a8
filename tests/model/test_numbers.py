"""Numbers in figures: never with an exponent."""

import pytest

from collate.model.numbers import figures


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (3, "3"),
        (0, "0"),
        (1_234_567, "1234567"),
        (999_999_999_999_999, "999999999999999"),
        (0.75, "0.75"),
        (1 / 3, "0.333333"),
        (2_469_135 / 2, "1234567.5"),
        (1 / 3_000_000, "0.000000333333"),
    ],
)
def test_figures_are_plain(value: float, written: str) -> None:
    assert figures(value) == written
