"""Examples of the Extended Date/Time Format, ISO 8601-2:2019, Annex A (from memory), years and months as there.

The standard's days are Gregorian; those here fall on the same day of the month in both calendars' names.
"""

import pytest

from collate.lexicon.edtf import NotEdtf, read_edtf_date

EXAMPLES = [
    # level, text, not before, not after, qualifiers
    (0, "1985-04-12", "1985-04-12", "1985-04-12", ""), (0, "1985-04", "1985-04-01", "1985-04-30", ""),
    (0, "1985", "1985-01-01", "1985-12-31", ""), (0, "1964/2008", "1964-01-01", "2008-12-31", ""),
    (0, "2004-06/2006-08", "2004-06-01", "2006-08-31", ""), (0, "2004-02-01/2005-02-08", "2004-02-01", "2005-02-08", ""),
    (0, "2005/2006-02", "2005-01-01", "2006-02-28", ""), (1, "1984?", "1984-01-01", "1984-12-31", "?"),
    (1, "2004-06~", "2004-06-01", "2004-06-30", "~"), (1, "2004-06-11%", "2004-06-11", "2004-06-11", "?~"),
    (1, "201X", "2010-01-01", "2019-12-31", ""), (1, "20XX", "2000-01-01", "2099-12-31", ""),
    (1, "2004-XX", "2004-01-01", "2004-12-31", ""), (1, "1985-04-XX", "1985-04-01", "1985-04-30", ""),
    (1, "1985-XX-XX", "1985-01-01", "1985-12-31", ""), (1, "1985-04-12/..", "1985-04-12", "None", ""),
    (1, "../1985-04", "None", "1985-04-30", ""), (1, "1985/", "1985-01-01", "None", ""),
    (1, "/1985-04-12", "None", "1985-04-12", ""), (1, "1984~/2004-06", "1984-01-01", "2004-06-30", "~"),
    (1, "2001-21", "2001-03-01", "2001-05-31", ""), (2, "1950S2", "1900-01-01", "1999-12-31", ""),
    (2, "[1667,1668,1670..1672]", "1667-01-01", "1672-12-31", ""), (2, "[..1760-12-03]", "None", "1760-12-03", ""),
    (2, "[1760-12..]", "1760-12-01", "None", ""), (2, "{1960,1961-12}", "1960-01-01", "1961-12-31", ""),
    (2, "2004-06~-11", "2004-06-11", "2004-06-11", "~"), (2, "?2004-06-~11", "2004-06-11", "2004-06-11", "?~"),
    (2, "156X-12-25", "1560-12-25", "1569-12-25", ""), (2, "1XXX-XX", "1000-01-01", "1999-12-31", ""),
    (2, "1984-1X", "1984-10-01", "1984-12-31", ""), (2, "2001-34", "2001-04-01", "2001-06-30", ""),
]  # fmt: skip


@pytest.mark.parametrize(("level", "text", "first", "last", "signs"), EXAMPLES)
def test_an_example_of_the_standard(level: int, text: str, first: str, last: str, signs: str) -> None:
    found = read_edtf_date(text)
    assert (str(found.bounds.not_before), str(found.bounds.not_after)) == (first, last), level
    assert (found.uncertain, found.approximate) == ("?" in signs, "~" in signs)


@pytest.mark.parametrize("text", ["Y170000002", "-1985", "1985-04-12T23:20:30", "Y-17E7"])
def test_what_the_standard_allows_and_is_refused_here(text: str) -> None:
    with pytest.raises(NotEdtf):
        read_edtf_date(text)
