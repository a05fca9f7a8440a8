"""Dates in the extended format, and catalogue phrases."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from collate.lexicon.calendar import day_of_number
from collate.lexicon.dates import SCHEMES, read_date
from collate.lexicon.edtf import NotEdtf, read_edtf, read_edtf_date
from collate.model.dates import Bounds, Day

REFUSED = [
    ("Y-17000", "0001 to 9999"), ("-0100", "0001 to 9999"), ("0000", "no year 0"), ("1418-13", "01 to 12"),
    ("1418-00", "01 to 12"), ("1418-02-30", "01 to 28"), ("1420-02-30", "01 to 29"), ("1418-3", "1418-03"),
    ("1418-3-2", "1418-03-02"), ("14??", "14XX"), ("14xx", "14XX"), ("141?", "141X"), ("1418-1420", "1418/1420"),
    ("1418/1391", "1391/1418"), ("/", "1391/.."), ("../..", "1391/.."), ("1391/1400/1418", "1391/.."),
    ("1418S9", "1418S2"), ("14XXS2", "1418S2"), ("[1417,1418", "]"), ("c. 1420", "1420~"), ("circa 1420", "1420~"),
    ("before 1420", "../1420"), ("after 1420", "1420/.."), ("1418T10:30", "1418"), ("", "leave the key out"),
    ("3 March 1418", "1418-03-02"), ("1418/03/02", "1418-03-02"), ("1418 ?", "1418?"), ("1418-21-03", "1418-21"),
    ("s. xv", "1418"), ("1418-XX-32", "32"), ("[1417,c. 1418]", "1418~"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "hint"), REFUSED)
def test_what_is_no_date_is_refused_with_what_would_be_right(text: str, hint: str) -> None:
    with pytest.raises(NotEdtf) as told:
        read_edtf(text)
    assert hint in str(told.value)
    assert "\n" not in str(told.value)


@given(st.text(alphabet="0123456789X?~%/-.[]{},STY ", max_size=14))
def test_a_string_is_read_or_refused_and_never_fails_otherwise(text: str) -> None:
    try:
        bounds = read_edtf(text)
    except NotEdtf:
        return
    if bounds.not_before and bounds.not_after:
        assert bounds.not_before <= bounds.not_after


@given(st.integers(1800000, 2400000))
def test_a_day_is_read_as_itself(number: int) -> None:
    day = day_of_number(number)
    assert read_edtf(str(day)) == Bounds(day, day)


def test_leap_days_are_julian() -> None:
    assert read_edtf("1500-02-29") == Bounds(Day(1500, 2, 29), Day(1500, 2, 29))
    with pytest.raises(NotEdtf):
        read_edtf("1501-02-29")


def test_the_ends_of_an_interval_keep_their_own_qualifiers() -> None:
    first, last = read_edtf_date("1391?/1418~").parts
    assert (first.uncertain, first.approximate) == (True, False)
    assert (last.uncertain, last.approximate) == (False, True)


PHRASES = [
    # phrase, quarters, narrow
    ("s. xv in.", (1400, 1425), (1400, 1410)), ("s. xv med.", (1425, 1475), (1440, 1460)),
    ("s. xv ex.", (1475, 1500), (1490, 1499)), ("s. xv²", (1450, 1500), (1450, 1499)),
    ("s. xiv/xv", (1375, 1425), (1390, 1410)), ("s. xv 3/4", (1450, 1475), (1450, 1475)),
    ("c. 1420", (1395, 1445), (1410, 1430)), ("1420 × 1440", (1420, 1440), (1420, 1440)),
    ("1420–40", (1420, 1440), (1420, 1440)), ("s. xiii ex.–xv in.", (1275, 1425), (1290, 1410)),
    ("s. xv in. × s. xv med.", (1400, 1475), (1400, 1460)), ("s. xv in.–med.", (1400, 1475), (1400, 1460)),
    ("s. xv in. (before 1405)", (1400, 1404), (1400, 1404)), ("s. xv (not before 1415)", (1415, 1500), (1415, 1500)),
    ("s. xv (not after 1415)", (1400, 1415), (1400, 1415)), ("s. xv (after 1415)", (1416, 1500), (1416, 1500)),
    ("early fifteenth century", (1400, 1425), (1400, 1410)), ("mid-15th century", (1425, 1475), (1440, 1460)),
    ("late 14th or early 15th century", (1375, 1425), (1390, 1410)), ("1420s", (1420, 1429), (1420, 1429)),
    ("c. 1400 × c. 1425", (1375, 1450), (1390, 1435)), ("s. xiv²–xv¹", (1350, 1450), (1350, 1450)),
    ("1418~", (1393, 1443), (1408, 1428)), ("14XX", (1400, 1499), (1400, 1499)), ("1418-03-02", (1418, 1418), (1418, 1418)),
    ("[1417,1418]", (1417, 1418), (1417, 1418)), ("1391/1418", (1391, 1418), (1391, 1418)),
    ("1391/1418~", (1391, 1443), (1391, 1428)), ("s. xv, first third", (1400, 1433), (1400, 1433)),
]  # fmt: skip


@pytest.mark.parametrize(("phrase", "quarters", "narrow"), PHRASES)
def test_a_phrase_under_each_scheme(phrase: str, quarters: tuple[int, int], narrow: tuple[int, int]) -> None:
    for scheme, years in zip(SCHEMES, (quarters, narrow), strict=True):
        found = read_date(phrase, scheme)
        assert found is not None
        assert (found.not_before, found.not_after) == years
        assert (found.stated, found.scheme) == (phrase, scheme)


@pytest.mark.parametrize(
    "phrase", ["", "nonsense", "1391/..", "../1418", "1440–1420", "s. xxv q", "before 1420", "XXXX"]
)
def test_a_phrase_that_names_no_two_ends_is_not_understood(phrase: str) -> None:
    assert read_date(phrase, "quarters") is None
