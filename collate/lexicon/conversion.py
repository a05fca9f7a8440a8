"""Dates as a scholar types them, in words or in the modern short form: a text in, its readings out."""

from collate.lexicon.clauses import LITTLE, clauses_of
from collate.lexicon.date_words import plays, written_words
from collate.lexicon.reckoning import reckoned
from collate.lexicon.year_phrases import bare_year
from collate.model.clauses import ClauseKind, DatedClause

_SHOWN = "write, for example, 16 Ric. II, 20 May 3 John, Monday after Michaelmas 9 Edw. III or 12 March 1453"


def convert(text: str) -> DatedClause:
    """Return every reading of one date; its `problem` says what cannot be read, or does not agree.

    Takes what `dated_clauses` finds in a passage, and "16 Ric. II", "1 Dec. 1 Hen. VII", "1453",
    "12 March 1453/4", "20 Mar. 1533 & 24 Hen. VIII". `start` and `stop` count words.
    """
    words = written_words(text)
    found = clauses_of(words)
    if not found and (year := bare_year(words, 0)) and year.stop == len(words):
        told = reckoned((), None, year.grace)
        return DatedClause(0, len(words), ClauseKind.CALENDAR, told.readings, told.problem)
    read = range(found[0].start, found[0].stop) if found else range(0)
    left = [word.written for at, word in enumerate(words) if at not in read and not plays(word, *LITTLE)]
    if len(found) != 1 or left:
        return DatedClause(0, len(words), ClauseKind.CALENDAR, problem=f"“{text}” is no one date; {_SHOWN}")
    return found[0]
