"""A variant graph in, GraphML out, for programs that draw or measure graphs."""

from collections.abc import Iterator
from io import BytesIO
from typing import TYPE_CHECKING

import networkx as nx

from collate.reports.escape import xml_text

if TYPE_CHECKING:
    Graph = nx.DiGraph[str]


def graphml(graph: "Graph", name: str) -> Iterator[str]:
    """Yield the graph as GraphML.

    Nodes have `words`, `normal`, `sigla`, `spellings`, `kind` and the number `column` (from 1; start is 0);
    edges `type` (path or transposition), `sigla` and, for a transposition, its `number`. Between sigla
    stands a blank.
    """
    out: nx.MultiDiGraph[str] = nx.MultiDiGraph(name=xml_text(name))
    for node, told in graph.nodes(data=True):
        spellings = "; ".join(f"{form} {' '.join(sigla)}" for form, sigla in told["forms"])
        out.add_node(
            node,
            words=xml_text(told["text"]),
            normal=xml_text(told["normal"]),
            sigla=" ".join(told["sigla"]),
            spellings=xml_text(spellings),
            column=told["column"] + 1,
            kind=told["kind"],
        )
    for before, after, passing in graph.edges(data=True):
        out.add_edge(before, after, type="path", sigla=" ".join(passing["sigla"]))
    for number, home, away in graph.graph["moves"]:
        out.add_edge(
            home, away, type="transposition", number=number, sigla=" ".join(graph.nodes[away]["sigla"])
        )
    document = BytesIO()
    nx.write_graphml(out, document, encoding="utf-8")
    yield document.getvalue().decode("utf-8") + "\n"
