"""Which format a source is in, told without a reader of it."""

from collate.model.source import Source


def is_tei(source: Source) -> bool:
    """Say whether a source is to be read as TEI: by its name, or because it begins as XML does."""
    if source.name.lower().endswith((".xml", ".tei")):
        return True
    head = source.data[:200].removeprefix(b"\xef\xbb\xbf").lstrip()
    return head.startswith((b"<?xml ", b"<TEI ", b"<teiCorpus "))
