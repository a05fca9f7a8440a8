"""TEI documents: they keep to the grammar and the rules, and every witness is read out of them again."""

from dataclasses import replace

from hypothesis import example, given
from hypothesis import strategies as st

from collate.errors import InputError
from collate.reports.tei import tei
from collate.settings import Attachment
from tests.reports.tei_reading import found_again, opened, read_again, told, told_as_collated
from tests.tei_rules import faults
from tests.tei_schema import errors, reduced

WORDS = [
    "Take", "þe", "figes", "figis", "and", "⁊", "&", "dates", "hem", "boyle", "ther to", "therto", ".iij.", "iij", "xij",
    "vj^xx", "12", "1/2", ".", ".", "/", "//", ":", "¶", "hem.", "hem .", ".ij", "ij.", "-", "'", "wat(er)", "wat͛",
    "ꝑcely", "percely", "witħ", "wᵗ", "þᵗ", "w^t", "saffron̄",
    "<e>gges", "{þe}", "[dates]", "[abc def]", "da[t]es", "`clene´", "da`te´s", "@above:2{clene}", "da@above:2{te}s", "@rubric:2{wel}", "sạlt", "þ̣at(er)", "wat(ẹr)", "+++", "sa++n",
    "[...]", "[...]", "[.3.]", "sa[.2.]", "sa[...]n", "[[honde]]", "ho[[n]]de", "[[+a]]", "@margin{clence hem}",
    "@margin:2{nota}", "@catchword{and boyle}", "@space{7}", "@space{?}", "@space{half a line}", "@hand{2}", "@hand{1}",
    "@rubric{Here bigynneth}", "@rubric{Tart", "of frut}", "@initial{T}ake", "@initial{A}", "fi[g`e´]s",
    "|f. 1r|", "|f. 1v|", "|f. 2ra|", "|f. 2rb|", "|p. 12|", "|", "|l. 9|", "fi|f. 3r|ges", "to¬\ngedre", "ꝑce¬\nly", "da|tes",
    "\n", "\n", r"\(", r"\<", r"\&", "]]>", "&amp;", "\"", "e\u0301", "\u200b", "½", "°", "\x85", "\u202e", "ꝗ",
]  # fmt: skip
ITEMS = [
    "",
    "\n## 1 Tart of frut\n",
    "\n## 1 @rubric{Tart of} frute\n",
    "\n## 1 [[Pye]] `Tart´ of fr[[o]]ut @margin:2{nota}\n",
    "\n## 2\n",
    "\n## preface Here bigynneth\n",
]
SIGLA = ["A", "B", "1", "A*", "A_", "Ha+4", "β", "reason-1", "A-hand-2"]
DULL = ["Take", "þe", "figes", "and", "dates", "hem", "boyle", "water", ".", "wel", "salt", "sethe"]
word = st.sampled_from(DULL) | st.sampled_from(WORDS)


@st.composite
def items(draw: st.DrawFn) -> dict[str, list[str]]:
    """Draw a book: words under the lines that begin its items."""
    heads = draw(
        st.lists(
            st.sampled_from(ITEMS), min_size=1, max_size=3, unique_by=lambda head: tuple(head.split()[1:2])
        )
    )
    return {head: draw(st.lists(word, max_size=10)) for head in heads}


@st.composite
def copy(draw: st.DrawFn, book: dict[str, list[str]]) -> str:
    """Draw a careless copy of a book."""
    written = ""
    order = draw(st.sampled_from([1, 1, -1]))
    for head, words in list(book.items())[::order]:
        if draw(st.integers(0, 5)) == 0:
            continue
        here = []
        for each in words:
            act = draw(st.sampled_from(["keep", "keep", "keep", "keep", "omit", "change", "add", "move"]))
            here.extend(
                {"keep": [each], "omit": [], "change": [draw(word)], "add": [each, draw(word)]}.get(act, [])
            )
            if act == "move":
                here.insert(draw(st.integers(0, len(here))), each)
        written += head + draw(st.sampled_from([" ", " ", " ", ""])).join(here)
    return written or "Take"


@st.composite
def editions(draw: st.DrawFn) -> dict[str, str]:
    """Draw several copies of a book, under their sigla."""
    sigla = draw(st.lists(st.sampled_from(SIGLA), min_size=2, max_size=4, unique=True))
    book = draw(items())
    return {siglum: draw(copy(book)) for siglum in sigla}


@given(editions(), st.sets(st.sampled_from(SIGLA)), st.sampled_from(Attachment))
def test_every_witness_is_read_out_again_as_it_was(
    texts: dict[str, str], lined: set[str], attachment: Attachment
) -> None:
    try:
        cut, findings = opened(texts, "|".join(lined))
    except InputError:
        return
    written = "".join(tei(findings, attachment))
    assert errors(written, reduced()) == []
    assert faults(written) == []
    before, after = told_as_collated(findings), told(read_again(written))
    assert after == before
    if not any("+" in item.label for each in findings.items for item in each.collation.items):
        assert after == {siglum: items for siglum, items in told(cut).items() if items}


@given(editions(), st.sets(st.sampled_from(SIGLA)))
@example({"A": "\n## 1\nTake @hand{2}figes", "B": "\n## 1\nTake figes\n## 2\nTake @hand{2}wyn"}, set())
def test_either_attachment_leads_to_the_other(texts: dict[str, str], lined: set[str]) -> None:
    """What is read of one and written as the other is what is read of the other and written so."""
    try:
        _, findings = opened(texts, "|".join(lined))
    except InputError:
        return
    again = [found_again("".join(tei(findings, each)))[1] for each in Attachment]
    inline, apart = (replace(each, items=tuple(each.items)) for each in again)
    assert not any(notice.code.startswith("tei-") for notice in (*inline.notices, *apart.notices))
    for attachment in Attachment:
        assert "".join(tei(apart, attachment)) == "".join(tei(inline, attachment))
