"""How words and lines are laid out for the terminal: signs about letters, narrow lines, columns."""

import pytest

from collate.model.witness import shown
from collate.reports.text import apparatus, tokens
from collate.settings import Printing
from tests.making import all_found, witness_text


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("[ho(n)d]", "[ho(n)d]"),
        ("w[at](er)", "w[at](er)"),
        ("w[a](t)[(er)]", "w[a](t[er])"),
        ("[w(a)](t)er", "[w(a)](t)er"),
        ("<[w(a)](t)>er", "<[w(a)](t)>er"),
        ("<s[al]t>", "<s[al]t>"),
        ("{[(a)b]c}", "{[(a)b]c}"),
        ("[w](at)(er)", "[w](ater)"),
        ("[ꝑ]cel<y>", "[p(er)]cel<y>"),
        ("[[[x]ab]][s]alt", "[s]alt"),
    ],
)
def test_signs_stand_about_all_the_letters_that_they_are_over(typed: str, expected: str) -> None:
    (token,) = witness_text(typed).items[0].tokens
    assert shown(token) == expected


TEXTS = {
    "A": "## 1 A longer heading than fits\nTake figes and ale and boyle hem wel in wyn and serue it forth",
    "B": "## 1 A longer heading than fits\nTake dates in ale and boyle them [[salt]] in wyn @margin{nota bene hic} and serue",
}


@pytest.mark.parametrize("width", [20, 25, 30, 39, 60])
def test_no_line_is_longer_than_asked_for(width: int) -> None:
    text = "".join(apparatus(all_found(TEXTS), Printing(width=width)))
    assert max(map(len, text.split("\n"))) <= width
    wide = "".join(apparatus(all_found(TEXTS), Printing(width=200)))
    assert text.split() == wide.split()


def test_columns_of_words_stand_one_below_another_whatever_is_long() -> None:
    long = "x" * 70
    texts = [witness_text(f"Take @rubric{{@initial{{W}}ater(es)}} and {long} ale")]
    lines = "".join(tokens(texts, Printing(width=80))).split("\n")
    rows = [line for line in lines if line.startswith("  line")]
    second = {line.index(word) for line, word in ((rows[0], "Take"), (rows[2], "and"), (rows[4], "ale"))}
    third = {line.rindex(word) for line, word in ((rows[0], "Take"), (rows[2], "and"))}
    assert len(second) == 1
    assert all(line[at - 1] == " " for line in rows[:3] for at in (*second,))
    assert len({len(line) - len(line.lstrip()) for line in lines if line.strip() == long}) == 2
    assert max(third) > max(second)
