"""What follows for wording and for copy, rule by rule, and what does not follow."""

import pytest

from collate.model.evidence import Certainty, EvidenceKind, Layer, Standing, Where
from tests.dossiers import dated, dated_bare, dossier, rows, span, spans

DEAD = "Symond Harcastel, on whos soule God haue mercy."
LIVING = "Symond Harcastel, whom God kepe."
IS = "Symond Harcastel þat is abbot of Eldernesse."


@pytest.mark.parametrize(("words", "wording", "copy", "why"), rows("dossiers.tsv"))
def test_a_preface_bounds_no_more_than_it_may(words: str, wording: str, copy: str, why: str) -> None:
    assert spans(dossier(words)) == f"{wording} {copy}", why


def test_words_for_the_dead_bind_wording_and_copy_from_below() -> None:
    found = dossier(DEAD)
    assert spans(found) == "1418-03-02/ 1418-03-02/"
    assert found.evidence[0].certainty is Certainty.CERTAIN


def test_words_for_the_living_never_bind_the_copy() -> None:
    assert spans(dossier(LIVING)) == "/1418-03-02 /"
    assert spans(dossier(IS)) == "1391-01-01/1418-03-02 1391-01-01/"


def test_the_end_of_an_office_is_not_the_death() -> None:
    assert spans(dossier("Robert Dunmoor late bisshop of Solwick")) == "1443-01-01/ 1443-01-01/"


def test_the_copy_binds_the_wording_from_above() -> None:
    assert spans(dossier(DEAD, hand="s. xv in.")) == "1418-03-02/1425-12-31 1418-03-02/1425-12-31"
    assert spans(dossier(LIVING, hand="s. xv 2/4")) == "/1418-03-02 1425-01-01/1450-12-31"


def test_what_does_not_agree_is_told_in_pairs_and_nothing_is_chosen() -> None:
    found = dossier(DEAD, hand="s. xiv ex.")
    assert spans(found) == "/ /"
    assert not found.copy.agree
    assert any("on whos soule" in pair and "the hand (s. xiv ex.)" in pair for pair in found.conflicts)


def test_dead_and_living_in_one_preface_do_not_agree() -> None:
    found = dossier(f"{DEAD} And þe seid Symond Harcastel, whom God kepe, bad it write.")
    assert not found.wording.agree
    assert span(found, Layer.COPY) == "1418-03-02/"
    assert len(found.conflicts) == 1


def test_words_in_other_items_may_be_of_other_date() -> None:
    text = f"## preface\n{IS}\n## explicit\nPreieth for {DEAD}\n"
    found = dated({"A": text}).dossiers[0]
    assert spans(found) == "1418-03-02/ 1418-03-02/"
    assert "different date" in found.conflicts[0]


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("Symond Harcastel @margin:2{on whos soule God haue mercy} ordeyned", Where.MARGIN),
        ("Symond Harcastel `on whos soule God haue mercy´ ordeyned", Where.INSERTED),
        ("Symond Harcastel @hand{2} on whos soule God haue mercy @hand{1} ordeyned", Where.OTHER_HAND),
    ],
)
def test_an_addition_is_dated_and_neither_text_nor_copy(text: str, where: Where) -> None:
    found = dossier(f"þis boke {text} it")
    (added,) = [each for each in found.additions if each.standing is Standing.DEAD]
    assert added.where is where
    assert span(added, Layer.ADDITION) in ("1418-03-02/", "/")
    assert spans(found) == "/ /"


def test_struck_out_and_supplied_words_bound_nothing() -> None:
    for words in ("[[on whos soule God haue mercy]]", "<on whos soule God haue mercy>"):
        assert spans(dossier(f"Symond Harcastel {words} ordeyned it")) == "/ /"


def test_living_here_and_dead_there_order_no_books() -> None:
    found = dated({"A": f"## preface\n{LIVING}\n", "B": f"## preface\n{DEAD}\n"})
    a, b = found.dossiers
    assert (spans(a), spans(b)) == ("/1418-03-02 /", "1418-03-02/ 1418-03-02/")
    said = " ".join(each.not_shown for each in found.differences)
    assert "Nothing here orders the copies" in said
    assert "at most probable" in said


def test_a_lost_preface_is_not_extant_and_another_is_not_there() -> None:
    texts = {
        "A": f"## preface\n{DEAD}\n## 1 Tart\nTake figes.\n",
        "B": "## 1 Tart\n[...] take figes.\n",
        "C": "## 1 Tart\nTake figes.\n",
    }
    _, lost, none = dated(texts).dossiers
    assert "extant" in lost.absent
    assert "proves nothing" in none.absent
    assert spans(lost) == spans(none) == "/ /"


def test_somebody_unidentified_dates_nothing() -> None:
    found = dossier("Gilbert Tanholt, on whos soule God haue mercy.")
    (prayer,) = [each for each in found.evidence if each.kind is EvidenceKind.FORMULA]
    assert "unidentified" in prayer.reason
    assert spans(found) == "/ /"


def test_a_heading_that_only_some_have_dates_nothing() -> None:
    found = dated({"A": "## preface Prologue\nþe cook.\n", "B": "## preface\nþe cook.\n"})
    headings = [e for each in found.dossiers for e in each.evidence if e.kind is EvidenceKind.HEADING]
    assert headings
    assert not any(each.bounds for each in headings)


def test_two_bare_files_have_formulas_kings_and_tenses() -> None:
    found = dated_bare(
        {
            "A": "In þe xvj yere of kyng Richard þe secunde þis boke was made for oure abbot þat is gode.",
            "B": "In þe xvj yere of kyng Richard þe secunde, on whos soule God haue mercy, for oure abbot.",
        }
    )
    a, b = found.dossiers
    assert spans(a) == "1392-06-22/ 1392-06-22/"
    assert span(b, Layer.COPY) == "1400-02-01/"
    assert found.differences


def test_a_year_beyond_the_reign_dates_nothing_and_the_remedy_is_told() -> None:
    found = dossier("In þe xxx yere of kyng Richard þe secunde þis was ordeyned")
    (beyond,) = [each for each in found.evidence if each.kind is EvidenceKind.REGNAL_DATE]
    assert not beyond.bounds
    assert "23" in beyond.reason


def test_a_language_profile_has_no_bounds() -> None:
    found = dossier("þe worthi lord loued flesch and potte and litill morwe, and ȝif he might elles þre owen")
    profile = [each for each in found.evidence if each.kind is EvidenceKind.LANGUAGE]
    assert profile
    assert not any(each.bounds for each in profile)
    assert "no date" in profile[0].reason


def test_every_claim_has_a_reason() -> None:
    found = dossier(f"{IS} {DEAD} In þe xvj yere of kyng Richard þe secunde. quod Thomas Wrangelford")
    assert len(found.evidence) == 4
    assert all(each.reason for each in found.evidence)


TOLD_APART = (
    (
        "In the yere of oure lord mccccxx this boke was made.",
        "In the yere of oure lord mccccxxx this boke was made.",
    ),
    ("The yere of kyng Henry the fifte the thridde.", "The yere of kyng Henry the fifte the iiij."),
    ("The yere of kyng Henry the fifte the thridde.", "The yere of kyng Henry the fifte the xxx."),
    ("The yere of kyng Henry the fifte the thridde.", "The yere of oure lord m cccc xx and ij."),
    ("Symond Harcastel late abbot of Eldernesse.", "Symond Harcastel abbot of Eldernesse."),
    ("Rauf Brenle, whom God kepe, made it.", "Water Pennok, whom God kepe, made it."),
    ("Symond Harcastel, whom God kepe, made it.", "Symond Harcastel, whom God saue and kepe, made it."),
)
"""Prefaces of two copies that say something of the same sort in other words, of another day or another man."""


@pytest.mark.parametrize(("ours", "theirs"), TOLD_APART)
def test_no_copy_is_given_words_that_only_another_has(ours: str, theirs: str) -> None:
    texts = dict.fromkeys("AC", f"## preface\n{ours}\n")
    texts |= {"B": f"## preface\n{theirs}\n", "D": "## preface\nHerkne wel.\n"}
    found = dated(texts)
    assert found.differences
    for difference in found.differences:
        for reading in difference.readings:
            assert set(reading.sigla) in ({"A", "C"}, {"B"}, {"D"})
            for siglum in reading.sigla:
                assert reading.text in texts[siglum]


@pytest.mark.parametrize(("ours", "theirs"), TOLD_APART[:5])
def test_another_day_is_a_difference_and_each_copy_is_given_its_own(ours: str, theirs: str) -> None:
    found = dated({"A": f"## preface\n{ours}\n", "B": f"## preface\n{theirs}\n"})
    assert found.differences
    assert not any("A and B" in difference.shows for difference in found.differences)


def test_copies_of_one_wording_stand_together_in_any_spelling() -> None:
    found = dated(
        {
            "A": "## preface\nSymond Harcastel, on whos soule God haue mercy.\n",
            "B": "## preface\nSymond Harcastel, whom God kepe.\n",
            "C": "## preface\nSymond Harcastell, on whos sowle God have mercie.\n",
        }
    )
    (difference,) = found.differences
    assert [reading.sigla for reading in difference.readings] == [("A", "C"), ("B",)]


def test_of_a_line_each_copy_is_given_its_own_words() -> None:
    line = "for mete in mesure is the beste leche of alle"
    found = dated(
        {
            "A": f"## preface\nTake hede {line} and go forth.\n",
            "B": "## preface\nTake hede and go forth.\n",
            "C": "## preface\nTake hede [...] and go forth.\n",
            "D": f"## preface\nTake hede {line} and go forth.\n",
        }
    )
    (difference,) = (each for each in found.differences if each.title.startswith("a line"))
    assert {reading.sigla: reading.text for reading in difference.readings} == {
        ("A", "D"): line,
        ("B",): "",
        ("C",): "",
    }


SERVANTS = (
    "This boke made Water Pennok, sumtyme cook to Symond Harcastel.",
    "This boke made Water Pennok, late cook of my lord Symond Harcastel.",
    "Sumtyme cook to Symond Harcastel, Water Pennok made this boke.",
    "Made by þe sumtyme cook of Symond Harcastel.",
    "Water Pennok quondam cocus Symonis Harcastel.",
    "Quondam cocus domini Symonis Harcastel hec scripsit.",
    "Þe boke of Symond Harcasteles late cook.",
    "Þe cook of Symond Harcastel is maister of þe kechyn and loueth mesure.",
    "Water Pennok, cook to Symond Harcastel, was maister of þe kechyn.",
    "Water Pennok þat is cook with Symond Harcastel and loueth mesure.",
)
"""What is said of somebody's servant, in English and Latin."""


@pytest.mark.parametrize("words", SERVANTS)
def test_what_is_said_of_a_servant_is_not_said_of_his_lord(words: str) -> None:
    for each in dossier(words).evidence:
        said_of_lord = each.standing in (Standing.DEAD, Standing.FORMER, Standing.LIVING)
        titled = each.kind in (EvidenceKind.OFFICE, EvidenceKind.TENSE)
        assert not each.lives or not (said_of_lord or titled), each


LORDS = (
    ("Water Pennok, sumtyme cook to Symond Harcastel late abbot.", "1418-01-01/"),
    ("Made at þe biddyng of þe late abbot, Symond Harcastel.", "1418-01-01/"),
    ("Made of Water Pennok, cook to þe abbot þat now is, Symond Harcastel.", "1391-01-01/1418-03-02"),
    ("For Symond Harcastel is abbot.", "1391-01-01/1418-03-02"),
)


@pytest.mark.parametrize(("words", "wording"), LORDS)
def test_what_is_said_of_the_lord_stays_with_him(words: str, wording: str) -> None:
    assert any(span(each, Layer.WORDING) == wording for each in dossier(words).evidence)
