"""`collate apparatus`: the critical apparatus."""

from collections.abc import Iterator, Sequence
from functools import partial

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import Opened, made, open_edition
from collate.cli.scheduler import crew
from collate.errors import UsageError
from collate.model.findings import Findings
from collate.settings import Attachment, Printing
from collate.workers import Crew


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
        echo.notices(pipeline.notices(opened.texts), quiet=common.quiet)
        layout = options.printing(common.output, positive=positive, accidentals=accidentals, width=width)
        written = _written(
            opened, (*named, *items), common, layout, Attachment(attach or Attachment.INLINE), held
        )
        echo.put(written, common.output, styled=common.format == "text" and layout.colour)


def _written(
    opened: Opened,
    wanted: Sequence[str],
    common: options.Common,
    layout: Printing,
    attachment: Attachment,
    held: Crew | None,
) -> Iterator[str]:
    """Write the apparatus, item by item where the form allows; a run loads but the one report it needs."""
    if common.format == "json":
        from collate.reports import json

        written = made(opened, wanted, json.item, common, held)
        return json.assembled(opened.edition, written, pipeline.notices(opened.texts))
    if common.format == "csv":
        from collate.reports import table_of_variants

        row = partial(table_of_variants.item, accidentals=layout.accidentals)
        matches = pipeline.matches(opened.edition, opened.texts, wanted)
        rows = pipeline.each(opened.edition, matches, row, opened.settings, held)
        return table_of_variants.assembled(rows)
    printed = common.format in ("text", "markdown")
    evidence = pipeline.front_evidence(opened.edition, opened.texts) if printed else ()
    if common.format == "text":
        from collate.reports import text

        page = partial(text.item, edition=opened.edition, printing=layout)
        pages = made(opened, wanted, page, common, held, evidence)
        return text.assembled(opened.edition, pages, layout)
    found = pipeline.findings(opened.edition, opened.texts, wanted, opened.settings, held, evidence)
    return _report(found, common.format, layout, attachment)


def _report(found: Findings, form: str, layout: Printing, attachment: Attachment) -> Iterator[str]:
    """Write findings in a form for which all items are needed together."""
    if form == "tei":
        from collate.reports.tei import tei

        return tei(found, attachment)
    if form == "latex":
        from collate.reports.latex import latex

        return latex(found, layout)
    from collate.reports import markdown

    return markdown.apparatus(found, layout)
