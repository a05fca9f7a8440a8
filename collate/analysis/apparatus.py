"""The apparatus of one item: at each place the base's reading, and what each other reading is."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import NamedTuple

from collate.analysis.classify import BEYOND, LOST, MOVED, Verdict, beside_lost, classify, verdict
from collate.analysis.moves import Move, MovesAt, PrintedMove, is_move, printed
from collate.analysis.repeats import Repeat, Slips, slip_at
from collate.analysis.runs import Run, runs
from collate.analysis.tense_kinds import VerbKinds
from collate.model.apparatus import Entry, Reading, Variant, VariantKind, Weight
from collate.model.collation import Collation, Locus, Presence
from collate.model.division import one_wording
from collate.model.form import Judge, form_of, one_word
from collate.model.transcript import Mark
from collate.model.witness import Token, TokenKind, shown, without_points


@dataclass(frozen=True, slots=True)
class Bench:
    """All that the reading of one item is held against."""

    collation: Collation
    base: str
    judge: Judge
    moves: tuple[Move, ...]
    moves_at: MovesAt
    slips: Slips
    verbs: VerbKinds = field(default_factory=VerbKinds)


def entries(bench: Bench) -> tuple[Entry, ...]:
    """Return one entry for each place of the collation, in order.

    Witnesses of the very same words share a reading. The lemma is the base's, even where it is
    empty; the other readings stand in the order of their first witness.
    """
    return tuple(_entry(bench, locus) for locus in bench.collation.loci)


class _Key(NamedTuple):
    """What the witnesses of one reading share: the words, their presence, a move, a slip."""

    text: str
    presence: Presence
    moved: bool
    slip: str


def _entry(bench: Bench, locus: Locus) -> Entry:
    collation = bench.collation
    groups: dict[_Key, list[str]] = {}
    tokens: dict[_Key, tuple[Token, ...]] = {}
    may_move = locus.first in bench.moves_at
    for w, siglum in enumerate(collation.sigla):
        words = collation.tokens(w, locus.first, locus.stop)
        moved = may_move and is_move(bench.moves_at, locus, bench.base, siglum)
        ground = "" if moved else _ground(_slip(bench, locus, siglum), words)
        key = _Key(wording(words, (Mark.EXPANDED,)), _presence(collation, w, locus, words), moved, ground)
        groups.setdefault(key, []).append(siglum)
        tokens.setdefault(key, words)
    ours = next(key for key, sigla in groups.items() if bench.base in sigla)
    variants: list[Variant] = []
    kinds: dict[str, tuple[Token, ...]] = {}
    for key, sigla in groups.items():
        if key != ours:
            found = _found(bench, locus, sigla, key, (tokens[ours], tokens[key], ours.presence))
            normal = _substance(tokens[key], kinds, bench.judge)
            reading = Reading(wording(tokens[key]), normal, tuple(sigla), key.presence)
            variants.append(
                Variant(reading, found.kind, found.weight, found.reason, found.cause, found.confusion)
            )
    return Entry(locus, _reading(tokens[ours], groups[ours], ours.presence), tuple(variants))


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
    sigla: Sequence[str],
    key: _Key,
    held: tuple[Sequence[Token], Sequence[Token], Presence],
) -> Verdict:
    """Say what a reading is; `held` are the base's words, its own, and the base's presence."""
    if key.moved:
        return MOVED
    ours, theirs, base_presence = held
    found = classify(ours, theirs, key.presence, bench.judge, partial(_verbs, bench, sigla[0]))
    if found is LOST:
        return found if _marked(bench.collation, sigla[0]) else BEYOND
    if base_presence is Presence.LACUNOSE:
        return beside_lost(found, ours, theirs)
    slips = [slip for siglum in sigla for slip in [_slip(bench, locus, siglum)] if slip is not None]
    if slips and found.kind in (VariantKind.OMISSION, VariantKind.ADDITION):
        return verdict(slips[0].kind, slips[0].reason)
    return found


def _marked(collation: Collation, siglum: str) -> bool:
    """Say whether a transcription marks a loss anywhere in the item."""
    item = collation.items[collation.sigla.index(siglum)]
    return any(token.kind is TokenKind.GAP for token in item.tokens)


def _verbs(bench: Bench, siglum: str, ours: Token, theirs: Token) -> tuple[VariantKind, str] | None:
    return bench.verbs.between(bench.base, ours, siglum, theirs)


def _substance(tokens: Sequence[Token], kinds: dict[str, tuple[Token, ...]], judge: Judge) -> str:
    """Return the normal form of a reading, or of the first reading of the same words."""
    words = without_points(tokens)
    for normal, others in kinds.items():
        if one_wording(words, others, judge):
            return normal
    normal = " ".join(token.normal for token in words)
    kinds.setdefault(normal, words)
    return normal


def _reading(tokens: Sequence[Token], sigla: Sequence[str], presence: Presence) -> Reading:
    normal = " ".join(token.normal for token in without_points(tokens))
    return Reading(wording(tokens), normal, tuple(sigla), presence)


def _presence(collation: Collation, w: int, locus: Locus, words: Sequence[Token]) -> Presence:
    for column in collation.columns[locus.first : locus.stop]:
        if column.spans[w].presence is Presence.LACUNOSE:
            return Presence.LACUNOSE
    return Presence.PRESENT if words else Presence.OMITTED


def wording(tokens: Sequence[Token], marks: Sequence[Mark] = tuple(Mark)) -> str:
    """Return words as they are shown, blanks single and where the copy has them."""
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
    moved = tuple(printed(bench.collation, bench.moves, bench.base))
    taken = {(at, siglum) for run in told for at in run.places for siglum in run.sigla}
    taken |= _turned(moved, found, bench)
    entries = [(entry, 0) for entry in _together(told, found, bench)]
    entries.extend((_inverted(move, bench), 1) for move in moved)
    for at, entry in enumerate(found):
        variants = tuple(_left(entry, at, taken))
        if variants:
            entries.append((replace(entry, variants=variants), 2))
    entries.sort(key=lambda each: (each[0].locus.first, each[1]))
    return tuple(entry for entry, _ in entries)


def _turned(moved: Sequence[PrintedMove], found: Sequence[Entry], bench: Bench) -> set[tuple[int, str]]:
    """Return the places (and who reads otherwise there) that an inverted phrase tells already.

    Where a witness has all words of the phrase and no other, its *and* between them is neither left
    out here nor added there.
    """
    collation = bench.collation
    told = set()
    for move in moved:
        for siglum in move.sigla if move.after is None else ():
            ours, theirs = (
                without_points(
                    collation.tokens(collation.sigla.index(each), move.lemma.first, move.lemma.stop)
                )
                for each in (bench.base, siglum)
            )
            if _permuted(ours, theirs, bench.judge):
                told |= {
                    (at, siglum)
                    for at, entry in enumerate(found)
                    if move.lemma.first <= entry.locus.first and entry.locus.stop <= move.lemma.stop
                }
    return told


def _permuted(ours: Sequence[Token], theirs: Sequence[Token], judge: Judge) -> bool:
    """Say whether two phrases are of the same words, in whatever order."""
    left = list(theirs)
    for word in ours:
        same = next((other for other in left if one_word(judge(form_of(word), form_of(other)))), None)
        if same is None:
            return False
        left.remove(same)
    return not left


def _inverted(move: PrintedMove, bench: Bench) -> Entry:
    """Return the entry of moved words; a move over many words says after which word they stand."""
    collation, w = bench.collation, bench.collation.sigla.index(bench.base)
    moved = _core(collation.tokens(w, move.lemma.first, move.lemma.stop))
    lemma = _reading(moved, (bench.base,), Presence.PRESENT)
    before = collation.tokens(w, 0, move.after) if move.after is not None else ()
    words = without_points(before)
    text = shown(words[-1]) if words else ""
    others = tuple(siglum for siglum in collation.sigla if siglum not in move.sigla)
    reading = Reading(text, "", move.sigla)
    variant = Variant(reading, VariantKind.TRANSPOSITION, Weight.SUBSTANTIVE, MOVED.reason)
    return Entry(move.lemma, replace(lemma, sigla=others), (variant,))


def _run(run: Run, locus: Locus, kinds: dict[str, tuple[Token, ...]], bench: Bench) -> Entry:
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
    kinds: dict[Locus, dict[str, tuple[Token, ...]]] = {}
    for run in told:
        locus = Locus(found[run.places[0]].locus.first, found[run.places[-1]].locus.stop)
        entry = _run(run, locus, kinds.setdefault(locus, {}), bench)
        if _speaks(entry):
            before = held.get(entry.locus)
            held[entry.locus] = _joined(before, entry) if before else entry
    yield from held.values()


def _joined(one: Entry, other: Entry) -> Entry:
    sigla = tuple(siglum for siglum in one.lemma.sigla if siglum in other.lemma.sigla)
    variants = (*one.variants, *other.variants)
    return replace(one, lemma=replace(one.lemma, sigla=sigla), variants=variants)


def _speaks(entry: Entry) -> bool:
    """Say whether a run says anything: of a loss beside no word of the base there is nothing to say."""
    return bool(entry.lemma.normal) or entry.variants[0].kind is not VariantKind.LACUNA


def _core(tokens: Sequence[Token]) -> Sequence[Token]:
    """Return tokens without the points before the first word and after the last."""
    words = [at for at, token in enumerate(tokens) if token.kind is not TokenKind.PUNCTUATION]
    return tokens[words[0] : words[-1] + 1] if words else ()


def _left(entry: Entry, at: int, taken: set[tuple[int, str]]) -> Iterator[Variant]:
    """Yield the substantive variants of a place, less the witnesses whose omission is told elsewhere."""
    for variant in entry.variants:
        if variant.weight is Weight.SUBSTANTIVE and variant.kind is not VariantKind.TRANSPOSITION:
            sigla = tuple(siglum for siglum in variant.reading.sigla if (at, siglum) not in taken)
            wordless = not entry.lemma.normal and (
                variant.kind is VariantKind.LACUNA or not (entry.lemma.text or variant.reading.text)
            )
            if sigla and not wordless:
                yield replace(variant, reading=replace(variant.reading, sigla=sigla))


def accidental(found: Sequence[Entry], bench: Bench) -> tuple[Entry, ...]:
    """Return the accidental variants column by column, in order; `found` are the entries of all places."""
    told = []
    for entry in found:
        single = entry.locus.stop == entry.locus.first + 1
        columns = range(entry.locus.first, entry.locus.stop)
        for each in [entry] if single else [_entry(bench, Locus(at, at + 1)) for at in columns]:
            variants = tuple(v for v in each.variants if v.weight is Weight.ACCIDENTAL)
            if variants:
                told.append(replace(each, variants=variants))
    return tuple(told)
