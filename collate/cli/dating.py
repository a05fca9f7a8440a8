"""`collate dating`: what bears on date, witness by witness."""

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import open_edition
from collate.reports import dating_json, dating_markdown, dating_svg, dating_text


@click.command("dating")
@click.argument("edition", nargs=-1, required=True)
@options.common("text", "markdown", "json", "svg")
def command(edition: tuple[str, ...], **given: str | int | bool | None) -> None:
    """Show what bears on date: a dossier for each witness, the prefaces side by side, and a timeline.

    EDITION is an edition folder, or two or more transcriptions.
    """
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    opened = open_edition(edition, common)
    echo.notices(pipeline.notices(opened.texts), quiet=common.quiet)
    found = pipeline.dating(opened.edition, opened.texts, opened.settings)
    if common.format == "json":
        echo.put(dating_json.dating(found), common.output)
    elif common.format == "markdown":
        echo.put(dating_markdown.dating(found), common.output)
    elif common.format == "svg":
        echo.put(dating_svg.dating(found), common.output)
    else:
        layout = options.printing(common.output)
        echo.put(dating_text.dating(found, layout), common.output, styled=layout.colour)
