"""Formulas of the dead, the former and the living, as documents have them, and words that only look so.

Each row of the two tables names its source: the EETS volumes (wills OS 78, gilds OS 40, Godstow OS 129-30,
Lincoln Diocese Documents OS 149, Arderne OS 139, two cookery books OS 91, Hoccleve ES 72, Caxton ES 36-7), the
Stonor Letters (Camden), Rymer's *Foedera*, Legge's *Anglo-Norman Letters*. Only the formula is the source's:
it is said here of invented persons, or of the king it was said of.
"""

import pytest

from tests.dossiers import dossier, formulas, rows, spans


@pytest.mark.parametrize(("formula", "words", "source"), rows("formulas.tsv"))
def test_a_formula_is_found(formula: str, words: str, source: str) -> None:
    assert formula in formulas(dossier(words)), source


@pytest.mark.parametrize(("formula", "words", "source"), rows("formulas_false.tsv"))
def test_words_that_only_look_so_are_passed_over(formula: str, words: str, source: str) -> None:
    assert formula not in formulas(dossier(words)), source


STAFFORD = """
[[person]]
name = "John Stafford"
written = ["John Stafford", "Johannes Stafford"]
office = "bishop of Bath and Wells"
from = "1425"
to = "1443"
died = "1452-05-25"
[[person]]
name = "John Stafford"
written = ["John Stafford", "Johannes Stafford"]
office = "archbishop of Canterbury"
from = "1443"
to = "1452-05-25"
died = "1452-05-25"
"""


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        # the death of Edward IV, in Caxton's *Charles the Grete* of 1 December 1485 (EETS ES 36-7, p. 251)
        (
            "kyng Edward the fourth late of noble memorye, on whos soule God haue mercy",
            "1483-04-09/ 1483-04-09/",
        ),
        # Henry VI was late king in 1464 and died in 1471 (Lincoln Diocese Documents, OS 149, pp. 129-30)
        ("kyng henry the vj., late kyng of this Royaume", "1461-03-04/ 1461-03-04/"),
        # Richard II was *nadgairs roi* before he died (Legge, *Anglo-Norman Letters* XIX)
        ("Richard second nadgairs roi dEngleterre", "1399-09-29/ 1399-09-29/"),
        # Hunterian 328 of Henry IV: that copy is later than 20 March 1413 (D'Arcy Power, OS 139, pp. xii-xiii)
        ("Henrici regis quarti cuius anime propicietur deus", "1413-03-20/ 1413-03-20/"),
        # one who is now king is king: Rymer, *Foedera* x. 253
        ("Henrici Sexti nunc Regis", "1422-09-01/1471-04-14 1422-09-01/"),
    ],
)
def test_what_is_known_of_a_king_bounds_the_words(words: str, expected: str) -> None:
    assert spans(dossier(words)) == expected


def test_a_bishop_and_an_archbishop_of_one_name_set_two_bounds() -> None:
    # John Stafford, *Episcopi Wellensis* and *Archibisshoppe of Caunterbury*: OS 91, pp. 62, 68
    assert (
        spans(dossier("domini Johannis Stafford Episcopi Wellensis", STAFFORD)) == "1425-01-01/ 1425-01-01/"
    )
    later = dossier("John Stafford Archibisshoppe of Caunterbury", STAFFORD)
    assert spans(later) == "1443-01-01/ 1443-01-01/"
