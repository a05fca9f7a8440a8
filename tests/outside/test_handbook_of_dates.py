"""Dates converted, against documents and handbooks.

The reigns, the years of John and the rules of feasts: C. R. Cheney, *A Handbook of Dates*, revised by M. Jones
(Cambridge, 2000), from memory, checked by its compilers against three public tables. Each conversion names its own
source: the EETS volumes (EEWills OS 78, EGilds OS 40, Lincoln Diocese Documents OS 149, Godstow OS 129-30, two
cookery books OS 91, Caxton ES 36-7), the Stonor Letters (Camden). "Doc." means that the document states both.
"""

import json

import pytest

from collate.lexicon.calendar import day_number, easter, plus, weekday, weekday_names
from collate.lexicon.conversion import convert
from collate.lexicon.regnal import reigns, reigns_of, year_bounds
from collate.model.dates import Bounds, Day
from tests.making import DATA


def days_of(text: str) -> list[str]:
    """Return the days or spans that a date is read as."""
    found = [(reading.bounds.not_before, reading.bounds.not_after) for reading in convert(text).readings]
    return [f"{first}" if first == last else f"{first}/{last}" for first, last in found]


CONVERSIONS = [
    # number, date, its readings, its weekday, source
    (1, "14 Ric. II", ["1390-06-22/1391-06-21"], "", "Cheney & Jones"),
    (2, "22 June 14 Ric. II", ["1390-06-22"], "Wed", "Cheney & Jones: first day of the year"),
    (3, "21 June 14 Ric. II", ["1391-06-21"], "Wed", "Cheney & Jones: last day"),
    (4, "1 May 14 Ric. II", ["1391-05-01"], "Mon", "Cheney & Jones"),
    (5, "23 Sept. 12 Ric. II", ["1388-09-23"], "Wed", "OS 91, p. 67 (the editor prints 1387)"),
    (6, "St John Evangelist's day 11 Ric. II", ["1387-12-27"], "Fri", "EGilds, p. 115"),
    (7, "Translation of St Martin 1408 & 9 Hen. IV", ["1408-07-04"], "Wed", "EEWills, p. 14; Doc."),
    (8, "6 Aug. 1428 & 6 Hen. VI", ["1428-08-06"], "Fri", "EEWills, p. 77; Doc."),
    (9, "6 Dec. 1434 & 13 Hen. VI", ["1434-12-06"], "Mon", "EEWills, p. 99; Doc."),
    (10, "18 May 1439 & 17 Hen. VI", ["1439-05-18"], "Mon", "EEWills, p. 112; Doc."),
    (11, "12 Mar. 1453 & 32 Hen. VI", ["1454-03-12"], "Tue", "Lincoln, p. 64; Doc., Old Style"),
    (12, "18 Mar. 1454 & 33 Hen. VI", ["1455-03-18"], "Tue", "Lincoln, p. 76; Doc., Old Style"),
    (13, "Sunday after St Hilary 33 Hen. VI", ["1455-01-19"], "Sun", "Lincoln, p. 69"),
    (14, "Tuesday 6 June 1452", ["1452-06-06"], "Tue", "Lincoln, p. 59; Doc."),
    (15, "Thursday 15 July 1395", ["1395-07-15"], "Thu", "EEWills, p. 4; Doc."),
    (16, "18 June 1485 & 2 Ric. III", ["1485-06-18"], "Sat", "Caxton, Charles; Doc."),
    (17, "1 Dec. 1485 & 1 Hen. VII", ["1485-12-01"], "Thu", "Caxton, Charles; Doc."),
    (18, "22 June 1490 & 5 Hen. VII", ["1490-06-22"], "Tue", "Caxton, Eneydos; Doc."),
    (19, "3 Sept. 1540 & 32 Hen. VIII", ["1540-09-03"], "Fri", "Lincoln, p. 230; Doc."),
    (20, "20 Mar. 1533 & 24 Hen. VIII", ["1533-03-20", "1534-03-20"], "", "Lincoln, p. 149: they do not agree"),
    (21, "Friday before the Ember days before Christmas 49 Hen. VI", ["1470-12-14"], "Fri", "Stonor i. 107"),
    (22, "Laetare Sunday 43 Hen. III", ["1259-03-23"], "Sun", "Godstow, p. 78"),
    (23, "Monday after St Barnabas 23 Edw. III", ["1349-06-15"], "Mon", "EGilds, p. 12"),
    (24, "Tuesday before Michaelmas 9 Edw. III", ["1335-09-26"], "Tue", "paleo.anglo-norman.org, guide to Cheney"),
    (25, "Wednesday after the octave of Epiphany 8 Edw. III", ["1335-01-18"], "Wed", "Godstow, p. 333"),
    (26, "Sunday before St Matthew 17 Edw. son of Edw.", ["1323-09-18"], "Sun", "Godstow, p. 602, the English"),
    (26, "Sunday before St Matthew 13 Edw. son of Henry", ["1285-09-16"], "Sun", "Godstow, p. 602, the Latin"),
    (27, "10 May 3 John", ["1201-05-10", "1202-05-10"], "", "Cheney & Jones: a day that occurs twice"),
    (28, "20 May 1 John", [], "", "Cheney & Jones: no such day"),
    (29, "15 June 17 John", ["1215-06-15"], "Mon", "Cheney & Jones"),
    (30, "29 Sept. 1 Hen. IV", ["1400-09-29"], "Wed", "Cheney & Jones: not 1399"),
    (31, "1451 & 29 Hen. VI", ["1451-03-25/1451-08-31", "1451-01-01/1451-08-31"], "", "the Tundale explicit"),
    (32, "20 Nov. 13 Edw. I", ["1284-11-20", "1285-11-20"], "", "Cheney & Jones: counted in two years"),
    (33, "4 Dec. 1424 & 3 Hen. VI", ["1424-12-04"], "Mon", "OS 91, p. 61"),
    (34, "16 Sept. 1425 & 4 Hen. VI", ["1425-09-16"], "Sun", "OS 91, p. 62"),
    (35, "21 Hen. VI", ["1442-09-01/1443-08-31"], "", "OS 91, p. 68"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("number", "text", "days", "name", "source"), CONVERSIONS, ids=lambda value: str(value)[:30]
)
def test_a_conversion(number: int, text: str, days: list[str], name: str, source: str) -> None:
    assert days_of(text) == days, f"{number}: {source}"
    for reading in convert(text).readings:
        first = reading.bounds.not_before
        assert first is not None
        assert not name or weekday_names()[weekday(first)].startswith(name)
        assert reading.said
        assert reading.authority


def test_the_twelfth_day_said_as_documents_say_it() -> None:
    """Godstow (EETS OS 130), p. 333."""
    assert days_of("Wednesday next after the vtas of the xij. dai 8 Edw. III") == ["1335-01-18"]


def test_a_conflict_and_a_day_that_is_none_are_told() -> None:
    assert "25 Hen. VIII" in convert("20 Mar. 1533 & 24 Hen. VIII").problem
    assert "27 May 1199 – 17 May 1200" in convert("20 May 1 John").problem
    assert "23 Ric. II" in convert("29 Sept. 1 Hen. IV").readings[0].said
    assert "two years" in convert("20 Nov. 13 Edw. I").readings[0].said


def test_the_years_of_england_s_kings_day_by_day() -> None:
    """The reference tables of years, Henry II to Henry VIII; skipped where the data folder is absent."""
    path = DATA / "middle-english" / "regnal.json"
    if not path.exists():
        pytest.skip("the folder of data is not here")
    for row in json.loads(path.read_text("utf-8")):
        found = [
            bounds
            for reign in reigns()
            if reign.king.removesuffix(" (Readeption)") == row["king"]
            if (bounds := year_bounds(reign, row["year"])) is not None
        ]
        assert [(str(each.not_before), str(each.not_after)) for each in found] == [
            (row["start"], row["end"])
        ], row


REIGNS = [
    ("Henry II", "1154-12-19 Sun", "1189-07-06", 35), ("Richard I", "1189-09-03 Sun", "1199-04-06 Tue", 10),
    ("John", "1199-05-27 Thu", "1216-10-19 Wed", 18), ("Henry III", "1216-10-28 Fri", "1272-11-16 Wed", 57),
    ("Edward I", "1272-11-20 Sun", "1307-07-07 Fri", 35), ("Edward II", "1307-07-08 Sat", "1327-01-20 Tue", 20),
    ("Edward III", "1327-01-25 Sun", "1377-06-21 Sun", 51), ("Richard II", "1377-06-22 Mon", "1399-09-29 Mon", 23),
    ("Henry IV", "1399-09-30 Tue", "1413-03-20 Mon", 14), ("Henry V", "1413-03-21 Tue", "1422-08-31 Mon", 10),
    ("Henry VI", "1422-09-01 Tue", "1461-03-04 Wed", 39), ("Edward IV", "1461-03-04 Wed", "1483-04-09 Wed", 23),
    ("Edward V", "1483-04-09 Wed", "1483-06-25 Wed", 1), ("Richard III", "1483-06-26 Thu", "1485-08-22 Mon", 3),
    ("Henry VII", "1485-08-22 Mon", "1509-04-21 Sat", 24), ("Henry VIII", "1509-04-22 Sun", "1547-01-28 Fri", 38),
    ("Henry VI (Readeption)", "1470-10-09", "1471-04-14 Sun", 49),
]  # fmt: skip


@pytest.mark.parametrize(("king", "first", "last", "years"), REIGNS)
def test_a_reign(king: str, first: str, last: str, years: int) -> None:
    """Cheney & Jones, Rulers of England, with the weekdays that the table gives."""
    (reign,) = [each for each in reigns() if each.king == king]
    for stated, day in ((first, reign.first), (last, reign.last)):
        iso, _, name = stated.partition(" ")
        assert str(day) == iso
        assert weekday_names()[weekday(day)].startswith(name)
    assert reign.last_year == years


JOHN = [
    (1, "1199-05-27", "1200-05-17", 357), (2, "1200-05-18", "1201-05-02", 350), (3, "1201-05-03", "1202-05-22", 385),
    (4, "1202-05-23", "1203-05-14", 357), (5, "1203-05-15", "1204-06-02", 385), (6, "1204-06-03", "1205-05-18", 350),
    (7, "1205-05-19", "1206-05-10", 357), (8, "1206-05-11", "1207-05-30", 385), (9, "1207-05-31", "1208-05-14", 350),
    (10, "1208-05-15", "1209-05-06", 357), (11, "1209-05-07", "1210-05-26", 385), (12, "1210-05-27", "1211-05-11", 350),
    (13, "1211-05-12", "1212-05-02", 357), (14, "1212-05-03", "1213-05-22", 385), (15, "1213-05-23", "1214-05-07", 350),
    (16, "1214-05-08", "1215-05-27", 385), (17, "1215-05-28", "1216-05-18", 357), (18, "1216-05-19", "1216-10-19", 154),
]  # fmt: skip


@pytest.mark.parametrize(("year", "first", "last", "length"), JOHN)
def test_a_year_of_john(year: int, first: str, last: str, length: int) -> None:
    """Every year of John from Ascension Day (Cheney & Jones)."""
    bounds = year_bounds(reigns_of("John")[0], year)
    assert bounds is not None
    assert bounds.not_before is not None
    assert bounds.not_after is not None
    assert (str(bounds.not_before), str(bounds.not_after)) == (first, last)
    assert day_number(bounds.not_after) - day_number(bounds.not_before) + 1 == length


EASTERS = (
    "1199-04-18 1215-04-19 1259-04-13 1307-03-26 1327-04-12 1350-03-28 1376-04-13 1381-04-14 1388-03-29 1390-04-03 "
    "1399-03-30 1400-04-18 1413-04-23 1415-03-31 1422-04-12 1424-04-23 1450-04-05 1455-04-06 1461-04-05 1470-04-22 "
    "1471-04-14 1485-04-03 1500-04-19 1509-04-08 1547-04-10 1383-03-22 1478-03-22 1204-04-25 1451-04-25 1546-04-25"
)


@pytest.mark.parametrize("iso", EASTERS.split())
def test_an_easter(iso: str) -> None:
    """Easter as chronicles and Cheney & Jones have it, the earliest and the latest included."""
    assert str(easter(int(iso[:4]))) == iso


def test_every_easter_of_the_reference_list() -> None:
    path = DATA / "middle-english" / "easter_julian.json"
    if not path.exists():
        pytest.skip("the folder of data is not here")
    assert {year: str(easter(int(year))) for year in json.loads(path.read_text("utf-8"))} == json.loads(
        path.read_text("utf-8")
    )


def test_every_easter_as_dateutil_reckons_it() -> None:
    reckoned = pytest.importorskip("dateutil.easter", reason="install the extra `test` for python-dateutil")
    for year in range(326, 2100):
        assert str(easter(year)) == reckoned.easter(year, method=1).isoformat()


@pytest.mark.parametrize(
    ("day", "name"),
    [
        (Day(1066, 10, 14), "Saturday"), (Day(1415, 10, 25), "Friday"), (Day(1461, 3, 29), "Sunday"),
        (Day(1471, 4, 14), "Sunday"), (Day(1485, 8, 22), "Monday"), (Day(1422, 8, 31), "Monday"),
    ],
)  # fmt: skip
def test_a_weekday_that_chronicles_name(day: Day, name: str) -> None:
    """Hastings, Agincourt, Towton, Barnet, Bosworth; the death of Henry V (Rymer, Foedera, x. 253)."""
    assert weekday_names()[weekday(day)] == name


def test_feasts_that_chronicles_tie_to_a_day() -> None:
    """Towton on Palm Sunday, Barnet on Easter; the Black Prince on Trinity Sunday (Arderne, EETS OS 139)."""
    assert plus(easter(1461), -7) == Day(1461, 3, 29)
    assert easter(1471) == Day(1471, 4, 14)
    assert plus(easter(1376), 56) == Day(1376, 6, 8)


def test_a_regnal_year_with_two_easters_and_one_with_none() -> None:
    """11 Hen. VIII had two, 10 and 37 Hen. VIII none (computed; the first in medievalgenealogy.org.uk too)."""
    assert days_of("Easter 11 Hen. VIII") == ["1519-04-24", "1520-04-08"]
    for year in (10, 37):
        found = convert(f"Easter {year} Hen. VIII")
        assert not found.readings
        assert "does not exist" in found.problem


def test_the_whole_of_a_regnal_year_is_as_the_lists_have_it() -> None:
    (reading,) = convert("16 Ric. II").readings
    assert reading.bounds == Bounds(Day(1392, 6, 22), Day(1393, 6, 21))
    assert reading.said == "16 Ric. II: 22 June 1392 – 21 June 1393, the reign from 22 June 1377"
