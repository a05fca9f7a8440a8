"""The divisions of a TEI text as items."""

from collate.model.edition import LineMode, Witness
from collate.model.transcript import Transcript
from collate.model.witness import ItemKind, read_back
from collate.readers.tei import read_tei
from tests.readers.tei_making import again, codes, cut, tei, told


def read(text: str) -> Transcript:
    return read_tei(tei(text), Witness("K", "K", "K.xml"))


def items(text: str) -> list[tuple[str, str, str]]:
    """Return the label, heading and words of each item."""
    return [
        (item.label, item.heading, " ".join(token.expanded for token in item.tokens))
        for item in cut(read(text)).items
    ]


def test_a_body_without_divisions_is_one_item() -> None:
    assert items("<body><p>Take figes</p><p>and dates</p></body>") == [("1", "", "Take figes and dates")]
    assert (
        read_back(cut(read("<pb n='1r'/><body><p>Take</p><p>figes</p></body>"))) == "|f. 1r|\nTake\nfiges\n"
    )


def test_a_body_with_a_head_has_an_item_line() -> None:
    text = "<body><head>Tart</head><p>Take figes</p></body>"
    assert items(text) == [("1", "Tart", "Take figes")]
    assert read_back(cut(read(text))) == "## 1 Tart\nTake figes\n"


def test_a_division_is_labelled_by_its_number_its_type_its_head_or_its_turn() -> None:
    text = """<front><div type="preface"><p>Here</p></div></front>
    <body><div type="recipe" n="3"><head>Tart</head><p>a</p></div>
    <div type="recipe"><head>Sauce</head><p>b</p></div>
    <div type="recipe"><head><num value="14">xiiij</num> Pyes</head><p>c</p></div>
    <div type="recipe"><p>d</p></div>
    <div n="14 b"><p>e</p></div>
    <div type="explicit"><p>f</p></div></body>"""
    assert items(text) == [
        ("preface", "", "Here"), ("3", "Tart", "a"), ("4", "Sauce", "b"), ("14", "xiiij Pyes", "c"),
        ("15", "", "d"), ("14-b", "", "e"), ("explicit", "", "f"),
    ]  # fmt: skip
    assert cut(read(text)).items[0].kind is ItemKind.PREFACE


def test_a_running_number_is_one_that_no_item_has() -> None:
    text = "<body><div><p>a</p></div><div n='2'><p>b</p></div><div><p>c</p></div><div n='1'><p>d</p></div></body>"
    assert [label for label, _, _ in items(text)] == ["3", "2", "4", "1"]


def test_divisions_in_divisions_are_the_items() -> None:
    text = "<body><div n='I'><div1 n='1'><p>a</p></div1><div n='2'><p>b</p></div></div></body>"
    assert items(text) == [("1", "", "a"), ("2", "", "b")]


def test_what_stands_in_no_item_is_kept_and_told() -> None:
    text = """<body><head>The boke</head><pb n="1r"/><div n="1"><p>a</p></div><pb n="1v"/><fw>b</fw>
    <div n="2"><p>b</p></div><trailer>Explicit</trailer></body><back><p>Amen</p></back>"""
    assert items(text) == [
        ("opening", "", "The boke"), ("1", "", "a"), ("2", "", "b"), ("closing", "", "Explicit"),
        ("back", "", "Amen"),
    ]  # fmt: skip
    assert codes(read(text)) == ["tei-loose", "tei-loose"]
    places = [token.place.folio for item in cut(read(text)).items for token in item.tokens]
    assert places == [None, None, "1r", "1v", "1v", "1v"]


def test_items_and_what_is_between_them_come_back_as_plain_text() -> None:
    text = """<body><pb n="1r"/><div n="preface"><head><lb/>Here <lb/>bygyn<lb break="no"/>neth</head>
    <p><lb/>a</p></div><pb n="1v"/><fw>b</fw><div n="2"><pb n="2r"/><lb/><head><del>b</del>The <num>ij</num></head>
    <head>(boke)</head><p><lb/>c</p></div><trailer><lb/>Explicit</trailer></body>"""
    once = cut(read(text))
    assert told(again(once, LineMode.MANUSCRIPT)) == told(once)
    assert read_back(once).splitlines()[1:3] == ["## preface Here| bygyn|neth", "a"]


def test_a_head_after_the_text_has_begun_is_text() -> None:
    assert items("<body><div n='1'><p>a</p><head>b</head><p>c</p></div></body>") == [("1", "", "a b c")]


def test_an_item_without_words_is_kept() -> None:
    assert items("<body><div n='1'><p>a</p></div><div n='2'/></body>") == [("1", "", "a"), ("2", "", "")]


def test_the_text_of_a_group_is_read_through() -> None:
    text = (
        "<group><text><body><div n='1'><p>a</p></div></body></text><text><body><p>b</p></body></text></group>"
    )
    assert items(text) == [("1", "", "a"), ("2", "", "b")]
