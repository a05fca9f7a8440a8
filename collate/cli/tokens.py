"""`collate tokens`: each word as written, expanded, normalised; or each scribe's habits."""

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import open_edition
from collate.reports import json, profile, text


@click.command("tokens")
@click.argument("edition", nargs=-1, required=True)
@click.option("--profile", "habits", is_flag=True, help="Show each scribe's habits on a page instead.")
@options.common("text", "json")
def command(edition: tuple[str, ...], *, habits: bool, **given: str | int | bool | None) -> None:
    """Show each word as written, expanded and normalised, with its place."""
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    opened = open_edition(edition, common, least=1)
    echo.notices(pipeline.notices(opened.texts), quiet=common.quiet)
    layout = options.printing(common.output)
    if habits:
        found = pipeline.habits(opened.texts)
        echo.put(profile.json(found) if common.format == "json" else profile.text(found), common.output)
    elif common.format == "json":
        echo.put(json.tokens(opened.texts), common.output)
    else:
        echo.put(text.tokens(opened.texts, layout), common.output, styled=layout.colour)
