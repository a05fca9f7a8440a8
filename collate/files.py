"""The only module that opens files: sources in, documents out."""

import os
import secrets
from collections.abc import Mapping
from importlib.resources import files as resources
from pathlib import Path
from typing import TextIO

from collate.errors import InputError
from collate.model.source import Place, Source

EDITION_FILE = "edition.toml"
WORDS_FILE = "words.tsv"


def load(path: str) -> Source:
    """Return the bytes of a file under the name given; raise InputError where there is none to read."""
    try:
        return Source(path, Path(path).read_bytes())
    except FileNotFoundError:
        raise InputError("there is no such file: look at the name", Place(path)) from None
    except IsADirectoryError:
        raise InputError("this is a folder, not a file: name a transcription", Place(path)) from None
    except (OSError, ValueError) as error:
        raise InputError(f"the file cannot be read: {_why(error)}", Place(path)) from None


def require(path: str) -> None:
    """Raise InputError unless a path is there."""
    if not path.strip():
        raise InputError("an empty name was given for a file or folder: name one")
    if not os.path.exists(path):
        raise InputError("there is no such file or folder: look at the name", Place(path))


def is_folder(path: str) -> bool:
    """Say whether a path is a folder."""
    return os.path.isdir(path)


def edition_of(path: str) -> str | None:
    """Return the folder of an edition whose edition.toml or words.tsv a path is, else None."""
    if os.path.basename(path) not in (EDITION_FILE, WORDS_FILE) or not os.path.isfile(path):
        return None
    folder = os.path.dirname(path) or "."
    return folder if os.path.isfile(os.path.join(folder, EDITION_FILE)) else None


def load_edition(folder: str) -> Source:
    """Return the edition.toml of a folder."""
    path = os.path.join(folder, EDITION_FILE)
    if not os.path.isfile(path):
        raise InputError(
            f"there is no {EDITION_FILE} in this folder: `collate new FOLDER` begins one, or name"
            " the transcription files themselves",
            Place(folder),
        )
    return load(path)


def load_words(folder: str) -> Source | None:
    """Return the words.tsv of an edition folder, or None where it has none."""
    require(folder)
    if not os.path.isdir(folder):
        raise InputError("this is a file, not an edition folder: name the folder", Place(folder))
    path = os.path.join(folder, WORDS_FILE)
    return load(path) if os.path.isfile(path) else None


def load_within(folder: str, name: str, told_by: Place) -> Source:
    """Return a file that lies inside a folder; `told_by` is the place that names it."""
    path = os.path.join(folder, name)
    if not _lies_within(path, folder):
        raise InputError(f"the file {name!r} lies outside the edition's folder: move it in", told_by)
    if not os.path.isfile(path):
        raise InputError(f"there is no file {name!r} in the edition's folder: look at the name", told_by)
    return load(path)


def _lies_within(path: str, folder: str) -> bool:
    """Say whether a path leads to a place in a folder, or is no name of a file at all."""
    try:
        return Path(path).resolve().is_relative_to(Path(folder).resolve())
    except (OSError, ValueError):
        return True


def write(path: str, text: str) -> None:
    """Write a file whole or not at all: under a passing name beside it, then renamed."""
    if not path or os.path.isdir(path):
        raise InputError(f"{path!r} is a folder or no name: name a file to write to")
    target = Path(os.path.realpath(path))
    passing = None
    try:
        if os.path.exists(path) and not os.path.isfile(path):  # a device or a pipe takes the text as it is
            Path(path).write_bytes(text.encode("utf-8"))
            return
        passing = (
            target.parent / f".collate-{secrets.token_hex(8)}"
        )  # known before it is there, to be taken away
        descriptor = os.open(
            passing, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600
        )
        with os.fdopen(descriptor, "wb") as out:
            out.write(text.encode("utf-8"))
        os.chmod(passing, 0o666 & ~_umask())
        os.replace(passing, target)
    except (OSError, ValueError) as error:
        if passing is not None and os.path.exists(passing):
            os.unlink(passing)
        raise InputError(f"this cannot be written: {_why(error)}", Place(path)) from None
    except BaseException:
        if passing is not None and os.path.exists(passing):
            os.unlink(passing)
        raise


def nowhere() -> TextIO:
    """Return what stands for an output that whoever called us has closed."""
    return open(os.devnull, "w", encoding="utf-8")


def begin(folder: str, contents: Mapping[str, str]) -> None:
    """Make a folder with the files given; raise InputError if it holds anything already."""
    if not folder.strip():
        raise InputError("an empty name was given for the folder: name the folder to begin")
    target = Path(folder)
    try:
        if os.path.lexists(target) and (not target.is_dir() or any(target.iterdir())):
            raise InputError(
                "this is there already and is never overwritten: name another folder", Place(folder)
            )
        target.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        raise InputError(f"the folder cannot be made: {_why(error)}", Place(folder)) from None
    for name, text in contents.items():
        write(str(target / name), text)


def starter() -> dict[str, str]:
    """Return the commented example with which an edition folder begins: file names and texts."""
    folder = resources("collate").joinpath("starter")
    return {
        entry.name: entry.read_text("utf-8")
        for entry in sorted(folder.iterdir(), key=lambda entry: entry.name)
        if entry.is_file()
    }


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _why(error: Exception) -> str:
    if isinstance(error, OSError) and error.strerror:
        return error.strerror[0].lower() + error.strerror[1:]
    return str(error)
