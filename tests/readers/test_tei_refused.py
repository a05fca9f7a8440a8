"""XML that is not read, and why."""

import pytest

from collate.errors import InputError
from collate.model.edition import Witness
from collate.model.source import Source
from collate.readers.kinds import is_tei
from collate.readers.tei import has_apparatus, read_tei, read_tei_witnesses
from tests.readers.tei_making import NAMESPACE, raw, tei

TEXT = "<text><body><p>Take</p></body></text>"


def refused(data: bytes | str) -> InputError:
    source = Source("K.xml", data.encode() if isinstance(data, str) else data)
    with pytest.raises(InputError):
        read_tei_witnesses(source)
    with pytest.raises(InputError) as told:
        read_tei(source, Witness("K", "K", "K.xml"))
    return told.value


def doctype(subset: str, text: str = TEXT) -> str:
    return f'<!DOCTYPE TEI [{subset}]><TEI xmlns="{NAMESPACE}">{text}</TEI>'


@pytest.mark.parametrize(
    ("subset", "named"),
    [
        ('<!ENTITY thorn "þ">', "thorn"),
        ('<!ENTITY secret SYSTEM "file:///etc/hostname">', "secret"),
        ('<!ENTITY a SYSTEM "http://127.0.0.1/a"><!ENTITY b "b">', "a, b"),
        ('<!ENTITY % p "x">', ""),
    ],
)  # fmt: skip
def test_declared_entities_are_refused(subset: str, named: str) -> None:
    error = refused(doctype(subset, "<text><body><p>&thorn;</p></body></text>" if named == "thorn" else TEXT))
    assert f"declares entities: {named}" in error.message
    assert str(error.place) == "K.xml:1"


def test_an_entity_bomb_is_refused_at_once() -> None:
    levels = "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' for n in range(1, 12))
    bomb = doctype(f'<!ENTITY e0 "ha">{levels}', '<text n="&e11;"><body><p>&e11;</p></body></text>')
    assert "declares entities" in refused(bomb).message


def test_deep_nesting_is_refused_in_one_plain_sentence() -> None:
    told = refused(f'<TEI xmlns="{NAMESPACE}">\n' + "<p>" * 5000 + "</p>" * 5000 + "</TEI>")
    assert told.message.startswith("elements stand here more than 250 deep")
    assert "HUGE" not in told.message
    assert told.place
    assert told.place.line == 2


def test_a_text_without_end_is_refused_in_one_plain_sentence() -> None:
    told = refused(f'<TEI xmlns="{NAMESPACE}">\n<p>' + "a" * 10_100_000 + "</p></TEI>")
    assert "ten million letters" in told.message
    assert "HUGE" not in told.message


@pytest.mark.parametrize(
    ("data", "place"),
    [
        (b"", "K.xml:1:1"),
        (b"Take figes", "K.xml:1:1"),
        (b"<TEI>\n<text></TEI>", "K.xml:2:13"),
        (b"<TEI>\n&thorn;</TEI>", "K.xml:2:8"),
        (b"<TEI>\n\xff</TEI>", "K.xml:2:1"),
        (b"<TEI>\0</TEI>", "K.xml:1:6"),
    ],
)  # fmt: skip
def test_broken_xml_is_refused_with_its_place(data: bytes, place: str) -> None:
    error = refused(data)
    assert "well-formed" in error.message
    assert str(error.place) == place


@pytest.mark.parametrize(
    "root", ["TEI", 'TEI.2 xmlns="http://www.tei-c.org/ns/1.0"', 'html xmlns="http://www.w3.org/1999/xhtml"']
)
def test_xml_that_is_no_tei_is_refused(root: str) -> None:
    assert "no TEI P5" in refused(f"<{root}>{TEXT}</{root.split()[0]}>").message


@pytest.mark.parametrize(
    "text", ["", "<text/>", "<text><body/></text>", "<text><body><p> <lb/><pb n='1r'/></p></body></text>"]
)
def test_a_file_without_text_is_refused(text: str) -> None:
    source = tei("")
    data = source.data.replace(b"<text></text>", text.encode())
    with pytest.raises(InputError, match="there is no"):
        read_tei(Source("K.xml", data), Witness("K", "K", "K.xml"))


def test_two_texts_in_one_file_are_refused() -> None:
    one = f"<TEI>{TEXT}</TEI>"
    corpus = '<teiCorpus xmlns="http://www.tei-c.org/ns/1.0">{}</teiCorpus>'
    assert "holds 2 texts" in refused(corpus.format(one + one)).message
    source = Source("K.xml", corpus.format(one).encode())
    assert raw(read_tei(source, Witness("K", "K", "K.xml"))) == "Take"


def test_a_character_named_as_in_html_is_read_where_an_outer_list_is_named() -> None:
    data = tei("<body><p>&thorn;e &nosuch;</p></body>").data
    source = Source("K.xml", b'<!DOCTYPE TEI SYSTEM "tei.dtd">' + data)
    transcript = read_tei(source, Witness("K", "K", "K.xml"))
    assert (raw(transcript), [notice.code for notice in transcript.notices]) == ("þe +", ["tei-glyph"])


def test_other_encodings_are_read() -> None:
    text = f'<?xml version="1.0" encoding="UTF-16"?><TEI xmlns="{NAMESPACE}"><text><body><p>þe</p></body></text></TEI>'
    assert raw(read_tei(Source("K.xml", text.encode("utf-16")), Witness("K", "K", "K.xml"))) == "þe"


def test_a_file_is_known_as_tei_by_its_name_or_its_beginning() -> None:
    assert is_tei(Source("A.XML", b""))
    assert is_tei(Source("A", b"\xef\xbb\xbf\n<?xml version='1.0'?>"))
    assert is_tei(Source("A.txt", b'<TEI xmlns="x">'))
    assert not is_tei(Source("A.txt", b"<e>gges"))


def test_a_file_with_readings_of_witnesses_has_an_apparatus() -> None:
    assert has_apparatus(tei("<body><p><app><rdgGrp><rdg wit='#A'>a</rdg></rdgGrp></app></p></body>"))
    assert not has_apparatus(tei("<body><p><app><lem>a</lem></app></p></body>"))
    assert not has_apparatus(tei("<body><p>a</p></body>"))


@pytest.mark.parametrize("text", ["", "<text><body><p/></body></text>"])
def test_a_transcription_in_source_doc_is_told_to_be_unread(text: str) -> None:
    zones = "<sourceDoc><surface>\n<zone><line>Take figes</line></zone></surface></sourceDoc>"
    with pytest.raises(InputError) as told:
        read_tei(
            Source("K.xml", f'<TEI xmlns="{NAMESPACE}">\n{zones}{text}</TEI>'.encode()),
            Witness("K", "K", "K.xml"),
        )
    assert "stands in <sourceDoc>, which is not read: put it in <text><body>" in told.value.message
    assert str(told.value.place) == "K.xml:2"


def test_an_empty_source_doc_beside_no_text_is_no_transcription() -> None:
    page = f'<TEI xmlns="{NAMESPACE}"><sourceDoc><surface/></sourceDoc><text><body><p/></body></text></TEI>'
    with pytest.raises(InputError, match="there is no text in this file"):
        read_tei(Source("K.xml", page.encode()), Witness("K", "K", "K.xml"))
