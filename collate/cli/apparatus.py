"""`collate apparatus`: the critical apparatus."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Protocol, TypeVar

import click

from collate import pipeline
from collate.cli import echo, options
from collate.cli.road import Opened, made, open_edition
from collate.cli.scheduler import crew
from collate.errors import UsageError
from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.model.notice import Notice
from collate.model.witness import ItemKind
from collate.settings import Attachment, Printing

Made = TypeVar("Made")


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
        layout = options.printing(common.output, positive=positive, accidentals=accidentals, width=width)
        matches = pipeline.matches(opened.edition, opened.texts, (*named, *items))
        printed = common.format in ("text", "markdown")
        evidence = pipeline.front_evidence(opened.edition, opened.texts, matches) if printed else ()
        road = partial(made, opened, matches, given=common, crew=held, evidence=evidence)
        if common.format == "json":
            written = _json(opened, road, told)
        elif common.format == "tei":
            written = _tei(opened, road, Attachment(attach or Attachment.INLINE))
        else:
            recipes = any(match.kind is ItemKind.RECIPE for match in matches)
            written = _read(opened.edition, road, common.format, layout, recipes=recipes)
        echo.put(written, common.output, styled=common.format == "text" and layout.colour)


class _Road(Protocol):
    """The way that the items of this run go: each is made something of, where it is collated."""

    def __call__(self, *, then: Callable[[ItemFindings], Made]) -> Iterator[Made]: ...


def _json(opened: Opened, road: _Road, notices: Sequence[Notice]) -> Iterator[str]:
    from collate.reports import json  # a run loads but the one report it needs

    return json.assembled(opened.edition, road(then=json.item), notices)


def _tei(opened: Opened, road: _Road, attachment: Attachment) -> Iterator[str]:
    """Write TEI, whose names and grounds are numbered through the whole document: it needs all together."""
    from collate.reports.tei import tei

    return tei(Findings(opened.edition, road(then=_itself)), attachment)


def _read(edition: Edition, road: _Road, form: str, layout: Printing, *, recipes: bool) -> Iterator[str]:
    """Write a form that is read: each item where it is collated."""
    if form == "csv":
        from collate.reports import table_of_variants

        row = partial(table_of_variants.item, accidentals=layout.accidentals)
        return table_of_variants.assembled(road(then=row))
    if form == "latex":
        from collate.reports import latex

        page = partial(latex.item, edition=edition, printing=layout)
        return latex.assembled(edition, road(then=page), recipes=recipes)
    if form == "markdown":
        from collate.reports import markdown

        page = partial(markdown.item, edition=edition, printing=layout)
        return markdown.assembled(edition, road(then=page), recipes=recipes)
    from collate.reports import text

    page = partial(text.item, edition=edition, printing=layout)
    return text.assembled(edition, road(then=page), layout)


def _itself(found: ItemFindings) -> ItemFindings:
    return found
