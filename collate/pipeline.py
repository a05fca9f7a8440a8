"""The whole road, from sources to findings, leavable at each stage; a stage is loaded when it is come to."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import PurePath
from typing import TYPE_CHECKING, TypeVar

from collate.errors import InputError, UsageError
from collate.lexicon.dates import SCHEMES, read_date
from collate.lexicon.edtf import read_edtf
from collate.lexicon.items import item_key
from collate.lexicon.overlay import judge_of, words_of
from collate.lexicon.signs import names_a_sign
from collate.lexicon.spelling import rule_names
from collate.lexicon.tables import typed_keys
from collate.lexicon.words import is_headword, key_of
from collate.model.concordance import Concordance, Match
from collate.model.edition import Edition, Witness
from collate.model.evidence import Dating, Evidence
from collate.model.findings import Findings, ItemFindings
from collate.model.notice import Checked, Difference, Notice, Severity
from collate.model.profile import Profile
from collate.model.reading import WordReport
from collate.model.source import Place, Source
from collate.model.transcript import Transcript
from collate.model.witness import Item, ItemKind, WitnessText, has_gap
from collate.model.words import UserWords
from collate.readers.kinds import is_tei
from collate.readers.plain import read
from collate.settings import Normalising, Settings
from collate.tokens.tokenise import tokenise, without_doubles
from collate.workers import Crew, shared

if TYPE_CHECKING:
    from collate.align.graph import Graph

Made = TypeVar("Made")

MAJORITY = "majority"
"""The name that stands for a base to be found, where no witness has it as its siglum."""


def edition(source: Source) -> Edition:
    """Read an edition.toml; what it says of rules and signs is held against the tables."""
    from collate.readers.edition import read_edition

    return read_edition(source, read_date, read_edtf, SCHEMES, rule_names(), names_a_sign)


def edition_of_files(paths: Sequence[str]) -> Edition:
    """Return the edition that transcription files make: sigla are the files' stems, in sorted order.

    A blank in a stem becomes a low line: blanks divide sigla in print.
    """
    seen: dict[str, str] = {}
    for path in paths:
        stem = "_".join(PurePath(path).stem.split())
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
    return replace(edition, words=_rulings(source))


def _rulings(source: Source) -> UserWords:
    from collate.readers.words import read_words

    return read_words(source, key_of, is_headword)


def choose(edition: Edition, sigla: Sequence[str] | None, base: str | None, least: int) -> Edition:
    """Return the edition with only the witnesses named, and another base if one is asked for.

    The base MAJORITY leaves it as it is. Raises UsageError for an unknown siglum, or fewer witnesses
    than `least`.
    """
    known = [witness.siglum for witness in edition.witnesses]
    base = None if base == MAJORITY and MAJORITY not in known else base
    for siglum in (*(sigla or ()), *(() if base is None else (base,))):
        if siglum not in known:
            raise UsageError(f"there is no witness {siglum!r}: the sigla are {', '.join(known)}")
    kept = [siglum for siglum in known if sigla is None or siglum in sigla]
    if len(kept) < least:
        raise UsageError("a collation needs two witnesses or more: name another transcription")
    if base and base not in kept:
        raise UsageError(f"the base {base!r} is not among the witnesses chosen: {', '.join(kept)}")
    ours = base or (edition.base if edition.base in kept else kept[0])
    return replace(edition, base=ours, witnesses=tuple(w for w in edition.witnesses if w.siglum in kept))


def by_majority(
    edition: Edition, texts: Sequence[WitnessText], settings: Settings, crew: Crew | None = None
) -> Edition:
    """Return the edition on the witness that reads most often with most witnesses, over all its items."""
    from collate.analysis.majority import most_agreed
    from collate.batch import agreed_in, sizes

    sigla = tuple(witness.siglum for witness in edition.witnesses)
    some = partial(agreed_in, words=edition.words, settings=settings)
    found = matches(edition, texts, ())
    best = most_agreed(shared(some, found, sizes(found), settings.jobs, crew), sigla)
    reason = f"it reads with most witnesses at {best.agreed} of {best.places} places, and none does oftener"
    return replace(edition, base=best.siglum, base_reason=reason)


def normalising(edition: Edition) -> Normalising:
    """Return the spelling rules an edition switches."""
    return Normalising(frozenset(edition.rules_on), frozenset(edition.rules_off))


def opened(edition: Edition, sources: Sequence[Source]) -> tuple[Edition, tuple[Source, ...]]:
    """Open a single TEI file that holds several witnesses: one witness and the same source for each.

    The file says the title, and which is the base. Everything else comes back as it is.
    """
    if len(sources) != 1 or not is_tei(sources[0]):
        return edition, tuple(sources)
    from collate.readers.tei import several

    return several(edition, sources[0])


def transcripts(
    edition: Edition, sources: Sequence[Source], faults: Mapping[str, list[InputError]] | None = None
) -> tuple[Transcript, ...]:
    """Read the transcriptions of an edition's witnesses, given in its order.

    With lists of `faults` by siglum, what cannot be read goes to them, and the rest is read.
    """
    if len({source.name for source in sources}) < len(sources):
        from collate.readers.tei import has_apparatus, read_tei_witnesses

        if has_apparatus(sources[0]):
            return read_tei_witnesses(sources[0])
    found = []
    for source, witness in zip(sources, edition.witnesses, strict=True):
        told = None if faults is None else faults[witness.siglum]
        try:
            found.append(_transcript(source, witness, told))
        except InputError as fault:
            if told is None:
                raise
            told.append(fault)
    return tuple(found)


def _transcript(source: Source, witness: Witness, told: list[InputError] | None) -> Transcript:
    if not is_tei(source):
        return read(source, witness, typed_keys(), told)
    from collate.readers.tei import read_tei

    return read_tei(source, witness)


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
    from collate.analysis.check import check

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
    from collate.analysis.profile import profiles

    return tuple(profile for text in texts for profile in profiles(text))


def compared(first: WitnessText, second: WitnessText) -> tuple[Difference, ...]:
    """Set a second transcription of a witness beside the first."""
    from collate.analysis.against import against

    return against(first, second)


def word(forms: Sequence[str], rulings: Source | None) -> WordReport:
    """Read one form or compare two, by the lexicon and an edition's rulings."""
    from collate.analysis.words import report

    return report(forms, judge_of(_rulings(rulings) if rulings else UserWords()))


def concordance(edition: Edition, texts: Sequence[WitnessText]) -> Concordance:
    """Bring the witnesses' items together by what they say, and by what the editor rules."""
    from collate.align.concord import concord

    return concord(texts, edition.base, item_key, edition.matches, judge_of(edition.words))


def ordered(edition: Edition, texts: Sequence[WitnessText]) -> Concordance:
    """Return the concordance with the order of each book beside the base's."""
    from collate.align.sequence import with_orders

    return with_orders(concordance(edition, texts), texts)


def matches(edition: Edition, texts: Sequence[WitnessText], items: Sequence[str]) -> tuple[Match, ...]:
    """Bring the witnesses' items together; keep only the `items` named, or all if none is.

    An item is named as the edition has it ("12"), or as one witness has it ("A:xij").
    """
    from collate.align.named import named

    every = concordance(edition, texts)
    wanted = {one.key for item in items for one in [named(every, item, item_key)]}
    books = {text.siglum: text.items for text in texts}
    return tuple(_torn(match, books) for match in every.items if not items or match.key in wanted)


def _torn(match: Match, books: Mapping[str, Sequence[Item]]) -> Match:
    """Return a match whose members say whether their beginning or end may be lost.

    Where the item before ends in a gap, the beginning of one without a heading may be lost with it; where
    the item after begins with a gap, so may the end.
    """
    members = []
    for member in match.members:
        book, at, stop = books[member.siglum], member.places[0], member.places[-1] + 1
        before = book[at - 1].tokens[-1:] if at and not book[at].heading_tokens else ()
        after = book[stop].tokens[:1] if stop < len(book) and not book[stop].heading_tokens else ()
        first = has_gap(before)
        last = has_gap(after)
        members.append(replace(member, torn_before=first, torn_after=last))
    return replace(match, members=tuple(members))


def find(
    edition: Edition,
    matches: Sequence[Match],
    settings: Settings,
    crew: Crew | None = None,
    evidence: tuple[Evidence, ...] = (),
) -> Iterator[ItemFindings]:
    """Collate and analyse each item, in order; with `jobs` above 1 in that many processes, or by a crew."""
    return each(edition, matches, _itself, settings, crew, evidence)


def each(
    edition: Edition,
    matches: Sequence[Match],
    then: Callable[[ItemFindings], Made],
    settings: Settings,
    crew: Crew | None = None,
    evidence: tuple[Evidence, ...] = (),
) -> Iterator[Made]:
    """Yield what `then` makes of the findings of each item, in order; made where the item is collated.

    So what comes back from another process may be short, such as the page that is wanted. With `evidence`
    the places that bear on date are marked.
    """
    from collate.batch import found_in, sizes

    sigla = tuple(witness.siglum for witness in edition.witnesses)
    some = partial(
        found_in,
        then=then,
        base=edition.base,
        sigla=sigla,
        words=edition.words,
        settings=settings,
        evidence=evidence,
    )
    return shared(some, matches, sizes(matches), settings.jobs, crew)


def findings(
    edition: Edition, texts: Sequence[WitnessText], items: Sequence[str], settings: Settings
) -> Findings:
    """Go the whole road for the `items` named, or for all; the items found come one by one."""
    found = find(edition, matches(edition, texts, items), settings)
    return Findings(edition, found, notices(texts))


def notices(texts: Sequence[WitnessText]) -> tuple[Notice, ...]:
    """Return what the reading of the texts has told."""
    return tuple(notice for text in texts for notice in text.notices)


def _itself(found: ItemFindings) -> ItemFindings:
    return found


def graph(edition: Edition, found: ItemFindings, *, spelling: bool, points: bool) -> "Graph":
    """Return the variant graph of an item; with `spelling`, spellings of one word are kept apart."""
    from collate.align.graph import same_letters, same_words, variant_graph  # networkx is slow to load

    alike = same_letters if spelling else same_words(judge_of(edition.words))
    return variant_graph(found.collation, alike, points=points)


def dating(edition: Edition, texts: Sequence[WitnessText], settings: Settings) -> Dating:
    """Find all that bears on date in each witness, and where the prefaces differ in it."""
    from collate.analysis.dating import date, front_items  # not every run needs what bears on date

    front = {item_key(label) for label in front_items(texts)}
    wanted = [match for match in matches(edition, texts, ()) if match.key in front]
    return date(
        edition, texts, find(edition, wanted, settings), judge_of(edition.words), words_of(edition.words)
    )


def front_evidence(
    edition: Edition, texts: Sequence[WitnessText], matches: Sequence[Match]
) -> tuple[Evidence, ...]:
    """Return what bears on date in the prefaces, colophons and the like among some items: in no recipe."""
    found = [
        (member.siglum, replace(member.item, kind=match.kind))
        for match in matches
        for member in match.members
        if match.kind is not ItemKind.RECIPE
    ]
    front = tuple(
        replace(text, items=tuple(item for siglum, item in found if siglum == text.siglum)) for text in texts
    )
    return evidence(edition, front) if found else ()


def evidence(edition: Edition, texts: Sequence[WitnessText]) -> tuple[Evidence, ...]:
    """Return what bears on date in every witness, in the order of the witnesses and of their text."""
    from collate.analysis.gather import gather  # not every run needs what bears on date
    from collate.lexicon.lives import lives_of

    lives, lexicon = lives_of(edition.persons), words_of(edition.words)
    return tuple(found for text in texts for found in gather(text, lives, lexicon))
