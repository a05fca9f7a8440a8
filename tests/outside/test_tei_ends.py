"""TEI P5 Guidelines, chapter Critical Apparatus (4.9.0a), double end-point attachment (TCAPDE): line 117 of the
Wife of Bath's Prologue in three manuscripts, with two entries whose lemmas overlap, and the element listApp."""

import json

import pytest

from collate.model.transcript import Transcript
from collate.readers.tei import read_tei_witnesses
from tests.making import DATA
from tests.readers.tei_making import raw, tei

EXAMPLES = DATA / "tei" / "tei_examples.json"
needs_data = pytest.mark.skipif(not EXAMPLES.exists(), reason="the shared data folder is not here")

BASE = """<l n="117">And <anchor xml:id="a"/>of so parfit <anchor xml:id="b"/>wys<anchor xml:id="c"/> a
  wight<anchor xml:id="d"/> ywroght</l>"""
ENDS = (("a", "c"), ("b", "d"))


def read(body: str, entries: str, *sigla: str, location: str = "external") -> dict[str, str]:
    """Return the words of each witness of a body with entries apart."""
    listed = "".join(f'<witness xml:id="{siglum}"/>' for siglum in sigla)
    header = f"""<fileDesc><sourceDesc><listWit>{listed}</listWit></sourceDesc></fileDesc>
      <encodingDesc><variantEncoding method="double-end-point" location="{location}"/></encodingDesc>"""
    apart = f"<back><listApp>{entries}</listApp></back>" if entries else ""
    found: tuple[Transcript, ...] = read_tei_witnesses(tei(f"<body>{body}</body>{apart}", header))
    return {each.witness.siglum: raw(each) for each in found}


def entry(ends: tuple[str, str], readings: list[tuple[str, list[str]]]) -> str:
    """Return an entry, its first reading the lemma."""
    written = ""
    for number, (text, sigla) in enumerate(readings):
        tag, wit = "rdg" if number else "lem", " ".join(f"#{siglum}" for siglum in sigla)
        written += f'<{tag} wit="{wit}">{text}</{tag}>'
    return f'<app from="#{ends[0]}" to="#{ends[1]}">{written}</app>'


@needs_data
def test_line_117_is_read_though_its_lemmas_overlap() -> None:
    """Ha4 reads "was" for "wys" in both entries; of El the first entry says nothing, so it follows the base there."""
    example = next(e for e in json.loads(EXAMPLES.read_text("utf-8")) if e["id"] == "TCAPDE-egXML-oc")
    entries = "".join(
        entry(ends, [(text, sigla) for text, sigla in ([app["lem"], *app["rdg"]])])
        for ends, app in zip(ENDS, example["apps"], strict=True)
    )
    found = read(BASE, entries, "Hg", "El", "Ha4")
    assert found["Hg"] == example["witnesses"]["Hg"]
    assert found["Ha4"] == example["witnesses"]["Ha4"]
    assert found["El"] == "And of so parfit was a wight ywroght"


@needs_data
def test_a_list_of_entries_is_read() -> None:
    example = next(e for e in json.loads(EXAMPLES.read_text("utf-8")) if e["id"] == "gi-listApp-egXML-te")
    readings = [(text, sigla) for text, sigla in example["rdg"]]
    sigla = [siglum for _, group in readings for siglum in group]
    found = read('<p><w xml:id="a">āϑrō</w></p>', entry(("a", "a"), readings), *sigla)
    assert found == {siglum: text for text, group in readings for siglum in group}


@pytest.mark.parametrize(
    ("body", "entries"),
    [
        (
            """<l n="1" xml:id="WBP.1">Experience<app from="#WBP.1"><rdg wit="#La">Experiment</rdg>
              <rdg wit="#Ra2">Eryment</rdg></app> though noon Auctoritee</l>""",
            "",
        ),
        (
            '<l n="1" xml:id="WBP.1">Experience<anchor xml:id="A2"/> though noon Auctoritee</l>',
            """<app from="#WBP.1" to="#A2"><rdg wit="#La">Experiment</rdg>
              <rdg wit="#Ra2">Eryment</rdg></app>""",
        ),
    ],
)
def test_an_entry_may_begin_with_the_line_it_stands_in(body: str, entries: str) -> None:
    """The two forms of the Guidelines, entries in the line and apart from it; the shape is from memory."""
    location = "external" if entries else "internal"
    assert read(body, entries, "El", "La", "Ra2", location=location) == {
        "El": "Experience though noon Auctoritee",
        "La": "Experiment though noon Auctoritee",
        "Ra2": "Eryment though noon Auctoritee",
    }
