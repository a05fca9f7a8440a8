"""Compile the tables of headwords into the two lists that `words` reads, and those of numbers into one.

Run `python -m collate.lexicon.compile` after a change to a table; a test holds the lists to them.
"""

import sys
from collections.abc import Iterable, Iterator, Sequence

from collate.lexicon.date_numbers import number_words
from collate.lexicon.likelier import ranked
from collate.lexicon.spelling import normalise, rules_in_force
from collate.lexicon.tables import table
from collate.lexicon.words import COLUMNS, TABLES, Lexicon, key_of

Row = tuple[str, ...]


def rows() -> Iterator[Row]:
    """Yield the rows of every table of headwords."""
    for name in TABLES:
        yield from table(name, *COLUMNS)


def compiled(rows: Iterable[Row]) -> tuple[str, str]:
    """Return the texts of headwords.tsv and forms.tsv for rows of the tables."""
    headwords: dict[tuple[str, str], int] = {}
    lines: list[str] = []
    features: dict[str, int] = {}
    forms: dict[str, dict[str, None]] = {}
    rules = rules_in_force()
    for name, word_class, kind, feature, spellings, gloss, authority in rows:
        number = headwords.setdefault((name, word_class), len(headwords))
        if number == len(lines):
            lines.append("\t".join((name, word_class, kind, gloss, authority)))
        reference = f"{number}:{features.setdefault(feature, len(features))}"
        for spelling in spellings.split(" "):
            key, normal = key_of(spelling), normalise(spelling, rules)
            forms.setdefault(key, {})[reference] = None
            if normal != key:
                forms.setdefault(f"={normal}", {})[reference] = None
    head = "\n".join(lines) + "\n\n" + "\n".join(features) + "\n"
    heads = [(name, word_class, kind) for name, word_class, kind, *_ in (x.split("\t") for x in lines)]
    return head, "".join(f"{key}\t{' '.join(_ordered(key, forms[key], heads))}\n" for key in sorted(forms))


def _ordered(key: str, references: Iterable[str], heads: Sequence[tuple[str, str, str]]) -> list[str]:
    """Return the references of a form, the likeliest headword first, of one rank as the tables have them."""
    found = list(references)
    ranks = ranked(key, [heads[int(each.partition(":")[0])] for each in found])
    return [each for _, each in sorted(zip(ranks, found, strict=True), key=lambda pair: pair[0])]


def from_rows(rows: Iterable[Row]) -> Lexicon:
    """Return a lexicon of some rows only."""
    head, lines = compiled(rows)
    words, _, features = head.partition("\n\n")
    forms = dict(line.split("\t", 1) for line in lines.split("\n") if line)
    return Lexicon(forms, words.split("\n"), features.rstrip("\n").split("\n"))


def main() -> None:
    """Write the compiled lists beside the tables; the one place outside `files` that writes."""
    from importlib.resources import files
    from pathlib import Path

    folder = Path(str(files("collate.lexicon"))) / "compiled"
    folder.mkdir(exist_ok=True)
    texts = (*compiled(rows()), number_words())
    for name, text in zip(("headwords.tsv", "forms.tsv", "number_words.tsv"), texts, strict=True):
        (folder / name).write_bytes(text.encode("utf-8"))
    sys.stderr.write("compiled\n")


if __name__ == "__main__":
    main()
