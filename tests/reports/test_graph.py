"""The variant graph as GraphML, DOT and SVG: read back, every witness's way spells its text."""

import re
import shutil
import subprocess
from collections.abc import Sequence
from io import BytesIO
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING

import lxml.etree
import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from collate import pipeline
from collate.model.collation import Collation
from collate.model.witness import TokenKind
from collate.reports.dot import dot, quoted
from collate.reports.graph_svg import svg
from collate.reports.graphml import graphml
from tests.making import found, run
from tests.scribes import tradition

if TYPE_CHECKING:
    from collate.align.graph import Graph

WORDS = ["take", "eyren", "an", "hem", "ther to", "therto", "smal", "ale", "iiij", ".", "¶", "[...]", "wat(er)",
         "and", "a&b", "\\]\\]\\>", 'q"t', "b\\\\n", "c̄"]  # fmt: skip
TEXTS = st.lists(st.sampled_from(WORDS), min_size=1, max_size=12).map(lambda words: "take " + " ".join(words))
TRADITIONS = st.lists(TEXTS, min_size=2, max_size=4).map(
    lambda texts: {"ABCD"[number]: text for number, text in enumerate(texts)}
)
QUOTED = r'"(?:[^"\\]|\\["\\])*"'
STATEMENT = re.compile(
    rf"  (?:rankdir=LR|node \[shape=box\]|{QUOTED}(?: -> {QUOTED})? \[\w+=(?:{QUOTED}|\w+)(?:, \w+=(?:{QUOTED}|\w+))*\]);"
)


def graph_of(
    texts: dict[str, str], *, spelling: bool = False, points: bool = True
) -> tuple[Collation, "Graph"]:
    item = found(texts)
    edition = pipeline.edition_of_files([f"{siglum}.txt" for siglum in texts])
    return item.collation, pipeline.graph(edition, item, spelling=spelling, points=points)


def walk(graph: "nx.MultiDiGraph[str]", siglum: str) -> Sequence[str]:
    """Return the words of a witness, from start to end, as a program that knows only the file reads them."""
    here, words = "start", []
    while here != "end":
        (here,) = [
            to
            for _, to, told in graph.out_edges(here, data=True)
            if told["type"] == "path" and siglum in told["sigla"].split()
        ]
        words.append(graph.nodes[here]["words"])
    return [word for word in words if word]


def read_back(graph: "Graph") -> "nx.MultiDiGraph[str]":
    read = nx.read_graphml(BytesIO("".join(graphml(graph, "T: 1")).encode()), force_multigraph=True)
    assert isinstance(read, nx.MultiDiGraph)
    return read


@settings(max_examples=40)
@given(TRADITIONS, st.booleans())
def test_graphml_read_back_spells_each_witness(texts: dict[str, str], points: bool) -> None:
    collation, graph = graph_of(texts, spelling=True, points=points)
    read = read_back(graph)
    for siglum, item in zip(collation.sigla, collation.items, strict=True):
        kept = [t.expanded for t in item.tokens if points or t.kind is not TokenKind.PUNCTUATION]
        assert " ".join(walk(read, siglum)) == " ".join(kept)


def test_spellings_share_a_reading_and_are_named_in_it() -> None:
    _, graph = graph_of({"A": "take fysch and an ey", "B": "tak fisshe an an egg"})
    read = read_back(graph)
    forms = [told["spellings"] for _, told in read.nodes(data=True)]
    assert {"take A; tak B", "fysch A; fisshe B", "and A; an B"} <= set(forms)
    assert all(isinstance(told["column"], int) for _, told in read.nodes(data=True))
    _, apart = graph_of({"A": "take fysch", "B": "take fisshe"}, spelling=True)
    assert [told["spellings"] for _, told in read_back(apart).nodes(data=True)][3:] == ["fysch A", "fisshe B"]


def test_word_division_makes_no_reading_of_its_own() -> None:
    _, graph = graph_of({"A": "caste therto ale", "B": "caste ther to ale"})
    assert len(graph) == 5
    _, apart = graph_of({"A": "caste therto ale", "B": "caste ther to ale"}, spelling=True)
    assert len(apart) == 6


def test_the_keys_of_graphml_are_unique_and_typed() -> None:
    _, graph = graph_of({"A": "take figes", "B": "take dates"})
    tree = lxml.etree.fromstring("".join(graphml(graph, "T")).encode())
    keys = tree.findall("{*}key")
    assert len({key.get("id") for key in keys}) == len(keys)
    types = {(key.get("for"), key.get("attr.name")): key.get("attr.type") for key in keys}
    assert types["node", "column"] == "long"
    assert {types["edge", "sigla"], types["edge", "type"], types["node", "words"], types["node", "kind"]} == {
        "string"
    }


MOVED = {"A": "take grene herbes and whyte salt with ale", "B": "take whyte salt and grene herbes with ale"}


def test_moved_words_are_tied_by_edges_of_their_own() -> None:
    _, graph = graph_of(MOVED)
    read = read_back(graph)
    tied = [
        (read.nodes[a]["words"], read.nodes[b]["words"], told["number"])
        for a, b, told in read.edges(data=True)
        if told["type"] == "transposition"
    ]
    assert len(tied) == 2
    assert all(a == b and number == 1 for a, b, number in tied)
    page = "".join(dot(graph, "T"))
    assert page.count('type="transposition"') == 2
    assert "".join(svg(graph, "T")).count("~1") == 4


@settings(max_examples=40)
@given(TRADITIONS)
def test_every_statement_of_dot_is_quoted_right(texts: dict[str, str]) -> None:
    lines = "".join(dot(graph_of(texts)[1], 'a "b" \\ c')).rstrip().split("\n")
    assert lines[0] == 'digraph "a \\"b\\" \\\\ c" {'
    assert lines[-1] == "}"
    assert [line for line in lines[1:-1] if not STATEMENT.fullmatch(line)] == []


def test_characters_that_xml_does_not_bear_are_pictured() -> None:
    _, graph = graph_of({"A": "take fi\x07ges \x9bale \ufffe", "B": "take ale"})
    for page in ("".join(graphml(graph, "T \x1b")), "".join(svg(graph, "T \x1b"))):
        lxml.etree.fromstring(page.encode())
        assert "\u2407" in page
        assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f]", page)


def test_a_quoted_text_holds_no_escape() -> None:
    assert quoted('a"b') == '"a\\"b"'
    assert quoted("end\\") == '"end\\\\"'
    assert quoted("\\N") == '"\\\\N"'


@pytest.mark.skipif(shutil.which("dot") is None, reason="Graphviz is not installed: apt install graphviz")
def test_graphviz_reads_it() -> None:
    page = "".join(dot(graph_of(MOVED | {"C": 'take a"b \\N'})[1], "T"))
    done = subprocess.run(["dot", "-Tplain"], input=page, capture_output=True, text=True, check=True)
    assert done.stderr == ""
    assert ' "\\"" ' in done.stdout


def boxes(page: str) -> tuple[list[float], list[tuple[str, float, float, float, float]]]:
    """Return the view box, and (class, left, top, right, bottom) of each box and of the ground of each label."""
    tree = lxml.etree.fromstring(page.encode())
    found = []
    for element in tree.iter("{*}rect"):
        if element.get("class"):
            x, y, wide, high = (float(element.get(name, "0")) for name in ("x", "y", "width", "height"))
            found.append((element.get("class", ""), x, y, x + wide, y + high))
    return [float(value) for value in tree.get("viewBox", "").split()], found


def careless(seed: int, witnesses: int = 7) -> dict[str, str]:
    made = tradition(witnesses, 90, seed)
    return {siglum: made.text(siglum) for siglum in made.witnesses}


@pytest.mark.parametrize(
    "texts",
    [{"A": "take", "B": "hewe"}, {"A": "ale", "B": "ale"}, MOVED, careless(3), careless(4), careless(5, 24)],
    ids=["one word", "nothing varies", "moved", "careless", "more careless", "many"],
)
def test_nothing_in_the_drawing_lies_outside_it_or_on_another(texts: dict[str, str]) -> None:
    view, found_boxes = boxes("".join(svg(graph_of(texts, points=False)[1], "T")))
    assert view[2] < 1300
    for _, left, top, right, bottom in found_boxes:
        assert view[0] <= left <= right <= view[2]
        assert view[1] <= top <= bottom <= view[3]
    for a, b in combinations(found_boxes, 2):
        apart = a[3] <= b[1] + 0.2 or b[3] <= a[1] + 0.2 or a[4] <= b[2] + 0.2 or b[4] <= a[2] + 0.2
        assert apart, (a, b)


def test_a_drawing_is_called_by_the_heading_of_its_item(tmp_path: Path) -> None:
    for name in ("A.txt", "B.txt"):
        (tmp_path / name).write_text(f"## 4 Froyse {'herbes ' * 60}\ntake ale\n", "utf-8")
    page = run("graph", "A.txt", "B.txt", "--format", "svg", cwd=tmp_path).stdout
    whole = f"A, B: 4 Froyse {'herbes ' * 60}".rstrip()
    assert f"<title>{whole}</title>" in page
    assert "…</text>" in page
    assert boxes(page)[0][2] < 1300


def test_sigla_too_many_for_a_label_are_shortened_and_told_in_full() -> None:
    sigla = [f"Witness{number}" for number in range(12)]
    texts = {siglum: "take figes" if siglum != "Witness3" else "take dates" for siglum in sigla}
    page = "".join(svg(graph_of(texts)[1], "T"))
    assert "</title>all</text>" in page
    assert "</title>Witness0 … Witness9 (11)</text>" in page
    assert f"<title>{' '.join(sorted(set(sigla) - {'Witness3'}))}</title>" in page


@settings(max_examples=25)
@given(TRADITIONS)
def test_the_drawing_holds_every_word(texts: dict[str, str]) -> None:
    _, graph = graph_of(texts, spelling=True)
    tree = lxml.etree.fromstring("".join(svg(graph, "T <&>")).encode())
    drawn = " ".join(
        str(text.xpath("string()")) for text in tree.iter("{*}text") if text.get("class") == "word"
    )
    words = [word for _, told in graph.nodes(data=True) for word in told["text"].split()]
    assert sorted(re.sub(r"~\d+", "", drawn).replace("start", "", 1).replace("end", "", 1).split()) == sorted(
        words
    )
