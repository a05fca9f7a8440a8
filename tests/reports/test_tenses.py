"""A shift of tense as printed: the base on the left, or its own words told where it is on neither side."""

from pathlib import Path

import pytest

from tests.making import run

TEXTS = {
    "is": "þat is maister of þe kechyn",
    "was": "þat was maister of þe kechyn",
    "ben": "þat hath ben maister of þe kechyn",
    "none": "maister of þe kechyn",
    "lost": "[...] maister of þe kechyn",
}


@pytest.mark.parametrize(
    ("copies", "told"),
    [
        (
            ("is", "was", "ben"),
            ("is A] was B (", "hath ben C] was B (perfect : preterite; aspect; A has ‘is’)"),
        ),
        (("was", "is", "ben"), ("was A] is B (preterite : present; state)", "was A] hath ben C (")),
        (("none", "is", "was"), ("is B] was C (present : preterite; state; A has nothing)",)),
        (("lost", "was", "is"), ("was B] is C (preterite : present; state; A is damaged here)",)),
    ],
)
def test_what_the_base_has_is_seen(copies: tuple[str, ...], told: tuple[str, ...], tmp_path: Path) -> None:
    for siglum, text in zip("ABC", copies, strict=True):
        words = f"## preface\nThis boke made Water Pennok {TEXTS[text]}.\n"
        (tmp_path / f"{siglum}.txt").write_text(words, "utf-8")
    for form in ("text", "markdown", "latex"):
        said = run("apparatus", "A.txt", "B.txt", "C.txt", "--format", form, cwd=tmp_path).stdout
        for each in told:
            assert each in said.replace("\\]", "]")
