"""The apparatus of one item: at each place the base's reading, and what each other reading is."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence, Set
from dataclasses import replace
from functools import partial

from collate.analysis.begun import instead, of_false_start
from collate.analysis.bench import Bench, Group, core, groups_at, slip_beside, wording
from collate.analysis.classify import (
    DIVIDED,
    LOST,
    MOVED,
    Verdict,
    beside_lost,
    classify,
    verdict,
)
from collate.analysis.left_out import part_left_out
from collate.analysis.losses import in_hole, of_loss
from collate.analysis.moves import PrintedMove, Reworded, changed, printed
from collate.analysis.runs import Run, runs
from collate.model.apparatus import Beside, Entry, Reading, Variant, VariantKind, Weight
from collate.model.collation import Collation, Locus, Presence
from collate.model.division import one_text
from collate.model.form import Form, Judge, form_of
from collate.model.witness import Token, TokenKind, beside, shown, without_points


def entries(bench: Bench) -> tuple[Entry, ...]:
    """Return one entry for each place of the collation, in order.

    Witnesses of the very same words share a reading. The lemma is the base's, even where it is
    empty; the other readings stand in the order of their first witness.
    """
    return tuple(_entry(bench, locus) for locus in bench.collation.loci)


def _entry(bench: Bench, locus: Locus) -> Entry:
    groups = groups_at(bench, locus)
    ours = next(group for group in groups if bench.base in group.sigla)
    variants: list[Variant] = []
    kinds: dict[str, list[Form]] = {}
    for group in groups:
        if group is not ours:
            found = _found(bench, locus, ours, group)
            normal = _substance(group.words, kinds, bench.judge)
            reading = Reading(wording(group.words), normal, tuple(group.sigla), group.presence)
            variants.append(
                Variant(reading, found.kind, found.weight, found.reason, found.cause, found.confusion)
            )
    return Entry(locus, _reading(ours.words, ours.sigla, ours.presence), tuple(variants))


def _found(
    bench: Bench,
    locus: Locus,
    ours: Group,
    theirs: Group,
) -> Verdict:
    """Say what a reading is beside the base's."""
    if theirs.moved:
        return MOVED
    if theirs.divided:
        return DIVIDED
    sigla, verbs = theirs.sigla, partial(_verbs, bench, theirs.sigla[0])
    found = classify(ours.words, theirs.words, theirs.presence, bench.judge, verbs)
    if found is LOST:
        return of_loss(bench.collation, locus, sigla[0])
    if ours.presence is Presence.LACUNOSE:
        return beside_lost(found, ours.words, theirs.words)
    if found.kind is VariantKind.SUBSTITUTION:
        found = in_hole(found, bench.collation, locus, sigla[0], (ours.words, theirs.words))
        part = part_left_out(bench.collation, (bench.base, sigla[0]), locus, bench.judge)
        return part or instead(found, theirs.words, _after(bench.collation, locus, sigla[0]), bench.judge)
    if bench.slips and found.kind in (VariantKind.OMISSION, VariantKind.ADDITION):
        slips = (slip_beside(bench, locus, siglum) for siglum in sigla)
        slip = next((slip for slip in slips if slip is not None), None)
        if slip is not None:
            found = verdict(slip.kind, slip.reason)
            return of_false_start(found) if slip.begun else found
    return found


def _after(collation: Collation, locus: Locus, siglum: str) -> tuple[Token, ...]:
    """Return the word that follows a place in a witness."""
    w = collation.sigla.index(siglum)
    at = collation.columns[locus.stop - 1].spans[w].stop
    return without_points(collation.items[w].tokens[at : at + 1])


def _verbs(bench: Bench, siglum: str, ours: Token, theirs: Token) -> tuple[VariantKind, str] | None:
    return bench.verbs.between(bench.base, ours, siglum, theirs)


def _substance(tokens: Sequence[Token], kinds: dict[str, list[Form]], judge: Judge) -> str:
    """Return the normal form of a reading, or of the first reading of the same words."""
    words = without_points(tokens)
    forms = [*map(form_of, words)]
    for normal, others in kinds.items():
        if one_text(forms, others, judge):
            return normal
    normal = " ".join([token.normal for token in words])
    kinds.setdefault(normal, forms)
    return normal


def _reading(tokens: Sequence[Token], sigla: Sequence[str], presence: Presence) -> Reading:
    normal = " ".join(token.normal for token in without_points(tokens))
    return Reading(wording(tokens), normal, tuple(sigla), presence)


def substantive(found: Sequence[Entry], bench: Bench) -> tuple[Entry, ...]:
    """Return the entries an editor prints of substantive variants, in order.

    What a witness does over several neighbouring places is one entry (see `runs`); what others read
    within it follows in entries of its own. Moved words are one entry where the base has them.
    """
    told = list(runs(found, bench.collation, bench.base))
    entries = [(entry, 1) for entry in _all_reworded(bench)]
    taken = {*_places_reworded(found, bench)}
    told = [run for run in told if not taken & {(at, siglum) for at in run.places for siglum in run.sigla}]
    taken |= {(at, siglum) for run in told for at in run.places for siglum in run.sigla}
    entries.extend((entry, 0) for entry in _together(told, found, bench))
    entries.extend((entry, 1) for entry in _all_moved(bench))
    entries.extend((entry, 2) for entry in _all_changed(bench))
    for at, entry in enumerate(found):
        variants = tuple(_left(entry, at, taken, bench))
        if variants:
            entries.append((Entry(entry.locus, entry.lemma, variants), 2))
    entries.sort(key=lambda each: (each[0].locus.first, each[1]))
    return tuple(entry for entry, _ in entries)


def _places_reworded(found: Sequence[Entry], bench: Bench) -> Iterator[tuple[int, str]]:
    """Yield the places, by number, and the witnesses of which an entry of the same words in part tells."""
    starts = [entry.locus.first for entry in found]
    for each in bench.moves.reworded:
        at = bisect_left(starts, each.columns.first)
        while at < len(found) and found[at].locus.stop <= each.columns.stop:
            yield at, each.siglum
            at += 1


def _all_moved(bench: Bench) -> Iterator[Entry]:
    """Yield the entries of moved words; where several witnesses have some in other orders, in one."""
    held: dict[Locus, Entry] = {}
    for move in printed(bench.collation, bench.moves.told):
        entry = _moved(move, bench)
        if move.order and move.lemma in held:
            held[move.lemma] = _joined(held[move.lemma], entry)
        elif move.order:
            held[move.lemma] = entry
        else:
            yield entry
    yield from held.values()


def _all_changed(bench: Bench) -> Iterator[Entry]:
    """Yield the entries of what differs within moved words, or within those that they passed."""
    collation, base = bench.collation, bench.collation.sigla.index(bench.base)
    for locus, readings in changed(bench.moves.told).items():
        ours = core(collation.tokens(base, locus.first, locus.stop))
        others = {siglum for reading in readings for siglum in reading.sigla}
        variants = []
        for each in readings:
            presence = Presence.PRESENT if each.words else Presence.OMITTED
            found = classify(ours, each.words, presence, bench.judge, partial(_verbs, bench, each.sigla[0]))
            if found.weight is Weight.SUBSTANTIVE:
                reading = _reading(each.words, each.sigla, presence)
                variants.append(Variant(reading, found.kind, found.weight, found.reason))
        agreeing = tuple(siglum for siglum in collation.sigla if siglum not in others)
        if variants:
            yield Entry(locus, _reading(ours, agreeing, Presence.PRESENT), tuple(variants))


def _moved(move: PrintedMove, bench: Bench) -> Entry:
    """Return the entry of moved words: beside which word they stand, or in which order."""
    collation, w = bench.collation, bench.collation.sigla.index(bench.base)
    tokens = collation.items[w].tokens
    words = core(collation.tokens(w, move.lemma.first, move.lemma.stop))
    others = tuple(siglum for siglum in collation.sigla if siglum not in move.sigla)
    stands = None if move.at is None else _beside(tokens, move.at)
    normal = " ".join(token.normal for token in move.order)
    text = shown(tokens[stands.token]) if stands else wording(move.order)
    reading = Reading(text, normal, move.sigla)
    variant = Variant(reading, VariantKind.TRANSPOSITION, Weight.SUBSTANTIVE, MOVED.reason, beside=stands)
    return Entry(move.lemma, _reading(words, others, Presence.PRESENT), (variant,))


def _beside(tokens: Sequence[Token], at: int) -> Beside | None:
    """Return the word after which a place before token `at` is; at the beginning, that before which it is."""
    word = beside(tokens, at - 1)
    return None if word is None else Beside(word, before=word >= at)


def _all_reworded(bench: Bench) -> Iterator[Entry]:
    """Yield the entries of words some of which changed places: those of one lemma are one."""
    collation, w = bench.collation, bench.collation.sigla.index(bench.base)
    held: dict[Locus, dict[str, list[Reworded]]] = {}
    for each in bench.moves.reworded:
        held.setdefault(each.lemma, {}).setdefault(wording(each.words), []).append(each)
    for locus, readings in held.items():
        variants = []
        for text, several in readings.items():
            normal = " ".join(token.normal for token in several[0].words)
            sigla = tuple(siglum for siglum in collation.sigla if any(e.siglum == siglum for e in several))
            found = verdict(VariantKind.SUBSTITUTION, "the same words in part, in another order")
            variants.append(Variant(Reading(text, normal, sigla), found.kind, found.weight, found.reason))
        words = core(collation.tokens(w, locus.first, locus.stop))
        others = {siglum for variant in variants for siglum in variant.reading.sigla}
        agreeing = tuple(siglum for siglum in collation.sigla if siglum not in others)
        yield Entry(locus, _reading(words, agreeing, Presence.PRESENT), tuple(variants))


def _run(run: Run, locus: Locus, kinds: dict[str, list[Form]], bench: Bench) -> Entry:
    """Return the entry of a run: the base's words over all its places, and what is read for them."""
    collation = bench.collation
    words = core(collation.tokens(collation.sigla.index(bench.base), locus.first, locus.stop))
    theirs = core(collation.tokens(collation.sigla.index(run.sigla[0]), locus.first, locus.stop))
    others = tuple(siglum for siglum in collation.sigla if siglum not in run.sigla)
    written = any(token.kind is not TokenKind.GAP for token in theirs)
    presence = Presence.PRESENT if written else run.variant.reading.presence
    reading = Reading(wording(theirs), _substance(theirs, kinds, bench.judge), run.sigla, presence)
    variant = replace(run.variant, kind=run.kind, reading=reading, cause="", confusion="")
    if run.kind is not run.variant.kind:
        reason = f"{_counted(theirs)} in the place of {_counted(words)} of the base"
        variant = replace(variant, reason=reason)
    if run.kind is VariantKind.SUBSTITUTION:
        part = part_left_out(collation, (bench.base, run.sigla[0]), locus, bench.judge)
        variant = replace(variant, kind=part.kind, reason=part.reason) if part else variant
    return Entry(locus, _reading(words, others, Presence.PRESENT), (variant,))


def _counted(words: Sequence[Token]) -> str:
    count = len(without_points(words))
    return "one word" if count == 1 else f"{count} words"


def _together(told: Sequence[Run], found: Sequence[Entry], bench: Bench) -> Iterator[Entry]:
    """Yield the entries of runs, those of one place as one; a run that says nothing is left out."""
    held: dict[Locus, Entry] = {}
    kinds: dict[Locus, dict[str, list[Form]]] = {}
    for run in told:
        locus = Locus(found[run.places[0]].locus.first, found[run.places[-1]].locus.stop)
        entry = _run(run, locus, kinds.setdefault(locus, {}), bench)
        if _speaks(entry, run.sigla, bench):
            before = held.get(entry.locus)
            held[entry.locus] = _joined(before, entry) if before else entry
    yield from held.values()


def _joined(one: Entry, other: Entry) -> Entry:
    sigla = tuple(siglum for siglum in one.lemma.sigla if siglum in other.lemma.sigla)
    variants = (*one.variants, *other.variants)
    return replace(one, lemma=replace(one.lemma, sigla=sigla), variants=variants)


def _speaks(entry: Entry, sigla: Sequence[str], bench: Bench) -> bool:
    """Say whether a run says anything: a loss beside no word of the base does if it is told nowhere else."""
    (variant,) = entry.variants
    if entry.lemma.normal or variant.kind is not VariantKind.LACUNA:
        return True
    return bool(variant.reading.text) and all(_apart(entry.locus, siglum, bench) for siglum in sigla)


def _left(entry: Entry, at: int, taken: set[tuple[int, str]], bench: Bench) -> Iterator[Variant]:
    """Yield the substantive variants of a place, less the witnesses whose omission is told elsewhere.

    Where neither the base nor the witness has anything there is nothing to say; of a gap, where words of the
    base beside the place are lost with it.
    """
    for variant in entry.variants:
        if variant.weight is Weight.SUBSTANTIVE and variant.kind is not VariantKind.TRANSPOSITION:
            sigla = tuple(siglum for siglum in variant.reading.sigla if (at, siglum) not in taken)
            if not entry.lemma.normal and not variant.reading.text:
                sigla = sigla if entry.lemma.text and variant.kind is not VariantKind.LACUNA else ()
            elif not entry.lemma.normal and variant.kind is VariantKind.LACUNA:
                sigla = tuple(siglum for siglum in sigla if _apart(entry.locus, siglum, bench))
            if len(sigla) == len(variant.reading.sigla):
                yield variant
            elif sigla:
                yield replace(variant, reading=replace(variant.reading, sigla=sigla))


def _apart(locus: Locus, siglum: str, bench: Bench) -> bool:
    """Say whether the base's words before and after a place are not lost in a witness."""
    columns, sigla = bench.collation.columns, bench.collation.sigla
    ours, theirs = sigla.index(bench.base), sigla.index(siglum)
    for side in (range(locus.first - 1, -1, -1), range(locus.stop, len(columns))):
        for at in side:
            if without_points(bench.collation.tokens(ours, at, at + 1)):
                if columns[at].spans[theirs].presence is Presence.LACUNOSE:
                    return False
                break
    return True


def accidental(found: Sequence[Entry], bench: Bench) -> tuple[Entry, ...]:
    """Return the accidental variants column by column, in order; `found` are the entries of all places.

    Words divided otherwise over several columns are one entry.
    """
    told = [*_divided(bench)]
    over: dict[int, set[str]] = {}
    for (siglum, at), each in bench.divided.items():
        if each.columns.stop > each.columns.first + 1:
            over.setdefault(at, set()).add(siglum)
    for entry in found:
        single = entry.locus.stop == entry.locus.first + 1
        columns = range(entry.locus.first, entry.locus.stop)
        for here in [entry] if single else [_entry(bench, Locus(at, at + 1)) for at in columns]:
            light = [v for v in here.variants if v.weight is Weight.ACCIDENTAL]
            variants = tuple(_without(light, over.get(here.locus.first, set())))
            if variants:
                told.append(Entry(here.locus, here.lemma, variants))
    return tuple(sorted(told, key=lambda entry: entry.locus) if bench.divided else told)


def _without(variants: Sequence[Variant], sigla: Set[str]) -> Iterator[Variant]:
    """Yield variants less some witnesses."""
    if not sigla:
        yield from variants
        return
    for variant in variants:
        left = tuple(siglum for siglum in variant.reading.sigla if siglum not in sigla)
        if left:
            yield replace(variant, reading=replace(variant.reading, sigla=left))


def _divided(bench: Bench) -> Iterator[Entry]:
    """Yield the entries of words divided otherwise over several columns."""
    told = [
        each for each in dict.fromkeys(bench.divided.values()) if each.columns.stop - each.columns.first > 1
    ]
    for locus in dict.fromkeys(each.columns for each in told):
        others = {*bench.collation.sigla} - {each.siglum for each in told if each.columns == locus}
        entry = _entry(bench, locus)
        yield replace(entry, variants=tuple(_without(entry.variants, others)))
