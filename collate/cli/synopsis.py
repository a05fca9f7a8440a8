"""`collate synopsis`: the witnesses side by side."""

from collections.abc import Callable, Iterator
from functools import partial

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import made, open_edition
from collate.model.edition import Edition
from collate.model.findings import ItemFindings
from collate.model.witness import ItemKind
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
    matches = pipeline.matches(opened.edition, opened.texts, (*named, *items))
    echo.notices(pipeline.notices(opened.texts), quiet=common.quiet)
    layout = options.printing(common.output, width=width)
    styled = layout.colour and common.format == "text"
    road = partial(made, opened, matches, given=common)
    if common.format == "html":
        page = partial(synopsis_html.item, printing=layout if width is not None else None)
        recipes = any(match.kind is ItemKind.RECIPE for match in matches)
        written = synopsis_html.assembled(opened.edition, road(page), recipes=recipes)
    else:
        written = _read(opened.edition, road, common.format, layout)
    echo.put(written, common.output, styled=styled)


def _read(
    edition: Edition,
    road: Callable[[Callable[[ItemFindings], str]], Iterator[str]],
    form: str,
    layout: Printing,
) -> Iterator[str]:
    if form == "markdown":
        return synopsis_markdown.assembled(edition, road(partial(synopsis_markdown.item, printing=layout)))
    if form == "csv":
        return synopsis_csv.assembled(edition, road(partial(synopsis_csv.item, edition=edition)))
    pages = road(partial(synopsis_text.item, printing=layout))
    return synopsis_text.assembled(edition, pages, layout)
