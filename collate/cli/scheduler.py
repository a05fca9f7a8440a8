"""Work shared with other machines: a Dask scheduler's address in, a crew out (`collate[cluster]`)."""

import logging
from collections.abc import Iterator
from concurrent.futures import Executor
from contextlib import contextmanager
from importlib import import_module
from typing import Protocol

from collate.errors import UsageError, WorkersError
from collate.workers import Crew


class _Client(Protocol):
    """What we ask of Dask's client, which is loaded only where it is wanted."""

    def get_executor(self) -> Executor: ...

    def wait_for_workers(self, n_workers: int, timeout: float) -> None: ...

    def close(self, timeout: float) -> None: ...


ANSWER = 4
"""Seconds within which a scheduler must answer."""

RETURN = 5
"""Seconds within which workers that are gone may come again."""


@contextmanager
def crew(address: str | None) -> Iterator[Crew | None]:
    """Give the workers of the scheduler at an address; None where no address is given.

    Raises UsageError where Dask is not installed, or where nobody answers, or there is nobody to work.
    """
    if address is None:
        yield None
        return
    client = _client(address)
    try:
        _look(client)
        yield Crew(client.get_executor(), lambda: _look(client))
    finally:
        client.close(timeout=2)


def _client(address: str) -> _Client:
    import asyncio  # slow to load

    try:
        dask, distributed = import_module("dask"), import_module("distributed")
    except ImportError:
        raise UsageError(
            "--scheduler needs Dask, which is not installed: pip install 'collate[cluster]'"
        ) from None
    logging.getLogger("distributed").setLevel(logging.CRITICAL)  # we say ourselves what is wrong
    dask.config.set({"distributed.comm.timeouts.connect": ANSWER})
    try:
        asyncio.run(asyncio.wait_for(_greet(address), ANSWER))
        client: _Client = distributed.Client(address, timeout=ANSWER, set_as_default=False)
        return client
    except Exception:  # an address may be wrong in any way, and anything may listen at it
        raise UsageError(
            f"no scheduler answers at {address!r}: look at the address (as in tcp://10.0.0.5:8786), and"
            " whether `dask scheduler` runs there"
        ) from None


async def _greet(address: str) -> None:
    """Ask who is there: a client that finds no scheduler would not be quiet about it."""
    comm = await import_module("distributed.core").connect(address)
    try:
        await comm.write({"op": "identity", "reply": True})
        if (await comm.read())["type"] != "Scheduler":
            raise ValueError(address)
    finally:
        comm.abort()


def _look(client: _Client) -> None:
    """Raise WorkersError if the scheduler is gone or has nobody to work."""
    try:
        client.wait_for_workers(1, timeout=RETURN)
    except (OSError, TimeoutError, ValueError):
        raise WorkersError(
            "the scheduler has no worker left, or is gone itself: start `dask worker ADDRESS`, with the same"
            " version of collate, and try again"
        ) from None
