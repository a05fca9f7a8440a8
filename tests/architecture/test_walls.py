"""The walls between the rooms, and the ceilings within them (DEVELOPERS.md)."""

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import collate

PACKAGE = Path(collate.__file__).parent
MODULES = sorted(PACKAGE.rglob("*.py"))
OURS = {"model", "errors", "settings", "lexicon", "readers", "tokens", "align", "analysis", "reports",
        "batch", "pipeline", "workers", "pool", "files", "cli"}  # fmt: skip
MAY_IMPORT = {
    "model": {"model"},
    "errors": {"model"},
    "settings": {"model"},
    "lexicon": {"lexicon", "model", "errors"},
    "readers": {"readers", "model", "errors", "settings"},
    "tokens": {"tokens", "model", "errors", "settings", "lexicon"},
    "align": {"align", "model", "errors", "settings"},
    "analysis": {"analysis", "model", "errors", "settings", "lexicon"},
    "reports": {"reports", "model", "errors", "settings"},
    "batch": {"align", "analysis", "lexicon", "model", "settings"},
    "pipeline": OURS - {"reports", "files", "cli"},
    "workers": {"errors", "pool"},
    "pool": {"errors"},
    "files": {"model", "errors"},
    "cli": {"cli", "pipeline", "workers", "reports", "files", "model", "errors", "settings"},
    "__main__": {"cli"},
    "__init__": set[str](),
}
OUTSIDE = {
    "align": {"numpy", "rapidfuzz", "networkx"},
    "analysis": {"rapidfuzz", "networkx"},
    "readers": {"lxml"},
    "reports": {"networkx"},
    "cli": {"click"},
}


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imports(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            if node.module == "collate":
                yield from (f"collate.{alias.name}" for alias in node.names)
            else:
                yield node.module or ""


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_imports_only_what_its_room_may(path: Path) -> None:
    room = room_of(path)
    for name in imports(path):
        head, *rest = name.split(".")
        if head == "collate":
            assert rest, f"{path} imports the package itself"
            assert rest[0] in MAY_IMPORT[room], f"{path} imports {name}"
        elif head not in sys.stdlib_module_names:
            assert head in OUTSIDE.get(room, set()), f"{path} imports {name}"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_modules_and_functions_stay_under_their_ceilings(path: Path) -> None:
    text = path.read_text("utf-8")
    assert len(text.splitlines()) <= 400, path
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef):
            length = (node.end_lineno or node.lineno) - node.lineno + 1
            assert length <= 45, f"{path}: {node.name} has {length} lines"


def test_only_files_and_tables_open_files() -> None:
    openers = {"open", "read_text", "read_bytes", "write_text", "write_bytes"}
    for path in MODULES:
        called = {
            node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            for node in ast.walk(ast.parse(path.read_text("utf-8")))
            if isinstance(node, ast.Call)
        }
        if path.name not in ("files.py", "tables.py", "compile.py"):  # compile is the developers' tool
            assert not called & openers, path


def test_only_the_command_line_prints() -> None:
    for path in MODULES:
        if room_of(path) not in ("cli", "__main__"):
            names = {n.id for n in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(n, ast.Name)}
            assert not names & {"print", "input", "exit"}, path


def test_there_is_no_any() -> None:
    for path in MODULES:
        assert "Any" not in {alias for name in imports(path) for alias in [name]}, path
        assert "from typing import Any" not in path.read_text("utf-8"), path
