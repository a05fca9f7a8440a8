"""`collate graph`: the variant graph of an item."""

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import open_edition
from collate.errors import UsageError
from collate.reports.dot import dot
from collate.reports.graph_svg import svg
from collate.reports.graphml import graphml

_FORMS = {"graphml": graphml, "dot": dot, "svg": svg}


@click.command("graph")
@click.argument("edition", nargs=-1, required=True)
@click.option("--item", metavar="ITEM", help="The item; needed where transcriptions are named.")
@click.option("--spelling", is_flag=True, help="Keep the spellings of one word apart.")
@click.option(
    "--points/--no-points", default=None, help="Punctuation as readings; in GraphML and DOT by default."
)
@options.common("graphml", "dot", "svg")
def command(
    edition: tuple[str, ...],
    item: str | None,
    *,
    spelling: bool,
    points: bool | None,
    **given: str | int | bool | None,
) -> None:
    """Print the variant graph of one item.

    EDITION is an edition folder, after which the item is named, or two or more transcriptions.
    """
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    paths, named = options.split_items(edition)
    opened = open_edition(paths, common)
    items = (*named, *((item,) if item else ()))
    every = pipeline.matches(opened.edition, opened.texts, items)
    if len(every) != 1:
        keys = ", ".join(match.key for match in every)
        raise UsageError(f"a graph shows one item: name one of {keys}")
    (found,) = pipeline.find(opened.edition, every, opened.settings)
    drawn = pipeline.graph(
        opened.edition,
        found,
        spelling=spelling,
        points=common.format != "svg" if points is None else points,
    )
    base = found.collation.items[found.collation.sigla.index(found.base)]
    name = f"{opened.edition.title}: {found.collation.key} {base.heading}".rstrip()
    echo.notices(
        pipeline.notices(opened.texts),
        quiet=common.quiet,
    )
    echo.put(_FORMS[common.format](drawn, name), common.output)
