"""Every line of an apparatus that docs/apparatus.md explains is one that the command prints."""

import re

from tests.making import ROOT, run


def test_the_lines_explained_are_lines_of_the_sample() -> None:
    page = (ROOT / "docs" / "apparatus.md").read_text("utf-8")
    printed = run("apparatus", "samples/eldernesse", "preface", "1", "2", "5", "10", "13", cwd=ROOT).stdout
    lines = {" ".join(line.split()) for line in printed.split("\n")}
    quoted = [" ".join(code.split()) for code in re.findall(r"`(f\. [^`\n]*\][^`\n]*)`", page)]
    assert len(quoted) >= 5
    assert [line for line in quoted if line not in lines] == []


def test_every_word_of_the_trade_is_explained() -> None:
    page = (ROOT / "docs" / "apparatus.md").read_text("utf-8")
    assert all(f"*{word}.*" in page for word in ("Om", "Add", "Tr", "Def"))
