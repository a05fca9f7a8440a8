"""`collate synopsis`: the witnesses side by side."""

from collections.abc import Iterator

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import open_edition
from collate.model.findings import Findings
from collate.reports import synopsis_csv, synopsis_html, synopsis_markdown, synopsis_text
from collate.settings import Printing


@click.command("synopsis")
@click.argument("edition", nargs=-1, required=True)
@click.option("--item", "items", multiple=True, metavar="ITEM", help="Only this item (may be repeated).")
@options.width
@options.common("text", "markdown", "csv", "html")
def command(
    edition: tuple[str, ...], items: tuple[str, ...], *, width: int | None, **given: str | int | bool | None
) -> None:
    """Print the witnesses side by side, their words in columns.

    EDITION is an edition folder, after which items may be named, or two or more transcriptions.
    """
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    paths, named = options.split_items(edition)
    opened = open_edition(paths, common)
    found = pipeline.findings(opened.edition, opened.texts, (*named, *items), opened.settings)
    echo.notices(found.notices, quiet=common.quiet)
    layout = options.printing(common.output, width=width)
    styled = layout.colour and common.format == "text"
    echo.put(_report(found, common.format, layout, stated=width is not None), common.output, styled=styled)


def _report(found: Findings, form: str, layout: Printing, *, stated: bool) -> Iterator[str]:
    if form == "markdown":
        return synopsis_markdown.markdown(found, layout)
    if form == "csv":
        return synopsis_csv.csv(found)
    if form == "html":
        return synopsis_html.page(found, layout if stated else None)
    return synopsis_text.text(found, layout)
