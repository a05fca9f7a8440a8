"""The whole road, from sources to findings, leavable at each stage."""

import signal
from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass, replace
from functools import partial
from pathlib import PurePath
from typing import TypeVar

from collate.align.collate import collate
from collate.align.concord import concord
from collate.align.named import named
from collate.align.sequence import with_orders
from collate.analysis.against import against
from collate.analysis.analyse import analyse
from collate.analysis.check import check
from collate.analysis.profile import profiles
from collate.analysis.words import report
from collate.errors import InputError, UsageError, WorkersError
from collate.lexicon.dates import SCHEMES, read_date
from collate.lexicon.items import item_key
from collate.lexicon.overlay import judge_of, words_of
from collate.lexicon.signs import names_a_sign
from collate.lexicon.spelling import rule_names
from collate.lexicon.tables import typed_keys
from collate.model.concordance import Concordance, Match
from collate.model.edition import Edition, Witness
from collate.model.findings import Findings, ItemFindings
from collate.model.notice import Checked, Difference, Notice, Severity
from collate.model.profile import Profile
from collate.model.reading import WordReport
from collate.model.source import Place, Source
from collate.model.transcript import Transcript
from collate.model.witness import WitnessText
from collate.model.words import UserWords
from collate.readers.edition import read_edition
from collate.readers.plain import read
from collate.readers.tei import has_apparatus, is_tei, read_tei, read_tei_witnesses
from collate.readers.words import read_words
from collate.settings import Normalising, Settings
from collate.tokens.tokenise import tokenise, without_doubles

Made = TypeVar("Made")

BATCHES = 128
"""Into how many batches, at most, the items are divided among workers."""

PATIENCE = 2.0
"""Seconds between two looks at whether the workers are still there."""


@dataclass(frozen=True, slots=True)
class Crew:
    """Those who share the items; `check` raises WorkersError when no more can be expected of them."""

    executor: Executor
    check: Callable[[], None]


def edition(source: Source) -> Edition:
    """Read an edition.toml; what it says of rules and signs is held against the tables."""
    return read_edition(source, read_date, SCHEMES, rule_names(), names_a_sign)


def edition_of_files(paths: Sequence[str]) -> Edition:
    """Return the edition that transcription files make: sigla are the files' stems, in sorted order."""
    seen: dict[str, str] = {}
    for path in paths:
        stem = PurePath(path).stem
        if stem in seen:
            raise InputError(
                f"this and {seen[stem]} would both be witness {stem}: rename one, or make an edition"
                " folder with `collate new`",
                Place(path),
            )
        seen[stem] = path
    witnesses = tuple(Witness(stem, stem, seen[stem]) for stem in sorted(seen))
    return Edition(", ".join(sorted(seen)), witnesses[0].siglum, witnesses)


def with_words(edition: Edition, source: Source) -> Edition:
    """Return an edition with the rulings of its words.tsv."""
    return replace(edition, words=read_words(source))


def choose(edition: Edition, sigla: Sequence[str] | None, base: str | None, least: int) -> Edition:
    """Return the edition with only the witnesses named, and another base if one is asked for.

    Raises UsageError for an unknown siglum, or fewer witnesses than `least`.
    """
    known = [witness.siglum for witness in edition.witnesses]
    for siglum in (*(sigla or ()), *((base,) if base else ())):
        if siglum not in known:
            raise UsageError(f"there is no witness {siglum!r}: the sigla are {', '.join(known)}")
    kept = [siglum for siglum in known if sigla is None or siglum in sigla]
    if len(kept) < least:
        raise UsageError("a collation needs two witnesses or more: name another transcription")
    if base and base not in kept:
        raise UsageError(f"the base {base!r} is not among the witnesses chosen: {', '.join(kept)}")
    ours = base or (edition.base if edition.base in kept else kept[0])
    return replace(edition, base=ours, witnesses=tuple(w for w in edition.witnesses if w.siglum in kept))


def normalising(edition: Edition) -> Normalising:
    """Return the spelling rules an edition switches."""
    return Normalising(frozenset(edition.rules_on), frozenset(edition.rules_off))


def opened(edition: Edition, sources: Sequence[Source]) -> tuple[Edition, tuple[Source, ...]]:
    """Open a single TEI file that holds several witnesses: one witness and the same source for each.

    Everything else comes back as it is.
    """
    if len(sources) != 1 or not is_tei(sources[0]) or not has_apparatus(sources[0]):
        return edition, tuple(sources)
    witnesses = tuple(transcript.witness for transcript in read_tei_witnesses(sources[0]))
    several = replace(edition, base=witnesses[0].siglum, witnesses=witnesses)
    return several, (sources[0],) * len(witnesses)


def transcripts(
    edition: Edition, sources: Sequence[Source], faults: Mapping[str, list[InputError]] | None = None
) -> tuple[Transcript, ...]:
    """Read the transcriptions of an edition's witnesses, given in its order.

    With lists of `faults` by siglum, what cannot be read goes to them, and the rest is read.
    """
    if len({source.name for source in sources}) < len(sources) and has_apparatus(sources[0]):
        return read_tei_witnesses(sources[0])
    found = []
    for source, witness in zip(sources, edition.witnesses, strict=True):
        told = None if faults is None else faults[witness.siglum]
        try:
            found.append(
                read_tei(source, witness) if is_tei(source) else read(source, witness, typed_keys(), told)
            )
        except InputError as fault:
            if told is None:
                raise
            told.append(fault)
    return tuple(found)


def texts(
    edition: Edition, sources: Sequence[Source], settings: Settings
) -> tuple[Edition, tuple[WitnessText, ...]]:
    """Read the transcriptions of an edition's witnesses, given in its order, and cut them into words.

    The edition comes back with what the transcriptions say of their witnesses (a TEI header's name, date).
    """
    found = transcripts(edition, sources)
    edition = replace(edition, witnesses=tuple(transcript.witness for transcript in found))
    return edition, tokenise(found, settings.normalising, words_of(edition.words))


def checked(edition: Edition, sources: Sequence[Source], settings: Settings) -> tuple[Checked, ...]:
    """Look for faults in an edition's transcriptions; what cannot be read is a fault among them."""
    faults: dict[str, list[InputError]] = {witness.siglum: [] for witness in edition.witnesses}
    kept: list[Transcript] = []
    unread: dict[str, list[Notice]] = {siglum: [] for siglum in faults}
    for transcript in transcripts(edition, sources, faults):
        whole, doubles = without_doubles(transcript)
        kept.append(whole)
        unread[transcript.witness.siglum].extend(doubles)
    for siglum, told in faults.items():
        unread[siglum].extend(Notice("unreadable", f.message, f.place, Severity.ERROR) for f in told)
    words = words_of(edition.words)
    return check(tokenise(kept, settings.normalising, words), unread, edition.silenced, words)


def habits(texts: Sequence[WitnessText]) -> tuple[Profile, ...]:
    """Return the habits of each hand of each witness."""
    return tuple(profile for text in texts for profile in profiles(text))


def compared(first: WitnessText, second: WitnessText) -> tuple[Difference, ...]:
    """Set a second transcription of a witness beside the first."""
    return against(first, second)


def word(forms: Sequence[str], rulings: Source | None) -> WordReport:
    """Read one form or compare two, by the lexicon and an edition's rulings."""
    return report(forms, judge_of(read_words(rulings) if rulings else UserWords()))


def concordance(edition: Edition, texts: Sequence[WitnessText]) -> Concordance:
    """Bring the witnesses' items together by what they say, and by what the editor rules."""
    return concord(texts, edition.base, item_key, edition.matches)


def ordered(edition: Edition, texts: Sequence[WitnessText]) -> Concordance:
    """Return the concordance with the order of each book beside the base's."""
    return with_orders(concordance(edition, texts), texts)


def matches(edition: Edition, texts: Sequence[WitnessText], items: Sequence[str]) -> tuple[Match, ...]:
    """Bring the witnesses' items together; keep only the `items` named, or all if none is.

    An item is named as the edition has it ("12"), or as one witness has it ("A:xij").
    """
    every = concordance(edition, texts)
    wanted = {one.key for item in items for one in [named(every, item, item_key)]}
    return tuple(match for match in every.items if not items or match.key in wanted)


def find(
    edition: Edition, matches: Sequence[Match], settings: Settings, crew: Crew | None = None
) -> Iterator[ItemFindings]:
    """Collate and analyse each item, in order; with `jobs` above 1 in that many processes, or by a crew."""
    return each(edition, matches, _itself, settings, crew)


def each(
    edition: Edition,
    matches: Sequence[Match],
    then: Callable[[ItemFindings], Made],
    settings: Settings,
    crew: Crew | None = None,
) -> Iterator[Made]:
    """Yield what `then` makes of the findings of each item, in order; made where the item is collated.

    So what comes back from another process may be short, such as the page that is wanted.
    """
    sigla = tuple(witness.siglum for witness in edition.witnesses)
    one = partial(
        _find_one, then=then, base=edition.base, sigla=sigla, words=edition.words, settings=settings
    )
    if len(matches) < 2 or (crew is None and settings.jobs == 1):
        yield from map(one, matches)
        return
    with nullcontext(crew) if crew else processes(min(settings.jobs, len(matches))) as held:
        yield from _shared(held, one, matches)


@contextmanager
def processes(jobs: int) -> Iterator[Crew]:
    """Give a crew of so many processes of this machine; they are gone at the end, however it comes."""
    pool = ProcessPoolExecutor(jobs, initializer=_die_quietly)
    try:
        yield Crew(pool, _no_check)
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _die_quietly() -> None:
    """Have a worker end at once, and without a word, when the user stops the run."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Put off the user's stop while workers are started, until they can end quietly."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _no_check() -> None:
    """Find no fault: a pool of processes says by itself that one is lost."""


def _shared(crew: Crew, one: Callable[[Match], Made], matches: Sequence[Match]) -> Iterator[Made]:
    """Have a crew make something of each item, in batches; yield them in order."""
    size = -(-len(matches) // BATCHES)
    with _undisturbed():
        waiting = deque(
            crew.executor.submit(_batch, one, matches[at : at + size]) for at in range(0, len(matches), size)
        )
    try:
        while waiting:
            yield from _result(waiting.popleft(), crew)
    finally:
        for future in waiting:
            future.cancel()


def _batch(one: Callable[[Match], Made], matches: Sequence[Match]) -> list[Made]:
    return [one(match) for match in matches]


def _result(future: Future[list[Made]], crew: Crew) -> list[Made]:
    while True:
        try:
            return future.result(timeout=PATIENCE)
        except BrokenExecutor:
            raise WorkersError(
                "a process that shared the work ended before its time, perhaps for want of memory: try again"
                " with fewer --jobs"
            ) from None
        except TimeoutError:
            if future.done():
                raise
            crew.check()


def findings(
    edition: Edition,
    texts: Sequence[WitnessText],
    items: Sequence[str],
    settings: Settings,
    crew: Crew | None = None,
) -> Findings:
    """Go the whole road for the `items` named, or for all; the items found come one by one."""
    found = find(edition, matches(edition, texts, items), settings, crew)
    return Findings(edition, found, notices(texts))


def notices(texts: Sequence[WitnessText]) -> tuple[Notice, ...]:
    """Return what the reading of the texts has told."""
    return tuple(notice for text in texts for notice in text.notices)


def _itself(found: ItemFindings) -> ItemFindings:
    return found


def _find_one(
    match: Match,
    *,
    then: Callable[[ItemFindings], Made],
    base: str,
    sigla: tuple[str, ...],
    words: UserWords,
    settings: Settings,
) -> Made:
    judge = judge_of(words)
    return then(analyse(collate(match.key, match.texts, judge, settings.aligning), base, sigla, judge))
