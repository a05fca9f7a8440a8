"""`collate apparatus`: the critical apparatus."""

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import open_edition
from collate.reports import json, latex, markdown, table_of_variants, text


@click.command("apparatus")
@click.argument("edition", nargs=-1, required=True)
@click.option("--item", "items", multiple=True, metavar="ITEM", help="Only this item (may be repeated).")
@click.option("--positive", is_flag=True, help="Name the witnesses of the lemma too.")
@click.option(
    "--accidentals/--no-accidentals", default=True, show_default=True, help="List spellings as well."
)
@options.width
@options.common("text", "json", "markdown", "csv", "tei", "latex")
def command(
    edition: tuple[str, ...],
    items: tuple[str, ...],
    *,
    positive: bool,
    accidentals: bool,
    width: int | None,
    **given: str | int | bool | None,
) -> None:
    """Print the critical apparatus of an edition.

    EDITION is an edition folder, after which items may be named, or two or more transcriptions.
    """
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    paths, named = options.split_items(edition)
    opened = open_edition(paths, common)
    found = pipeline.findings(opened.edition, opened.texts, (*named, *items), opened.settings)
    echo.notices(found.notices, quiet=common.quiet)
    if common.format == "json":
        echo.put(json.apparatus(found), common.output)
        return
    if common.format == "tei":
        from collate.reports.tei import tei  # not every run needs lxml

        echo.put(tei(found), common.output)
        return
    layout = options.printing(common.output, positive=positive, accidentals=accidentals, width=width)
    if common.format == "latex":
        echo.put(latex.latex(found, layout), common.output)
    elif common.format == "markdown":
        echo.put(markdown.apparatus(found, layout), common.output)
    elif common.format == "csv":
        echo.put(table_of_variants.csv(found, accidentals=accidentals), common.output)
    else:
        echo.put(text.apparatus(found, layout), common.output, styled=layout.colour)
