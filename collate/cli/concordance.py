"""`collate concordance`: which item of each witness answers to which."""

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import open_edition
from collate.reports import concordance, concordance_data, order_chart


@click.command("concordance")
@click.argument("edition", nargs=-1, required=True)
@options.common("text", "markdown", "csv", "json", "svg")
def command(edition: tuple[str, ...], **given: str | int | bool | None) -> None:
    """Show which item of each witness answers to which, and how the order of each book differs.

    Items are matched by what they say, never by number alone. svg is the order chart on one page.
    """
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    opened = open_edition(edition, common)
    echo.notices(pipeline.notices(opened.texts), quiet=common.quiet)
    found = pipeline.ordered(opened.edition, opened.texts)
    title = opened.edition.title
    if common.format == "json":
        pieces = concordance_data.json(found)
    elif common.format == "csv":
        pieces = concordance_data.table(found)
    elif common.format == "svg":
        pieces = order_chart.svg(found, title)
    elif common.format == "markdown":
        pieces = concordance.markdown(found, title)
    else:
        pieces = concordance.text(found, title, options.printing(common.output))
    echo.put(pieces, common.output)
