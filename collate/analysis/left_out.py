"""A part of a divided word that a copy lacks, or has besides: *litel* beside *alitel* and *a litel*.

The words alone would be two unlike words. What the third copy divides says that one of them is the other with
a word more.
"""

from collections.abc import Iterator, Sequence

from collate.analysis.classify import Verdict, verdict
from collate.model.apparatus import VariantKind
from collate.model.collation import Collation, Locus, Span
from collate.model.division import divided
from collate.model.form import Form, Judge, form_of, same_forms
from collate.model.witness import without_points


def part_left_out(collation: Collation, pair: tuple[str, str], locus: Locus, judge: Judge) -> Verdict | None:
    """Return the verdict where of two copies, the base first, one has a part of the other's one word.

    None where no third copy has that word in parts. Of several that divide it otherwise the first counts.
    """
    for span in _spans(collation, locus):
        ours, theirs = (_forms(collation, siglum, span) for siglum in pair)
        if (len(ours) == 1) is (len(theirs) == 1) and len(ours) != 1:
            continue
        for run in dict.fromkeys(_forms(collation, siglum, span) for siglum in collation.sigla):
            if len(run) < 2:
                continue
            if _may_be(ours, run) and (rest := _rest(theirs, run, judge)) and divided(ours, run, judge):
                return verdict(VariantKind.OMISSION, _said(rest, run, "is left out"))
            if _may_be(theirs, run) and (rest := _rest(ours, run, judge)) and divided(theirs, run, judge):
                return verdict(VariantKind.ADDITION, _said(rest, run, "is added, and written with the next"))
    return None


_ROOM = 3


def _may_be(words: Sequence[Form], run: Sequence[Form]) -> bool:
    """Say whether words are one of about as many letters as a run of words."""
    return len(words) == 1 and abs(len(words[0].folded) - sum(len(form.folded) for form in run)) <= _ROOM


def _spans(collation: Collation, locus: Locus) -> Iterator[Locus]:
    """Yield the columns over which a copy may divide what stands at a place: as said, or the place itself."""
    spans = [span for span in collation.parted if span.first < locus.stop and locus.first < span.stop]
    if spans:
        yield from spans
    elif any(last.stop - first.start > 1 for first, last in _ends(collation, locus)):
        yield locus


def _ends(collation: Collation, locus: Locus) -> Iterator[tuple[Span, Span]]:
    """Yield what each copy has in the first and the last column of a place."""
    columns = collation.columns
    return zip(columns[locus.first].spans, columns[locus.stop - 1].spans, strict=True)


def _forms(collation: Collation, siglum: str, locus: Locus) -> tuple[Form, ...]:
    tokens = collation.tokens(collation.sigla.index(siglum), locus.first, locus.stop)
    return tuple(map(form_of, without_points(tokens)))


def _rest(words: Sequence[Form], run: Sequence[Form], judge: Judge) -> tuple[Form, ...]:
    """Return the words of a run that are wanting where some words are its beginning or its end, else none."""
    size = len(words)
    if not 0 < size < len(run):
        return ()
    if same_forms(words, run[-size:], judge):
        return tuple(run[:-size])
    return tuple(run[size:]) if same_forms(words, run[:size], judge) else ()


def _said(rest: Sequence[Form], run: Sequence[Form], what: str) -> str:
    part, whole = (" ".join(form.folded for form in forms) for forms in (rest, run))
    return f"{part} of {whole} {what}"
