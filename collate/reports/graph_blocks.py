"""A variant graph in, the blocks of its drawing out: columns, with a slot for each reading and each way past.

Neighbouring columns that divide the witnesses alike are drawn as one block.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import networkx as nx

    Graph = nx.DiGraph[str]

LONGEST = 32
"""How many letters the readings of a block may grow to by joining columns."""


@dataclass(frozen=True, slots=True)
class Slot:
    """The words of some witnesses in a block; `kind` is "pass" where they have none and go by."""

    text: str
    sigla: tuple[str, ...]
    kind: str


@dataclass(frozen=True, slots=True)
class Block:
    """One or more columns, its slots from the main line downwards."""

    slots: tuple[Slot, ...]


def blocks(graph: "Graph") -> tuple[Block, ...]:
    """Return the blocks from start to end.

    The slot of most witnesses is the main line (of equal ones that of the first witness); the others
    stand below it in the order in which their witnesses come.
    """
    found: list[list[Slot]] = []
    for column in _columns(graph):
        if found and _same(found[-1], column) and _fits(found[-1], column):
            found[-1] = [_joined(a, b) for a, b in zip(found[-1], column, strict=True)]
        else:
            found.append(column)
    return tuple(_in_order(found, graph.nodes["start"]["sigla"]))


def _columns(graph: "Graph") -> Iterator[list[Slot]]:
    """Yield the slots of each column that has readings, readings and ways past by their first witness."""
    order = {siglum: number for number, siglum in enumerate(graph.nodes["start"]["sigla"])}
    numbers = {name: number for number, name in enumerate(graph.nodes)}
    marks = _marks(graph)
    columns: dict[int, list[str]] = {}
    for node, told in graph.nodes(data=True):
        columns.setdefault(told["column"], []).append(node)
    passing = _passing(graph)
    for column in sorted(columns):
        slots = []
        for node in sorted(columns[column], key=lambda name: numbers[name]):
            told = graph.nodes[node]
            text = told["text"] if told["kind"] not in ("start", "end") else told["kind"]
            slots.append(Slot(text + marks.get(node, ""), told["sigla"], told["kind"]))
        slots.extend(Slot("", sigla, "pass") for sigla in passing.get(column, ()))
        yield sorted(slots, key=lambda slot: order[slot.sigla[0]])


def _passing(graph: "Graph") -> Mapping[int, Sequence[tuple[str, ...]]]:
    """Return the sigla of the ways that go past each column."""
    passing: dict[int, list[tuple[str, ...]]] = {}
    for before, after, told in graph.edges(data=True):
        for column in range(graph.nodes[before]["column"] + 1, graph.nodes[after]["column"]):
            passing.setdefault(column, []).append(told["sigla"])
    return passing


def _marks(graph: "Graph") -> Mapping[str, str]:
    """Return the numbers of the transpositions that words belong to, as written behind them."""
    marks: dict[str, str] = {}
    for number, home, away in graph.graph["moves"]:
        for node in (home, away):
            if f"~{number}" not in marks.get(node, "").split():
                marks[node] = f"{marks.get(node, '')} ~{number}"
    return {node: text.replace(" ", "") for node, text in marks.items()}


def _same(a: Sequence[Slot], b: Sequence[Slot]) -> bool:
    """Say whether two columns divide the witnesses alike and are of words."""
    kinds = {slot.kind for slot in (*a, *b)}
    if kinds & {"start", "end"}:
        return False
    return [(s.sigla, s.kind == "pass") for s in a] == [(s.sigla, s.kind == "pass") for s in b]


def _fits(a: Sequence[Slot], b: Sequence[Slot]) -> bool:
    return max(len(x.text) + len(y.text) for x, y in zip(a, b, strict=True)) < LONGEST


def _joined(a: Slot, b: Slot) -> Slot:
    return Slot(f"{a.text} {b.text}".strip(), a.sigla, a.kind if a.kind == b.kind else "word")


def _in_order(found: Sequence[Sequence[Slot]], sigla: Sequence[str]) -> Iterator[Block]:
    level = dict.fromkeys(sigla, 0.0)
    for slots in found:
        main = max(slots, key=lambda slot: len(slot.sigla))
        rest = [slot for slot in slots if slot is not main]
        rest.sort(key=lambda slot: sum(level[s] for s in slot.sigla) / len(slot.sigla))
        ordered = (main, *rest)
        for number, slot in enumerate(ordered):
            level.update(dict.fromkeys(slot.sigla, float(number)))
        yield Block(ordered)
