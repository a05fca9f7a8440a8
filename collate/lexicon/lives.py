"""Persons as dating reckons with them: an edition's persons in, lives out; and the kings of England."""

from collections.abc import Sequence
from functools import cache

from collate.lexicon.edtf import read_edtf, read_edtf_date
from collate.lexicon.tables import table
from collate.model.dates import Bounds
from collate.model.edition import Person
from collate.model.evidence import Life, Term


def lives_of(persons: Sequence[Person]) -> tuple[Life, ...]:
    """Return a life for each person; entries of one name and one death are offices of one person.

    Raises ValueError for a date that is no EDTF.
    """
    found: list[Life] = []
    for person in persons:
        died = read_edtf(person.died) if person.died else Bounds()
        at = next((n for n, life in enumerate(found) if _one_person(life, person, died)), None)
        if at is None:
            found.append(_life(person, died))
        else:
            found[at] = _joined(found[at], _life(person, died))
    return tuple(found)


def _one_person(life: Life, person: Person, died: Bounds) -> bool:
    return life.name == person.name and (died == life.died or Bounds() in (died, life.died))


def _life(person: Person, died: Bounds) -> Life:
    began = read_edtf(person.held_from) if person.held_from else Bounds()
    ended = read_edtf(person.held_to) if person.held_to else Bounds()
    terms = (Term(person.office, began, ended),) if person.office else ()
    written = tuple(dict.fromkeys((person.name, *person.written)))
    sure = not any(_doubtful(date) for date in (person.died, person.held_from, person.held_to))
    return Life(person.name, written, terms, died, person.authority or "the edition", sure=sure)


def _doubtful(stated: str | None) -> bool:
    """Say whether a date is marked as uncertain or approximate."""
    date = read_edtf_date(stated) if stated else None
    return date is not None and (date.uncertain or date.approximate)


def _joined(one: Life, other: Life) -> Life:
    return Life(
        one.name,
        tuple(dict.fromkeys((*one.written, *other.written))),
        (*one.terms, *other.terms),
        other.died if one.died == Bounds() else one.died,
        "; ".join(dict.fromkeys((one.authority, other.authority))),
        sure=one.sure and other.sure,
    )


@cache
def kings() -> dict[str, Life]:
    """Return the kings of England, 1154 to 1547, by their names; one who reigned twice has two terms."""
    found: dict[str, Life] = {}
    columns = ("king", "acceded", "ended", "died", "note", "authority")
    for name, acceded, ended, died, _, authority in table("kings", *columns):
        term = Term("king of England", read_edtf(acceded), read_edtf(ended))
        terms = (*found[name].terms, term) if name in found else (term,)
        found[name] = Life(name, (name,), terms, read_edtf(died), authority, king=True)
    return found
