"""The items of a book shared out: one after another, among processes, or by any executor."""

import os
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future
from dataclasses import dataclass
from typing import TypeVar

from collate.errors import WorkersError
from collate.pool import pooled

Given = TypeVar("Given")
Made = TypeVar("Made")

BATCHES = 128
"""Into how many batches, about, the items are divided among a crew of unknown number."""

SHARES = 8
"""How many batches there are for each process: with more of them all end at one time."""

WORDS = 20_000
"""How many words a batch has at most: those of a batch are aligned side by side."""

ENOUGH = 20_000
"""From how many words on processes are started without being asked for: they cost about a second."""

MOST = 16
"""How many processes are started at most without being asked for."""

PATIENCE = 2.0
"""Seconds between two looks at whether a crew is still there."""


@dataclass(frozen=True, slots=True)
class Crew:
    """Those on other machines who share the items; `check` raises WorkersError when they are gone."""

    executor: Executor
    check: Callable[[], None]


def shared(
    some: Callable[[Sequence[Given]], Sequence[Made]],
    given: Sequence[Given],
    sizes: Sequence[int],
    jobs: int,
    crew: Crew | None,
) -> Iterator[Made]:
    """Yield what `some` makes of each that is given, in order; it is called for several at once.

    With `jobs` above 1 that is done in so many processes, or by a crew. `sizes` are the words of each.
    """
    alone = len(given) < 2 or (crew is None and jobs == 1)
    parts = 1 if alone else BATCHES if crew else SHARES * jobs
    batches = list(spans(sizes, min(sum(sizes) // parts, WORDS)))
    if alone:
        for start, stop in batches:
            yield from some(given[start:stop])
        return
    if crew is None:
        yield from pooled(some, given, batches, min(jobs, len(batches)))
    else:
        yield from _shared(crew, some, given, batches)


def spans(sizes: Sequence[int], most: int) -> Iterator[tuple[int, int]]:
    """Yield where runs begin and end whose sizes come to no more than `most`, or that are of one thing."""
    start, held = 0, 0
    for at, size in enumerate(sizes):
        if at > start and held + size > most:
            yield start, at
            start, held = at, 0
        held += size
    if sizes:
        yield start, len(sizes)


def fitting(words: int) -> int:
    """Return how many processes are of use for so many words: as many as may run at once, or one."""
    if words < ENOUGH:
        return 1
    free = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return min(free, MOST)


def _shared(
    crew: Crew,
    some: Callable[[Sequence[Given]], Sequence[Made]],
    given: Sequence[Given],
    batches: Sequence[tuple[int, int]],
) -> Iterator[Made]:
    """Have a crew make something of each item, in batches; yield them in order."""
    waiting = deque(crew.executor.submit(some, given[start:stop]) for start, stop in batches)
    try:
        while waiting:
            yield from _result(waiting.popleft(), crew)
    finally:
        for future in waiting:
            future.cancel()


def _result(future: Future[Sequence[Made]], crew: Crew) -> Sequence[Made]:
    while True:
        try:
            return future.result(timeout=PATIENCE)
        except BrokenExecutor:
            raise WorkersError("those that shared the work are gone: try again, or without them") from None
        except TimeoutError:
            if future.done():
                raise
            crew.check()
