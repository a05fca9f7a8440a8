"""The variant graph: the public picture of a collation."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import networkx as nx

from collate.model.collation import Collation, Locus, columns_of
from collate.model.division import one_wording
from collate.model.form import Judge
from collate.model.witness import Token, TokenKind, without_points

if TYPE_CHECKING:
    Graph = nx.DiGraph[str]

START, END = "start", "end"

Alike = Callable[[Sequence[Token], Sequence[Token]], bool]
"""Says whether two witnesses' words in a column are one reading."""


def variant_graph(collation: Collation, alike: Alike | None = None, *, points: bool = True) -> "Graph":
    """Return a directed graph from `start` to `end` whose nodes are readings of a column.

    Node attributes: `column`, `kind`, `text` (the letters of the first witness), `normal`, `sigla`, and
    `forms`, (letters, sigla) for each spelling. Edge attribute `sigla`: the witnesses that pass, in
    the collation's order. Walking a siglum's edges spells that witness. Witnesses share a node where
    their words are `alike` (of one normal form, if it is not given). Without `points` it has words only.
    The graph attribute `moves` holds (number, node at home, node of the moved words) for transpositions.
    """
    graph: Graph = nx.DiGraph()
    for name, column in ((START, -1), (END, len(collation.columns))):
        graph.add_node(name, column=column, kind=name, text="", normal="", sigla=collation.sigla, forms=())
    at = dict.fromkeys(collation.sigla, START)
    nodes: dict[tuple[int, str], str] = {}
    for number in range(len(collation.columns)):
        held: dict[str, tuple[Token, ...]] = {}
        for w, siglum in enumerate(collation.sigla):
            tokens = collation.tokens(w, number, number + 1)
            if not points:
                tokens = without_points(tokens)
            if tokens:
                node = _node(graph, number, tokens, siglum, held, alike or same_normal)
                _pass(graph, at[siglum], node, siglum)
                at[siglum] = nodes[number, siglum] = node
    for siglum in collation.sigla:
        _pass(graph, at[siglum], END, siglum)
    graph.graph["moves"] = _moves(collation, nodes)
    return graph


def same_normal(a: Sequence[Token], b: Sequence[Token]) -> bool:
    """Say whether words have one normal form."""
    return [token.normal for token in a] == [token.normal for token in b]


def same_letters(a: Sequence[Token], b: Sequence[Token]) -> bool:
    """Say whether words are spelled alike, abbreviations written out."""
    return [token.expanded for token in a] == [token.expanded for token in b]


def same_words(judge: Judge) -> Alike:
    """Return what says whether words are the same words in any spelling, or the same points."""

    def alike(a: Sequence[Token], b: Sequence[Token]) -> bool:
        if same_normal(a, b):
            return True
        if any(token.kind not in _JUDGED for token in (*a, *b)):
            return False
        return one_wording(a, b, judge)

    return alike


_JUDGED = (TokenKind.WORD, TokenKind.NUMERAL)


def spell(graph: "Graph", siglum: str) -> tuple[str, ...]:
    """Return the nodes a witness passes between start and end, in order."""
    nodes = [START]
    while nodes[-1] != END:
        here = nodes[-1]
        nodes.append(next(to for to in graph.successors(here) if siglum in graph.edges[here, to]["sigla"]))
    return tuple(nodes[1:-1])


def _node(
    graph: "Graph",
    column: int,
    tokens: tuple[Token, ...],
    siglum: str,
    held: dict[str, tuple[Token, ...]],
    alike: Alike,
) -> str:
    """Return the node of a witness's words in a column, made if it is not there."""
    letters = " ".join(token.expanded for token in tokens)
    name = next((name for name, others in held.items() if alike(others, tokens)), None)
    if name is None:
        name = f"{column + 1}.{len(held) + 1}"
        held[name] = tokens
        normal = " ".join(token.normal for token in tokens)
        kind = str(next((t.kind for t in tokens if t.kind is not TokenKind.PUNCTUATION), tokens[0].kind))
        graph.add_node(name, column=column, kind=kind, text=letters, normal=normal, sigla=(), forms=())
    node = graph.nodes[name]
    node["sigla"] += (siglum,)
    forms: dict[str, tuple[str, ...]] = dict(node["forms"])
    forms[letters] = (*forms.get(letters, ()), siglum)
    node["forms"] = tuple(forms.items())
    return name


def _pass(graph: "Graph", before: str, after: str, siglum: str) -> None:
    if not graph.has_edge(before, after):
        graph.add_edge(before, after, sigla=())
    graph.edges[before, after]["sigla"] += (siglum,)


def _moves(collation: Collation, nodes: dict[tuple[int, str], str]) -> tuple[tuple[int, str, str], ...]:
    """Return (number, node at home, node of the moved words) for each word of each transposition."""
    numbers: dict[tuple[int, int, Locus], int] = {}
    pairs: dict[tuple[int, str, str], None] = {}
    for moved in collation.transpositions:
        w = collation.sigla.index(moved.siglum)
        columns = columns_of(collation.columns, w, moved.start, moved.stop)
        number = numbers.setdefault((moved.home, moved.home_stop, columns), len(numbers) + 1)
        away = _held(moved.siglum, range(columns.first, columns.stop), nodes)
        for siglum in collation.sigla:
            home = _held(siglum, range(moved.home, moved.home_stop), nodes)
            if siglum != moved.siglum and len(home) == len(away):
                pairs.update(dict.fromkeys((number, a, b) for a, b in zip(home, away, strict=True)))
    return tuple(pairs)


def _held(siglum: str, columns: Sequence[int], nodes: dict[tuple[int, str], str]) -> list[str]:
    return [nodes[column, siglum] for column in columns if (column, siglum) in nodes]
