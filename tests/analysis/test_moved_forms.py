"""Moved phrases of which the spelling or the division differs here and there."""

from collections.abc import Mapping

from tests.making import found

FRAME = (
    "take rys and wasche hem clene {here} sethe hem in clene watur til thei breste do therto almaund mylke"
    " and let hem boyle wel {there} cast theron sugre and serue hit forth"
)


def moved(texts: Mapping[str, str]) -> list[tuple[str, str]]:
    """Return the siglum and the words of each move."""
    collation = found(texts).collation
    items = dict(zip(collation.sigla, collation.items, strict=True))
    return [
        (move.siglum, " ".join(t.expanded for t in items[move.siglum].tokens[move.start : move.stop]))
        for move in collation.transpositions
    ]


def test_a_word_divided_on_one_side_goes_along() -> None:
    home = FRAME.format(here="pouder of galyngale therwith", there="")
    away = FRAME.format(here="", there="pouder of galyngale ther with")
    assert moved({"A": home, "B": home, "C": away}) == [("C", "pouder of galyngale ther with")]
    divided = FRAME.format(here="pouder of galyngale ther with", there="")
    whole = FRAME.format(here="", there="pouder of galyngale therwith")
    assert moved({"A": divided, "B": divided, "C": whole}) == [("C", "pouder of galyngale therwith")]


def test_a_divided_word_at_the_very_head_goes_along() -> None:
    rest = "pouder of galyngale " + FRAME.format(here="", there="")
    away = FRAME.format(here="", there="therwith pouder of galyngale")
    texts = {"A": "ther with " + rest, "B": "ther with " + rest, "C": away}
    assert moved(texts) == [("C", "therwith pouder of galyngale")]


def test_an_unlisted_word_spelled_otherwise_where_it_went_is_the_same() -> None:
    home = FRAME.format(here="and hullgaunde", there="")
    away = FRAME.format(here="", there="and hwllgaund")
    assert [siglum for siglum, _ in moved({"A": home, "B": home, "C": away})] == ["C"]


def test_two_moves_with_a_word_in_common_are_both_told() -> None:
    frame = "take the boke and {a} rede it in the halle {b} godspel on the bord {c} auayle the prestes"
    home = frame.format(a="compasse with", b="with cler", c="")
    early = frame.format(a="", b="with compasse with cler", c="")
    late = frame.format(a="compasse with", b="", c="with cler")
    told = moved({"A": home, "B": late, "C": early, "D": home, "E": home})
    assert {siglum for siglum, words in told if "cler" in words} == {"B"}
    assert {siglum for siglum, words in told if "compasse" in words} == {"C"}
