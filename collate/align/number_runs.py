"""Numbers in several words: the words of a copy in, the runs of them that write one number out."""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass

from collate.model.form import Form, Judge


@dataclass(frozen=True, slots=True)
class NumberRun:
    """Words [start, stop) that write one number."""

    start: int
    stop: int
    value: float


def number_runs(text: Sequence[Form | None], counting: Set[Form], judge: Judge) -> Iterator[NumberRun]:
    """Yield the numbers of two words or more, the longest first from each place."""
    counts = [form in counting for form in text]
    free = 0
    for at in [place for place, counted in enumerate(counts) if counted]:
        if at >= free and (stops := _stops(counts, at)):
            found = next((run for stop in stops if (run := _run(text, at, stop - at, judge))), None)
            if found:
                yield found
                free = found.stop


def _stops(counts: Sequence[bool], at: int) -> list[int]:
    """Return where a number that begins at a word may end, the farthest first; a word may stand in it."""
    found, last = [], at
    for place in range(at + 1, min(at + _MOST_OF_NUMBER, len(counts))):
        if counts[place]:
            found.append(place + 1)
            last = place
        elif place - last > _BETWEEN:
            break
    return found[::-1]


_MOST_OF_NUMBER = 6
_BETWEEN = 1


def _run(text: Sequence[Form | None], at: int, size: int, judge: Judge) -> NumberRun | None:
    forms = tuple(form for form in text[at : at + size] if form)
    value = judge.number(forms) if len(forms) == size else None
    return None if value is None else NumberRun(at, at + size, value)
