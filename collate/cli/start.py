"""Where the command begins: nothing heavy is loaded before a stop by the user can be told like any other."""

import signal
import sys
from types import FrameType
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from sys import UnraisableHookArgs

STOPPED = 130
"""The exit status after Ctrl-C: 128 and the signal's number, as shells have it (common practice)."""

ENDED = 143
"""The same after SIGTERM."""

SOON = 0.02
"""Seconds after which a stop is told again that was raised where Python lets nothing out."""


def main() -> NoReturn:
    """Load and run the command; exit as it says."""
    sys.unraisablehook = _dropped
    signal.signal(signal.SIGTERM, _end)
    try:
        from collate.cli.main import main as begin

        begin()
    except KeyboardInterrupt:
        sys.stderr.write("collate: stopped\n")
        sys.exit(STOPPED)


def _end(number: int, frame: FrameType | None) -> None:
    """Leave as after Ctrl-C, without a word: half-written files go, and processes that share the work end."""
    sys.exit(ENDED)


def _dropped(dropped: "UnraisableHookArgs") -> None:
    """Have a stop raised again soon that came in a finaliser or a callback, of which Python drops all."""
    value = dropped.exc_value
    stop = isinstance(value, KeyboardInterrupt) or (isinstance(value, SystemExit) and value.code == ENDED)
    if value is None or not stop or not hasattr(signal, "setitimer"):
        sys.__unraisablehook__(dropped)
        return

    def again(number: int, frame: FrameType | None) -> None:
        raise value

    signal.signal(signal.SIGALRM, again)
    signal.setitimer(signal.ITIMER_REAL, SOON)
