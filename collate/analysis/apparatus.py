"""The apparatus of one item: at each place the base's reading, and what each other reading is."""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, field, replace
from functools import partial

from collate.analysis.classify import BEYOND, DIVIDED, LOST, MOVED, Verdict, beside_lost, classify, verdict
from collate.analysis.divisions import DivisionsAt, is_division
from collate.analysis.moves import Moves, MovesAt, PrintedMove, Reworded, changed, is_move, printed
from collate.analysis.repeats import Repeat, Slips, slip_at
from collate.analysis.runs import Run, runs
from collate.analysis.tense_kinds import VerbKinds
from collate.model.apparatus import Beside, Entry, Reading, Variant, VariantKind, Weight
from collate.model.collation import Collation, Locus, Presence
from collate.model.division import one_text
from collate.model.form import Form, Judge, form_of
from collate.model.transcript import Mark
from collate.model.witness import Token, TokenKind, beside, shown, without_points


@dataclass(frozen=True, slots=True)
class Bench:
    """All that the reading of one item is held against."""

    collation: Collation
    base: str
    judge: Judge
    moves: Moves
    moves_at: MovesAt
    slips: Slips
    divided: DivisionsAt = field(default_factory=dict)
    verbs: VerbKinds = field(default_factory=VerbKinds)


def entries(bench: Bench) -> tuple[Entry, ...]:
    """Return one entry for each place of the collation, in order.

    Witnesses of the very same words share a reading. The lemma is the base's, even where it is
    empty; the other readings stand in the order of their first witness.
    """
    return tuple(_entry(bench, locus) for locus in bench.collation.loci)


_EXPANDED = (Mark.EXPANDED,)


@dataclass(slots=True, eq=False)
class _Group:
    """The witnesses of one reading, and what they share: words, presence, a move, a division (or a slip)."""

    sigla: list[str]
    words: tuple[Token, ...]
    presence: Presence
    moved: bool
    divided: bool


def _entry(bench: Bench, locus: Locus) -> Entry:
    collation = bench.collation
    groups: dict[tuple[str, bool, bool, bool, bool, str], _Group] = {}
    for w, siglum in enumerate(collation.sigla):
        words = collation.tokens(w, locus.first, locus.stop)
        moved = bool(bench.moves_at) and is_move(bench.moves_at, locus, siglum)
        ground = _ground(_slip(bench, locus, siglum), words) if bench.slips and not moved else ""
        lost = _lost(collation, w, locus)
        parted = bool(bench.divided) and not moved and is_division(bench.divided, locus, siglum)
        key = (wording(words, _EXPANDED), lost, bool(words) and not lost, moved, parted, ground)
        if key not in groups:
            groups[key] = _Group([], words, _presence(words, lost=lost), moved, parted)
        groups[key].sigla.append(siglum)
    ours = next(group for group in groups.values() if bench.base in group.sigla)
    variants: list[Variant] = []
    kinds: dict[str, list[Form]] = {}
    for group in groups.values():
        if group is not ours:
            found = _found(bench, locus, ours, group)
            normal = _substance(group.words, kinds, bench.judge)
            reading = Reading(wording(group.words), normal, tuple(group.sigla), group.presence)
            variants.append(
                Variant(reading, found.kind, found.weight, found.reason, found.cause, found.confusion)
            )
    return Entry(locus, _reading(ours.words, ours.sigla, ours.presence), tuple(variants))


def _slip(bench: Bench, locus: Locus, siglum: str) -> Repeat | None:
    """Return the slip of a witness at a place where either it or the base has words, and the other none."""
    slip = slip_at(bench.slips, locus, siglum)
    if slip is None:
        return None
    collation = bench.collation
    one, other = (
        _core(collation.tokens(collation.sigla.index(each), locus.first, locus.stop))
        for each in (bench.base, siglum)
    )
    return slip if bool(one) != bool(other) else None


def _ground(slip: Repeat | None, words: Sequence[Token]) -> str:
    """Return what keeps a slip apart: the ground of words that lack; of words that are there, a doubling.

    Where it is the base that skipped, the witnesses that did not have one reading, whatever their spelling.
    """
    if slip is None or (words and slip.kind is VariantKind.ADDITION):
        return ""
    return slip.kind if words else slip.reason


def _found(
    bench: Bench,
    locus: Locus,
    ours: _Group,
    theirs: _Group,
) -> Verdict:
    """Say what a reading is beside the base's."""
    if theirs.moved:
        return MOVED
    if theirs.divided:
        return DIVIDED
    sigla, verbs = theirs.sigla, partial(_verbs, bench, theirs.sigla[0])
    found = classify(ours.words, theirs.words, theirs.presence, bench.judge, verbs)
    if found is LOST:
        return found if _marked(bench.collation, sigla[0]) else BEYOND
    if ours.presence is Presence.LACUNOSE:
        return beside_lost(found, ours.words, theirs.words)
    if bench.slips and found.kind in (VariantKind.OMISSION, VariantKind.ADDITION):
        slips = (_slip(bench, locus, siglum) for siglum in sigla)
        slip = next((slip for slip in slips if slip is not None), None)
        return found if slip is None else verdict(slip.kind, slip.reason)
    return found


def _marked(collation: Collation, siglum: str) -> bool:
    """Say whether a transcription marks a loss anywhere in the item."""
    item = collation.items[collation.sigla.index(siglum)]
    return any(token.kind is TokenKind.GAP for token in item.tokens)


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


def _lost(collation: Collation, w: int, locus: Locus) -> bool:
    """Say whether a witness is lost in any column of a place."""
    if locus.stop == locus.first + 1:
        return collation.columns[locus.first].spans[w].presence is Presence.LACUNOSE
    columns = collation.columns[locus.first : locus.stop]
    return any(column.spans[w].presence is Presence.LACUNOSE for column in columns)


def _presence(words: Sequence[Token], *, lost: bool) -> Presence:
    if lost:
        return Presence.LACUNOSE
    return Presence.PRESENT if words else Presence.OMITTED


def wording(tokens: Sequence[Token], marks: Sequence[Mark] = tuple(Mark)) -> str:
    """Return words as they are shown, blanks single and where the copy has them."""
    if len(tokens) == 1:
        return shown(tokens[0], marks).strip()
    parts = []
    for token in tokens:
        parts.append(shown(token, marks))
        if token.trail == " " or any(character.isspace() for character in token.trail):
            parts.append(" ")
    return "".join(parts).strip()


def substantive(found: Sequence[Entry], bench: Bench) -> tuple[Entry, ...]:
    """Return the entries an editor prints of substantive variants, in order.

    What a witness does over several neighbouring places is one entry (see `runs`); what others read
    within it follows in entries of its own. Moved words are one entry where the base has them.
    """
    told = list(runs(found, bench.collation, bench.base))
    entries = [(entry, 1) for entry in _all_reworded(bench)]
    taken = {
        (at, each.siglum)
        for each in bench.moves.reworded
        for at, entry in enumerate(found)
        if each.columns.first <= entry.locus.first and entry.locus.stop <= each.columns.stop
    }
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
        ours = _core(collation.tokens(base, locus.first, locus.stop))
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
    words = _core(collation.tokens(w, move.lemma.first, move.lemma.stop))
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
        words = _core(collation.tokens(w, locus.first, locus.stop))
        others = {siglum for variant in variants for siglum in variant.reading.sigla}
        agreeing = tuple(siglum for siglum in collation.sigla if siglum not in others)
        yield Entry(locus, _reading(words, agreeing, Presence.PRESENT), tuple(variants))


def _run(run: Run, locus: Locus, kinds: dict[str, list[Form]], bench: Bench) -> Entry:
    """Return the entry of a run: the base's words over all its places, and what is read for them."""
    collation = bench.collation
    words = _core(collation.tokens(collation.sigla.index(bench.base), locus.first, locus.stop))
    theirs = _core(collation.tokens(collation.sigla.index(run.sigla[0]), locus.first, locus.stop))
    others = tuple(siglum for siglum in collation.sigla if siglum not in run.sigla)
    presence = run.variant.reading.presence
    reading = Reading(wording(theirs), _substance(theirs, kinds, bench.judge), run.sigla, presence)
    variant = replace(run.variant, kind=run.kind, reading=reading, cause="", confusion="")
    return Entry(locus, _reading(words, others, Presence.PRESENT), (variant,))


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


def _core(tokens: Sequence[Token]) -> Sequence[Token]:
    """Return tokens without the points before the first word and after the last."""
    words = [at for at, token in enumerate(tokens) if token.kind is not TokenKind.PUNCTUATION]
    return tokens[words[0] : words[-1] + 1] if words else ()


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
    over = {key for key, each in bench.divided.items() if each.columns.stop > each.columns.first + 1}
    for entry in found:
        single = entry.locus.stop == entry.locus.first + 1
        columns = range(entry.locus.first, entry.locus.stop)
        for each in [entry] if single else [_entry(bench, Locus(at, at + 1)) for at in columns]:
            light = [v for v in each.variants if v.weight is Weight.ACCIDENTAL]
            elsewhere = {siglum for siglum, at in over if at == each.locus.first} if over else set()
            variants = tuple(_without(light, elsewhere))
            if variants:
                told.append(Entry(each.locus, each.lemma, variants))
    return tuple(sorted(told, key=lambda entry: entry.locus) if bench.divided else told)


def _without(variants: Sequence[Variant], sigla: Set[str]) -> Iterator[Variant]:
    """Yield variants less some witnesses."""
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
