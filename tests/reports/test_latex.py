"""The apparatus as LaTeX: nothing of a text means anything to TeX, and what is said is what the screen says."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from collate.reports.latex import escaped, latex
from collate.settings import Printing
from tests.reports.tei_reading import SAMPLE, opened, sample

WRITTEN = re.compile(r"\\text\w+\{\}|\\[#$%&_{}]|[^\\{}#$%&_~^\x00-\x1f\x7f]")
"""What a safe text is made of: commands for the signs of TeX, those signs behind a backslash, and the rest."""
UNSAID = {r"\textbackslash{}": "\\", r"\textasciitilde{}": "~", r"\textasciicircum{}": "^"}


def written(texts: dict[str, str], printing: Printing | None = None) -> str:
    return "".join(latex(opened(texts)[1], printing or Printing()))


@given(st.text())
def test_no_character_means_anything_to_tex_and_none_is_lost(text: str) -> None:
    pieces = WRITTEN.findall(escaped(text))
    assert "".join(pieces) == escaped(text)
    back = "".join(UNSAID.get(piece, piece.removeprefix("\\")) for piece in pieces)
    assert back == re.sub(r"[\x00-\x1f\x7f]", "\ufffd", " ".join(text.split()))


def test_the_letters_of_the_copies_stay_what_they_are() -> None:
    assert escaped("þ ȝ ſ ꝑ ⁊ ẜ wᵗ 50% & #1 {a_b}") == r"þ ȝ ſ ꝑ ⁊ ẜ wᵗ 50\% \& \#1 \{a\_b\}"


def test_the_lemma_stands_before_the_bracket_and_terms_are_in_italics() -> None:
    text = written({"A": "boyle hem wel", "B": "seth hem", "C": "boile hem wel"})
    assert "boyle] seth B\\quad\n" in text
    assert "wel] \\textit{om.} B\\quad\n" in text
    assert "boyle] boile C\\quad\n" in text


def test_accidentals_may_be_left_out_and_the_lemmas_witnesses_named() -> None:
    texts = {"A": "boyle hem wel", "B": "seth hem wel", "C": "boile hem wel"}
    short = written(texts, Printing(accidentals=False, positive=True))
    assert "Accidental" not in short
    assert "boyle] AC; seth B\\quad\n" in short


def test_every_tenth_word_has_its_number_where_lines_are_not_known() -> None:
    words = ["Take", "figes", "and", "dates", "and", "boyle", "hem", "wel", "in", "water", "and", "salt"]
    text = written({"A": " ".join(words), "B": " ".join(words)})
    assert "in \\wordnumber{10}water and" in text


def test_all_that_is_opened_is_closed_whatever_the_names_are() -> None:
    text = written({"A_1": "## 1 Tart {of} frut\nTake <figes> 50%", "B^": "## 1 Tart\nTake fygys 50%"})
    assert "fygys B\\textasciicircum{}" in text
    assert depth(text) == 0


def depth(text: str) -> int:
    """Return how many braces are open at the end; none may close that was not opened."""
    open_now = 0
    for brace in re.findall(r"(?<!\\)[{}]", text):
        open_now += 1 if brace == "{" else -1
        assert open_now >= 0
    return open_now


def test_the_sample_has_every_item_and_is_balanced() -> None:
    text = "".join(latex(sample()[1], Printing()))
    assert depth(text) == 0
    headings = re.findall(r"^\\itemhead\{(\w+)\\quad", text, re.MULTILINE)
    typed = re.findall(r"^## (\S+)", (SAMPLE / "A.txt").read_text("utf-8"), re.MULTILINE)
    assert [each for each in headings if each in typed] == typed


def test_lualatex_takes_the_sample(tmp_path: Path) -> None:
    """Outside: a TeX installation, where there is one."""
    program, finder = shutil.which("lualatex"), shutil.which("kpsewhich")
    if not program or not finder or not _out([finder, "fontspec.sty"], tmp_path):
        pytest.skip(
            "no lualatex with fontspec is here: apt-get install texlive-luatex texlive-latex-recommended"
        )
    (tmp_path / "sample.tex").write_text("".join(latex(sample()[1], Printing())), "utf-8")
    _out([program, "-interaction=nonstopmode", "-halt-on-error", "sample.tex"], tmp_path)
    log = (tmp_path / "sample.log").read_text("utf-8", errors="replace")
    assert not re.findall(r"^!.*", log, re.MULTILINE)
    assert (tmp_path / "sample.pdf").exists()


def _out(command: list[str], folder: Path) -> str:
    return subprocess.run(
        command, cwd=folder, capture_output=True, text=True, errors="replace", check=False
    ).stdout
