"""The command `collate`: one command a file, each imported only when it is called."""

import gc
import os
import sys
from importlib import import_module
from typing import NoReturn

import click

from collate.cli.echo import say
from collate.cli.start import ENDED, STOPPED
from collate.errors import CollateError, InputFaultsError, InternalError
from collate.files import nowhere

COMMANDS = {
    "new": "begin an edition folder, with a commented example",
    "check": "faults in the transcriptions, as file:line:column",
    "tokens": "each word as written, expanded, normalised",
    "word": "how a spelling is read; how two spellings relate",
    "concordance": "which item of each witness answers to which",
    "apparatus": "the critical apparatus: the main job",
    "synopsis": "the witnesses side by side",
    "graph": "the variant graph of an item (GraphML, DOT, SVG)",
    "dating": "what bears on date, witness by witness",
}
"""Every command, with its line in the help; each lives in a module of its name."""


class _Commands(click.Group):
    """A group whose commands are imported when they are called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"collate.cli.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.command(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="collate", message="collate %(version)s")
def collate() -> None:
    """From transcriptions of several copies of one Middle English text to a critical apparatus.

    EDITION is a folder with an edition.toml, or two or more transcription files. Start with
    `collate new FOLDER`, or try `collate apparatus A.txt B.txt`.
    """


def main() -> NoReturn:
    """Run the command and exit: 0 done, 1 faults found, 2 wrong input, 70 a fault of ours."""
    for library in ("OPENBLAS", "OMP", "MKL"):
        os.environ.setdefault(f"{library}_NUM_THREADS", "1")  # small matrices: more threads only cost
    gc.set_threshold(100_000, 50, 50)  # what we make is rarely a ring: fewer searches for them
    sys.stdout, sys.stderr = sys.stdout or nowhere(), sys.stderr or nowhere()
    sys.exit(run(sys.argv[1:]))


def run(arguments: list[str]) -> int:
    """Run the command line; print errors as sentences; return the exit status."""
    try:
        result = collate.main(arguments, prog_name="collate", standalone_mode=False)
    except click.exceptions.NoArgsIsHelpError as wanted:
        click.echo(wanted.format_message())
        return 2
    except (click.exceptions.Abort, KeyboardInterrupt):
        say("stopped")
        return STOPPED
    except click.ClickException as error:
        say(_sentence(error))
        return 2
    except InputFaultsError as several:
        for one in several.errors:
            say(str(one))
        return several.exit_status
    except CollateError as error:
        say(str(error))
        return error.exit_status
    except (BrokenPipeError, SystemExit) as left:
        if isinstance(left, SystemExit) and left.code == ENDED:
            return ENDED
        return 0  # click makes of a broken pipe an exit: the reader has all it wanted
    except Exception as error:
        if "COLLATE_DEBUG" in os.environ:
            raise
        kind = type(error).__name__
        say(f"this is a fault of ours, not of your files ({kind}: {error}): please report it")
        return InternalError.exit_status
    return result if isinstance(result, int) else 0


def _sentence(error: click.ClickException) -> str:
    """Return click's message as one sentence that names the way to help."""
    message = " ".join(error.format_message().split())
    context = getattr(error, "ctx", None)
    path = context.command_path if isinstance(context, click.Context) else "collate"
    return f"{message.rstrip('.')}: `{path} --help` shows the usage"
