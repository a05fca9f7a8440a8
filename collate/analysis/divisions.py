"""One text divided otherwise over several columns, which stayed apart for the sake of a third copy.

Beside *the fire* stands *thefire* in one copy, and *that fire* in another: there are two columns, and the
joined word stands in one of them. It is no other word there, and in the other none is omitted.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from collate.model.collation import Collation, Locus
from collate.model.division import divided, letters
from collate.model.form import Form, Judge, form_of, same_forms
from collate.model.witness import Token, without_points


@dataclass(frozen=True, slots=True)
class Division:
    """Columns in which a witness has the base's words, divided otherwise."""

    siglum: str
    columns: Locus


DivisionsAt = Mapping[tuple[str, int], Division]
"""The division of a witness that a column belongs to."""


def divisions(collation: Collation, base: str, judge: Judge) -> DivisionsAt:
    """Return by witness and column what is told as the base's words divided otherwise.

    That is also a single word that another witness so divides, though this one lacks the word beside it:
    *newte* beside *an ewte*, where a third copy has *a newte*.
    """
    found: dict[tuple[str, int], Division] = {}
    for span in collation.parted:
        for each in (*_over(span, collation, base, judge), *_alone(span, collation, base, judge)):
            pair = (base, each.siglum)
            columns = [
                at
                for at in range(each.columns.first, each.columns.stop)
                if any(_forms(collation, siglum, Locus(at, at + 1)) for siglum in pair)
            ]
            if not any((each.siglum, column) in found for column in columns):
                found.update(((each.siglum, column), each) for column in columns)
    return found


def is_division(at: DivisionsAt, locus: Locus, siglum: str) -> bool:
    """Say whether what a witness has at a place is told as division: no place goes over the end of one."""
    return any((siglum, column) in at for column in range(locus.first, locus.stop))


def _over(span: Locus, collation: Collation, base: str, judge: Judge) -> Iterator[Division]:
    """Yield the witnesses that have the base's words over all columns of a span, divided otherwise."""
    ours = _forms(collation, base, span)
    for siglum in collation.sigla:
        theirs = _forms(collation, siglum, span)
        if siglum == base or not ours or not theirs or _words(ours) == _words(theirs):
            continue
        same = _letters(ours) != _letters(theirs) and same_forms(ours, theirs, judge)
        narrow = _narrowed(span, collation, (base, siglum))
        if not same and narrow.stop - narrow.first > 1 and divided(ours, theirs, judge):
            yield Division(siglum, narrow)


def _narrowed(span: Locus, collation: Collation, pair: tuple[str, str]) -> Locus:
    """Return a span without the columns at its ends in which two witnesses have the same words."""
    first, stop = span.first, span.stop
    while first < stop and _same_at(first, collation, pair):
        first += 1
    while stop > first and _same_at(stop - 1, collation, pair):
        stop -= 1
    return Locus(first, stop)


def _same_at(column: int, collation: Collation, pair: tuple[str, str]) -> bool:
    ours, theirs = (_forms(collation, siglum, Locus(column, column + 1)) for siglum in pair)
    return _words(ours) == _words(theirs)


def _alone(span: Locus, collation: Collation, base: str, judge: Judge) -> Iterator[Division]:
    """Yield the witnesses that have but one word of a span, as another has it that divides word for word."""
    places = [Locus(at, at + 1) for at in range(span.first, span.stop)]
    ours = [_forms(collation, base, place) for place in places]
    over = [each.siglum for each in _over(span, collation, base, judge)]
    for place, own in zip(places, ours, strict=True):
        models = {
            _letters(_forms(collation, siglum, place))
            for siglum in over
            if all(len(a) == len(_forms(collation, siglum, b)) for a, b in zip(ours, places, strict=True))
        } - {_letters(own), ""}
        for siglum in collation.sigla:
            if siglum != base and siglum not in over and _letters(_forms(collation, siglum, place)) in models:
                yield Division(siglum, place)


def _words(forms: Sequence[Form]) -> list[str]:
    return [letters(form.folded) for form in forms]


def _letters(forms: Sequence[Form]) -> str:
    return "".join(_words(forms))


def _forms(collation: Collation, siglum: str, locus: Locus) -> list[Form]:
    tokens: Sequence[Token] = collation.tokens(collation.sigla.index(siglum), locus.first, locus.stop)
    return [*map(form_of, without_points(tokens))]
