"""Collations in, the witness out that reads with most witnesses most often."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from collate.model.collation import Collation, Locus, Presence
from collate.model.division import one_wording
from collate.model.form import Judge
from collate.model.witness import Token, without_points


@dataclass(frozen=True, slots=True)
class Agreement:
    """At how many places a witness reads with most, of those where most witnesses are of one reading."""

    siglum: str
    agreed: int
    places: int


def agreements(collation: Collation, judge: Judge) -> tuple[Agreement, ...]:
    """Count, for each witness of one item, where it reads with most.

    A place counts where the witnesses differ in more than spelling and pointing and one reading has more
    witnesses than any other. A witness whose text is lost there is not counted at that place.
    """
    agreed = dict.fromkeys(collation.sigla, 0)
    places = dict.fromkeys(collation.sigla, 0)
    for locus in collation.loci:
        groups = sorted(_groups(collation, locus, judge), key=len, reverse=True)
        if len(groups) > 1 and len(groups[0]) > len(groups[1]):
            for siglum in groups[0]:
                agreed[siglum] += 1
            for group in groups:
                for siglum in group:
                    places[siglum] += 1
    return tuple(Agreement(siglum, agreed[siglum], places[siglum]) for siglum in collation.sigla)


def _groups(collation: Collation, locus: Locus, judge: Judge) -> Iterable[Sequence[str]]:
    """Return the sigla of each reading of a place, spelling and pointing set aside."""
    groups: list[tuple[tuple[Token, ...], list[str]]] = []
    for w, siglum in enumerate(collation.sigla):
        columns = collation.columns[locus.first : locus.stop]
        if any(column.spans[w].presence is Presence.LACUNOSE for column in columns):
            continue
        tokens = collation.tokens(w, locus.first, locus.stop)
        words = without_points(tokens)
        same = next((sigla for others, sigla in groups if one_wording(words, others, judge)), None)
        if same is None:
            groups.append((words, [siglum]))
        else:
            same.append(siglum)
    return [sigla for _, sigla in groups]


def most_agreed(items: Iterable[Sequence[Agreement]], sigla: Sequence[str]) -> Agreement:
    """Add the counts of all items up and return the witness of the highest; of equal ones the first."""
    agreed, places = dict.fromkeys(sigla, 0), dict.fromkeys(sigla, 0)
    for item in items:
        for each in item:
            agreed[each.siglum] += each.agreed
            places[each.siglum] += each.places
    best = max(sigla, key=lambda siglum: agreed[siglum])
    return Agreement(best, agreed[best], places[best])
