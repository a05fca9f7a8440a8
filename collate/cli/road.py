"""From EDITION on the command line to the words of its witnesses."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from collate import files, pipeline
from collate.cli import echo, options
from collate.model.concordance import Match
from collate.model.edition import Edition
from collate.model.evidence import Evidence
from collate.model.findings import ItemFindings
from collate.model.source import Source
from collate.model.witness import WitnessText
from collate.settings import Settings
from collate.workers import Crew, fitting

Made = TypeVar("Made")


@dataclass(frozen=True, slots=True)
class Opened:
    """An edition, its witnesses cut into words, and the settings that hold for both."""

    edition: Edition
    texts: tuple[WitnessText, ...]
    settings: Settings


@dataclass(frozen=True, slots=True)
class Loaded:
    """An edition and the sources of all its witnesses; `chosen` is the edition with those asked for."""

    edition: Edition
    chosen: Edition
    sources: tuple[Source, ...]
    settings: Settings


def load_edition(paths: Sequence[str], given: options.Common, *, least: int = 2) -> Loaded:
    """Load all that EDITION names; at least `least` witnesses are wanted.

    All witnesses are loaded, even where only some are asked for: an abbreviation in one is written out
    as the others spell the word.
    """
    told_by, names = options.inputs(paths)
    stated = pipeline.edition(told_by) if told_by else pipeline.edition_of_files(names)
    words = files.load_words(names[0]) if told_by else None
    stated = pipeline.with_words(stated, words) if words else stated
    sources = options.sources(stated, told_by, names)
    stated, sources = pipeline.opened(stated, sources)
    chosen = pipeline.choose(stated, given.sigla, given.base, least)
    settings = replace(Settings(), normalising=pipeline.normalising(stated), jobs=given.jobs or 1)
    return Loaded(stated, chosen, sources, settings)


def open_edition(
    paths: Sequence[str], given: options.Common, *, least: int = 2, crew: Crew | None = None
) -> Opened:
    """Read all that EDITION names; at least `least` witnesses are wanted."""
    loaded = load_edition(paths, given, least=least)
    edition, texts = pipeline.texts(loaded.edition, loaded.sources, loaded.settings)
    kept = {witness.siglum for witness in loaded.chosen.witnesses}
    witnesses = tuple(witness for witness in edition.witnesses if witness.siglum in kept)
    chosen = replace(loaded.chosen, witnesses=witnesses)
    ours = tuple(text for text in texts if text.siglum in kept)
    settings = loaded.settings
    if given.jobs is None:
        words = sum(len(item.tokens) for text in ours for item in text.items)
        settings = replace(settings, jobs=fitting(words))
    if given.base == pipeline.MAJORITY and given.base not in kept and len(ours) > 1:
        chosen = pipeline.by_majority(chosen, ours, settings, crew)
    return Opened(chosen, ours, settings)


def made(
    opened: Opened,
    matches: Sequence[Match],
    then: Callable[[ItemFindings], Made],
    given: options.Common,
    crew: Crew | None = None,
    evidence: tuple[Evidence, ...] = (),
) -> Iterator[Made]:
    """Yield what `then` makes of each item, where it is collated; with the progress on a terminal."""
    written = pipeline.each(opened.edition, matches, then, opened.settings, crew, evidence)
    shown = not given.quiet and echo.shows_progress(given.output)
    return echo.counted(written, len(matches)) if shown else written
