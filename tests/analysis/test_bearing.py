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
