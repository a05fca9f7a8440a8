"""Which loci of an apparatus bear on date: those with a tense or a formula said of somebody, and no others."""

from collate import pipeline
from collate.analysis.bearing import bearing
from collate.model.source import Source
from collate.settings import Settings
from tests.dossiers import edition_of

TEXTS = {
    "A": "## preface\nSymond Harcastel þat is abbot of Eldernesse bad make a litel boke.\n",
    "B": "## preface\nSymond Harcastel þat was abbot of Eldernesse bad make a grete boke.\n",
}


def test_only_the_locus_of_the_tense_bears_on_date() -> None:
    edition = edition_of(TEXTS)
    sources = [Source(witness.file, TEXTS[witness.siglum].encode()) for witness in edition.witnesses]
    edition, cut = pipeline.texts(edition, sources, Settings())
    found = pipeline.evidence(edition, cut)
    (item,) = pipeline.findings(edition, cut, (), Settings()).items
    told = [[each.text for each in bearing(found, item.collation, locus)] for locus in item.collation.loci]
    assert [words for words in told if words] == [["þat is abbot", "þat was abbot"]]
    assert len(told) > 1


def _front(texts: dict[str, str], items: tuple[str, ...]) -> tuple[list[str], list[str]]:
    """Return what the prefaces of the items asked for tell, and what is told at the places of these items."""
    edition = edition_of(texts)
    sources = [Source(witness.file, texts[witness.siglum].encode()) for witness in edition.witnesses]
    edition, cut = pipeline.texts(edition, sources, Settings())
    matches = pipeline.matches(edition, cut, items)
    found = pipeline.front_evidence(edition, cut, matches)
    told = pipeline.find(edition, matches, Settings(), evidence=found)
    places = [each.text for item in told for b in item.bearings for group in b.evidence for each in group]
    return [each.text for each in found], places


def test_evidence_is_looked_for_in_the_items_asked_for_only() -> None:
    texts = {siglum: f"{text}## 1\nTake figes and ale and boyle hem.\n" for siglum, text in TEXTS.items()}
    assert _front(texts, ("1",)) == ([], [])
    assert _front(texts, ("preface",))[0]


def test_a_preface_in_two_parts_bears_on_date() -> None:
    """The words of a part count in the joined text, and its label is the joined one."""
    more = (
        "Here bigynneth of potages and of bakyd metes and of sauces for þe hye festes of þe abbey in lenten."
    )
    texts = {
        "A": TEXTS["A"] + more + "\n",
        "B": f"## preface\n{more}\n" + TEXTS["B"].replace("## preface", "## 0"),
        "C": TEXTS["A"] + more + "\n",
    }
    edition = edition_of(texts)
    sources = [Source(witness.file, texts[witness.siglum].encode()) for witness in edition.witnesses]
    edition, cut = pipeline.texts(edition, sources, Settings())
    (match,) = pipeline.matches(edition, cut, ())
    assert [len(member.places) for member in match.members] == [1, 2, 1]
    told = _front(texts, ())
    assert "þat was abbot" in told[1], told
