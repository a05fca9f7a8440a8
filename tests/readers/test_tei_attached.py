"""Several witnesses in one TEI file whose entries point to where their lemmas begin and end."""

import re

import pytest

from collate.model.edition import Witness
from collate.model.transcript import Transcript
from collate.readers.tei import has_apparatus, read_tei, read_tei_witnesses
from tests.readers.tei_attaching import document, refused
from tests.readers.tei_making import codes, cut, expanded, raw, tei, with_list

A, Z = '<anchor xml:id="a"/>', '<anchor xml:id="z"/>'


def texts(transcripts: tuple[Transcript, ...]) -> dict[str, str]:
    """Return the words of each witness, by siglum, its items divided by bars."""
    return {
        each.witness.siglum: " | ".join(
            " ".join(token.expanded for token in (*item.heading_tokens, *item.tokens))
            for item in cut(each).items
        )
        for each in transcripts
    }


def test_an_entry_stands_for_what_is_between_its_two_ends() -> None:
    found = document(
        f"<p>Take {A}figes and{Z} dates</p>", '<app from="#a" to="#z"><rdg wit="#B">fygys</rdg></app>'
    )
    assert texts(found) == {"A": "Take figes and dates", "B": "Take fygys dates", "C": "Take figes and dates"}
    assert [codes(each) for each in found] == [[], [], []]


@pytest.mark.parametrize(
    ("lemma", "a", "b", "told"),
    [
        ('<lem wit="#A">figes</lem>', "figes", "figes", [[], ["tei-negative"], []]),
        ("<lem>figes</lem>", "figes", "figes", [["tei-negative"], ["tei-negative"], []]),
        ('<lem wit="#A">fygis</lem>', "fygis", "fygis", [["tei-lemma"], ["tei-negative"], []]),
        ('<lem wit="#A">figes</lem><rdg>datis</rdg>', "figes", "datis", [[], [], []]),
        ("<rdg>datis</rdg>", "figes", "figes", [[], [], []]),
        ("", "figes", "figes", [[], [], []]),
    ],
)
def test_who_is_not_named_has_the_lemma_or_else_the_text(
    lemma: str, a: str, b: str, told: list[list[str]]
) -> None:
    entry = f'<app from="#a" to="#z">{lemma}<rdg wit="#C">wyn</rdg></app>'
    found = document(f"<p>Take {A}figes{Z}</p>", entry)
    assert texts(found) == {"A": f"Take {a}", "B": f"Take {b}", "C": "Take wyn"}
    assert [codes(each) for each in found] == told


@pytest.mark.parametrize(
    ("body", "apart", "location"),
    [
        (f'<p>Take {A}figes<app from="#a"><rdg wit="#B">wyn</rdg></app> and</p>', "", "internal"),
        (f'<p>Take {A}figes<app from="#a"><rdg wit="#B">wyn</rdg></app> and</p>', "", ""),
        (f'<p>Take {A}figes{Z} and<app from="#a" to="#z"><rdg wit="#B">wyn</rdg></app></p>', "", "internal"),
        (f'<p>Take {A}figes{Z} and<app from="#a" to="#z"><rdg wit="#B">wyn</rdg></app></p>', "", "external"),
        (
            '<p>Take <w xml:id="a">figes</w> and</p><p><app from="#a"><rdg wit="#B">wyn</rdg></app></p>',
            "",
            "external",
        ),
        ('<p>Take <w xml:id="a">figes</w><app from="#a"><rdg wit="#B">wyn</rdg></app> and</p>', "", ""),
        (
            '<p>Take <w xml:id="a">figes</w> and</p>',
            '<app from="#a"><rdg wit="#B">wyn</rdg></app>',
            "external",
        ),
        ('<p>Take <w xml:id="a">figes</w> and</p>', '<app from="K.xml#a"><rdg wit="#B">wyn</rdg></app>', ""),
        (
            '<p>Take <w xml:id="a" part="I">fi</w><w xml:id="b" part="F">ges</w> and</p>',
            '<app from="#a" to="#b"><rdg wit="#B">wyn</rdg></app>',
            "",
        ),
        (
            '<p>Take <seg xml:id="s">figes</seg> and</p>',
            '<listApp><app from="#s"><rdgGrp><rdg wit="#B">wyn</rdg></rdgGrp></app></listApp>',
            "",
        ),
        (f'<p>Take <pb xml:id="b" edRef="#A"/>figes{Z} and</p>', '<app from="#b" to="#z"><rdg wit="#B">wyn</rdg></app>', ""),
    ],
)  # fmt: skip
def test_ends_are_found_wherever_the_entry_stands(body: str, apart: str, location: str) -> None:
    found = document(body, apart, location=location)
    assert texts(found) == {"A": "Take figes and", "B": "Take wyn and", "C": "Take figes and"}


def test_entries_may_stand_off_the_text() -> None:
    source = tei(
        f"<body><p>Take {A}figes{Z}</p></body></text><standOff><listApp><app from='#a' to='#z'>"
        "<rdg wit='#B'>wyn</rdg></app></listApp></standOff><text><body/>",
        '<fileDesc><sourceDesc><listWit><witness xml:id="A"/><witness xml:id="B"/></listWit></sourceDesc></fileDesc>',
    )
    source = type(source)(source.name, source.data.replace(b"<text><body/></text>", b""))
    assert has_apparatus(source)
    assert texts(read_tei_witnesses(source)) == {"A": "Take figes", "B": "Take wyn"}


def test_an_addition_stands_between_two_ends_with_nothing_between_them() -> None:
    body = f'<p>Take {A}figes {Z}<anchor xml:id="y"/>and</p>'
    entries = """<app from="#z" to="#y"><rdg wit="#B">wel</rdg></app>
      <app from="#a" to="#z"><rdg wit="#B">wyn </rdg></app><app from="#z"><rdg wit="#C">sone </rdg></app>"""
    assert texts(document(body, entries)) == {
        "A": "Take figes and",
        "B": "Take wyn weland",
        "C": "Take figes sone and",
    }


def test_a_reading_stands_for_a_heading_or_a_verse_within_it() -> None:
    body = """<div n="1"><head xml:id="h">Tart</head><lg><l xml:id="l">Take figes</l><l>and dates</l></lg></div>
      <div n="2" xml:id="d"><head>Sauce</head><p>Take wyn</p></div>"""
    entries = """<app from="#h"><rdg wit="#B">Tarte of frute</rdg></app><app from="#l"><rdg wit="#B"/></app>
      <app from="#d"><rdg wit="#C" type="absent"/></app>"""
    found = document(body, entries)
    assert texts(found) == {
        "A": "Tart Take figes and dates | Sauce Take wyn",
        "B": "Tarte of frute and dates | Sauce Take wyn",
        "C": "Tart Take figes and dates",
    }
    heads = {each.witness.siglum: [run.text for p in each.passages for run in p.heading] for each in found}
    assert "".join(heads["B"]) == "Tarte of fruteSauce"


def test_what_is_left_out_may_reach_over_marks_and_items() -> None:
    body = f"""<div n="1"><p>Take <hi rend="rubric">figes {A}and</hi> dates</p></div>
      <div n="2"><p>Take wyn</p></div><div n="3"><p>Take {Z}<hi rend="rubric">salt</hi></p></div>"""
    found = document(
        body, '<app from="#a" to="#z"><lem wit="#A #C">and dates Take wyn Take</lem><rdg wit="#B"/></app>'
    )
    assert texts(found) == {
        "A": "Take figes and dates | Take wyn | Take salt",
        "B": "Take figes | salt",
        "C": "Take figes and dates | Take wyn | Take salt",
    }
    assert raw(found[1]) == "## 1\nTake @rubric{figes}\n## 3\n@rubric{salt}"


LINE = """<l>And <anchor xml:id="w1"/>of so parfit <anchor xml:id="w2"/>wys<anchor xml:id="w3"/> a
  wight<anchor xml:id="w4"/> ywroght</l>"""


def test_entries_that_overlap_are_read_where_no_witness_differs_in_both() -> None:
    entries = """<app from="#w1" to="#w3"><lem wit="#A">of so parfit wys</lem><rdg wit="#B">in what wise was</rdg></app>
      <app from="#w2" to="#w4"><lem wit="#A">wys a wight</lem><rdg wit="#C">was a wight</rdg></app>"""
    assert texts(document(LINE, entries)) == {
        "A": "And of so parfit wys a wight ywroght",
        "B": "And in what wise was a wight ywroght",
        "C": "And of so parfit was a wight ywroght",
    }


def test_a_spelling_within_a_longer_lemma_is_read_in_its_place() -> None:
    entries = """<app from="#w1" to="#w4"><lem wit="#A #B">of so parfit wys a wight</lem><rdg wit="#C">thus</rdg></app>
      <app from="#w2" to="#w3"><lem wit="#A">wys</lem><rdg wit="#B">wis</rdg></app>"""
    found = document(LINE, entries)
    assert texts(found) == {
        "A": "And of so parfit wys a wight ywroght",
        "B": "And of so parfit wis a wight ywroght",
        "C": "And thus ywroght",
    }
    assert [codes(each) for each in found] == [[], [], []]


def test_a_lemma_that_names_a_witness_is_no_hindrance_if_its_reading_says_the_same() -> None:
    entries = """<app from="#w1" to="#w3"><lem wit="#A #C">of so parfit wys</lem><rdg wit="#B">thus</rdg></app>
      <app from="#w2" to="#w4"><lem wit="#A #B">wys a wight</lem><rdg wit="#C">wys a wyf</rdg></app>"""
    assert "the two do not agree in what B has" in refused(LINE, entries)
    assert texts(document(LINE, entries.replace("#A #B", "#A"))) == {
        "A": "And of so parfit wys a wight ywroght",
        "B": "And thus a wight ywroght",
        "C": "And of so parfit wys a wyf ywroght",
    }


def test_two_entries_that_meet_are_one_text_if_they_agree_where_they_meet() -> None:
    entries = """<app from="#w1" to="#w3"><rdg wit="#B #C">in what <hi rend="red">wise</hi> was</rdg></app>
      <app from="#w2" to="#w4"><rdg wit="#B"><hi rend="red">was</hi> a <hi rend="red">wyf</hi></rdg></app>"""
    found = {each.witness.siglum: raw(each) for each in document(LINE, entries)}
    assert found["B"] == "And in what @rubric{wise} was a @rubric{wyf} ywroght"
    assert found["C"] == "And in what @rubric{wise} was a wight ywroght"


@pytest.mark.parametrize(
    ("body", "entry", "told"),
    [
        (f"<p>x{A}</p>", '<app from="#b" to="#a"><rdg wit="#B"/></app>', "the @from '#b' points to nothing"),
        (f"<p>x{A}</p>", '<app from="#a" to="#b"><rdg wit="#B"/></app>', "the @to '#b' points to nothing"),
        (f"<p>x{A}y{Z}</p>", '<app from="#z" to="#a"><rdg wit="#B"/></app>', "ends before it begins"),
        (f"<p>x{A}</p>", '<app to="#a"><rdg wit="#B"/></app>', "does not say where it belongs"),
        (f"<p>x{A}</p>", '<app><rdg wit="#B"/></app>', "does not say where it belongs"),
        (
            f"<p>x{A}</p>",
            '<app from="#string-range(a,0,1)"><rdg wit="#B"/></app>',
            "does not point to an element",
        ),
        (f"<p>x{A}{A}</p>", '<app from="#a"><rdg wit="#B"/></app>', "two elements have the xml:id 'a'"),
        (
            f"<p>x <choice><sic>y{A}</sic><corr>z</corr></choice> v{Z}</p>",
            '<app from="#a" to="#z"><rdg wit="#B"/></app>',
            "a part of a <choice>",
        ),
        (
            f"<p>x <note>y{A}z{Z}</note></p>",
            '<app from="#a" to="#z"><rdg wit="#B"/></app>',
            "a part of a <note>",
        ),
        (f"<p>x{A}y{Z}</p>", '<app from="#a" to="#z"><lem/><rdg wit="#B"/></app>', "this lemma is empty"),
        (
            f"<p>x{A}y<hi rend='red'>u{Z}v</hi></p>",
            '<app from="#a" to="#z"><rdg wit="#B">w</rdg></app>',
            "from one element into another",
        ),
        (
            f"<div n='1'><p>x{A}</p></div><div n='2'><p>y{Z}</p></div>",
            '<app from="#a" to="#z"><rdg wit="#B">w</rdg></app>',
            "from one element into another",
        ),
        (
            "<div n='1' xml:id='a'><p>x</p></div><div n='2' xml:id='z'><p>y</p></div>",
            '<app from="#a" to="#z"><rdg wit="#B">w</rdg></app>',
            "from one element into another",
        ),
    ],
)
def test_what_cannot_be_known_is_refused_where_it_stands(body: str, entry: str, told: str) -> None:
    said = refused(body, f"\n  {entry}", "external")
    assert re.match(r"K\.xml:2:3: ", said)
    assert told in said
    assert said.count(". ") == 0


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ('from="#w1" to="#w3"', 'from="#w2" to="#w4"'),
        ('from="#w1" to="#w4"', 'from="#w2" to="#w3"'),
        ('from="#w1" to="#w3"', 'from="#w1" to="#w3"'),
        ('from="#w2" to="#w2"', 'from="#w2"'),
        ('from="#w1" to="#w3"', 'from="#w2"'),
    ],
)
def test_two_readings_of_one_witness_that_overlap_are_refused(first: str, second: str) -> None:
    entries = f"""
<app {first}><rdg wit="#B">in what wise was</rdg></app><app {second}><rdg wit="#B #C">is a wight</rdg></app>"""
    said = refused(LINE, entries)
    assert "this entry overlaps another, and B has a reading in both" in said
    column = len(f'<app {first}><rdg wit="#B">in what wise was</rdg></app>') + 1
    assert said.startswith(f"K.xml:3:{column}: ")


def test_a_loss_is_told_by_its_boundaries() -> None:
    body = f"""<p>Take {A}figes{Z} and <anchor xml:id="b"/>dates<anchor xml:id="c"/> and
      <anchor xml:id="d"/>wyn<anchor xml:id="e"/> therto</p>"""
    entries = """<app from="#b" to="#c"><rdg wit="#B">dat<lacunaStart/></rdg></app>
      <app from="#d" to="#e"><rdg wit="#B"><lacunaEnd/>wyn</rdg></app>
      <app from="#a" to="#z"><rdg wit="#C"><witStart/>figis</rdg></app>"""
    found = {each.witness.siglum: raw(each) for each in document(body, entries)}
    assert found == {
        "A": "Take figes and dates and wyn therto",
        "B": "Take figes and dat[...] [...] [...]wyn therto",
        "C": "[...] [...]figis and dates and wyn therto",
    }
    inline = """<p>Take <app><lem wit="#A #B">figes</lem><rdg wit="#C"><witStart/>figis</rdg></app> and
      <app><lem wit="#A #C">dates</lem><rdg wit="#B">dat<lacunaStart/></rdg></app> and
      <app><lem wit="#A #C">wyn</lem><rdg wit="#B"><lacunaEnd/>wyn</rdg></app> therto</p>"""
    assert found == {each.witness.siglum: raw(each) for each in with_list(inline, *"ABC")}


def test_a_lemma_that_is_abridged_stands_for_the_whole() -> None:
    entries = '<app from="#w1" to="#w4"><lem wit="#A">of … wight</lem><rdg wit="#B">thus</rdg></app>'
    found = document(LINE, entries)
    assert texts(found)["A"] == "And of so parfit wys a wight ywroght"
    assert codes(found[0]) == []
    wrong = document(LINE, entries.replace("of …", "on …"))
    assert (texts(wrong)["A"], codes(wrong[0])) == ("And on … wight ywroght", ["tei-lemma"])


def test_the_pages_of_a_witness_are_those_of_the_text_where_its_lemma_has_none() -> None:
    body = f'<p>Take {A}figes <pb n="2r" edRef="#A"/>and{Z} <pb n="9v" edRef="#B"/>dates</p>'
    entry = '<app from="#a" to="#z"><lem wit="#A #B">figes and</lem><rdg wit="#C">wyn</rdg></app>'
    found = {each.witness.siglum: raw(each) for each in document(body, entry)}
    assert found == {
        "A": "Take figes |f. 2r|and dates",
        "B": "Take figes and |f. 9v|dates",
        "C": "Take wyn dates",
    }


def test_a_transcription_of_one_witness_has_its_text_once() -> None:
    """An editor's conjecture attached by its ends names no witness."""
    source = tei(
        f"""<body><p>Take {A}figes{Z}<app from="#a"><lem>figes</lem><rdg source="#ed">wyn</rdg></app></p></body>
        <back><listApp><app from="#a" to="#z"><rdg source="#ed">wyn</rdg></app></listApp></back>"""
    )
    assert not has_apparatus(source)
    read = read_tei(source, Witness("K", "K", "K.xml"))
    assert (expanded(read), codes(read)) == ("Take figes", ["tei-apparatus"])
