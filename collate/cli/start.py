"""Where the command begins: nothing heavy is loaded before a stop by the user can be told like any other."""

import signal
import sys
from types import FrameType
from typing import NoReturn

STOPPED = 130
"""The exit status after Ctrl-C: 128 and the signal's number, as shells have it (common practice)."""

ENDED = 143
"""The same after SIGTERM."""


def main() -> NoReturn:
    """Load and run the command; exit as it says."""
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
