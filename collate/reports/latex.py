"""Findings in, a LaTeX document out: of each item the base's text, and the apparatus below it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from collate.model.apparatus import Entry
from collate.model.edition import Edition
from collate.model.findings import Findings, ItemFindings
from collate.model.witness import Item, Token, TokenKind, folio, shown
from collate.reports import bearings, tenses
from collate.reports.caution import CAUTION, is_recipe
from collate.reports.hands import HANDS, Part, Told, told_of_hands
from collate.reports.lemma import lemma_of, target_of
from collate.reports.phrases import described, item_name, joined, who
from collate.reports.said import said
from collate.reports.sections import sections
from collate.reports.text import merge
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
\frenchspacing
\sloppy\hyphenpenalty=10000 \exhyphenpenalty=10000 % no word of a copy is divided
\newcommand{\itemhead}[1]{\section*{\raggedright #1}}
\newcommand{\msline}[2]{{\raggedright \hangindent=5em
  \makebox[3.5em][r]{\scriptsize #1}\hspace{1em}#2\par}}
\newcommand{\wordnumber}[1]{\textsuperscript{\scriptsize #1}}
\newcommand{\leaf}[1]{[{\small #1}]}
\newcommand{\weight}[1]{\par\smallskip{\scriptsize\MakeUppercase{#1}\quad}}
\newcommand{\place}[1]{\textbf{#1}~}
"""
_EVERY_LINE = 5
_EVERY_WORD = 10


def latex(findings: Findings, printing: Printing) -> Iterator[str]:
    """Yield a LaTeX document; it needs no package but fontspec."""
    edition, every = findings.edition, tuple(findings.items)
    pages = (item(found, edition, printing) for found in every)
    yield from assembled(edition, pages, recipes=any(map(is_recipe, every)))


def item(found: ItemFindings, edition: Edition, printing: Printing) -> str:
    """Return the text and the apparatus of one item."""
    return "".join(_item(found, edition, printing))


def assembled(edition: Edition, items: Iterable[str], *, recipes: bool) -> Iterator[str]:
    """Yield the document whose items are written already, each by `item`.

    With `recipes` the caution stands at its end.
    """
    yield _HEAD + f"\\title{{{escaped(edition.title)}}}\n\\author{{}}\n\\date{{}}\n"
    yield "\\begin{document}\n\\maketitle\n"
    yield from _witnesses(edition)
    yield from items
    if recipes:
        yield f"\\bigskip\\hrule\\medskip{{\\footnotesize {escaped(CAUTION)}\\par}}\n"
    yield "\\end{document}\n"


def escaped(text: str) -> str:
    """Return a text in which no character means anything to TeX, its blanks single."""
    return " ".join(text.split()).translate(_ESCAPES)


def _witnesses(edition: Edition) -> Iterator[str]:
    yield "\\begin{description}\n"
    for witness in edition.witnesses:
        about = described(witness, "the base" if witness.siglum == edition.base else "")
        yield f"\\item[{{{escaped(witness.siglum)}}}] {escaped(', '.join(about))}\n"
    yield "\\end{description}\n"


def _item(found: ItemFindings, edition: Edition, printing: Printing) -> Iterator[str]:
    collation = found.collation
    base = collation.items[collation.sigla.index(found.base)]
    yield f"\n\\itemhead{{{escaped(item_name(found))}\\quad {escaped(base.heading)}}}\n"
    yield f"{{\\footnotesize {escaped(who(found, edition))}}}\\par\\smallskip\n"
    yield from _text(base)
    yield "\\smallskip\n"
    yield from _parts(found, printing)


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
    for token in (part for each in tokens for part in _parted(each)):
        lines.setdefault((folio(token.place), token.place.ms_line or 0), []).append(token)
    last = ""
    for number, ((leaf, line), words) in enumerate(lines.items()):
        place = f"{leaf}, {line}" if leaf and leaf != last else str(line)
        marked = number == 0 or leaf != last or line % _EVERY_LINE == 0
        last = leaf
        yield f"\\msline{{{escaped(place) if marked else ''}}}{{{escaped(_running(words))}}}\n"


def _parted(token: Token) -> Iterator[Token]:
    """Yield a word, or its parts where a line of the copy begins within it, with hyphens between them."""
    start, place = 0, token.place
    for broken in token.breaks:
        if (folio(broken.place), broken.place.ms_line) != (folio(place), place.ms_line):
            yield replace(_part_of(token, start, broken.at), place=place, trail="")
            start, place = broken.at, broken.place
    yield replace(_part_of(token, start, len(token.expanded)), place=place)


def _part_of(token: Token, start: int, stop: int) -> Token:
    """Return the letters [start, stop) of a word with their marks, and a hyphen if the word goes on."""
    marks = tuple(
        replace(mark, start=max(mark.start, start) - start, stop=min(mark.stop, stop) - start)
        for mark in token.marks
        if mark.start < stop and start < mark.stop
    )
    hyphen = "-" if stop < len(token.expanded) else ""
    return replace(token, expanded=token.expanded[start:stop] + hyphen, marks=marks)


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


def _parts(found: ItemFindings, printing: Printing) -> Iterator[str]:
    """Yield the parts of the apparatus of an item, as they stand on the screen."""
    for name, entries in sections(found, printing):
        told = [(lemma_of(entry, found).place, _entry(entry, found, printing)) for entry in entries]
        yield from _section(name, told)
    hands = [(each.lemma.place, _of_hands(each)) for each in told_of_hands(found)]
    yield from _section(HANDS, hands) if hands else ()
    shifts = [(place, escaped(told)) for place, told in tenses.shift_lines(found)]
    yield from _section(tenses.NAME, shifts) if shifts else ()
    bearing = [(place, escaped(told)) for place, told in bearings.bearing_lines(found)]
    yield from _section(bearings.NAME, bearing) if bearing else ()


def _section(name: str, told: Sequence[tuple[str, str]]) -> Iterator[str]:
    """Yield a part of the apparatus: its name, and (place, what is said there) of each entry."""
    yield f"\\weight{{{name}}}" + ("{\\footnotesize\n" if told else "{\\footnotesize none}\\par\n")
    last = ""
    for place, entry in told:
        yield f"{_place(place, last)}{entry}\\quad\n"
        last = place
    if told:
        yield "\\par}\n"


def _of_hands(told: Told) -> str:
    return f"{escaped(told.lemma.text)}] " + "".join(_part(part) for part in told.parts)


def _place(place: str, last: str) -> str:
    """Return a place, nothing if it is the one before, its leaf only where that is another than before."""
    if place == last:
        return ""
    if " – " in place:
        return f"\\place{{{escaped(place)}}}"
    leaf, _, line = place.rpartition(" l. ")
    known = leaf and leaf == last.rpartition(" l. ")[0]
    short = line if known else f"{leaf}, {line}" if leaf else place.removeprefix("l. ")
    return f"\\place{{{escaped(short)}}}"


def _part(part: Part) -> str:
    if part.text.isspace() or part.text.endswith(" "):
        return part.text
    return f"\\textit{{{escaped(part.text)}}}" if part.term else escaped(part.text)


def _entry(entry: Entry, found: ItemFindings, printing: Printing) -> str:
    lemma = lemma_of(entry, found)
    merged = merge(entry.variants, found.collation.sigla)
    line = escaped(lemma.text) + "]"
    if printing.positive:
        others = {siglum for variant in merged for siglum in variant.reading.sigla}
        line += f" {escaped(joined([s for s in found.collation.sigla if s not in others]))};"
    readings = []
    for variant in merged:
        what = said(variant, lemma, target_of(variant, lemma, found))
        term = f"\\textit{{{escaped(what.term)}}}" if what.term else ""
        parts = (term, escaped(what.text), escaped(joined(variant.reading.sigla)), escaped(what.note))
        readings.append(" ".join(part for part in parts if part))
    return f"{line} " + "; ".join(readings)
