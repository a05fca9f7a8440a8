"""`collate check`: faults in the transcriptions."""

import click

from collate import files, pipeline
from collate.cli import echo, options
from collate.cli.road import Loaded, load_edition
from collate.errors import UsageError
from collate.reports import faults


@click.command("check")
@click.argument("edition", nargs=-1, required=True)
@click.option(
    "--against", "second", metavar="SECOND", help="A second transcription of the one witness named."
)
@options.common("text", "json")
def command(edition: tuple[str, ...], second: str | None, **given: str | int | bool | None) -> int:
    """Look for faults; exit 1 where any remain.

    With --against, EDITION is one transcription (or an edition and --witnesses with one siglum), and
    only what differs from the second one is shown.
    """
    common = options.Common(**given)  # type: ignore[arg-type]  # click has checked each by its type
    loaded = load_edition(edition, common, least=1)
    if second is not None:
        return _against(loaded, second, common)
    kept = {witness.siglum for witness in loaded.chosen.witnesses}
    every = pipeline.checked(loaded.edition, loaded.sources, loaded.settings)
    checked = tuple(each for each in every if each.siglum in kept)
    lines = {source.name: source.data.decode("utf-8", "replace").split("\n") for source in loaded.sources}
    pieces = faults.json(checked) if common.format == "json" else faults.text(checked, lines)
    echo.put(pieces, common.output)
    return int(any(each.stands for each in checked))


def _against(loaded: Loaded, second: str, common: options.Common) -> int:
    kept = [witness.siglum for witness in loaded.chosen.witnesses]
    if len(kept) != 1:
        raise UsageError(
            "--against compares one witness: name one transcription, or --witnesses with one siglum"
        )
    at = [witness.siglum for witness in loaded.edition.witnesses].index(kept[0])
    sources = list(loaded.sources)
    first = pipeline.texts(loaded.edition, sources, loaded.settings)[1][at]
    sources[at] = files.load(second)
    other = pipeline.texts(loaded.edition, sources, loaded.settings)[1][at]
    found = pipeline.compared(first, other)
    words = sum(len(item.tokens) for item in first.items)
    show = faults.differences_json if common.format == "json" else faults.differences_text
    echo.put(show(found, words), common.output)
    return int(bool(found))
