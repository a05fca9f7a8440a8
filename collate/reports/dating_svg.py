"""Stub."""

from collections.abc import Iterator
from collate.model.evidence import Dating


def dating(found: Dating) -> Iterator[str]:
    """Stub."""
    yield ""
