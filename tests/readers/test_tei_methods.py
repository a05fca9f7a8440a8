"""Either method of a TEI apparatus says the same, and entries that overlap are read or refused."""

from random import Random

from hypothesis import given
from hypothesis import strategies as st

from tests.readers.tei_attaching import document, refused
from tests.readers.tei_making import codes, raw, with_list

Entry = tuple[int, int, dict[str, str]]


@st.composite
def entries(draw: st.DrawFn) -> tuple[list[str], list[Entry]]:
    """Draw a base, and entries that do not overlap: from which word to which, who reads what."""
    words = draw(st.lists(st.sampled_from(["Take", "figes", "and", "dates", "wyn"]), max_size=8))
    cuts = sorted(draw(st.lists(st.integers(0, len(words)), max_size=6)))
    spans = [*zip(cuts[::2], cuts[1::2], strict=False)]
    reading = st.sampled_from(["", "figis", "wel and", "dates"])
    return words, [
        (start, stop, draw(st.dictionaries(st.sampled_from("BC"), reading, min_size=1)))
        for start, stop in spans
    ]


@given(entries(), st.randoms(use_true_random=False), st.booleans())
def test_either_method_says_the_same(drawn: tuple[list[str], list[Entry]], order: Random, said: bool) -> None:
    words, found = drawn
    inline, base, apart, at = "", "", [], 0
    for number, (start, stop, read) in enumerate(found):
        shared, lemma = " ".join(words[at:start]), " ".join(words[start:stop])
        rest = " ".join(f"#{each}" for each in "ABC" if each not in read)
        readings = f'<lem wit="{rest}">{lemma}</lem>' if said or not lemma else ""
        others = "".join(f'<rdg wit="#{siglum}">{text}</rdg>' for siglum, text in read.items())
        inline += f'{shared} <app><lem wit="{rest}">{lemma}</lem>{others}</app> '
        base += f'{shared} <anchor xml:id="s{number}"/>{lemma}<anchor xml:id="e{number}"/> '
        apart.append(f'<app from="#s{number}" to="#e{number}">{readings}{others}</app>')
        at = stop
    order.shuffle(apart)
    end = " ".join([*words[at:], "salt"])
    whole = document(f"<p>{base}{end}</p>", "".join(apart))
    cut_up = with_list(f"<p>{inline}{end}</p>", *"ABC")
    assert [raw(each) for each in whole] == [raw(each) for each in cut_up]
    assert [codes(each) for each in whole] == [codes(each) for each in cut_up] == [[], [], []]


Span = tuple[int, int, str]


@st.composite
def spans(draw: st.DrawFn) -> list[Span]:
    """Draw stretches of six words, each with who reads otherwise there; they may overlap."""
    ends = st.tuples(st.integers(0, 6), st.integers(0, 6)).map(sorted)
    drawn = st.tuples(ends, st.sampled_from(["B", "C", "BC"]))
    return [(first, last, sigla) for (first, last), sigla in draw(st.lists(drawn, max_size=4))]


def spelled(found: list[Span], siglum: str) -> str | None:
    """Return what a witness has by a plain reading of stretches, None where two say what it has."""
    mine = sorted(
        (first, last, number) for number, (first, last, sigla) in enumerate(found) if siglum in sigla
    )
    words, at, points = [f"w{number}" for number in range(6)], 0, set[int]()
    said: list[str] = []
    for first, last, number in mine:
        if first < at or (first == last and first in points):
            return None
        points |= {first} if first == last else set()
        said += [*words[at:first], f"r{number}"]
        at = last
    return " ".join([*said, *words[at:]])


@given(spans())
def test_entries_that_may_overlap_are_read_or_refused(found: list[Span]) -> None:
    body = "".join(f'<anchor xml:id="p{number}"/>w{number} ' for number in range(6)) + '<anchor xml:id="p6"/>'
    apart = "".join(
        f'<app from="#p{first}" to="#p{last}"><rdg wit="{" ".join("#" + s for s in sigla)}">r{number} </rdg></app>'
        for number, (first, last, sigla) in enumerate(found)
    )
    expected = {siglum: spelled(found, siglum) for siglum in "ABC"}
    if None in expected.values():
        assert "this entry overlaps another" in refused(f"<p>{body}</p>", apart)
    elif apart:
        assert {e.witness.siglum: raw(e) for e in document(f"<p>{body}</p>", apart)} == expected
