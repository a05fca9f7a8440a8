"""The past tense of verbs against a dictionary, and one line that an open standard quotes.

Sources: A. L. Mayhew and W. W. Skeat, A Concise Dictionary of Middle English from A.D. 1150 to 1580 (Oxford
1888), its forms marked "pt." and "pp."; TEI P5 Guidelines, chapter on the critical apparatus, where readings
of a line of Chaucer's Wife of Bath are compared.
"""

import gzip
import json
import re
from collections.abc import Iterator
from functools import cache

import pytest

from collate.analysis.tense import verb_groups
from collate.lexicon.words import Sense, lexicon, senses
from collate.model.tense import PRESENT_SIDE, Tense
from collate.model.witness import ItemKind
from tests.making import DATA, found, witness_text

DICTIONARY = DATA / "mayhew-skeat" / "mayhew_skeat_entries.jsonl.gz"
needs_data = pytest.mark.skipif(not DICTIONARY.exists(), reason="the shared data folder is not here")

MARK = re.compile(r"^(?:[123] )?(pt|pp|pr|imp|ger|pl|subj|v)\b\.?(?: (s|pl|p)\b\.?)?(.*)$")
FORM = re.compile(r"^[a-zȝþðæ]+$")
PAST = ("preterite", "preterite-plural")


def marked(text: str) -> Iterator[tuple[str, str]]:
    """Yield each form of an entry with its mark: "pt s", "pt pl", "pp"; the mark holds until the next."""
    kind, number = "v", ""
    for segment in text.partition(".—")[0].split(";"):
        parts = [part.strip() for part in segment.split(",")]
        for part in parts[1:]:
            if told := MARK.match(part):
                same = told[1] == "pl"
                kind, number = (kind, "pl") if same else (told[1], told[2] or "")
                if any(other in part for other in ("subj", "pass", "pt. pr", "pt.-pr")):
                    kind = "subj"
        if FORM.match(parts[0]):
            yield parts[0], f"{kind} {number}".strip()


@cache
def dictionary() -> tuple[tuple[str, str, str], ...]:
    """Return (verb of the lexicon, form, mark) of the entries whose head the lexicon has as a verb."""
    rows: dict[tuple[str, str, str], None] = {}
    with gzip.open(DICTIONARY, "rt", encoding="utf-8") as lines:
        entries = [json.loads(line) for line in lines]
    for entry in entries:
        head = str(entry["head"]).split(",", maxsplit=1)[0].replace("-", "").casefold()
        text = str(entry["text"])
        names = {s.headword.name for s in verbs(head)}
        if ", v." in text and len(names) == 1:
            for form, mark in marked(text):
                rows.setdefault((next(iter(names)), form, mark))
    return tuple(rows)


def verbs(form: str) -> tuple[Sense, ...]:
    return tuple(s for s in senses(form, lexicon()) if s.headword.word_class == "verb")


def known(mark: str) -> list[tuple[str, str, set[str]]]:
    """Return (verb, form, parts the form may be) for the forms of a mark that the lexicon gives that verb."""
    found_forms = []
    for verb, form, told in dictionary():
        parts = {f for s in verbs(form) if s.headword.name == verb for f in s.features}
        if told.startswith(mark) and parts:
            found_forms.append((verb, form, parts))
    return found_forms


@needs_data
def test_forms_marked_past_may_be_past() -> None:
    forms = known("pt")
    missed = [(verb, form) for verb, form, parts in forms if not parts & set(PAST)]
    assert len(forms) > 500
    assert len(missed) <= 0.02 * len(forms), missed


@needs_data
def test_forms_marked_participle_may_be_one() -> None:
    forms = known("pp")
    missed = [(verb, form) for verb, form, parts in forms if "past-participle" not in parts]
    assert len(forms) > 400
    assert len(missed) <= 0.03 * len(forms), missed


@needs_data
def test_forms_marked_past_are_hardly_ever_a_clear_present() -> None:
    subjects = {"pt s": "He", "pt pl": "Þei", "pt": "He"}
    forms = [(verb, form, mark) for verb, form, mark in dictionary() if mark in subjects]
    forms = [row for row in forms if any(s.headword.name == row[0] for s in verbs(row[1]))]
    wrong = [
        (form, subjects[mark]) for _, form, mark in forms if tense_of(subjects[mark], form) in PRESENT_SIDE
    ]
    assert len(wrong) <= 0.01 * len(forms), wrong


def tense_of(subject: str, form: str) -> Tense | None:
    """Return the tense of a verb between a pronoun and *hem*."""
    item = witness_text(f"## preface\n{subject} {form} hem.\n").items[0]
    groups = verb_groups(item.tokens, ItemKind.PREFACE, lexicon())
    return groups[0].tense if groups else None


WIFE_OF_BATH = {
    "El": "Experience though noon Auctoritee Were in this world, were right ynogh to me",
    "Hg": "Experience thogh noon Auctoritee Were in this world, is right ynogh for me",
    "La": "Experiment thouh none auctorite Were in this world, is right ynohe for me",
    "Ra": "Eryment though none auctorite Were in this world, it is right ynow for me",
}


def test_were_beside_is_in_the_wife_of_baths_line_is_no_shift() -> None:
    """*Were* of one thing, after *though* or in what follows from it, supposes and tells no time.

    *Is* answers it as a statement: a difference of mood, which the list of shifts leaves out.
    """
    assert found({siglum: f"## preface\n{line}\n" for siglum, line in WIFE_OF_BATH.items()}).shifts == ()
