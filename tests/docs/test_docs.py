"""The documentation says all there is, leads nowhere false, and shows what the command prints."""

import re
import shutil
from enum import StrEnum
from pathlib import Path

import click
import pytest

from collate.cli.main import COMMANDS, collate
from collate.lexicon.tables import signs
from collate.model.apparatus import VariantKind, Weight
from collate.model.collation import Presence
from collate.model.concordance import Certainty as Likeness
from collate.model.concordance import Wanting
from collate.model.evidence import Certainty, EvidenceKind, Standing
from collate.model.form import Relation
from collate.model.hands import Act
from collate.model.notice import CODES, Severity
from collate.model.tense import ShiftKind, Tense
from collate.model.transcript import Mark
from collate.model.witness import ItemKind, TokenKind
from tests.making import ROOT, run

DOCS = ROOT / "docs"
PAGES = sorted([*ROOT.glob("*.md"), *DOCS.rglob("*.md"), *(ROOT / "samples").rglob("*.md")])
"""Every page that a reader may come to; what lies elsewhere (a virtual environment) is not ours."""

FORBIDDEN = re.compile(r"\b(issues?|tasks?|todos?)\b", re.IGNORECASE)
LINK = re.compile(r"(?<!!)\[[^\]\n]*\]\(([^)\s]+)\)")
FENCE = re.compile(
    r"^(?:<!-- file: (?P<file>\S+) -->\n)?```(?P<language>\w*)\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL
)
VALUES: list[StrEnum] = [
    value
    for values in (
        VariantKind,
        Weight,
        TokenKind,
        ItemKind,
        Mark,
        Presence,
        Severity,
        Relation,
        Tense,
        ShiftKind,
        EvidenceKind,
        Standing,
        Certainty,
        Act,
        Likeness,
        Wanting,
    )
    for value in values
]


def page(name: str) -> str:
    return (DOCS / name).read_text("utf-8")


def options_of(name: str) -> list[click.Option]:
    command = collate.get_command(click.Context(collate), name)
    assert command is not None
    return [each for each in command.params if isinstance(each, click.Option)]


def without_code(text: str) -> str:
    return re.sub(r"`[^`\n]*`", "", FENCE.sub("", text))


def anchors(text: str) -> set[str]:
    """Return the names under which a page's headings can be linked to."""
    titles = re.findall(r"^#+ (.+)$", FENCE.sub("", text), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", title.strip().lower()).replace(" ", "-") for title in titles}


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_its_passage(name: str) -> None:
    assert f"\n## collate {name}\n" in page("cli.md")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_of_a_command_is_described(name: str) -> None:
    words = set(re.findall(r"(?<![\w-])--?[a-z][a-z-]*", page("cli.md")))
    for option in options_of(name):
        assert words >= {*option.opts, *option.secondary_opts}, option.name


@pytest.mark.parametrize("value", VALUES, ids=lambda value: f"{type(value).__name__}.{value}")
def test_every_kind_and_mark_is_in_the_glossary(value: StrEnum) -> None:
    assert f"**{value}**" in page("glossary.md")


@pytest.mark.parametrize("code", CODES)
def test_every_code_has_its_heading(code: str) -> None:
    assert f"\n## {code}\n" in page("checks.md")


def test_every_sign_stands_beside_its_key_and_usual_expansion() -> None:
    rows = [line for line in page("transcribing.md").split("\n") if line.startswith("| ")]
    for sign in signs():
        row = next((row for row in rows if f"`{sign.key}`" in row and sign.sign in row), None)
        assert row is not None, f"{sign.name} {sign.key}"
        if sign.kind in ("abbreviation", "otiose", "word") and sign.position != "numeral":
            assert (f"*{sign.default.lower()}*" if sign.default else "nothing") in row.lower(), sign.name


@pytest.mark.parametrize("path", PAGES, ids=lambda path: str(path.relative_to(ROOT)))
def test_relative_links_resolve(path: Path) -> None:
    for target in LINK.findall(without_code(path.read_text("utf-8"))):
        name, _, anchor = target.partition("#")
        if "://" in name or name.startswith("mailto:"):
            continue
        there = (path.parent / name).resolve() if name else path
        assert there.exists(), target
        if anchor:
            assert anchor in anchors(there.read_text("utf-8")), target


@pytest.mark.parametrize("path", PAGES, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_page_speaks_of_how_the_work_was_ordered(path: Path) -> None:
    assert FORBIDDEN.findall(path.read_text("utf-8")) == []


def test_the_commands_of_the_readme_are_one_line_each() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    blocks = [found["body"] for found in FENCE.finditer(readme) if found["language"] == "sh"]
    assert len(blocks) >= 2
    for block in blocks[:2]:
        assert block.strip().count("\n") == 0


def matches(shown: list[str], printed: list[str]) -> bool:
    """Say whether printed lines are those shown, where a line "…" stands for any number of lines."""
    if not shown:
        return not printed
    if shown[0].strip() == "…":
        return any(matches(shown[1:], printed[at:]) for at in range(len(printed) + 1))
    return bool(printed) and shown[0] == printed[0] and matches(shown[1:], printed[1:])


@pytest.mark.parametrize("name", ["guide.md", "transcribing.md", "apparatus.md"])
def test_the_output_shown_is_what_the_command_prints(name: str, tmp_path: Path) -> None:
    shutil.copytree(ROOT / "samples" / "eldernesse", tmp_path / "eldernesse")
    for block in FENCE.finditer(page(name)):
        if block["file"]:
            (tmp_path / block["file"]).parent.mkdir(exist_ok=True)
            (tmp_path / block["file"]).write_text(block["body"], "utf-8")
        elif block["body"].startswith("$ collate "):
            command, _, shown = block["body"].partition("\n")
            printed = run(*command.removeprefix("$ collate ").split(), cwd=tmp_path).stdout
            assert matches(shown.rstrip().split("\n"), printed.rstrip().split("\n")), f"{command}\n{printed}"
