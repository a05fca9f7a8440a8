"""A collation in, its findings out."""

from collate.analysis.apparatus import Bench, accidental, entries, substantive
from collate.analysis.moves import by_column, moves
from collate.analysis.repeats import repeats, slips
from collate.model.collation import Collation
from collate.model.findings import ItemFindings
from collate.model.form import Judge
from collate.model.witness import ItemKind


def analyse(collation: Collation, base: str, sigla: tuple[str, ...], judge: Judge) -> ItemFindings:
    """Say what each difference of one item is.

    `sigla` are all witnesses of the edition in its order. Where the edition's `base` lacks the
    item, the first witness that has it takes its place.
    """
    ours = base if base in collation.sigla else collation.sigla[0]
    kinds = [item.kind for item in collation.items]
    kind = next((kind for kind in kinds if kind is not ItemKind.RECIPE), kinds[0])
    absent = tuple(siglum for siglum in sigla if siglum not in collation.sigla)
    moved = moves(collation)
    bench = Bench(collation, ours, judge, moved, by_column(moved), slips(repeats(collation, ours, judge)))
    found = entries(bench)
    return ItemFindings(
        collation,
        kind,
        ours,
        absent,
        found,
        substantive(found, bench),
        accidental(bench),
    )
