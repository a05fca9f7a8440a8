"""Where text comes from: a source of bytes, and a place in it."""

from dataclasses import dataclass

from collate.model.value import value


@dataclass(frozen=True, slots=True)
class Source:
    """The bytes of one file under the name its user gave it."""

    name: str
    data: bytes


@value
class Place:
    """A point in a source: `line` and `column` count from 1; 0 means the whole file.

    `folio` ("7v", "p. 12") and `ms_line` are the page and line of the manuscript, where marked;
    `hand` is the scribe's number there.
    """

    source: str
    line: int = 0
    column: int = 0
    folio: str | None = None
    ms_line: int | None = None
    hand: str = "1"

    def __str__(self) -> str:
        parts = [self.source, *(str(n) for n in (self.line, self.column) if n)]
        return ":".join(parts)
