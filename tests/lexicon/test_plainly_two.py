"""What is soon seen to be two words is never one when it is judged."""

from itertools import islice, pairwise

from collate.lexicon.judge import shipped_judge
from collate.lexicon.words import lexicon
from collate.model.form import Form, one_word
from collate.model.witness import TokenKind


def test_what_is_plainly_two_is_never_judged_one() -> None:
    judge = shipped_judge()
    keys = sorted(key for key in islice(lexicon().forms, 0, None, 9) if not key.startswith("="))
    forms = [Form(key, key) for key in keys]
    pairs = [*pairwise(forms), *zip(forms, forms[2:], strict=False), *zip(forms, forms[97:], strict=False)]
    plain = [(a, b) for a, b in pairs if judge.plainly_two(a, b)]
    assert len(plain) > len(pairs) // 4
    assert [(a.folded, b.folded) for a, b in plain if one_word(judge(a, b))] == []


def test_numbers_and_like_spellings_are_judged() -> None:
    judge = shipped_judge()
    one, article = Form("j", "1", TokenKind.NUMERAL, value=1.0), Form("a", "a")
    assert not judge.plainly_two(one, article)
    assert not judge.plainly_two(Form("two", "two"), Form("tweyne", "tweyne"))
    assert not judge.plainly_two(Form("xqz", "xqz"), Form("watir", "water"))
    assert judge.plainly_two(Form("water", "water"), Form("fyre", "fire"))
