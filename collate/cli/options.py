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
    """The common options as given; those a command does not take stand at their defaults."""

    format: str
    output: str | None = None
    base: str | None = None
    witnesses: str | None = None
    jobs: int | None = None
    scheduler: str | None = None
    quiet: bool = False

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


def _options(formats: Sequence[str]) -> Sequence[Callable[[Command], Command]]:
    choice, jobs = click.Choice(formats), click.IntRange(1, 256)
    return [
        click.option("--format", type=choice, default=formats[0], show_default=True, help="How to write it."),
        click.option("-o", "--output", metavar="FILE", help="Write to FILE instead of the terminal."),
        click.option("--witnesses", metavar="A,B,D", help="Only these witnesses."),
        click.option("--quiet", is_flag=True, help="No notices and no progress."),
        click.option(
            "--base",
            metavar="SIGLUM",
            help="The witness whose words are the lemmas, or `majority`: the one that reads most often"
            " with most.",
        ),
        click.option(
            "--jobs", type=jobs, help="Processes to share the items  [default: all, for a long text]."
        ),
        click.option("--scheduler", metavar="ADDRESS", help="A Dask scheduler to share the items."),
    ]


def width(command: Command) -> Command:
    """Give a command the option --width."""
    return click.option(
        "--width",
        type=click.IntRange(20, 1000),
        metavar="N",
        help="Characters in a line; the terminal's width, else 80, if left out.",
    )(command)


def split_items(arguments: Sequence[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Tell EDITION from the items named after it: after a folder, everything else is an item."""
    if len(arguments) > 1 and files.is_folder(arguments[0]):
        return (arguments[0],), tuple(arguments[1:])
    return tuple(arguments), ()


def inputs(paths: Sequence[str]) -> tuple[Source | None, tuple[str, ...]]:
    """Tell an edition folder from transcription files.

    Returns the folder's edition.toml and (folder,), or None and the paths of the files.
    """
    for path in paths:
        if (folder := files.edition_of(path)) is not None:
            raise UsageError(
                f"{path!r} is no transcription but belongs to an edition: name its folder, {folder!r}"
            )
        files.require(path)
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
    return tuple(files.load_within(paths[0], w.file, w.told or place) for w in edition.witnesses)


def printing(
    output: str | None, *, positive: bool = False, accidentals: bool = True, width: int | None = None
) -> Printing:
    """Return the layout for where the result goes: the terminal's width and colour, else 80 and none.

    A `width` that is asked for goes before both.
    """
    columns = os.environ.get("COLUMNS", "")
    wide = int(columns) if columns.isdecimal() and int(columns) >= 40 else 80
    colour = False
    if output is None and sys.stdout.isatty():
        wide, colour = max(40, min(shutil.get_terminal_size().columns, 120)), is_terminal()
    return Printing(width=width or wide, colour=colour, positive=positive, accidentals=accidentals)
