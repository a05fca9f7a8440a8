"""Findings in, a LaTeX document out: of each item the base's text, and the apparatus below it."""

from collections.abc import Iterator, Sequence

from collate.model.apparatus import Entry
from collate.model.edition import Edition, Witness
from collate.model.findings import Findings, ItemFindings
from collate.model.witness import Item, Token, TokenKind, folio, shown
from collate.reports.lemma import lemma_of
from collate.reports.said import said
from collate.reports.sections import sections
from collate.reports.text import joined, merge
from collate.settings import Printing

_ESCAPES = str.maketrans(
    {
        "\\": r"\textbackslash{}",
        "{": r"\{",
        "}": r"\}",
        "~": r"\textasciitilde{}",
        "^": r"\textasciicircum{}",
        **{sign: f"\\{sign}" for sign in "#$%&_"},
        **{chr(code): "\ufffd" for code in (*range(9), *range(11, 32), 127)},
    }
)
_HEAD = r"""% Typeset with lualatex or xelatex.
\documentclass[11pt]{article}
\usepackage[no-config]{fontspec} % quotes and hyphens stay as they are typed
\IfFontExistsTF{Junicode}{\setmainfont{Junicode}}{%
  \IfFontExistsTF{FreeSerif}{\setmainfont{FreeSerif}}{%
    \IfFontExistsTF{DejaVu Serif}{\setmainfont{DejaVu Serif}}{}}}
\setlength{\parindent}{0pt}
\sloppy
\newcommand{\msline}[2]{\hangindent=4em \makebox[3em][r]{\scriptsize #1}\hspace{1em}#2\par}
\newcommand{\wordnumber}[1]{\textsuperscript{\scriptsize #1}}
\newcommand{\leaf}[1]{[{\small #1}]}
\newcommand{\weight}[1]{\par\smallskip{\footnotesize\textsc{#1}\quad}}
\newcommand{\place}[1]{\textbf{#1}}
"""
_EVERY_LINE = 5
_EVERY_WORD = 10


def latex(findings: Findings, printing: Printing) -> Iterator[str]:
    """Yield a LaTeX document; it needs no package but fontspec."""
    edition = findings.edition
    yield _HEAD + f"\\title{{{escaped(edition.title)}}}\n\\author{{}}\n\\date{{}}\n"
    yield "\\begin{document}\n\\maketitle\n"
    yield from _witnesses(edition)
    for found in findings.items:
        yield from _item(found, edition, printing)
    yield "\\end{document}\n"


def escaped(text: str) -> str:
    """Return a text in which no character means anything to TeX, its blanks single."""
    return " ".join(text.split()).translate(_ESCAPES)


def _witnesses(edition: Edition) -> Iterator[str]:
    yield "\\begin{description}\n"
    for witness in edition.witnesses:
        yield f"\\item[{{{escaped(witness.siglum)}}}] {escaped(_described(witness, edition.base))}\n"
    yield "\\end{description}\n"


def _described(witness: Witness, base: str) -> str:
    parts = [witness.name] if witness.name != witness.siglum else []
    if witness.hand:
        parts.append(f"{witness.hand.stated} ({witness.hand.not_before}–{witness.hand.not_after})")
    return ", ".join([*parts, *(["the base"] if witness.siglum == base else [])])


def _item(found: ItemFindings, edition: Edition, printing: Printing) -> Iterator[str]:
    collation = found.collation
    base = collation.items[collation.sigla.index(found.base)]
    yield f"\n\\section*{{{escaped(base.label)}\\quad {escaped(base.heading)}}}\n"
    told = f"In {joined(collation.sigla)}."
    told += f" Not in {joined(found.absent)}." if found.absent else ""
    told += f" Base here: {found.base}." if found.base != edition.base else ""
    yield f"{{\\footnotesize {escaped(told)}}}\\par\\smallskip\n"
    yield from _text(base)
    for name, entries in sections(found, printing):
        yield from _apparatus(name, entries, found, printing)


def _text(base: Item) -> Iterator[str]:
    """Yield the text of an item, line by line where the lines of the copy are known."""
    if not base.tokens:
        return
    if all(token.place.ms_line is not None for token in base.tokens):
        yield from _lines(base.tokens)
    else:
        yield "".join(_words(base.tokens)).strip() + "\\par\n"


def _lines(tokens: Sequence[Token]) -> Iterator[str]:
    lines: dict[tuple[str, int], list[Token]] = {}
    for token in tokens:
        lines.setdefault((folio(token.place), token.place.ms_line or 0), []).append(token)
    last = ""
    for number, ((leaf, line), words) in enumerate(lines.items()):
        place = f"{leaf}, {line}" if leaf and leaf != last else str(line)
        marked = number == 0 or leaf != last or line % _EVERY_LINE == 0
        last = leaf
        yield f"\\msline{{{escaped(place) if marked else ''}}}{{{escaped(_running(words))}}}\n"


def _running(tokens: Sequence[Token]) -> str:
    return "".join(shown(token) + _blank(token) for token in tokens)


def _blank(token: Token) -> str:
    return " " if any(character.isspace() for character in token.trail) else ""


def _words(tokens: Sequence[Token]) -> Iterator[str]:
    """Yield words, every tenth with its number, and the leaves where they begin."""
    last, number = "", 0
    for token in tokens:
        leaf = folio(token.place)
        if leaf != last:
            yield f"\\leaf{{{escaped(leaf)}}} "
            last = leaf
        number += token.kind is not TokenKind.PUNCTUATION
        if token.kind is not TokenKind.PUNCTUATION and number % _EVERY_WORD == 0:
            yield f"\\wordnumber{{{number}}}"
        yield escaped(shown(token)) + _blank(token)


def _apparatus(name: str, entries: Sequence[Entry], found: ItemFindings, printing: Printing) -> Iterator[str]:
    yield f"\\weight{{{name}}}" + ("{\\footnotesize\n" if entries else "{\\footnotesize none}\\par\n")
    last = ""
    for entry in entries:
        lemma = lemma_of(entry, found)
        place = f"\\place{{{escaped(lemma.place)}}} " if lemma.place != last else ""
        last = lemma.place
        yield f"{place}{_entry(entry, found, printing)}\\quad\n"
    if entries:
        yield "\\par}\n"


def _entry(entry: Entry, found: ItemFindings, printing: Printing) -> str:
    lemma = lemma_of(entry, found)
    merged = merge(entry.variants, found.collation.sigla)
    line = escaped(lemma.text) + "]"
    if printing.positive:
        others = {siglum for variant in merged for siglum in variant.reading.sigla}
        line += f" {escaped(joined([s for s in found.collation.sigla if s not in others]))};"
    readings = []
    for variant in merged:
        what = said(variant, lemma)
        term = f"\\textit{{{escaped(what.term)}}}" if what.term else ""
        parts = (term, escaped(what.text), escaped(joined(variant.reading.sigla)), escaped(what.note))
        readings.append(" ".join(part for part in parts if part))
    return f"{line} " + "; ".join(readings)
