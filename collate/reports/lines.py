"""Text in, lines for the terminal out: filled to its width, and styled where it shows styles."""

import re
from collections.abc import Iterator
from textwrap import wrap

from collate.settings import Printing

NARROW = 40
"""Characters in a line below which there is no room for columns."""

_INDENT = 5
_BLANKS = re.compile(r"(?<=\S) {2,}")

ITALIC, BOLD, PLAIN = "\x1b[3m", "\x1b[1m", "\x1b[0m"


def wrapped(text: str, first: str, rest: str, printing: Printing) -> Iterator[str]:
    """Yield the lines of a text, the first behind `first`, all others behind `rest`; no word is broken.

    In narrow lines what stands in columns is set close.
    """
    if printing.width < NARROW:
        text, rest = _BLANKS.sub(" ", text), rest[:_INDENT]
    lines = wrap(
        text,
        printing.width,
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
    )
    yield from (line.rstrip() + "\n" for line in lines)


def headline(text: str, printing: Printing) -> Iterator[str]:
    """Yield the lines of a heading, in bold where styles are shown."""
    for line in wrapped(text, "", "  ", printing):
        yield styled(line.removesuffix("\n"), BOLD, printing) + "\n"


def styled(text: str, style: str, printing: Printing) -> str:
    """Return text in a style, where styles are shown."""
    return f"{style}{text}{PLAIN}" if printing.colour else text
