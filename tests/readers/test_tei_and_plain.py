"""What TEI says goes over into the plain notation and comes back as the same words."""

from hypothesis import given
from hypothesis import strategies as st

from collate.errors import InputError
from collate.model.edition import LineMode, Witness
from collate.readers.tei import read_tei
from tests.readers.tei_making import again, cut, fixture, tei, told

WRAPPERS = [
    "add", 'add place="margin" hand="#2"', 'add place="margin"', "del", "surplus", "ex", "corr", "supplied",
    'supplied reason="omitted"', "unclear", 'hi rend="rubric"', 'hi rend="initial"', 'hi rend="sup"', "seg", "w",
    'fw type="catch"', "expan", "damage", "subst", "choice", "item", "cell", "l", "app", "strange",
    'seg xml:space="preserve"',
]  # fmt: skip
LEAVES = [
    "Take", "þe ", " wat", "⁊", " ", "\n  ", ".iij.", "vj", "...", "[", "]", ".3.", "--", "(", ")", "{", "@rubric", "#", "# ", "|", "f. 3", "l. 4",
    "¬", "+", "´", "`", "\\", "$p", "~", "n̄", "\u0304", "ꝑ", "ạ", "'", "-", "½", "/", ".", "&amp;", "&lt;", "\u00a0",
    "<gap/>", '<gap quantity="3" reason="illegible"/>', '<gap quantity="2"/>', '<space quantity="7"/>', '<seg><handShift new="#2"/>hem</seg>', "<note>a</note>",
    "<milestone/>", "<ptr/>", "<!-- c -->", "<?p i?>",
]  # fmt: skip
BREAKS = [
    "<lb/>",
    '<lb n="9"/>',
    '<lb break="no"/>',
    '<lb n="30" break="no"/>',
    '<pb n="2r"/>',
    '<pb n="3v" break="no"/>',
    '<cb n="b"/>',
]


def trees(leaves: list[str]) -> st.SearchStrategy[str]:
    """Draw the content of a paragraph."""

    def wrap(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
        def one(tag: str, content: list[str]) -> str:
            return f"<{tag}>{''.join(content)}</{tag.split()[0]}>"

        return st.builds(one, st.sampled_from(WRAPPERS), st.lists(inner, max_size=4))

    tree = st.recursive(st.sampled_from(leaves), wrap, max_leaves=12)
    return st.lists(tree, min_size=1, max_size=8).map("".join)


def comes_back(text: str, lines: LineMode) -> None:
    try:
        transcript = read_tei(tei(f"<body><div n='1'>{text}</div></body>"), Witness("K", "K", "K.xml"))
    except InputError:
        return
    once = cut(transcript)
    assert told(again(once, lines)) == told(once)


@given(trees(LEAVES))
def test_a_text_without_line_breaks_comes_back(text: str) -> None:
    comes_back(f"<p>{text}</p>", LineMode.FREE)


@given(trees(LEAVES), trees(LEAVES))
def test_a_heading_comes_back(heading: str, text: str) -> None:
    comes_back(f"<head>{heading}</head><p>{text}</p>", LineMode.FREE)


@given(trees([*LEAVES, *BREAKS]))
def test_a_text_with_its_lines_comes_back(text: str) -> None:
    comes_back(f"<p><pb n='1r'/>Take<lb/>hede {text}</p>", LineMode.MANUSCRIPT)


def test_every_mark_of_the_plain_notation_comes_back() -> None:
    once = cut(read_tei(fixture("kitchen.xml"), Witness("K", "K", "kitchen.xml")))
    assert told(again(once, LineMode.MANUSCRIPT)) == told(once)
