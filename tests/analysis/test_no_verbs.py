"""Nouns that are also forms of a verb: after a preposition they are no verbs, and no tense shifts in them."""

import pytest

from tests.making import found, substantives


@pytest.mark.parametrize(
    ("base", "other", "kind"),
    [
        ("put hym to deth and serue", "put hym to dede and serue", "substitution"),
        ("he cam to deth", "he cam to dede", "substitution"),
        ("he spak of his deth", "he spak of his dede", "substitution"),
        ("thei weren broght with deth", "thei weren broght with dede", "substitution"),
        ("put þerto brede crommes", "put þerto bred cromed", "substitution"),
        ("leid it in broke", "leid it in breketh", "inflection"),
        ("he doth alle good", "he dede alle good", "tense"),
        ("þe hors þat he rit", "þe hors þat he rood", "tense"),
    ],
)
def test_a_noun_after_a_preposition_has_no_tense(base: str, other: str, kind: str) -> None:
    said = substantives(found({"A": base, "B": other}))
    assert [told for *_, told in said] == [kind]
