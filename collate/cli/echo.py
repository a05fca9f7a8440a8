"""What goes out: results to stdout or a file, the rest to stderr, no control character raw."""

import os
import re
import sys
from collections.abc import Iterable, Iterator
from typing import TypeVar

import click

from collate.errors import InputError
from collate.files import write
from collate.model.notice import Notice

Piece = TypeVar("Piece")

_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]|\r(?!\n)")
_STYLE = re.compile("\x1b\\[[0-9;]*m")


def harmless(text: str) -> str:
    """Return text with each control character shown as a picture or code point."""
    return _CONTROL.sub(lambda match: _picture(match.group()), text)


def _picture(character: str) -> str:
    code = ord(character)
    if code < 0x20:
        return chr(0x2400 + code)
    return "␡" if code == 0x7F else f"<U+{code:04X}>"


def say(message: str) -> None:
    """Print one line about the run to stderr."""
    click.echo(f"collate: {harmless(message)}", err=True)


def notices(found: Iterable[Notice], *, quiet: bool) -> None:
    """Print notices to stderr, unless asked to be quiet."""
    if not quiet:
        for notice in found:
            place = f"{notice.place}: " if notice.place else ""
            say(f"{place}{notice.message} [{notice.code}]")


def put(pieces: Iterable[str], output: str | None, *, styled: bool = False) -> None:
    """Write a result to a file, whole or not at all, or to stdout as it comes."""
    if output is not None:
        write(output, "".join(harmless(piece) for piece in pieces))
        return
    for piece in pieces:
        _out(_kept(piece) if styled else harmless(piece))


def _out(text: str) -> None:
    """Write to stdout at once; raise InputError where it takes no more, as a full disk does not."""
    try:
        click.echo(text, nl=False)
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise InputError(f"the result cannot be written: {(error.strerror or str(error)).lower()}") from None


def _kept(piece: str) -> str:
    """Make text harmless but for our own styles."""
    parts = _STYLE.split(piece)
    styles = [*_STYLE.findall(piece), ""]
    return "".join(harmless(part) + style for part, style in zip(parts, styles, strict=True))


def is_terminal() -> bool:
    """Say whether results go to a terminal that may be coloured."""
    return sys.stdout.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM") != "dumb"


def shows_progress(output: str | None) -> bool:
    """Say whether progress is shown: on a terminal, and not where it would run into the result."""
    return sys.stderr.isatty() and (output is not None or not sys.stdout.isatty())


def counted(pieces: Iterable[Piece], length: int) -> Iterator[Piece]:
    """Yield pieces as they come, and show on stderr how many of them there are so far."""
    with click.progressbar(pieces, length=length, label="items", file=sys.stderr, show_pos=True) as bar:
        yield from bar
