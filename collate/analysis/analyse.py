"""A collation in, its findings out."""

from collate.analysis.apparatus import accidental, entries, substantive
from collate.analysis.bench import Bench
from collate.analysis.divisions import divisions
from collate.analysis.hands import corrections
from collate.analysis.moves import by_column, moves, parted
from collate.analysis.repeats import repeats, slips
from collate.analysis.tense_kinds import verb_kinds
from collate.analysis.tense_places import places, verbs_of
from collate.analysis.tense_shifts import shifts
from collate.lexicon.words import Lexicon, lexicon
from collate.model.collation import Collation
from collate.model.findings import ItemFindings
from collate.model.form import Judge
from collate.model.witness import ItemKind


def analyse(
    collation: Collation,
    base: str,
    sigla: tuple[str, ...],
    judge: Judge,
    words: Lexicon | None = None,
) -> ItemFindings:
    """Say what each difference of one item is.

    `sigla` are all witnesses of the edition in its order. Where the edition's `base` lacks the
    item, the first witness that has it takes its place. `words` is the lexicon, as shipped if none is given.
    """
    ours = base if base in collation.sigla else collation.sigla[0]
    moved = moves(collation, ours, judge)
    collation = parted(moved)
    kinds = [item.kind for item in collation.items]
    kind = next((kind for kind in kinds if kind is not ItemKind.RECIPE), kinds[0])
    absent = tuple(siglum for siglum in sigla if siglum not in collation.sigla)
    verbs = verbs_of(collation, kind, words or lexicon())
    answering = places(collation, verbs)
    told = verb_kinds(collation, answering)
    slipped = slips(repeats(collation, ours, judge))
    divided = divisions(collation, ours, judge)
    bench = Bench(collation, ours, judge, moved, by_column(moved.told), slipped, divided, told)
    found = entries(bench)
    return ItemFindings(
        collation,
        kind,
        ours,
        absent,
        found,
        substantive(found, bench),
        accidental(found, bench),
        shifts(collation, ours, kind, answering),
        corrections=corrections(collation, ours, found, judge),
        moved={each: of for each, of in moved.transpositions.items() if of},
    )
