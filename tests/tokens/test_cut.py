import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from collate.errors import InputError
from collate.model.edition import LineMode
from collate.model.transcript import Mark
from collate.model.witness import TokenKind, read_back
from tests.making import witness_text

PIECES = [
    "Take", "þe", "ȝolkes", "ſauce", "⁊", "&", ".iij.", "vj^xx", "xij", "12", "/", "//", "¶", ".", ",", ":", "·",
    "wat(er)", "<e>gges", "{the}", "[abc]", "[...]", "[.3.]", "[[honde]]", "ho[[n]]de", "`clene´", "sạlt", "+++",
    "sa++n", "|f. 1r|", "|f. 1va|", "|p. 12|", "|", "to¬\ngedre", "@rubric{Here bigynneth}", "@initial{T}ake",
    "@margin:2{clence hem}", "@catchword{and boyle}", "@space{7}", "@hand{2}", r"\(", "ꝑcely", "n̄", "wᵗ", "y-now",
    "to-gedre", "th'abbot", "fo᷑", "cuiꝰ", "\n", "  ", "\t", "\n## 3 Tart of frut\n", "\n# a remark\n", "e\u0301",
    "\u200b", "½", "1/2", "°", "(", ")",
]  # fmt: skip


def pieces(text: str) -> list[str]:
    return [token.written for token in witness_text(text).items[0].tokens]


@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=25), st.sampled_from(["", " "]))
def test_reading_back_gives_the_file(parts: list[str], glue: str) -> None:
    text = glue.join(parts)
    try:
        read = witness_text(text)
    except InputError:
        return
    assert read_back(read) == unicodedata.normalize("NFC", text)
    assert all(token.written for item in read.items for token in item.tokens)


@given(st.text(alphabet=st.characters(exclude_characters="\0", exclude_categories=["Cs"]), max_size=60))
def test_reading_back_gives_any_text_that_is_read(text: str) -> None:
    try:
        read = witness_text(text)
    except InputError:
        return
    assert read_back(read) == unicodedata.normalize("NFC", text)


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("Take .iij. ȝolkes/ ⁊ boyle", ["Take", ".iij.", "ȝolkes", "/", "⁊", "boyle"]),
        ("¶Take vj^xx eyren.", ["¶", "Take", "vj^xx", "eyren", "."]),
        ("wyn. I wolde", ["wyn", ".", "I", "wolde"]),
        ("saffron̄, wᵗ fo᷑ ꝑcely", ["saffron̄", ",", "wᵗ", "fo᷑", "ꝑcely"]),
        ("y-now to-gedre", ["y-now", "to-gedre"]),
        ("sug(re).", ["sug(re)", "."]),
        ("[the salt] and", ["[the", "salt]", "and"]),
        ("to¬\ngedre", ["to¬\ngedre"]),
        ("to|f. 2r|gedre", ["to|f. 2r|gedre"]),
        ("ho[[n]]de [[honde]] hede", ["ho[[n]]de", "hede"]),
        (r"\(þe\) water", [r"\(", "þe", r"\)", "water"]),
        ("a [...] b", ["a", "[...]", "b"]),
        ("sa++n", ["sa++n"]),
        ("iij. or .iiij.", ["iij", ".", "or", ".iiij."]),
    ],
)
def test_words_are_cut(text: str, written: list[str]) -> None:
    assert pieces(text) == written


def test_marks_point_at_letters() -> None:
    token = witness_text("wat(er)").items[0].tokens[0]
    assert token.expanded == "water"
    assert [(m.mark, m.start, m.stop) for m in token.marks] == [(Mark.EXPANDED, 3, 5)]


@pytest.mark.parametrize(
    ("typed", "texts"),
    [
        ("[[w(a)t(er) hony]]", ["water hony"]),
        ("[[(a)]][[b]]", ["a", "b"]),
        ("[[a [[b]] c]] [[d]]", ["a b c", "d"]),
        ("`in [[a (b) c]] out´", ["a b c"]),
        ("@margin:2{in (þe) `cl<e>ne´ pot}", ["in þe clene pot"]),
        ("[[a@hand{2} b]]", ["a b"]),
        ("[[()]] [[ ]]", []),
        ("[[[abc]]]", ["abc"]),
        ("@margin{no[[x]]ta be[[n]]}", ["nota be"]),
        ("[[a [bc]]] [[[b] c]]", ["a bc", "b c"]),
    ],
)
def test_a_mark_within_what_stands_aside_does_not_part_it(typed: str, texts: list[str]) -> None:
    assert [aside.text for aside in witness_text(f"take {typed} ale").items[0].asides] == texts


@pytest.mark.parametrize("name", ["above", "rubric", "initial"])
def test_a_mark_may_name_the_hand_of_what_is_under_it(name: str) -> None:
    tokens = witness_text(f"put @{name}:2{{and (þe) @hand{{3}} salt}} wel").items[0].tokens
    assert [token.place.hand for token in tokens] == ["1", "2", "2", "3", "1"]
    (token,) = witness_text(f"sal@{name}:2{{t}}e").items[0].tokens
    assert [(each.at, each.place.hand) for each in token.breaks] == [(3, "2"), (4, "1")]


@pytest.mark.parametrize(
    ("typed", "lines"),
    [
        ("take\n@hand{2}\nale\n@hand{1}\nwyn", [1, 2, 3]),
        ("@hand{2}\ntake\n@hand{3} ale\n  @hand{1}  \nwyn @hand{2}", [1, 2, 3]),
        ("take\n@margin{nota}\nale\n@catchword{and}\nwyn", [1, 2, 3]),
        ("take\n[[and boyle]]\nale @hand{2}", [1, 3]),
    ],
)
def test_what_holds_no_text_is_no_manuscript_line(typed: str, lines: list[int]) -> None:
    tokens = witness_text(typed, lines=LineMode.MANUSCRIPT).items[0].tokens
    assert [token.place.ms_line for token in tokens] == lines


def test_what_is_struck_out_or_in_the_margin_stands_aside() -> None:
    item = witness_text("take [[honde]] hede @margin:2{clence hem} wel").items[0]
    assert [token.expanded for token in item.tokens] == ["take", "hede", "wel"]
    assert [(a.mark, a.text, a.at, a.note) for a in item.asides] == [
        (Mark.DELETED, "honde", 1, ""),
        (Mark.MARGIN, "clence hem", 2, "2"),
    ]


def test_a_gap_is_a_gap() -> None:
    tokens = witness_text("a [...] b +++").items[0].tokens
    assert [token.kind for token in tokens] == [
        TokenKind.WORD, TokenKind.GAP, TokenKind.WORD, TokenKind.GAP,
    ]  # fmt: skip


def test_folio_line_and_word_are_known() -> None:
    text = "## 1 Tart\n|f. 7v|\nTake figes and\ngrynde hem to¬\ngedre |f. 8r| with\nale"
    tokens = witness_text(text, lines=LineMode.MANUSCRIPT).items[0].tokens
    assert [(t.expanded, t.place.folio, t.place.ms_line, t.word_in_line) for t in tokens] == [
        ("Take", "7v", 1, 1),
        ("figes", "7v", 1, 2),
        ("and", "7v", 1, 3),
        ("grynde", "7v", 2, 1),
        ("hem", "7v", 2, 2),
        ("togedre", "7v", 2, 3),
        ("with", "8r", 1, 1),
        ("ale", "8r", 2, 1),
    ]


def test_bars_count_manuscript_lines_in_a_free_transcription() -> None:
    tokens = witness_text("|f. 1r| Take | figes\nand | ale").items[0].tokens
    assert [token.place.ms_line for token in tokens] == [1, 2, 2, 3]


def test_hands_change() -> None:
    tokens = witness_text("Take @hand{2} figes @hand{1} and").items[0].tokens
    assert [token.place.hand for token in tokens] == ["1", "2", "1"]


def test_a_word_keeps_the_letters_of_the_copy_beside_those_written_out() -> None:
    tokens = witness_text("ꝑcely wat(er) .iij. fo+").items[0].tokens
    assert [(token.letters, token.expanded) for token in tokens] == [
        ("ꝑcely", "percely"), ("water", "water"), (".iij.", ".iij."), ("fo…", "fo…"),
    ]  # fmt: skip


def test_a_page_line_or_hand_that_begins_inside_a_word_is_kept_with_its_letters() -> None:
    text = "|f. 1r|ꝑce¬\nly ca|f. 1v|ste gra@hand{2}ce"
    tokens = witness_text(text, lines=LineMode.MANUSCRIPT).items[0].tokens
    found = [[(b.at, b.place.folio, b.place.ms_line, b.place.hand) for b in token.breaks] for token in tokens]
    assert found == [[(5, "1r", 2, "1")], [(2, "1v", 1, "1")], [(3, "1v", 1, "2")]]


@pytest.mark.parametrize(
    ("text", "at", "letter"),
    [
        ("caste [[þe]] sugre", 1, None), ("caste su[[a]]gre", 2, 2), ("ꝑce[[e]]ly", 1, 5),
        ("[[a]]caste", 1, 0), ("caste[[n]].", 1, 5), ("caste @margin:2{nota}", 1, None),
        ("i[[j]] vnces", 1, 1), ("ꝑ[[s]] and", 1, 3), ("caste[[ and]] sugre", 1, None),
        ("caste [[and ]]sugre", 1, None), ("caste. [[n]] sugre", 2, None), ("caste[[,]] sugre", 1, None),
        ("caste@margin{nota} sugre", 1, None), ("caste .[[n]] sugre", 2, None), ("cas[[e and]] sugre", 1, 3),
        ("[...][[n]] sugre", 1, None), ("caste@catchword{su gre}[[n]] sugre", 1, None),
    ],
)  # fmt: skip
def test_letters_struck_out_inside_a_word_are_told_from_those_between_words(
    text: str, at: int, letter: int | None
) -> None:
    *_, aside = witness_text(text).items[0].asides
    assert (aside.at, aside.letter) == (at, letter)


@pytest.mark.parametrize("word", ["þ̣at(er)", "x̣þ̣(er)"])
def test_a_mark_stands_over_its_letters_though_dots_fall_out(word: str) -> None:
    (token,) = witness_text(word).items[0].tokens
    over = [token.expanded[m.start : m.stop] for m in token.marks if m.mark is Mark.EXPANDED and not m.reason]
    assert over == ["er"]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("'ale' and", ["'", "ale", "'", "and"]),
        ("‘ale’, and", ["‘", "ale", "’,", "and"]),
        ("th'abbot' and", ["th'abbot'", "and"]),
        ("ale' and", ["ale'", "and"]),
        ("'tis", ["'", "tis"]),
        ("mayd'‘ ale", ["mayd'", "‘", "ale"]),
    ],
)
def test_signs_on_both_sides_of_a_word_are_quotation_marks(typed: str, words: list[str]) -> None:
    assert [token.expanded for token in witness_text(typed).items[0].tokens] == words
