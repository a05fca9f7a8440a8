"""A witness rebuilt from our TEI by nothing but XPath has the words of its transcription.

Outside: the way to a witness through a parallel-segmented apparatus is the one that the TEI P5 Guidelines give
(TCAPPS): of each entry take the reading whose @wit names the witness. The words of the transcription are got
from the file by taking out its marks, without our reader. The file's words are our own (samples/eldernesse).
"""

import re

import pytest
from lxml import etree

from tests.reports.tei_reading import SAMPLE, sample_document

NS = {"t": "http://www.tei-c.org/ns/1.0"}
MINE = """
ancestor::t:p[ancestor::t:body]
and not(ancestor::*[self::t:lem or self::t:rdg][not(contains(concat(@wit, ' '), concat($witness, ' ')))])
and not(ancestor::t:abbr or ancestor::t:del or ancestor::t:fw or ancestor::t:add[@place = 'margin'])
"""


def rebuilt(document: str, siglum: str) -> str:
    """Return the letters of a witness in the order of the document, blanks left out."""
    found = etree.fromstring(document.encode()).xpath(
        f"//text()[{MINE}]", namespaces=NS, witness=f"#{siglum}"
    )
    assert isinstance(found, list)
    return "".join("".join(str(text).split()) for text in found)


def transcribed(siglum: str) -> str:
    """Return the letters of a transcription: no headings, remarks, page numbers or marks, no blanks."""
    text = (SAMPLE / f"{siglum}.txt").read_text("utf-8")
    text = re.sub(r"^(##? .*|#.*)$", "", text, flags=re.MULTILINE)
    text = re.sub(
        r"\|f\. \d+[rv]\||@(?:margin|catchword|space)(?::\d+)?\{[^}]*\}|@\w+\{|\[\[.*?\]\]|\[\.[^\]]*\]",
        "",
        text,
    )
    return re.sub(r"[`´{}()<>\[\]\s¬]|\u0323", "", text)


def test_the_base_is_rebuilt_to_the_letter() -> None:
    """A is typed without abbreviations; the items of the document stand in its order."""
    assert rebuilt(sample_document(), "A") == transcribed("A")


@pytest.mark.parametrize("siglum", ["B", "C", "L"])
def test_a_witness_in_another_order_has_the_same_letters(siglum: str) -> None:
    """Their items may stand in another order, so the letters are compared as they are counted."""
    assert sorted(rebuilt(sample_document(), siglum)) == sorted(transcribed(siglum))
