"""`collate new`: begin an edition folder."""

import click

from collate import files
from collate.cli.echo import harmless


@click.command("new")
@click.argument("folder")
def command(folder: str) -> None:
    """Begin an edition folder with a commented example. Nothing is ever overwritten."""
    contents = files.starter()
    files.begin(folder, contents)
    name = harmless(folder)
    click.echo(f"{name} holds {', '.join(contents)}.")
    click.echo(f"Now: collate apparatus {name}")
