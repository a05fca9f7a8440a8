"""A variant graph in, the DOT language out, for Graphviz and its like."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from collate.reports.phrases import joined

if TYPE_CHECKING:
    import networkx as nx

    Graph = nx.DiGraph[str]

_SHAPES = {"start": "circle", "end": "doublecircle", "gap": "note", "punctuation": "plain"}


def dot(graph: "Graph", name: str) -> Iterator[str]:
    """Yield the graph as a digraph from left to right; transpositions are broken lines without a head."""
    yield f"digraph {quoted(name)} {{\n  rankdir=LR;\n  node [shape=box];\n"
    for node, told in graph.nodes(data=True):
        shape = _SHAPES.get(told["kind"], "box")
        label = told["text"] or ("" if shape == "box" else told["kind"])
        sigla = ", ".join(told["sigla"])
        yield f"  {quoted(node)} [label={quoted(label)}, shape={shape}, tooltip={quoted(sigla)}];\n"
    for before, after, sigla in graph.edges(data="sigla"):
        yield f"  {quoted(before)} -> {quoted(after)} [label={quoted(joined(sigla))}];\n"
    for number, home, away in graph.graph["moves"]:
        yield (
            f"  {quoted(home)} -> {quoted(away)} "
            f'[label="~{number}", style=dashed, dir=none, constraint=false, type="transposition"];\n'
        )
    yield "}\n"


def quoted(text: str) -> str:
    """Return text as a DOT string that shows it letter for letter: nothing in it is an escape."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", " ") + '"'
