"""Which kings a name may mean: a phrase in, the reigns of those it fits out, or why it fits none."""

from collections.abc import Sequence
from dataclasses import dataclass

from collate.lexicon.date_words import Word, is_at, king_names
from collate.lexicon.regnal import Reign, reigns, reigns_of
from collate.lexicon.year_phrases import KingPhrase, king_at

ROMAN = ("", "I", "II", "III", "IV", "V", "VI", "VII", "VIII")


@dataclass(frozen=True, slots=True)
class Candidates:
    """The reigns that a name may mean; `said` is why, where more than the name decides."""

    reigns: tuple[Reign, ...] = ()
    said: str = ""
    problem: str = ""


def candidates(king: KingPhrase) -> Candidates:
    """Return every king that a phrase fits; documents' own use decides between like fathers."""
    called = f"King {king.name} {ROMAN[king.number]}".strip() if king.number else f"King {king.name}"
    if king.foreign:
        return Candidates(
            problem=f"the king is of {king.foreign}, and the table holds England's alone; "
            "give such a date by its year of grace"
        )
    found = reigns_of(king.name, king.number)
    if not found:
        return Candidates(problem=f"{called} is not in the table of reigns, which has {_table_of(king.name)}")
    if not king.sons:
        return Candidates(found)
    return _by_father(king, called, found)


def _table_of(name: str) -> str:
    kings = dict.fromkeys(reign.king for reign in reigns_of(name) if reign.first_year == 1)
    ends = reigns()
    return f"{', '.join(kings)} ({ends[0].king} {ends[0].first.year} to {ends[-1].king} {ends[-1].last.year})"


def _by_father(king: KingPhrase, called: str, found: Sequence[Reign]) -> Candidates:
    fathers = tuple(name.casefold() for name in king.sons)
    fitting = tuple(reign for reign in found if reign.ancestors[: len(fathers)] == fathers)
    styled = tuple(reign for reign in fitting if (reign.styled,) == fathers and king.number is None)
    named = " son of ".join((called, *king.sons))
    if not fitting:
        return Candidates(problem=f"no {named} is in the table of reigns, which has {_table_of(king.name)}")
    if styled:
        others = ", ".join(dict.fromkeys(reign.king for reign in fitting if reign not in styled))
        also = f", though {others} would fit as well" if others else ""
        return Candidates(styled, f"{named} is how documents style {styled[0].king}{also}")
    kings = " or ".join(dict.fromkeys(reign.king for reign in fitting))
    return Candidates(fitting, f"{named} is {kings}")


def kings_named(words: Sequence[Word]) -> tuple[KingPhrase, ...]:
    """Return the kings that a passage names by title, number or father, in their order."""
    found: list[KingPhrase] = []
    at = 0
    while at < len(words):
        begins = is_at(words, at, "king") or words[at].key in king_names()
        king = king_at(words, at) if begins else None
        if king is not None and king.name and _sure(king):
            found.append(king)
        at = king.stop if king is not None else at + 1
    return tuple(found)


def _sure(king: KingPhrase) -> bool:
    return king.titled or king.conquest or (king.number is not None and not king.short) or bool(king.sons)
