"""The forms of common verbs in plain clauses, and a few of them in clauses of every order."""

from pathlib import Path

import pytest

from collate.analysis.tense import verb_groups
from collate.lexicon.words import lexicon
from collate.model.tense import Tense
from tests.making import witness_text

TABLE = Path(__file__).parent.parent / "cases" / "tense_forms.tsv"
CLAUSES = (
    ("he {} it", Tense.PRESENT),
    ("þei {} it", Tense.PRESENT),
    ("he {} it", Tense.PRETERITE),
    ("þei {} it", Tense.PRETERITE),
    ("he hath {} it", Tense.PERFECT),
)
"""The clause in which the forms of each column stand, and what they are there (from memory)."""

PAIRS = (
    "loueþ louede",
    "goth wente",
    "techeþ tauȝte",
    "syngeþ song",
    "rideþ rood",
    "maketh made",
    "bereþ bar",
)
ORDERS = (
    "þe olde abbot of Eldernesse {} it",
    "in þe toun of Hulme {} a riche man",
    "þat day {} þe kyng erly",
    "þe wif and hir doughter dwellen þere and þe sone {} it",
    "þe sone of Robert of Hulme {} it",
    "oon of hem {} it",
    "þat oþer {} it",
    "who so {} it",
    "þe man whos wif {} it is deed",
    "þe ale þe which þe cook {} is good",
    "þe man þat was abbot of þis hous {} it",
    "he that hath þe keyes of þe celer {} it",
    "Robert, as men tellen, {} it",
    "þe lord, God haue his soule, {} it",
    "þer is no cook in al þe lond þat {} it so wel",
    "and þere {} he it",
    "yit {} þe bisshop it",
    "þe kyng of that lond {} it",
    "I wot wel þat he {} it",
)
"""Clauses in which a present and a preterite of one verb may stand alike."""


def tense_of(clause: str, form: str) -> Tense | None:
    """Return what a form is in a clause, None where it is read as no verb."""
    item = witness_text(f"## preface\n{clause}\n").items[0]
    groups = verb_groups(item.tokens, item.kind, lexicon())
    return next((g.tense for g in groups if any(item.tokens[at].expanded == form for at in g.verbs)), None)


def rows() -> list[list[str]]:
    """Return the rows of the table, the verb first."""
    return [line.split("\t") for line in TABLE.read_text("utf-8").rstrip("\n").split("\n")[1:]]


@pytest.mark.parametrize("row", rows(), ids=lambda row: row[0])
def test_the_forms_of_a_verb(row: list[str]) -> None:
    for (clause, tense), forms in zip(CLAUSES, row[1:], strict=True):
        for form in forms.split(" "):
            if form != "-":
                assert tense_of(clause.format(form), form) is tense, (clause, form)


@pytest.mark.parametrize("order", ORDERS)
def test_a_verb_is_found_wherever_it_stands(order: str) -> None:
    for pair in PAIRS:
        for form, tense in zip(pair.split(" "), (Tense.PRESENT, Tense.PRETERITE), strict=True):
            assert tense_of(order.format(form), form) is tense, form
