"""Each rule for TEI documents finds its breach, so that a document without faults says something."""

import pytest

from collate.settings import Attachment
from tests.reports.tei_reading import document
from tests.tei_rules import faults

TEXTS = {
    "A": "and boyle hem in water and serue hem",
    "B": "and boile hem in water and serue hem",
    "C": "and sethe hem in water and serue",
    "D": "and seþe hem in water and serue hem",
}
BREACHES = [
    ('<witness xml:id="B">', '<witness xml:id="A">', "stands twice"),
    ('xml:id="item-1"', 'xml:id="1 item"', "no NCName"),
    ('wit="#A"', 'wit="#X"', "points to nothing"),
    ('wit="#A"', 'wit="A"', "points to nothing"),
    ('method="parallel-segmentation"', 'method="location-referenced"', "variantEncoding"),
    ('<app type="substantive"', '<app from="#item-1" type="substantive"', "@from"),
    ('<rdg wit="#B" type="spelling"', '<rdg wit="#B" subtype="spelling"', "@subtype without @type"),
    ('type="spelling"', 'type="a spelling"', "not one word"),
    ('<lem wit="#A">boyle</lem>', '<rdg wit="#A">boyle</rdg>', "no lem"),
    ("</lem>", '</lem><lem wit="#D"/>', "two lemmas"),
    ("<rdgGrp", "and<rdgGrp", "letters stand right inside"),
    ('<rdgGrp type="accidental">', '<rdgGrp type="accidental" wit="#A">', "@wit"),
    ("<p>and", "<p><lacunaStart/>and", "outside any reading"),
    ("<p>and", "<p><p/>and", "a p stands in a p"),
    ('wit="#A"', 'wit="#B"', "has readings of"),
    ('<lem wit="#A">', '<lem wit="#A #C">', "has readings of"),
]


APART = [
    ('location="external"', 'location="internal"', "variantEncoding"),
    ('<anchor xml:id="item-1-point-1"/>', "", "points to nothing"),
    ('from="#item-1-point-1"', 'from="#item-1-point-3"', "nothing points to an anchor"),
    ('to="#item-1-point-2"', 'to="#item-1"', "ends before it begins"),
    (' to="#item-1-point-2"', "", "not both of @from and @to"),
    ("<p>and", "<p><app/>and", "an app stands in the text"),
    ('<lem wit="#A">boyle</lem>', '<rdg wit="#A">boyle</rdg>', "no lem"),
    ('wit="#A"', 'wit="#B"', "has readings of"),
]


@pytest.mark.parametrize("attachment", list(Attachment))
def test_what_is_written_keeps_every_rule(attachment: Attachment) -> None:
    assert faults(document(TEXTS, attachment=attachment)) == []


@pytest.mark.parametrize(("right", "wrong", "told"), APART)
def test_a_breach_of_entries_apart_is_found(right: str, wrong: str, told: str) -> None:
    whole = document(TEXTS, attachment=Attachment.END_POINTS)
    head, apart = whole.split("<classDecl>")
    assert right in apart
    assert any(told in fault for fault in faults(f"{head}<classDecl>{apart.replace(right, wrong, 1)}"))


@pytest.mark.parametrize(("right", "wrong", "told"), BREACHES)
def test_a_breach_is_found(right: str, wrong: str, told: str) -> None:
    whole = document(TEXTS)
    head, body = whole.split("<body>")
    broken = (
        head + "<body>" + body.replace(right, wrong, 1) if right in body else whole.replace(right, wrong, 1)
    )
    assert broken != whole
    assert any(told in fault for fault in faults(broken))
