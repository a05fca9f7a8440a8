"""The items of a book shared out: one after another, among processes, or by any executor."""

import os
import signal
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager, nullcontext, suppress
from contextvars import ContextVar
from dataclasses import dataclass
from functools import partial
from multiprocessing import active_children, get_start_method
from types import FrameType
from typing import TypeVar, cast

from collate.errors import WorkersError

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
"""Seconds between two looks at whether the workers are still there."""


_WORK: ContextVar[Callable[[int, int], Sequence[object]]] = ContextVar("work")
"""In a process that was forked off to share items: what makes something of those from one to another."""


@dataclass(frozen=True, slots=True)
class Crew:
    """Those who share the items; `check` raises WorkersError when no more can be expected of them.

    Those that are `stoppable`, processes of this machine, leave their work when the user stops the run.
    Those that `hold` the work, because they were forked off with it, need only be told which items.
    """

    executor: Executor
    check: Callable[[], None]
    stoppable: bool = False
    holds: bool = False


class _StoppedError(Exception):
    """The user stopped the run while a process was at work."""


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
    work = partial(_span, some, given)
    with nullcontext(crew) if crew else processes(min(jobs, len(batches)), work) as held:
        yield from _shared(held, some, given, batches)


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


@contextmanager
def processes(jobs: int, work: Callable[[int, int], Sequence[object]]) -> Iterator[Crew]:
    """Give a crew of so many processes of this machine; they are gone at the end, however it comes.

    Where processes are forked they have the `work` from the start; to send it would take its time again.
    """
    holds = get_start_method() == "fork"
    pool = ProcessPoolExecutor(jobs, initializer=_begin, initargs=(work if holds else None,))
    stoppable = signal.getsignal(signal.SIGINT) is not signal.SIG_IGN
    try:
        yield Crew(pool, _no_check, stoppable=stoppable, holds=holds)
    except BaseException:
        for child in active_children():
            if child.pid is not None and hasattr(os, "kill"):
                with suppress(ProcessLookupError):  # it may have ended since it was listed
                    os.kill(child.pid, signal.SIGINT)
        raise
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _begin(work: Callable[[int, int], Sequence[object]] | None) -> None:
    """Have a worker keep its work, and let the user's stop pass unless it comes while an item is worked on.

    A worker that ended while it handed over what it had made would leave the pool waiting for the rest.
    """
    if work is not None:
        _WORK.set(work)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


def _stop(number: int, frame: FrameType | None) -> None:
    raise _StoppedError


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Put off the user's stop while workers are started, until they let it pass."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _no_check() -> None:
    """Find no fault: a pool of processes says by itself that one is lost."""


def _shared(
    crew: Crew,
    some: Callable[[Sequence[Given]], Sequence[Made]],
    given: Sequence[Given],
    batches: Sequence[tuple[int, int]],
) -> Iterator[Made]:
    """Have a crew make something of each item, in batches; yield them in order."""
    with _undisturbed():
        waiting = deque(_submitted(crew, some, given, start, stop) for start, stop in batches)
    try:
        while waiting:
            yield from _result(waiting.popleft(), crew)
    finally:
        for future in waiting:
            future.cancel()


def _submitted(
    crew: Crew,
    some: Callable[[Sequence[Given]], Sequence[Made]],
    given: Sequence[Given],
    start: int,
    stop: int,
) -> Future[Sequence[Made]]:
    """Give a batch to a crew: of one that holds the work, only where it begins and ends."""
    batch: Callable[[], Sequence[Made]]
    batch = partial(_held, start, stop) if crew.holds else partial(some, given[start:stop])
    return crew.executor.submit(_stoppable, batch) if crew.stoppable else crew.executor.submit(batch)


def _span(
    some: Callable[[Sequence[Given]], Sequence[Made]], given: Sequence[Given], start: int, stop: int
) -> Sequence[Made]:
    return some(given[start:stop])


def _held(start: int, stop: int) -> Sequence[Made]:
    """Do that part of the work which this process holds."""
    return cast(Sequence[Made], _WORK.get()(start, stop))


def _stoppable(batch: Callable[[], Sequence[Made]]) -> Sequence[Made]:
    try:
        signal.signal(signal.SIGINT, _stop)
        return batch()
    finally:
        signal.signal(signal.SIGINT, signal.SIG_IGN)


def _result(future: Future[Sequence[Made]], crew: Crew) -> Sequence[Made]:
    while True:
        try:
            return future.result(timeout=PATIENCE)
        except (BrokenExecutor, _StoppedError):
            raise WorkersError(
                "a process that shared the work ended before its time, perhaps for want of memory: try again"
                " with fewer --jobs"
            ) from None
        except TimeoutError:
            if future.done():
                raise
            crew.check()
