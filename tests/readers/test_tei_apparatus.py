"""Several witnesses in one TEI file with a parallel-segmentation apparatus."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from collate.errors import InputError
from collate.model.edition import DateRange, LineMode
from collate.model.transcript import Transcript
from collate.model.witness import WitnessText
from collate.readers.tei import has_apparatus, read_tei_witnesses
from tests.making import found, substantives
from tests.readers.tei_making import again, codes, cut, expanded, fixture, raw, tei, told, with_list, written


def texts(transcripts: tuple[Transcript, ...]) -> dict[str, str]:
    """Return the words of each witness, by siglum."""
    return {each.witness.siglum: expanded(each) for each in transcripts}


def raws(transcripts: tuple[Transcript, ...]) -> dict[str, str]:
    return {each.witness.siglum: raw(each) for each in transcripts}


def test_the_first_line_of_the_wife_of_bath_is_read_in_five_witnesses() -> None:
    """TEI P5 Guidelines 4.9.0a, Critical Apparatus, parallel segmentation (TCAPPS), the nested
    entry: words inside, the order of the whole line (Chi3, imaginary) outside."""
    line = """<l><app>
      <rdg wit="#Chi3">Auctoritee, though none experience</rdg>
      <rdg><app><lem wit="#El #Hg">Experience</lem><rdg wit="#La">Experiment</rdg><rdg wit="#Ra2">Eryment</rdg></app>
        <app><rdg wit="#El #Ra2">though</rdg><rdg wit="#Hg">thogh</rdg><rdg wit="#La">thouh</rdg></app>
        <app><lem wit="#El #Hg">noon Auctorite</lem><rdg wit="#La #Ra2">none auctorite</rdg></app></rdg>
    </app></l>"""
    transcripts = with_list(line, "Chi3", "El", "Hg", "La", "Ra2")
    assert texts(transcripts) == {
        "Chi3": "Auctoritee , though none experience",
        "El": "Experience though noon Auctorite",
        "Hg": "Experience thogh noon Auctorite",
        "La": "Experiment thouh none auctorite",
        "Ra2": "Eryment though none auctorite",
    }
    assert [notice for each in transcripts for notice in each.notices] == []


@pytest.mark.parametrize(
    "readings",
    [
        """<rdgGrp type="subvariants"><lem wit="#El #Hg">Experience</lem><rdg wit="#Ha4">Experiens</rdg></rdgGrp>
        <rdgGrp type="subvariants"><lem wit="#Cp #Ld1">Experiment</lem><rdg wit="#La">Ex<ex>per</ex>iment</rdg></rdgGrp>
        <rdgGrp type="subvariants"><lem resp="#ed2013">Eriment</lem><rdg wit="#Ra2">Eryment</rdg></rdgGrp>""",
        """<rdgGrp type="sequence"><rdg><app><lem wit="#El #Hg">Experience</lem><rdg wit="#Ha4">Experiens</rdg>
        <rdg wit="#Cp #Ld1">Experiment</rdg><rdg wit="#La">Ex<ex>per</ex>iment</rdg></app></rdg>
        <rdg varSeq="2" wit="#Ra2">Eryment</rdg></rdgGrp>""",
    ],
)
def test_readings_in_groups_are_read(readings: str) -> None:
    """TEI P5 Guidelines, Critical Apparatus, Indicating Subvariation (TCAPSU)."""
    transcripts = with_list(f"<l><app>{readings}</app></l>", "El", "Hg", "Ha4", "Cp", "Ld1", "La", "Ra2")
    assert raws(transcripts) == {
        "El": "Experience", "Hg": "Experience", "Ha4": "Experiens", "Cp": "Experiment", "Ld1": "Experiment",
        "La": "Ex(per)iment", "Ra2": "Eryment",
    }  # fmt: skip


@pytest.mark.parametrize("end", ['<lacunaEnd wit="#X"/>', '<witStart wit="#X"/>'])
def test_a_witness_that_begins_within_an_item_begins_with_a_gap(end: str) -> None:
    """TEI P5 Guidelines, Critical Apparatus, Fragmentary Witnesses (TCAPMI)."""
    line = f"""<l>Experience though <app><lem wit="#El #Hg">Auctoritee</lem>
      <rdg wit="#La #Ra2 #X">{end}auctorite</rdg></app> were</l>"""
    found = raws(with_list(line, "El", "La", "X"))
    assert found == {
        "El": "Experience though Auctoritee were",
        "La": "Experience though auctorite were",
        "X": "[...] auctorite were",
    }


@pytest.mark.parametrize("start", ["<lacunaStart/>", '<witEnd wit="#Ha4"/>'])
def test_a_witness_that_breaks_off_has_nothing_after_its_gap(start: str) -> None:
    """TEI P5 Guidelines, the elements lacunaStart and witEnd: Ex(per) in Ha4."""
    line = f"""<l><app><lem wit="#El #Hg">Experience</lem><rdg wit="#Ha4">Ex<ex>per</ex>{start}</rdg></app> though
      <app><lem wit="#El">noon</lem><rdg wit="#Hg">none</rdg></app> Auctoritee</l>"""
    transcripts = with_list(line, "El", "Hg", "Ha4")
    assert raws(transcripts) == {
        "El": "Experience though noon Auctoritee",
        "Hg": "Experience though none Auctoritee",
        "Ha4": "Ex(per)[...] [...]",
    }
    assert [notice for each in transcripts for notice in each.notices] == []


def test_line_117_of_the_wife_of_bath_is_read_in_five_witnesses() -> None:
    """TEI P5 Guidelines, Representation of Primary Sources (PHCC): wight, wright, wyf."""
    line = """<l>And of so parfit wis a <app><rdg wit="#Hg">wight</rdg><rdg wit="#Ln #Ry2 #Ld">wright</rdg>
      <rdg wit="#Gg">wyf</rdg></app></l>"""
    found = texts(with_list(line, "Hg", "Ln", "Ry2", "Ld", "Gg"))
    assert {siglum: text.split()[-1] for siglum, text in found.items()} == {
        "Hg": "wight", "Ln": "wright", "Ry2": "wright", "Ld": "wright", "Gg": "wyf",
    }  # fmt: skip
    assert {text.rsplit(" ", 1)[0] for text in found.values()} == {"And of so parfit wis a"}


def test_a_group_of_witnesses_is_taken_apart() -> None:
    """TEI P5 Guidelines, Witness Lists (TCAPWL): the Constant Group, Con = {Cp La Sl2}."""
    header = """<fileDesc><sourceDesc><listWit><witness xml:id="El"/><listWit xml:id="Con"><head>Constant Group</head>
      <witness xml:id="Cp"/><witness xml:id="La"/><witness xml:id="Sl2"/></listWit></listWit></sourceDesc></fileDesc>"""
    text = '<body><p><app><lem wit="#El">Experience</lem><rdg wit="#Con">Experiment</rdg></app></p></body>'
    assert texts(read_tei_witnesses(tei(text, header))) == {
        "El": "Experience", "Cp": "Experiment", "La": "Experiment", "Sl2": "Experiment",
    }  # fmt: skip


def test_a_book_is_read_in_its_four_copies() -> None:
    transcripts = read_tei_witnesses(fixture("witnesses.xml"))
    assert has_apparatus(fixture("witnesses.xml"))
    found = {
        each.witness.siglum: [
            (i.label, i.heading, "".join(t.written + t.trail for t in i.tokens)) for i in cut(each).items
        ]
        for each in transcripts
    }
    assert found == {
        "A": [
            ("1", "Whyte lekes", "Take þe whyte of lekes\nand wasche hem.\n"),
            ("2", "Tart", "Take figes and dates.\n"),
            ("3", "", "Take eyren.\n"),
            ("4", "Sauce", "Take wyn and salt.\n"),
            ("5", "", "Serue it forth.\n"),
        ],
        "B*": [
            ("1", "Lekes", "Take of lekes and wa¬\nshe hem.\n"),
            ("2", "Tart", "Take figes and datis.\n"),
            ("3", "", "Take egges.\n"),
            ("4", "Sauce", "Take ale and salt.\n"),
            ("5", "", "Serue it forth.\n"),
        ],
        "C": [
            ("1", "Lekes", "Take þe whyte of lekes and hewe hem.\n"),
            ("2", "Tart", "Take figes and datis.\n"),
            ("3", "", "Take egges.\n"),
            ("4", "Sauce", "Take ale and salt.\n"),
            ("5", "", "Serue it forth.\n"),
        ],
        "Fr": [
            ("2", "", "[...] [...]ges and datis.\n"),
            ("4", "Sauce", "Take wyn [...]\n"),
        ],
    }  # fmt: skip
    assert [codes(each) for each in transcripts] == [["tei-note"], [], [], []]


def test_each_copy_has_its_name_date_and_file() -> None:
    witnesses = [each.witness for each in read_tei_witnesses(fixture("witnesses.xml"))]
    assert [(w.siglum, w.name, w.file) for w in witnesses] == [
        ("A", "Marlhythe, St Osmyn's College, MS 17", "witnesses.xml"),
        ("B*", "Sarre, the dean's book, 1450–75", "witnesses.xml"),
        ("C", "C", "witnesses.xml"),
        ("Fr", "A fragment", "witnesses.xml"),
    ]
    assert [w.hand for w in witnesses] == [
        DateRange("s. xv 2/4", 1425, 1450, "TEI"), DateRange("1450–75", 1450, 1475, "TEI"), None, None,
    ]  # fmt: skip


def test_page_and_line_are_those_of_the_copy_that_has_them() -> None:
    found = {
        each.witness.siglum: cut(each).items[0].tokens
        for each in read_tei_witnesses(fixture("witnesses.xml"))
    }
    assert {(t.place.folio, t.place.ms_line) for t in found["A"]} == {("1r", 2), ("1r", 3)}
    assert {(t.place.folio, t.place.ms_line) for t in found["B*"]} == {(None, 2), (None, 3)}
    assert {(t.place.folio, t.place.ms_line) for t in found["C"]} == {(None, None)}


def test_a_break_that_names_no_copy_is_given_to_none() -> None:
    transcripts = with_list(
        "<p>a<pb n='1r'/>b <app><lem wit='#A'>c</lem><rdg wit='#B'>d</rdg></app></p>", "A", "B"
    )
    assert raws(transcripts) == {"A": "a b c", "B": "a b d"}
    assert [codes(each) for each in transcripts] == [["tei-break"], []]


@pytest.mark.parametrize(
    ("pointers", "told"),
    [
        ('wit="#A #B"', []),
        ('wit="list.xml#A list.xml#B"', []),
        ('wit="wit:A wit:B"', []),
        ('wit="#A, #B"', ["pointers to witnesses are divided by blanks, not commas"]),
        ('wit="#A,#B"', ["pointers to witnesses are divided by blanks, not commas"]),
        ('wit="A #B"', ["the pointer 'A' is read as '#A'"]),
        ('wit="#A #B #Z"', ["'#Z' is no witness of this file's list: it is left out"]),
    ],
)
def test_pointers_are_read_as_people_write_them(pointers: str, told: list[str]) -> None:
    transcripts = with_list(f"<p><app><lem {pointers}>a</lem><rdg wit='#C'>b</rdg></app></p>", "A", "B", "C")
    assert texts(transcripts) == {"A": "a", "B": "a", "C": "b"}
    assert [(n.code, n.message) for each in transcripts for n in each.notices] == [
        ("tei-pointer", message) for message in told
    ]


@pytest.mark.parametrize(
    ("readings", "b", "told"),
    [
        ("<lem wit='#A'>a</lem><rdg>b</rdg>", "b", []),
        ("<lem>a</lem><rdg wit='#A'>b</rdg>", "a", ["tei-negative"]),
        ("<lem wit='#A'>a</lem><rdg wit='#C'>b</rdg>", "a", ["tei-negative"]),
        ("<lem wit='#A'>a</lem><rdg resp='#ed'>b</rdg>", "a", ["tei-negative"]),
        ("<rdg wit='#A'>a</rdg>", "", ["tei-unnamed"]),
        ("<rdg wit='#A'>a</rdg><rdg wit='#B'/>", "", []),
        ("<lem/><rdg wit='#B'>b</rdg>", "b", []),
        ("<rdg wit='#B' varSeq='2'>c</rdg><rdg wit='#B' varSeq='1'>b</rdg>", "c", ["tei-layers"]),
        ("<note>why</note>", "", []),
        ("", "", []),
    ],
)
def test_a_witness_follows_its_reading_or_the_rest_or_the_lemma(
    readings: str, b: str, told: list[str]
) -> None:
    transcripts = with_list(f"<p>Take <app>{readings}</app></p>", "A", "B", "C")
    found = {each.witness.siglum: each for each in transcripts}
    assert texts(transcripts)["B"] == f"Take {b}".rstrip()
    assert [code for code in codes(found["B"]) if code != "tei-note"] == told


def test_a_negative_apparatus_is_told_once_for_each_witness() -> None:
    entry = "<app><lem>a</lem><rdg wit='#A'>b</rdg></app>"
    transcripts = with_list(f"<p>{entry} {entry}</p>", "A", "B")
    assert (texts(transcripts), [codes(each) for each in transcripts]) == (
        {"A": "b b", "B": "a a"},
        [[], ["tei-negative"]],
    )


def test_a_witness_without_text_is_left_out_and_told() -> None:
    transcripts = with_list("<p><app><lem wit='#A'>a</lem><rdg wit='#B'/></app></p>", "A", "B")
    assert (texts(transcripts), codes(transcripts[0])) == ({"A": "a"}, ["tei-witness"])


def test_a_mark_about_the_end_of_a_witness_is_closed() -> None:
    text = "<p>a <add>b <app><lem wit='#A'>c</lem><rdg wit='#B'>c <lacunaStart/></rdg></app> d</add> e</p>"
    assert raws(with_list(text, "A", "B")) == {"A": "a `b c d´ e", "B": "a `b c [...]´"}


def test_what_is_lost_between_two_stretches_is_one_gap() -> None:
    text = """<p>a <app><lem wit="#A">b</lem><rdg wit="#B">b <lacunaStart/></rdg></app> c
      <app><lem wit="#A">d</lem><rdg wit="#B"><lacunaEnd/> d</rdg></app> e</p>"""
    assert raws(with_list(text, "A", "B")) == {"A": "a b c d e", "B": "a b [...] d e"}


@pytest.mark.parametrize(
    ("header", "text", "why"),
    [
        ("", "<app><rdg wit='#A'>a</rdg></app>", "no list of witnesses"),
        ("<witness/>", "<app><rdg wit='#A'>a</rdg></app>", "needs a siglum"),
        ("<witness n='A,B'/>", "<app><rdg wit='#A'>a</rdg></app>", "needs a siglum"),
        (
            "<witness n='A'/><witness xml:id='A'/>",
            "<app><rdg wit='#A'>a</rdg></app>",
            "two witnesses have the siglum A",
        ),
        (
            "<witness xml:id='A'/>",
            "<app from='#x'><rdg wit='#A'>a</rdg></app>",
            "points to nothing",
        ),
        ("<witness xml:id='A'/>", "<app loc='1'><rdg wit='#A'>a</rdg></app>", "not in parallel-segmentation"),
        ("<witness xml:id='A'/>", "<app><rdg wit='#A'/></app>", "no witness has any text"),
    ],
)
def test_an_apparatus_that_cannot_be_read_is_refused(header: str, text: str, why: str) -> None:
    listed = f"<fileDesc><sourceDesc><listWit>{header}</listWit></sourceDesc></fileDesc>"
    with pytest.raises(InputError, match=why):
        read_tei_witnesses(tei(f"<body><p>{text}</p></body>", listed))


def test_an_apparatus_of_another_method_is_refused() -> None:
    header = """<fileDesc><sourceDesc><listWit><witness xml:id="A"/></listWit></sourceDesc></fileDesc>
      <encodingDesc><variantEncoding method="location-referenced" location="internal"/></encodingDesc>"""
    with pytest.raises(InputError, match="not in parallel-segmentation"):
        read_tei_witnesses(tei("<body><p>a <app><rdg wit='#A'>a</rdg></app></p></body>", header))


def test_copies_described_under_an_identifier_serve_as_witnesses() -> None:
    header = "<fileDesc><sourceDesc><listBibl><bibl xml:id='A'>The old book</bibl></listBibl></sourceDesc></fileDesc>"
    (transcript,) = read_tei_witnesses(tei("<body><p><app><rdg wit='#A'>a</rdg></app></p></body>", header))
    assert (transcript.witness.name, written(transcript)) == ("The old book", ["a"])


@given(
    st.lists(
        st.lists(st.sampled_from(["", "figes", "wat(er)", "and dates"]), min_size=3, max_size=3), min_size=1
    )
)
def test_what_is_put_into_an_apparatus_comes_out_of_it(columns: list[list[str]]) -> None:
    def entry(column: list[str]) -> str:
        held = {
            reading: [s for s, each in zip("ABC", column, strict=True) if each == reading]
            for reading in column
        }
        readings = (
            f"<rdg wit='{' '.join('#' + siglum for siglum in sigla)}'>{reading}</rdg>"
            for reading, sigla in held.items()
        )
        return f"<app>{''.join(readings)}</app>".replace("(", "<ex>").replace(")", "</ex>")

    expected = {
        siglum: " ".join(word for word in words if word)
        for siglum, words in zip("ABC", zip(*columns, strict=True), strict=True)
    }
    transcripts = with_list(f"<p>Take {' '.join(entry(column) for column in columns)}</p>", "A", "B", "C")
    assert raws(transcripts) == {siglum: f"Take {words}".rstrip() for siglum, words in expected.items()}


def test_each_copy_comes_back_as_plain_text() -> None:
    for each in read_tei_witnesses(fixture("witnesses.xml")):
        once = cut(each)
        lines = LineMode.MANUSCRIPT if each.witness.siglum in ("A", "B*") else LineMode.FREE
        marked, rest = _parted(once)
        assert told(_parted(again(once, lines))[0]) == told(marked)
        assert {token.place.ms_line for item in rest.items for token in item.tokens} <= {None}
        assert [item.lead for item in rest.items] == [
            item.lead for item in _parted(again(once, lines))[1].items
        ]


def _parted(text: WitnessText) -> tuple[WitnessText, WitnessText]:
    """Return the items in which a line break stands (the first) and the others."""
    first = tuple(item for item in text.items if item.label == "1")
    rest = tuple(item for item in text.items if item.label != "1")
    return replace(text, items=first), replace(text, items=rest)


def test_what_a_broken_copy_lacks_is_lost_and_not_left_out() -> None:
    transcripts = with_list(
        """<p>Take <app><lem wit="#A #B">figes</lem><rdg wit="#X"><lacunaEnd/>ges</rdg></app> and salt and
        <app><lem wit="#A #B">dates</lem><rdg wit="#X">da<lacunaStart/></rdg></app> and wyn</p>""",
        *"ABX",
    )
    item = found({siglum: text + "\n" for siglum, text in raws(transcripts).items()})
    assert substantives(item) == [
        ("Take", "…", "X", "lacuna"), ("and wyn", "…", "X", "lacuna"),
    ]  # fmt: skip


def test_a_loss_at_the_beginning_of_a_page_cuts_no_word() -> None:
    line = """<p>Take <app><lem wit="#A">figes</lem><rdg wit="#B"><pb n="2r" edRef="#B"/><lacunaStart/></rdg></app>
      <app><lem wit="#A">and</lem><rdg wit="#B"><lacunaEnd/></rdg></app> dates</p>"""
    assert raws(with_list(line, "A", "B")) == {"A": "Take figes and dates", "B": "Take |f. 2r| [...] dates"}


def test_a_hand_is_called_as_its_description_says() -> None:
    header = """<fileDesc><sourceDesc><listWit><witness xml:id="A"/><witness xml:id="B"/></listWit></sourceDesc></fileDesc>
      <profileDesc><handNotes><handNote xml:id="B-hand-2" n="2">the corrector</handNote></handNotes></profileDesc>"""
    text = """<p>Take <app><lem wit="#A">figes</lem><rdg wit="#B"><handShift new="#B-hand-2"/>figis<add
      place="margin" hand="#B-hand-2">nota</add></rdg></app></p>"""
    found = raws(read_tei_witnesses(tei(f"<body>{text}</body>", header)))
    assert found == {"A": "Take figes", "B": "Take @hand{2}figis@margin:2{nota}"}


def test_a_hand_that_is_said_to_be_of_a_copy_begins_in_that_copy() -> None:
    header = """<fileDesc><sourceDesc><listWit><witness xml:id="A"/><witness xml:id="B"/></listWit></sourceDesc></fileDesc>
      <profileDesc><handNotes><handNote xml:id="B-hand-2" n="2" corresp="#B"/></handNotes></profileDesc>"""
    text = """<p>Take <handShift new="#B-hand-2"/>figes <app><lem wit="#A">and</lem><rdg wit="#B">an</rdg></app></p>"""
    transcripts = read_tei_witnesses(tei(f"<body>{text}</body>", header))
    assert raws(transcripts) == {"A": "Take figes and", "B": "Take @hand{2}figes an"}
    assert [codes(each) for each in transcripts] == [[], []]


def test_a_copy_without_a_name_is_not_called_by_its_date() -> None:
    header = """<fileDesc><sourceDesc><listWit><witness xml:id="A"><abbr type="siglum">A</abbr> <msDesc><msIdentifier>
      <idno>A</idno></msIdentifier><history><origin><origDate notBefore="1400" notAfter="1425">s. xv in.</origDate>
      </origin></history></msDesc></witness></listWit></sourceDesc></fileDesc>"""
    (transcript,) = read_tei_witnesses(tei('<body><p><app><lem wit="#A">Take</lem></app></p></body>', header))
    assert (transcript.witness.name, transcript.witness.hand) == (
        "A",
        DateRange("s. xv in.", 1400, 1425, "TEI"),
    )


def test_a_siglum_with_a_blank_has_a_low_line_and_is_told() -> None:
    header = """<fileDesc><sourceDesc><listWit><witness xml:id="h1" n="Hl 1"/>
      <witness xml:id="h2"><abbr type="siglum">Hl 2</abbr>: Eldernesse, MS 2</witness></listWit></sourceDesc></fileDesc>"""
    body = '<body><p><app><lem wit="#h1">Take</lem><rdg wit="#h2">Tak</rdg></app> ale</p></body>'
    transcripts = read_tei_witnesses(tei(body, header))
    assert texts(transcripts) == {"Hl_1": "Take ale", "Hl_2": "Tak ale"}
    assert [each.witness.name for each in transcripts] == ["Hl_1", "Eldernesse, MS 2"]
    assert [codes(each) for each in transcripts] == [["tei-siglum"], ["tei-siglum"]]


def test_what_is_told_of_an_element_names_its_line_and_column() -> None:
    entry = "<app><lem wit='#A'>figes</lem>\n<rdg wit='#B'>þe <strange>dates</strange></rdg></app>"
    listed = "<witness xml:id='A'/><witness xml:id='B'/>"
    header = f"<fileDesc><sourceDesc><listWit>{listed}</listWit></sourceDesc></fileDesc>"
    source = tei(f"<body><p>þe {entry}</p></body>", header)
    (place,) = [each.place for one in read_tei_witnesses(source) for each in one.notices]
    assert place is not None
    line = source.data.decode().splitlines()[place.line - 1]
    assert line[place.column - 1 :].startswith("<strange>")
