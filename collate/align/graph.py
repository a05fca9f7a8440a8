"""The variant graph: the public picture of a collation."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import networkx as nx

from collate.model.collation import Collation
from collate.model.witness import Token

if TYPE_CHECKING:
    Graph = nx.DiGraph[str]

START, END = "start", "end"


def variant_graph(collation: Collation) -> "Graph":
    """Return a directed graph from `start` to `end` whose nodes are readings of a column.

    Node attributes: `column`, `text` (as written, of the first witness), `normal`, `sigla`. Edge
    attribute `sigla`: the witnesses that pass, in the collation's order. Walking a siglum's
    edges spells that witness. Witnesses share a node where their words have one normal form.
    """
    graph: Graph = nx.DiGraph()
    for name, column in ((START, -1), (END, len(collation.columns))):
        graph.add_node(name, column=column, text="", normal="", sigla=collation.sigla)
    at = dict.fromkeys(collation.sigla, START)
    for number in range(len(collation.columns)):
        for w, siglum in enumerate(collation.sigla):
            tokens = collation.tokens(w, number, number + 1)
            if tokens:
                node = _node(graph, number, tokens, siglum)
                _pass(graph, at[siglum], node, siglum)
                at[siglum] = node
    for siglum in collation.sigla:
        _pass(graph, at[siglum], END, siglum)
    return graph


def spell(graph: "Graph", siglum: str) -> tuple[str, ...]:
    """Return the nodes a witness passes between start and end, in order."""
    nodes = [START]
    while nodes[-1] != END:
        here = nodes[-1]
        nodes.append(next(to for to in graph.successors(here) if siglum in graph.edges[here, to]["sigla"]))
    return tuple(nodes[1:-1])


def _node(graph: "Graph", column: int, tokens: Sequence[Token], siglum: str) -> str:
    normal = " ".join(token.normal for token in tokens)
    name = f"{column}:{normal}"
    if name not in graph:
        text = " ".join(token.expanded for token in tokens)
        graph.add_node(name, column=column, text=text, normal=normal, sigla=())
    graph.nodes[name]["sigla"] += (siglum,)
    return name


def _pass(graph: "Graph", before: str, after: str, siglum: str) -> None:
    if not graph.has_edge(before, after):
        graph.add_edge(before, after, sigla=())
    graph.edges[before, after]["sigla"] += (siglum,)
