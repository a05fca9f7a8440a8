"""From EDITION on the command line to the words of its witnesses."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from collate import pipeline
from collate.cli import options
from collate.model.edition import Edition
from collate.model.witness import WitnessText
from collate.settings import Settings


@dataclass(frozen=True, slots=True)
class Opened:
    """An edition, its witnesses cut into words, and the settings that hold for both."""

    edition: Edition
    texts: tuple[WitnessText, ...]
    settings: Settings


def open_edition(paths: Sequence[str], given: options.Common, *, least: int = 2) -> Opened:
    """Read all that EDITION names; at least `least` witnesses are wanted."""
    told_by, names = options.inputs(paths)
    stated = pipeline.edition(told_by) if told_by else pipeline.edition_of_files(names)
    edition = pipeline.choose(stated, given.sigla, given.base, least)
    settings = replace(Settings(), normalising=pipeline.normalising(edition), jobs=given.jobs)
    sources = options.sources(edition, told_by, names)
    return Opened(edition, pipeline.texts(edition, sources, settings), settings)
