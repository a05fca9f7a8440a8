"""A single transcription in TEI P5, read element by element."""

import pytest

from collate.model.edition import DateRange, Witness
from collate.model.source import Source
from collate.model.transcript import Mark
from collate.readers.tei import read_tei
from tests.readers.tei_making import body, codes, cut, expanded, fixture, raw, tei, written

GLYPHS = """<encodingDesc><charDecl>
  <char xml:id="b-er"><mapping type="PUA">\ue012</mapping><mapping type="standard">\u035b</mapping></char>
  <glyph xml:id="b-per"><mapping type="standard">U+A751</mapping></glyph>
  <glyph xml:id="named"><unicodeProp name="Name" value="LATIN SMALL LETTER YOGH"/></glyph>
  <glyph xml:id="coded"><localProp name="codepoint" value="A76F"/></glyph>
  <glyph xml:id="meant"><mapping type="normalized">per</mapping></glyph>
</charDecl></encodingDesc>"""


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("wat<ex>er</ex>", "wat(er)"),
        ("<abbr>wat</abbr>", "wat"),
        ("<expan>wat<ex>er</ex></expan>", "wat(er)"),
        ("<choice><abbr>wat<am>͛</am></abbr><expan>wat<ex>er</ex></expan></choice>", "wat(er)"),
        ("<choice><am>͛</am><ex>er</ex></choice>", "(er)"),
        ("<choice><abbr>Dr.</abbr><expan>Doctor</expan></choice>", "(Doctor)"),
        ("<choice><abbr>wat͛</abbr></choice>", "wat͛"),
        ("<choice>\n  <sic>fugre</sic>\n  <corr>sugre</corr>\n</choice>", "fugre"),
        ("<sic>fugre</sic> and <corr>salt</corr>", "fugre and <salt>"),
        ("<choice><reg>upon</reg><orig>vpon</orig></choice> <reg>it</reg>", "vpon it"),
        ("<choice><seg>wyn</seg><seg>win</seg></choice>", "wyn"),
        ("<choice><unclear>a</unclear><unclear>o</unclear></choice>", "ạ"),
        ('<add place="above">clene</add>', "`clene´"),
        ('<add place="margin-left" hand="#h2">clene</add> hem', "@margin:h2{clene} hem"),
        ('<add place="marginLeft">clene</add> hem', "@margin{clene} hem"),
        ("ho<del>n</del>de", "ho[[n]]de"),
        ("ho<subst>\n<add>n</add>\n<del>u</del>\n</subst>de", "ho[[u]]`n´de"),
        ('<supplied reason="omitted-in-original">e</supplied>gges', "<e>gges"),
        ('<supplied reason="damage">e</supplied>gges', "[e]gges"),
        ("<unclear>sa</unclear>lt", "ṣạlt"),
        ("<unclear>ē ⁊</unclear>", "ẹ̄ ⁊"),
        ("a <gap/> b", "a [...] b"),
        ('sa<gap unit="chars" quantity="3"/>n', "sa[.3.]n"),
        ('sa<gap reason="illegible" unit="characters" quantity="2"/>n', "sa++n"),
        ('a <gap reason="illegible" unit="lines" quantity="2"/>', "a [.2 lines.]"),
        ('a <gap unit="word" quantity="1"/>', "a [.1 word.]"),
        ('a <gap unit="words" quantity="3"/> b', "a [.3 words.] b"),
        ('a <gap extent="2 lines"/>', "a [.2 lines.]"),
        ('a <gap unit="page" quantity="2"/>', "a [...]"),
        ('a <gap extent="4 letters"/>', "a [.4.]"),
        ('a <gap reason="illegible" quantity="9999"/>', "a [.9999.]"),
        ('a <gap quantity="99999999999"/>', "a [...]"),
        ("<damage>salt</damage>", "salt"),
        ("in <surplus>in</surplus>", "in {in}"),
        ('a <space unit="chars" quantity="7"/> b', "a @space{7} b"),
        ('a <space unit="lines" quantity="2"/> b', "a @space{2 lines} b"),
        ("a <space/> b", "a @space{?} b"),
        ('<hi rend="color(red)">Tart</hi>', "@rubric{Tart}"),
        ('<hi rend="large Initial">T</hi>ake', "@initial{T}ake"),
        ('<hi rend="coloured">T</hi>ake', "Take"),
        ('<hi rend="red initial">T</hi>ake', "@rubric{@initial{T}}ake"),
        ('w<hi rend="superscript">t</hi> <hi rend="sup">þ</hi>', "wᵗ þ"),
        ('<seg rend="rubricated">Tart</seg>', "@rubric{Tart}"),
        ('forth <fw type="catch">and boyle</fw>', "forth @catchword{and boyle}"),
        ('forth <fw type="sig">b iij</fw>', "forth @catchword{b iij}"),
        ('clene<note place="margin" hand="#2">hem</note>', "clene@margin:2{hem}"),
        ('Take <handShift new="#h2"/>figes', "Take @hand{h2}figes"),
        ("<w>Take</w> <w>figes</w><pc>.</pc>", "Take figes."),
        ("Take<milestone unit='x'/>figes", "Take figes"),
        ("Ta<milestone unit='x' break='no'/>ke", "Take"),
        ("<list><item>figes</item><item>dates</item></list>", "figes dates"),
        ("<table><row><cell>figes</cell><cell>ij</cell></row></table>", "figes ij"),
        ("<persName>Hugh</persName> of <placeName>Sarre</placeName>", "Hugh of Sarre"),
        ("a<figure><p>b</p></figure><metamark>c</metamark><ptr/>d", "ad"),
        ("a<!-- b -->c<?d e?>f", "acf"),
        ("a (b) [c] |d| $p # @", r"a \(b\) \[c\] \|d\| \$p \# \@"),
        ("<supplied>...</supplied>", r"[\...]"),
        ("<del> </del>salt", "salt"),
        ("<add>a <add>b</add></add>", "`a b´"),
        ("<supplied><del>a</del></supplied>", "[@hand{1}[[a]]]"),
        ("e&#x301; n<seg>&#x304;</seg>", "é n̄"),
        ("<seg xml:space='preserve'>a   b</seg>", "a   b"),
    ],
)  # fmt: skip
def test_each_element_has_its_notation(text: str, shown: str) -> None:
    transcript = body(text)
    assert raw(transcript) == shown
    assert "tei-unknown" not in codes(transcript)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("<w>Take</w><w>wyn</w><pc>.</pc><w>and</w>", "Take wyn. and"),
        ("<w>Take</w><num>iij</num><w>eggs</w>", "Take iij eggs"),
        ("<num><w>foure</w><w>score</w></num><num>ij</num>", "foure score ij"),
        ("<w>of</w><pc>·</pc><num>iij</num><pc>·</pc> <w>eggs</w>", "of·iij· eggs"),
        ("<num>iiij</num>or iij<num>xx</num>", "iiijor iijxx"),
        ("<w>a</w><pc>-</pc><w>non</w> <w>a<pc>-</pc>non</w>", "a - non a-non"),
        ("<w>hem</w><pc>.</pc><pc>/</pc><w>and</w>", "hem. / and"),
        ("<w>Take</w>wyn<w>and</w>, <supplied>salt</supplied><w>and</w>", "Take wyn and, [salt] and"),
        ("<w part='I'>ta</w><w part='M'>k</w><w part='F'>e</w><w>wyn</w>", "take wyn"),
        ("<w part='I'>ta</w> <lb/> <w part='F'>ke</w><w>wyn</w>", "ta¬\nke wyn"),
        ("<w xml:id='a' next='#b'>ta</w> <pb n='1v'/> <w prev='#a'>ke</w>", "ta|f. 1v|ke"),
        ("<w>ta</w> <lb break='no'/> <w>ke</w><w>wyn</w>", "ta¬\nke wyn"),
        ("<w join='right'>þ</w><w>abbot</w><w>of</w>", "þabbot of"),
        ("<w><w>ther</w><w>to</w></w><w>and</w>", "therto and"),
        ("<w><hi rend='initial'>T</hi>ake</w><add place='above'><w>wyn</w></add><w>or</w>", "@initial{T}ake `wyn´ or"),
        ("<del><w>hony</w></del><w>i<del>j</del></w><w>or</w>", "[[hony]] i[[j]] or"),
        ("<w>Take</w><gap/><w>wyn</w>", "Take [...] wyn"),
        ("<w><choice><abbr>w</abbr><expan>w<ex>ith</ex></expan></choice></w><w>wyn</w>", "w(ith) wyn"),
        ("<p><w>a</w></p><p><w>b</w></p>", "a\nb"),
    ],
)  # fmt: skip
def test_each_word_number_and_point_in_its_element_is_one_of_its_own(text: str, shown: str) -> None:
    transcript = body(text)
    assert raw(transcript) == shown
    assert codes(transcript) == []


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("hem <lb/> and", "hem\nand"),
        ("hem<lb/>and", "hem\nand"),
        ("hem<lb n='2'/>and<lb n='3'/>ale<lb n='9'/>wyn", "hem\nand\nale\n|l. 9|wyn"),
        ("to\n  <lb break='no'/>gedre", "to¬\ngedre"),
        ("hem\n <pb n='7v'/>\n <lb/>and", "hem |f. 7v|\nand"),
        ("hem<pb n='fol. 7v'/>and", "hem |f. 7v|and"),
        ("to <pb n='8 recto' break='no'/><lb/>gedre", "to|f. 8r|¬\ngedre"),
        ("to<lb break='no'/><pb n='8r'/>gedre", "to¬\n|f. 8r|gedre"),
        ("hem <pb n='7v'/><cb n='a'/>and <cb/>ale", "hem |f. 7va|and |f. 7vb|ale"),
        ("hem <pb n='p. 12'/>and <pb n='xij'/>ale <pb/>wyn", "hem |p. 12|and |ale |wyn"),
    ],
)  # fmt: skip
def test_breaks_have_their_notation(text: str, shown: str) -> None:
    assert raw(body(text)) == shown


def test_page_line_hand_and_column_are_known() -> None:
    text = '<pb n="f. 7v"/><cb n="b"/><lb/>Take <lb/>figes <lb n="9"/>to<lb break="no"/>gedre <handShift new="#2"/>and <pb n="B3"/>ale'
    places = [
        (t.expanded, t.place.folio, t.place.ms_line, t.place.hand) for t in cut(body(text)).items[0].tokens
    ]
    assert places == [
        ("Take", "7vb", 1, "1"),
        ("figes", "7vb", 2, "1"),
        ("togedre", "7vb", 9, "1"),
        ("and", "7vb", 10, "2"),
        ("ale", "B3", 1, "2"),
    ]


def test_where_no_line_is_marked_none_is_counted() -> None:
    assert {token.place.ms_line for token in cut(body("Take <pb n='1r'/> figes")).items[0].tokens} == {None}


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("<ab>Take<lb/>figes</ab><ab>and<lb/>ale</ab>", [1, 2, 3, 4]),
        ("<ab><lb/>Take<lb/>figes</ab><ab>and<lb/>ale</ab>", [1, 2, 2, 3]),
        ("<ab>Take<lb/>figes</ab><ab>and</ab><ab>ale<lb/>wyn</ab>", [1, 2, None, 4, 5]),
        ("<ab><lb/>Take<lb/>figes</ab><ab>and</ab><ab><lb/>ale</ab>", [1, 2, 2, 3]),
        ("<lb/><p>Take</p><lb/><p>figes</p>", [1, 2]),
        ("<list><lb/><item>Take</item><lb/><item>figes</item></list>", [1, 2]),
        ("<p>Take<lb/>figes</p><list><item>and</item><item>ale</item></list>", [1, 2, None, None]),
        (
            "<p>Take<lb/>figes</p><table><row><cell>and</cell><cell>ale</cell></row></table>",
            [1, 2, None, None],
        ),
    ],
)
def test_a_paragraph_begins_a_line_unless_every_line_has_its_break_and_is_in_none_without_any(
    text: str, lines: list[int | None]
) -> None:
    transcript = read_tei(tei(f"<body>{text}</body>"), Witness("K", "K", "K.xml"))
    assert [token.place.ms_line for token in cut(transcript).items[0].tokens] == lines


def test_a_word_is_placed_on_its_line_of_the_file() -> None:
    text = "Take\nfiges <!-- \n --><hi>and\nale.</hi>\nboyle"
    places = [(t.expanded, t.place.line, t.place.column) for t in cut(body(text)).items[0].tokens]
    assert places == [
        ("Take", 1, 0), ("figes", 2, 0), ("and", 3, 0), ("ale", 4, 0), (".", 4, 0), ("boyle", 5, 0),
    ]  # fmt: skip


def test_signs_are_what_the_header_describes() -> None:
    text = "eu<g ref='#b-er'/>y <g ref='chars.xml#b-per'>p</g>sone <g ref='#named'/>e <g ref='#coded'/>putus"
    assert raw(body(text, GLYPHS)) == "eu͛y ꝑsone ȝe ꝯputus"


def test_a_sign_of_which_nothing_is_known_is_an_illegible_letter_and_told() -> None:
    transcript = body("eu<g ref='#nowhere'/>y <g ref='#nowhere'>p</g>er <g ref='#meant'>ꝑ</g>", GLYPHS)
    assert (raw(transcript), codes(transcript)) == ("eu+y per ꝑ", ["tei-glyph"])


def test_the_abbreviations_of_the_guidelines_are_written_out() -> None:
    """TEI P5 Guidelines 4.9.0a, chapter Representation of Primary Sources, Abbreviation and
    Expansion (PHAB): Laud Misc. 517 and the English Brut; the elements ex and expan."""
    text = """<choice><abbr>eu<am><g ref="#b-er"/></am>y</abbr><expan>eu<ex>er</ex>y</expan></choice>
      <choice><abbr><am><g ref="#b-per"/></am>sone</abbr><expan><ex>per</ex>sone</expan></choice>
      good<ex cert="high">e</ex> R<ex>oa</ex>d <expan>Imp<ex>erator</ex></expan> <expan>Aug<ex>ustorum duo</ex></expan>"""
    transcript = body(text, GLYPHS)
    assert expanded(transcript) == "euery persone goode Road Imperator Augustorum duo"
    assert written(transcript)[:4] == ["eu(er)y", "(per)sone", "good(e)", "R(oa)d"]


def test_signs_left_to_the_engine_are_written_out_alike() -> None:
    """The same two words of Laud Misc. 517 (PHAB), with their brevigraphs only."""
    assert expanded(body("eu<g ref='#b-er'/>y <g ref='#b-per'/>sone", GLYPHS)) == "euery persone"


def test_letters_held_superfluous_are_marked() -> None:
    """TEI P5 Guidelines, section PHOM: dedika{ra}runt, for dedikarunt."""
    token = cut(body("dedika<surplus>ra</surplus>runt")).items[0].tokens[0]
    assert token.written == "dedika{ra}runt"
    assert [(m.mark, token.expanded[m.start : m.stop]) for m in token.marks] == [(Mark.SURPLUS, "ra")]
    (mark,) = token.marks
    assert token.expanded[: mark.start] + token.expanded[mark.stop :] == "dedikarunt"


def test_an_addition_above_the_line_keeps_its_hand() -> None:
    transcript = body('put <add place="above" hand="#h2">wel</add> sal<add place="above" hand="#h2">t</add>e')
    assert raw(transcript).endswith("put @above:h2{wel} sal@above:h2{t}e")
    put, wel, salt = cut(transcript).items[0].tokens
    assert [each.place.hand for each in (put, wel, salt)] == ["1", "h2", "1"]
    assert [each.place.hand for each in salt.breaks] == ["h2", "1"]


def test_a_space_left_by_the_scribe_stands_aside() -> None:
    """TEI P5 Guidelines, PHSP: the Holkham manuscript at line 694, with room for seven letters."""
    item = cut(body('As <space quantity="7" unit="chars"/> han within her oratoryes')).items[0]
    assert [token.expanded for token in item.tokens] == ["As", "han", "within", "her", "oratoryes"]
    assert [(aside.mark, aside.text, aside.at) for aside in item.asides] == [(Mark.SPACE, "7", 1)]


def test_what_is_left_out_or_unknown_is_told_once() -> None:
    transcript = body(
        "a<note>why <hi>so</hi></note> <restore>b</restore> <restore>c</restore> <delSpan/> <choice>x<sic>d</sic></choice>"
    )
    assert raw(transcript) == "a b c d"
    assert [(notice.code, notice.message) for notice in transcript.notices] == [
        (
            "tei-note",
            "an editor's note is left out of the text: 'why so'; if the scribe wrote it, give it a place in the"
            " margin and a hand",
        ),
        (
            "tei-unknown",
            "the element <restore> is not one this reader knows: its text is kept; take it out if that is no part"
            " of the copy's text",
        ),
        (
            "tei-unknown",
            "the element <delSpan> is not one this reader knows: it has no text and is passed over; nothing is to"
            " be done",
        ),
        (
            "tei-stray",
            "no letters may stand right inside <choice>: 'x' is left out; put it into one of the elements in it",
        ),
    ]
    assert transcript.notices[0].place is not None
    assert transcript.notices[0].place.line == 1


def test_what_is_told_of_an_element_names_its_line_and_column() -> None:
    text = (
        "Tþke <strange>x</strange> <note\n type='x'>ed</note> <g ref='#no'/><!-- c -->\nþ þ þ þ <handShift/>"
    )
    source = tei(f"<body>\n<p>{text}</p></body>")
    doctype = Source(
        "K.xml", b"<!DOCTYPE TEI SYSTEM 'tei.dtd'>\n" + source.data.replace("þ þ þ þ".encode(), b"&thorn;")
    )
    for each, first in ((source, 2), (doctype, 3)):
        notices = read_tei(each, Witness("K", "K", "K.xml")).notices
        assert [
            (notice.code, notice.place.line, notice.place.column) for notice in notices if notice.place
        ] == [
            ("tei-unknown", first, 9),
            ("tei-note", first, 30),
            ("tei-glyph", first + 1, 21),
            ("tei-hand", first + 2, 9),
        ]


def test_of_an_apparatus_in_one_copy_the_lemma_is_followed_and_that_is_told() -> None:
    transcript = body(
        "Take <app><rdg wit='#A'>figes</rdg><lem>dates</lem></app> <app><rdg wit='#B'>and</rdg></app>"
    )
    assert (raw(transcript), codes(transcript)) == ("Take dates and", ["tei-apparatus"])


def test_the_header_names_and_dates_the_copy() -> None:
    witness = read_tei(fixture("kitchen.xml"), Witness("K", "K", "kitchen.xml")).witness
    assert witness.name == "Marlhythe, St Osmyn's College, MS 17"
    assert witness.hand == DateRange("s. xv 2/4", 1425, 1450, "TEI")


def test_what_the_edition_says_of_a_copy_goes_before_the_header() -> None:
    stated = Witness("K", "Our own", "kitchen.xml", DateRange("c. 1400", 1390, 1410, "quarters"))
    assert read_tei(fixture("kitchen.xml"), stated).witness == stated


@pytest.mark.parametrize(
    ("date", "years"),
    [
        ('<origDate when="1430-05-12">1430</origDate>', (1430, 1430)),
        ('<origDate from="1301" to="1400">fourteenth century</origDate>', (1301, 1400)),
        ('<origDate when-iso="1301/1400">fourteenth century</origDate>', (1301, 1400)),
        ('<origDate notBefore="1125" notAfter="1175">the mid-twelfth century</origDate>', (1125, 1175)),
        ('<origin notBefore="1425" notAfter="1450"><p>in Sarre</p></origin>', (1425, 1450)),
        ('<origDate>s. xv</origDate>', None),
        ('<origDate notBefore="1450" notAfter="1425">s. xv</origDate>', None),
        ('<origDate notBefore="1425">s. xv</origDate>', None),
        ('<origDate when="c.1430">1430</origDate>', None),
    ],
)  # fmt: skip
def test_dates_are_read_as_years(date: str, years: tuple[int, int] | None) -> None:
    """The normalised dates are those of the TEI P5 Guidelines (chapters MS and ND)."""
    header = f"<fileDesc><sourceDesc><msDesc><history>{date}</history></msDesc></sourceDesc></fileDesc>"
    transcript = body("Take", header)
    hand = transcript.witness.hand
    assert (hand and (hand.not_before, hand.not_after)) == years
    assert codes(transcript) == ([] if years else ["tei-date"])
