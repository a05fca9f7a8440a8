"""`collate word`: how a spelling is read, and how two relate."""

import click

from collate import files, pipeline
from collate.cli import echo
from collate.errors import UsageError
from collate.reports import word


@click.command("word")
@click.argument("forms", nargs=-1, required=True, metavar="FORM [FORM]")
@click.option("--edition", "folder", metavar="FOLDER", help="Hear this edition's words.tsv too.")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option("-o", "--output", metavar="FILE", help="Write to FILE instead of the terminal.")
def command(forms: tuple[str, ...], folder: str | None, form: str, output: str | None) -> None:
    """Say how a spelling is read or, of two, how they relate and on what ground."""
    if len(forms) > 2 or not all(each.strip() for each in forms):
        raise UsageError("name one spelling, or two to compare")
    rulings = files.load_words(folder) if folder is not None else None
    report = pipeline.word([each.strip() for each in forms], rulings)
    echo.put(word.json(report) if form == "json" else word.text(report), output)
