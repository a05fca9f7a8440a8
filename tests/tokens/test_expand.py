"""Abbreviations written out: A. G. Petti, English Literary Hands from Chaucer to Dryden (1977); A. Cappelli,
Lexicon abbreviaturarum; TEI P5 Guidelines, chapter on primary sources: their signs and values."""

import unicodedata
from collections import Counter

import pytest

from collate.lexicon.tables import signs, typed_keys
from collate.model.edition import Practice
from collate.model.transcript import Mark
from collate.model.witness import shown
from collate.tokens.expand import Evidence, expand
from tests.making import road, witness_text

NOTHING = Evidence("A", Practice(), Counter(), Counter(), lambda form: ())


def written_out(word: str, own: dict[str, int] | None = None, others: dict[str, int] | None = None) -> str:
    evidence = Evidence("A", Practice(), Counter(own or {}), Counter(others or {}), lambda form: ())
    return expand(word, "en", evidence).text


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("whā", "whan"), ("sōme", "somme"), ("frō", "from"), ("porcioū", "porcioun"), ("eu͛y", "euery"),
        ("ou͛", "ouer"), ("aft͛", "after"), ("g͛ce", "grece"), ("p͛sse", "presse"), ("fo᷑", "four"),
        ("colo᷑", "colour"), ("to᷑ne", "tourne"), ("þꝰ", "þus"), ("plꝰ", "plus"), ("clowꝭ", "clowes"),
        ("ꝑcely", "percely"), ("ꝑboile", "parboile"), ("ꝓfit", "profit"), ("p̄sse", "presse"), ("pͥk", "prik"),
        ("pͥncipal", "principal"), ("gͣyne", "grayne"), ("gᷓynes", "graynes"), ("qᷓntite", "quantite"),
        ("ꝯyng", "conyng"), ("ꝯfite", "confite"), ("ciboꝝ", "ciborum"), ("coloʳ", "colour"), ("ẜue", "serue"),
        ("ꝟgeous", "vergeous"), ("vnđ", "vnder"), ("Octoƀ", "October"), ("omnibꝫ", "omnibus"), ("Ꝑcely", "Percely"),
    ],
)  # fmt: skip
def test_the_usual_value_of_a_sign(written: str, expected: str) -> None:
    assert written_out(written) == expected


@pytest.mark.parametrize(
    ("written", "expected"),
    [("wᵗ", "with"), ("þᵗ", "þat"), ("þᵉ", "þe"), ("þᵘ", "þou"), ("yᵗ", "yat"), ("wᶜʰ", "which"), ("⁊", "and"), ("⁊c", "et cetera"), ("w^t", "with")],
)  # fmt: skip
def test_a_raised_letter_makes_a_word(written: str, expected: str) -> None:
    """Common practice: a raised t on w reads with, a raised u on thorn thou; no written letter is changed."""
    assert written_out(written) == expected


def test_a_bar_or_hook_that_means_nothing() -> None:
    """T. Austin, EETS OS 91 (1888) prints 1,034 final bars of one manuscript: a habit, not letters."""
    assert [written_out(word) for word in ("saffron̄", "witħ", "aƚƚ", "amydon̄")] == [
        "saffron",
        "with",
        "all",
        "amydon",
    ]


def test_evidence_in_its_order() -> None:
    assert written_out("pep͛") == "peper"
    assert written_out("pep͛", others={"pepir": 3}) == "pepir"
    assert written_out("pep͛", own={"peper": 2}, others={"pepir": 30}) == "peper"
    stated = Evidence("A", Practice((("\u035b", "yr"),)), Counter({"peper": 9}), Counter(), lambda form: ())
    assert expand("pep͛", "en", stated).text == "pepyr"


def test_the_ground_is_said_with_counts() -> None:
    evidence = Evidence("B", Practice(), Counter({"sugre": 3}), Counter(), lambda form: ())
    ((start, stop, reason),) = expand("sug͛", "en", evidence).spans
    assert reason == "sugre written out 3 times in B, suger never"
    assert (start, stop) == (3, 5)


def test_a_form_that_may_be_another_word_is_no_evidence() -> None:
    known = {"and": ("and",), "an": ("and", "a"), "ant": ("and",)}
    evidence = Evidence("A", Practice(), Counter({"an": 5}), Counter(), lambda form: known.get(form, ()))
    assert expand("⁊", "en", evidence).text == "and"


def test_an_expansion_is_always_marked() -> None:
    tokens = witness_text("sug͛ ꝑcely wᵗ water").items[0].tokens
    assert [shown(token) for token in tokens] == ["sug(er)", "p(er)cely", "w(i)t(h)", "water"]
    assert all(m.reason for token in tokens[:3] for m in token.marks if m.mark is Mark.EXPANDED)


def test_a_dot_below_marks_an_uncertain_letter() -> None:
    (token,) = witness_text("sạlt").items[0].tokens
    assert token.expanded == "salt"
    assert [(m.mark, m.start, m.stop) for m in token.marks] == [(Mark.UNCERTAIN, 1, 2)]


def test_a_latin_line_reads_et_and_an_english_one_and() -> None:
    latin = witness_text("Explicit liber domini abbatis ⁊ monachorum anno regni regis").items[0].tokens
    english = witness_text("take figes ⁊ ale and bray hem").items[0].tokens
    assert next(t.expanded for t in latin if t.written == "⁊") == "et"
    assert next(t.expanded for t in english if t.written == "⁊") == "and"


def test_practice_holds_for_its_hand_only() -> None:
    text = "## 1 a\npep͛ @hand{2} pep͛"
    practice = '[witness.practice]\n"◌͛" = "er"\n[witness.practice.hand-2]\n"◌͛" = "ir"\n'
    (read,) = road({"A": text}, practice)
    assert [token.expanded for token in read.items[0].tokens] == ["peper", "pepir"]


def test_the_names_of_the_signs_are_unicodes() -> None:
    for sign in signs():
        assert len(sign.sign) == 1
        assert unicodedata.name(sign.sign) == sign.name


def test_every_typed_key_gives_its_sign() -> None:
    keys = typed_keys()
    for key, sign in keys.items():
        (token, *_) = witness_text(f"a{key}b").items[0].tokens
        whole = "".join(t.written for t in witness_text(f"a{key}b").items[0].tokens)
        assert unicodedata.normalize("NFC", f"a{sign}b") == whole, (key, token)
    assert not [a for a in keys for b in keys if a != b and b.startswith(a)]


def test_traps_of_unicode() -> None:
    """TEI P5 notes on characters: NFKC turns the us-sign into con; o with a bar composes, n does not."""
    assert unicodedata.normalize("NFKC", "\ua770") == "\ua76f"  # why NFKC is never used
    assert written_out("cuiꝰ") == "cuius"
    assert written_out("o\u0304") != "o\u0304"
    assert [t.written for t in witness_text("neu͛e ⁊ n̄").items[0].tokens] == ["neu͛e", "⁊", "n̄"]


def test_a_word_of_very_many_raised_letters_is_written_out_too() -> None:
    """The combinations of their values are more than any memory holds: only the first are weighed."""
    (token,) = witness_text("vj^" + "xdatesfiges" * 8).items[0].tokens
    assert token.expanded.startswith("vj")
