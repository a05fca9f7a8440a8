"""`collate apparatus`: the critical apparatus."""

from collections.abc import Iterator
from functools import partial

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import made, open_edition
from collate.cli.scheduler import crew
from collate.errors import UsageError
from collate.model.findings import Findings
from collate.settings import Attachment, Printing


@click.command("apparatus")
@click.argument("edition", nargs=-1, required=True)
@click.option("--item", "items", multiple=True, metavar="ITEM", help="Only this item (may be repeated).")
@click.option("--positive", is_flag=True, help="Name the witnesses of the lemma too.")
@click.option(
    "--accidentals/--no-accidentals", default=True, show_default=True, help="List spellings as well."
)
@click.option(
    "--attach",
    type=click.Choice([str(each) for each in Attachment]),
    help="With --format tei: where the entries stand, in the text or apart from it  [default: inline].",
)
@options.width
@options.common("text", "json", "markdown", "csv", "tei", "latex")
def command(
    edition: tuple[str, ...],
    items: tuple[str, ...],
    *,
    positive: bool,
    accidentals: bool,
    attach: str | None,
    width: int | None,
    **given: str | int | bool | None,
) -> None:
    """Print the critical apparatus of an edition.

    EDITION is an edition folder, after which items may be named, or two or more transcriptions.
    """
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    if attach is not None and common.format != "tei":
        raise UsageError("--attach is for TEI only: give --format tei with it, or leave it out")
    paths, named = options.split_items(edition)
    with crew(common.scheduler) as held:
        opened = open_edition(paths, common, crew=held)
        told = pipeline.notices(opened.texts)
        echo.notices(told, quiet=common.quiet)
        wanted = (*named, *items)
        printed = common.format in ("text", "markdown")
        evidence = pipeline.front_evidence(opened.edition, opened.texts) if printed else ()
        layout = options.printing(common.output, positive=positive, accidentals=accidentals, width=width)
        if common.format == "json":
            from collate.reports import json  # each run needs but one kind of report

            written = made(opened, wanted, json.item, common, held)
            echo.put(json.assembled(opened.edition, written, told), common.output)
        elif common.format == "text":
            from collate.reports import text

            page = partial(text.item, edition=opened.edition, printing=layout)
            written = made(opened, wanted, page, common, held, evidence)
            echo.put(text.assembled(opened.edition, written, layout), common.output, styled=layout.colour)
        else:
            found = pipeline.findings(opened.edition, opened.texts, wanted, opened.settings, held, evidence)
            attachment = Attachment(attach or Attachment.INLINE)
            echo.put(_report(found, common.format, layout, attachment), common.output)


def _report(found: Findings, form: str, layout: Printing, attachment: Attachment) -> Iterator[str]:
    """Write findings in a form for which all items are needed together."""
    if form == "tei":
        from collate.reports.tei import tei  # not every run needs lxml

        return tei(found, attachment)
    if form == "latex":
        from collate.reports.latex import latex

        return latex(found, layout)
    if form == "markdown":
        from collate.reports import markdown

        return markdown.apparatus(found, layout)
    from collate.reports import table_of_variants

    return table_of_variants.csv(found, accidentals=layout.accidentals)
