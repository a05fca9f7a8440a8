"""`collate apparatus`: the critical apparatus."""

from functools import partial

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import made, open_edition
from collate.cli.scheduler import crew
from collate.reports import json, text


@click.command("apparatus")
@click.argument("edition", nargs=-1, required=True)
@click.option("--item", "items", multiple=True, metavar="ITEM", help="Only this item (may be repeated).")
@click.option("--positive", is_flag=True, help="Name the witnesses of the lemma too.")
@click.option(
    "--accidentals/--no-accidentals", default=True, show_default=True, help="List spellings as well."
)
@options.common("text", "json")
def command(
    edition: tuple[str, ...],
    items: tuple[str, ...],
    *,
    positive: bool,
    accidentals: bool,
    **given: str | int | bool | None,
) -> None:
    """Print the critical apparatus of an edition.

    EDITION is an edition folder, after which items may be named, or two or more transcriptions.
    """
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    paths, named = options.split_items(edition)
    with crew(common.scheduler) as held:
        opened = open_edition(paths, common)
        told = pipeline.notices(opened.texts)
        echo.notices(told, quiet=common.quiet)
        if common.format == "json":
            written = made(opened, (*named, *items), json.item, common, held)
            echo.put(json.assembled(opened.edition, written, told), common.output)
            return
        layout = options.printing(common.output, positive=positive, accidentals=accidentals)
        page = partial(text.item, edition=opened.edition, printing=layout)
        written = made(opened, (*named, *items), page, common, held)
        echo.put(text.assembled(opened.edition, written, layout), common.output, styled=layout.colour)
