import re
from collections import Counter
from importlib.resources import files
from pathlib import Path

import pytest

from collate.analysis.tense_keyed import USES
from collate.lexicon.rule_words import letter_pairs, rule_endings, rule_words
from collate.lexicon.tables import table

CODE = sorted(Path(str(files("collate"))).rglob("*.py"))
ROWS = table("rule_words", "use", "form", "authority")
PAIRS = table("letter_pairs", "use", "letter", "other", "authority")


def asked(*functions: str) -> set[str]:
    """Return the uses that the code asks these functions for."""
    call = re.compile(rf'\b(?:{"|".join(functions)})\(\s*"([^"]+)"\s*\)')
    return {use for path in CODE for use in call.findall(path.read_text("utf-8"))}


def test_every_use_of_the_table_is_asked_for_and_none_else() -> None:
    keyed = {use for use, _ in USES}
    assert asked("rule_words", "rule_endings") | keyed == {use for use, _, _ in ROWS}
    assert asked("letter_pairs") == {use for use, _, _, _ in PAIRS}


def test_no_form_stands_twice_in_one_use() -> None:
    assert max(Counter((use, form) for use, form, _ in ROWS).values()) == 1
    assert max(Counter((use, letter) for use, letter, _, _ in PAIRS).values()) == 1


def test_the_rows_of_a_use_stand_together() -> None:
    uses = [use for use, _, _ in ROWS]
    assert uses == sorted(uses)


def test_a_longer_ending_comes_before_one_that_it_ends_in() -> None:
    for use in ("latin-case", "inflection-consonant"):
        endings = rule_endings(use)
        for at, ending in enumerate(endings):
            assert not any(later.endswith(ending) for later in endings[at + 1 :]), (use, ending)


def test_an_unknown_use_is_refused() -> None:
    for look in (rule_words, rule_endings, letter_pairs):
        with pytest.raises(KeyError):
            look("no such use")


def test_a_use_gives_its_forms() -> None:
    assert rule_words("by") == {"bi", "be"}
    assert rule_endings("strong-en") == ("en", "in")
    assert letter_pairs("voiced") == {"u": "f", "z": "s"}
