"""The options that commands share, and how EDITION becomes an edition and its sources."""

import os
import shutil
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import click

from collate import files
from collate.cli.echo import is_terminal
from collate.errors import UsageError
from collate.model.edition import Edition
from collate.model.source import Place, Source
from collate.settings import Printing

Command = Callable[..., int | None]


@dataclass(frozen=True, slots=True)
class Common:
    """The common options as given."""

    format: str
    output: str | None
    base: str | None
    witnesses: str | None
    jobs: int
    quiet: bool

    @property
    def sigla(self) -> tuple[str, ...] | None:
        """The sigla of --witnesses, or None for all."""
        if self.witnesses is None:
            return None
        return tuple(siglum.strip() for siglum in self.witnesses.split(",") if siglum.strip())


def common(*formats: str) -> Callable[[Command], Command]:
    """Give a command the common options; the first of `formats` is the default."""

    def decorate(command: Command) -> Command:
        for option in reversed(_options(formats)):
            command = option(command)
        return command

    return decorate


def _options(formats: Sequence[str]) -> list[Callable[[Command], Command]]:
    return [
        click.option("--format", type=click.Choice(formats), default=formats[0], show_default=True,
                     help="What the result is written as."),
        click.option("-o", "--output", metavar="FILE", help="Write to FILE instead of the terminal."),
        click.option("--base", metavar="SIGLUM", help="The witness whose words are the lemmas."),
        click.option("--witnesses", metavar="A,B,D", help="Only these witnesses."),
        click.option("--jobs", type=click.IntRange(1, 256), default=1, show_default=True,
                     help="How many processes share the items."),
        click.option("--quiet", is_flag=True, help="No notices and no progress."),
    ]  # fmt: skip


def split_items(arguments: Sequence[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Tell EDITION from the items named after it: after a folder, everything else is an item."""
    if len(arguments) > 1 and files.is_folder(arguments[0]):
        return (arguments[0],), tuple(arguments[1:])
    return tuple(arguments), ()


def inputs(paths: Sequence[str]) -> tuple[Source | None, tuple[str, ...]]:
    """Tell an edition folder from transcription files.

    Returns the folder's edition.toml and (folder,), or None and the paths of the files.
    """
    folders = [path for path in paths if files.is_folder(path)]
    if not folders:
        return None, tuple(paths)
    if len(paths) > 1:
        raise UsageError(
            f"{folders[0]!r} is a folder: name one edition folder alone, or two or more transcription files"
        )
    return files.load_edition(folders[0]), (folders[0],)


def sources(edition: Edition, told_by: Source | None, paths: Sequence[str]) -> tuple[Source, ...]:
    """Load the transcriptions of an edition's witnesses, in its order."""
    if told_by is None:
        return tuple(files.load(witness.file) for witness in edition.witnesses)
    place = Place(told_by.name)
    return tuple(files.load_within(paths[0], witness.file, place) for witness in edition.witnesses)


def printing(output: str | None, *, positive: bool = False, accidentals: bool = True) -> Printing:
    """Return the layout for where the result goes: the terminal's width and colour, else 80 and none."""
    columns = os.environ.get("COLUMNS", "")
    width = int(columns) if columns.isdecimal() and int(columns) >= 40 else 80
    colour = False
    if output is None and sys.stdout.isatty():
        width, colour = max(40, min(shutil.get_terminal_size().columns, 120)), is_terminal()
    return Printing(width=width, colour=colour, positive=positive, accidentals=accidentals)
