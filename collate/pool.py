"""Processes of this machine that share work; none is left, however the run ends.

Each has a pipe of its own and hears one message after another: nothing is locked, and no thread is
started, so that a stop by the user, which may come between any two steps, leaves nobody waiting.
"""

import pickle
import signal
import traceback
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from functools import partial
from multiprocessing import connection, get_context
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import TypeVar, cast

from collate.errors import WorkersError

Given = TypeVar("Given")
Made = TypeVar("Made")

AHEAD = 2
"""How many batches a process that holds the work is told of at a time, so that it need not wait for more."""

STOPS = frozenset({signal.SIGINT, signal.SIGTERM, *([signal.SIGALRM] if hasattr(signal, "SIGALRM") else [])})
"""The signals with which a user, or the system, stops a run; the last tells one again that was dropped."""


@dataclass(frozen=True, slots=True)
class _Worker:
    """A process, our end of its pipe, and the places of the batches it has still to give back."""

    process: BaseProcess
    end: Connection
    asked: deque[int] = field(default_factory=deque)


@contextmanager
def undisturbed() -> Iterator[None]:
    """Put off a stop by the user until what is done here is done.

    A stop is raised as an exception, and is lost where Python lets none out: in what runs at a fork.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, STOPS)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def pooled(
    some: Callable[[Sequence[Given]], Sequence[Made]],
    given: Sequence[Given],
    batches: Sequence[tuple[int, int]],
    jobs: int,
) -> Iterator[Made]:
    """Yield what `some` makes of each that is given, in order; its `batches` are made in so many processes.

    Processes that are forked have all from the start; others are sent each batch. Raises WorkersError
    where a process ends before its time, and what `some` raises in one.
    """
    holds = get_context().get_start_method() == "fork"
    work = partial(_span, some, given) if holds else partial(_batch, some)
    messages = batches if holds else [given[start:stop] for start, stop in batches]
    left = deque((at, pickle.dumps(message)) for at, message in enumerate(messages))
    ready: dict[int, Sequence[Made]] = {}
    with _workers(jobs, work, holds=holds) as workers:
        for _ in range(AHEAD if holds else 1):
            for worker in workers:
                _ask(worker, left)
        for at in range(len(batches)):
            while at not in ready:
                _take(workers, left, ready, wait=None)
            for made in ready.pop(at):
                _take(workers, left, ready, wait=0)
                yield made


@contextmanager
def _workers(jobs: int, work: Callable[[object], object], *, holds: bool) -> Iterator[list[_Worker]]:
    """Start so many processes; at the end they are gone, whatever they were about."""
    begun: list[_Worker] = []
    try:
        with undisturbed():
            for _ in range(jobs):
                begun.append(_begun(work, [worker.end for worker in begun], holds=holds))
        yield begun
    finally:
        with undisturbed():
            for worker in begun:
                worker.process.kill()
            for worker in begun:
                worker.process.join()
                worker.end.close()


def _begun(work: Callable[[object], object], others: Sequence[Connection], *, holds: bool) -> _Worker:
    """Start a process; what it gets by the fork of our ends of the pipes is named to it, to be closed."""
    context = get_context()
    ours, theirs = context.Pipe()
    ends = (*others, ours) if holds else ()
    process = context.Process(target=_serve, args=(theirs, work, ends), daemon=True)
    process.start()
    theirs.close()
    return _Worker(process, ours)


def _serve(end: Connection, work: Callable[[object], object], others: Sequence[Connection]) -> None:
    """Do what is asked, until whoever asks is gone; Ctrl-C is left to them."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, STOPS)
    for other in others:
        other.close()
    with suppress(EOFError, OSError):
        while True:
            message = end.recv_bytes()
            end.send_bytes(_answer(work, message))


def _answer(work: Callable[[object], object], message: bytes) -> bytes:
    """Return what is made, or the fault on the way to it, packed; with a fault, where it arose."""
    try:
        return pickle.dumps((work(pickle.loads(message)), None), pickle.HIGHEST_PROTOCOL)
    except Exception as fault:
        fault.add_note(traceback.format_exc())
        try:
            packed = pickle.dumps((None, fault))
            pickle.loads(packed)
        except Exception:  # not every exception bears to be packed and unpacked
            return pickle.dumps((None, RuntimeError(f"{type(fault).__name__}: {fault}")))
        return packed


def _ask(worker: _Worker, left: deque[tuple[int, bytes]]) -> None:
    """Give a process the next batch, if any is left."""
    if left:
        at, message = left.popleft()
        worker.asked.append(at)
        with suppress(OSError):  # that it is gone is found where its answer is looked for
            worker.end.send_bytes(message)


def _take(
    workers: Sequence[_Worker],
    left: deque[tuple[int, bytes]],
    ready: dict[int, Sequence[Made]],
    *,
    wait: float | None,
) -> None:
    """Take what is done, and give those that have done it more; wait for something at most so long."""
    busy = {worker.end: worker for worker in workers if worker.asked}
    for end in connection.wait(list(busy), wait):
        worker = busy[cast(Connection, end)]
        ready[worker.asked.popleft()] = cast(Sequence[Made], _received(worker.end))
        _ask(worker, left)


def _received(end: Connection) -> object:
    try:
        made, fault = pickle.loads(end.recv_bytes())
    except (EOFError, OSError):
        raise WorkersError(
            "a process that shared the work ended before its time, perhaps for want of memory: try again"
            " with fewer --jobs"
        ) from None
    if fault is not None:
        raise fault
    return made


def _span(
    some: Callable[[Sequence[Given]], Sequence[Made]], given: Sequence[Given], span: object
) -> Sequence[Made]:
    start, stop = cast(tuple[int, int], span)
    return some(given[start:stop])


def _batch(some: Callable[[Sequence[Given]], Sequence[Made]], batch: object) -> Sequence[Made]:
    return some(cast(Sequence[Given], batch))
