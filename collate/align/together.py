"""Work that asks for the best paths through tables, done side by side.

What aligns words is written as a generator: it yields the tables whose best paths it needs next, and goes on
when it is given them. So several pieces of work (items, stretches of one item) may ask at once, and tables
of like size are gone through together.
"""

from collections.abc import Generator, Sequence
from itertools import islice
from typing import TypeVar

from collate.align.path import Asked, Found, best_paths

Made = TypeVar("Made")

Steps = Generator[Sequence[Asked], Sequence[Found], Made]
"""Work in steps: it asks for paths, is sent them, and in the end returns what it has made."""


def finished(steps: Steps[Made]) -> Made:
    """Do all steps of a piece of work; return what it has made."""
    try:
        asked = next(steps)
        while True:
            asked = steps.send(best_paths(asked))
    except StopIteration as stop:
        made: Made = stop.value
        return made


def beside(works: Sequence[Steps[Made]]) -> Steps[list[Made]]:
    """Do several pieces of work side by side; return what each has made, in order."""
    made: dict[int, Made] = {}
    answers: dict[int, Sequence[Found] | None] = dict.fromkeys(range(len(works)))
    while answers:
        asked: dict[int, Sequence[Asked]] = {}
        for index, answer in answers.items():
            try:
                asked[index] = next(works[index]) if answer is None else works[index].send(answer)
            except StopIteration as stop:
                made[index] = stop.value
        if not asked:
            break
        found = iter((yield [table for tables in asked.values() for table in tables]))
        answers = {index: list(islice(found, len(tables))) for index, tables in asked.items()}
    return [made[index] for index in range(len(works))]
