"""What stands in the TEI document of small editions, entry by entry."""

import csv
from collections.abc import Mapping
from dataclasses import replace
from importlib import resources

from lxml import etree
from lxml.etree import _Element

from collate.model.edition import DateRange
from collate.reports.tei import tei
from tests.reports.tei_reading import document, found_again, opened, read_again, told, told_as_collated
from tests.tei_rules import faults
from tests.tei_schema import errors, reduced

TEI = "{http://www.tei-c.org/ns/1.0}"
NS = {"t": "http://www.tei-c.org/ns/1.0"}
XML_ID = "{http://www.w3.org/XML/1998/namespace}id"


def root(document: str) -> _Element:
    return etree.fromstring(document.encode())


def found(document: str, path: str) -> list[_Element]:
    return list(root(document).iterfind(path, NS))


def shown(element: _Element, *without: str) -> str:
    """Return an element as XML without its namespace, its tail, and the attributes named."""
    text = etree.tostring(element, encoding="unicode", with_tail=False)
    copied = etree.fromstring(text.replace(' xmlns="http://www.tei-c.org/ns/1.0"', ""))
    for each in copied.iter("*"):
        for name in without:
            if name in each.attrib:
                del each.attrib[name]
    return etree.tostring(copied, encoding="unicode")


def apps(texts: Mapping[str, str], base: str = "") -> list[str]:
    return [shown(app, "ana") for app in found(document(texts, base=base), ".//t:body//t:p/t:app")]


def test_what_all_share_stands_bare() -> None:
    (paragraph,) = found(
        document({"A": "Take figes and dates", "B": "Take figes and dates"}), ".//t:body//t:p"
    )
    assert shown(paragraph) == "<p>Take figes and dates</p>"


def test_the_lemma_is_the_bases_and_an_omission_is_an_empty_reading() -> None:
    assert apps({"A": "boyle hem wel", "B": "boyle wel"}) == [
        '<app type="substantive"><lem wit="#A">hem</lem><rdg wit="#B" type="omission"/></app>'
    ]
    assert apps({"A": "boyle hem wel", "B": "boyle wel"}, base="B") == [
        '<app type="substantive"><lem wit="#B"/><rdg wit="#A" type="addition">hem</rdg></app>'
    ]


def test_spellings_of_one_reading_stand_in_one_group() -> None:
    texts = {
        "A": "and boyle hem in water",
        "B": "and boile hem in water",
        "C": "and sethe hem in water",
        "D": "and seþe hem in water",
    }
    assert apps(texts) == [
        '<app type="substantive"><rdgGrp type="accidental"><lem wit="#A">boyle</lem>'
        '<rdg wit="#B" type="spelling">boile</rdg></rdgGrp>'
        '<rdgGrp type="accidental"><rdg wit="#C" type="substitution">sethe</rdg>'
        '<rdg wit="#D" type="substitution">seþe</rdg></rdgGrp></app>'
    ]


def test_a_reading_points_to_its_weight_and_its_ground() -> None:
    texts = {"A": "take figes and dates", "B": "take fygys and dates"}
    written = document(texts)
    (reading,) = found(written, ".//t:body//t:rdg")
    weight, ground = (reading.get("ana") or "").split()
    (interpretation,) = (each for each in found(written, ".//t:interp") if f"#{each.get(XML_ID)}" == ground)
    (entry,) = next(iter(opened(texts)[1].items)).entries
    assert weight == "#weight-accidental"
    assert interpretation.text == entry.variants[0].reason


def test_a_shift_of_tense_is_told_at_the_entry_and_each_side_has_its_tense() -> None:
    texts = {
        "A": "þe abbot Symond þat is abbot of þat hous. he loueth mesure",
        "B": "þe abbot Symond þat was abbot of þat hous. he loued mesure",
    }
    written = document(texts)
    shifted = [app for app in found(written, ".//t:app") if "#shift-" in (app.get("ana") or "")]
    sides = [[(each.text, (each.get("ana") or "").split()[-1]) for each in app] for app in shifted]
    assert sides == [
        [("is", "#tense-present"), ("was", "#tense-preterite")],
        [("loueth", "#tense-present"), ("loued", "#tense-preterite")],
    ]


def test_a_skip_of_the_eye_names_its_cause() -> None:
    texts = {
        "A": "take þe iuys of lemons and caste þe iuys to þe eyren and poudre of canel and poudre of galyngale",
        "B": "take þe iuys to þe eyren and poudre of galyngale",
    }
    readings = found(document(texts), ".//t:body//t:rdg")
    assert [(each.get("type"), each.get("cause")) for each in readings] == [
        ("eye-skip", "homeoteleuton"),
        ("eye-skip", "homeoarchy"),
    ]


def test_words_written_twice_name_their_cause() -> None:
    texts = {"A": "and boyle hem wel in water", "B": "and boyle hem boyle hem wel in water"}
    readings = found(document(texts), ".//t:body//t:rdg")
    assert [(each.get("type"), each.get("cause")) for each in readings] == [("dittography", "dittography")]


def test_the_two_ends_of_a_transposition_exclude_each_other() -> None:
    texts = {
        "A": "sette it in a colde place a day and a nyght",
        "B": "sette it a day and a nyght in a cold place",
    }
    linked = [each for each in found(document(texts), ".//t:app/*") if each.get("exclude")]
    assert [etree.QName(each).localname for each in linked] == ["lem", "rdg"]
    assert [each.text for each in linked] == ["in a colde place", "in a cold place"]
    first, second = linked
    assert first.get("exclude") == f"#{second.get(XML_ID)}"
    assert second.get("exclude") == f"#{first.get(XML_ID)}"


def test_a_loss_over_several_places_has_its_two_ends_in_readings() -> None:
    texts = {
        "A": "Take figes and dates and boyle hem wel in wyn and serue hem forth",
        "B": "Take fyges [...] and serue hem forth",
        "C": "Take figes and reysons and sethe hem wel in water and serue hem forth",
    }
    written = document(texts)
    (start,), (end,) = found(written, ".//t:lacunaStart"), found(written, ".//t:lacunaEnd")
    holders = [each.getparent() for each in (start, end)]
    assert [None if each is None else (each.get("wit"), each.get("type")) for each in holders] == [
        ("#B", "lacuna")
    ] * 2
    assert told(read_again(written)) == told(opened(texts)[0])


def test_who_lacks_an_item_does_not_omit_its_words() -> None:
    texts = {
        "A": "## 1\nTake figes\n## 2\nTake dates",
        "B": "## 1\nTake figis",
        "C": "## 1\nTake figes\n## 2\nTake datys",
    }
    second = found(document(texts), ".//t:body/t:div")[1]
    (app,) = second.iterfind("t:p/t:app", NS)
    lemma, absent = app
    assert (app.get("type"), lemma.get("wit")) == ("absent", "#A #C")
    assert sorted(absent.attrib.items()) == [("type", "absent"), ("wit", "#B")]
    assert [shown(each, "ana") for each in lemma.iterfind("t:app", NS)] == [
        '<app type="accidental"><lem wit="#A">dates</lem><rdg wit="#C" type="spelling">datys</rdg></app>'
    ]


def test_a_siglum_that_is_no_name_is_kept_as_it_is_shown() -> None:
    written = document({"1": "Take", "A*": "Take", "A_": "Taketh", "Ha+4": "Take"})
    listed = found(written, ".//t:listWit/t:witness")
    assert [each.get(XML_ID) for each in listed] == ["w1", "A_-2", "A_", "Ha_4"]
    assert [each.findtext("t:abbr", None, NS) for each in listed] == ["1", "A*", "A_", "Ha+4"]
    assert [text.siglum for text in read_again(written)] == ["1", "A*", "A_", "Ha+4"]


def test_the_date_of_a_copy_is_told_in_years_and_in_the_catalogues_words() -> None:
    _, dated = opened({"A": "Take", "B": "Take"})
    (first, second) = dated.edition.witnesses
    first = replace(first, name="MS 1", hand=DateRange("s. xv in.", 1400, 1425, "quarters"))
    written = "".join(tei(replace(dated, edition=replace(dated.edition, witnesses=(first, second)))))
    (described,) = found(written, ".//t:witness/t:msDesc")
    assert described.findtext("t:msIdentifier/t:idno", None, NS) == "MS 1"
    (date,) = described.iterfind("t:history/t:origin/t:origDate", NS)
    assert (date.text, date.get("notBefore"), date.get("notAfter")) == ("s. xv in.", "1400", "1425")
    assert (date.get("notBefore-custom"), date.get("notAfter-custom")) == ("1400", "1425")
    (calendar,) = found(written, ".//t:profileDesc/t:calendarDesc/t:calendar")
    assert date.get("calendar") == date.get("datingMethod") == f"#{calendar.get(XML_ID)}"
    assert "Julian" in (calendar.findtext("t:p", None, NS) or "")
    assert faults(written) == errors(written, reduced()) == []
    again = read_again(written)[0].witness.hand
    assert again is not None
    assert (again.stated, again.not_before, again.not_after) == ("s. xv in.", 1400, 1425)


def test_no_calendar_is_described_where_no_copy_has_a_date() -> None:
    assert not found(document({"A": "Take", "B": "Take"}), ".//t:calendarDesc")


def test_marks_of_the_editor_and_of_the_scribe_have_their_elements() -> None:
    texts = {
        "A": "@rubric{Tart} wat(er) s[al]t <and> {and} sạlt `wel´ sa[.2.] [.3 words.] xij [[honde]] |f. 2v| wᵗ"
    }
    (paragraph,) = found(document({**texts, "B": texts["A"]}), ".//t:body//t:p")
    assert shown(paragraph, "edRef") == (
        '<p><hi rend="rubric">Tart</hi> <expan>wat<ex>er</ex></expan> s<supplied reason="lost">al</supplied>t'
        ' <supplied reason="omitted-in-original">and</supplied> <surplus>and</surplus> s<unclear>a</unclear>lt'
        ' <add place="above">wel</add> sa<gap reason="lost" quantity="2" unit="chars"/>'
        ' <gap reason="lost" quantity="3" unit="words"/> <num value="12">xij</num>'
        ' <del>honde</del> <pb n="2v"/><pb n="2v"/>'
        "<choice><abbr>wᵗ</abbr><expan>w<ex>i</ex>t<ex>h</ex></expan></choice></p>"
    )


def test_a_second_hand_is_described_and_begins_where_it_begins() -> None:
    texts = {"A": "Take @hand{2} figes @margin:2{nota}", "B": "Take figes"}
    written = document(texts)
    hands = found(written, ".//t:handNotes/t:handNote")
    assert [(each.get(XML_ID), each.get("n"), each.get("corresp")) for each in hands] == [
        ("A-hand-1", "1", "#A"),
        ("A-hand-2", "2", "#A"),
    ]
    assert [each.get("new") for each in found(written, ".//t:handShift")] == ["#A-hand-2"]
    assert [each.get("hand") for each in found(written, ".//t:add")] == ["#A-hand-2"]
    assert told(read_again(written)) == told(opened(texts)[0])


def test_characters_that_xml_has_not_are_shown_as_unknown() -> None:
    _, findings = opened({"A": "Take", "B": "Take"})
    titled = replace(findings, edition=replace(findings.edition, title="Tarts & <Pies> \x01"))
    assert [each.text for each in found("".join(tei(titled)), ".//t:title")] == ["Tarts & <Pies> \ufffd"]


def test_the_title_and_the_base_are_read_again() -> None:
    written = document({"A": "boyle hem wel", "B": "boyle wel"}, base="B")
    edition = found_again(written)[1].edition
    assert (edition.title, edition.base) == ("T", "B")


def test_no_blank_is_written_where_it_would_make_a_numeral_of_two_points_and_a_word() -> None:
    texts = {
        "A": ".Takeda|tes@hand{2}hemwel|f. 1v|.iij.welsalt",
        "B": "Take .iij. wel",
        "C": ". iij . welsalt",
    }
    for base in texts:
        written = document(texts, base=base)
        assert told(read_again(written)) == told(opened(texts, base=base)[0])


def test_a_likely_misreading_is_told_as_a_cause_of_its_sort() -> None:
    texts = {"A": "take a fewe pynes of .iij. eyren", "B": "take a fewe pyues of .iiij. eyren"}
    written = document(texts)
    told_of = [(each.get("type"), each.get("cause")) for each in found(written, ".//t:body//t:rdg")]
    assert told_of == [("substitution", "minim"), ("substitution", "numeral")]
    assert any("n/u" in (each.text or "") for each in found(written, ".//t:interp"))


def test_every_sort_of_misreading_has_its_category() -> None:
    categories = {each.get(XML_ID) for each in found(document({"A": "Take", "B": "Take"}), ".//t:category")}
    sorts = {row["kind"] for row in misreadings()} | {"expansion"}
    assert {f"cause-{sort}" for sort in sorts} <= categories


def test_words_of_one_sense_by_dialect_stand_with_the_lemma() -> None:
    texts = {"A": "and boyle hem wel", "B": "and boyle them wel", "C": "and boyle it wel"}
    assert apps(texts) == [
        '<app type="substantive"><rdgGrp type="accidental"><lem wit="#A">hem</lem>'
        '<rdg wit="#B" type="substitution" subtype="dialect">them</rdg></rdgGrp>'
        '<rdg wit="#C" type="substitution">it</rdg></app>'
    ]


def misreadings() -> list[dict[str, str]]:
    """Return the rows of the table of likely misreadings."""
    lines = (resources.files("collate.lexicon") / "data" / "confusions.tsv").read_text("utf-8").splitlines()
    return list(csv.DictReader(lines, delimiter="\t"))


def test_a_blank_space_before_a_loss_is_no_word_cut_short() -> None:
    texts = {
        "A": "hem saffron wel : and dates",
        "B": "hem saffron @space{?} [...] and dates",
        "C": "hem saffron wel : therto and dates",
    }
    written = document(texts)
    assert "<space/><lacunaStart/>" in written
    assert told(read_again(written)) == told(opened(texts)[0])


def test_parts_that_are_joined_stay_words_apart() -> None:
    """The last word of a part has no blank behind it where its file or its heading ends."""
    texts = {
        "A": "## 1 Tart\nTake figes and dates and boyle hem wel in wyn and sethe salt water and serue it forth",
        "B": "## 2 Pye\nsethe salt water and serue it forth\n## 1 Tart\nTake figes and dates and boyle hem wel in wyn",
    }
    _, findings = opened(texts)
    assert [item.label for each in findings.items for item in each.collation.items] == ["1", "1+2"]
    assert told(read_again(document(texts))) == told_as_collated(findings)


def test_two_points_before_a_numeral_stay_two() -> None:
    texts = {"A": "þe boyle.hem..ij.dates", "B": "þe boyle wel ij."}
    for base in texts:
        written = document(texts, base=base)
        assert told(read_again(written)) == told(opened(texts, base=base)[0])


def test_one_label_may_mean_two_items() -> None:
    texts = {
        "A": "## 1\nTake",
        "B": "## 1\nTake",
        "C": "## 2\nTake salt and wyn and boyle hem wel\n## 1 Tart of frut\nsethe figes in hony",
    }
    assert told(read_again(document(texts))) == told(opened(texts)[0])


def test_large_numbers_and_fractions_stand_in_figures() -> None:
    page = document(
        {"A": "take 1234567 egges and 2469135/2 figes", "B": "take 1234567 egges and 2469135/2 figes"}
    )
    values = [each.get("value") for each in found(page, ".//t:num")]
    assert values == ["1234567", "1234567.5"]
    assert faults(page) == []
