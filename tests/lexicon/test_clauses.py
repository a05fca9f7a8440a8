"""Dated clauses in passages: invented sentences in English, Latin and French, freely spelled."""

import pytest

from collate.lexicon.clauses import dated_clauses, numbered_kings
from collate.lexicon.conversion import convert
from collate.model.clauses import ClauseKind, DatedClause
from collate.model.witness import Token
from tests.making import witness_text


def tokens_of(text: str) -> tuple[Token, ...]:
    return witness_text(text).items[0].tokens


def clauses(text: str) -> tuple[DatedClause, ...]:
    return dated_clauses(tokens_of(text))


def days(clause: DatedClause) -> list[str]:
    found = [(reading.bounds.not_before, reading.bounds.not_after) for reading in clause.readings]
    return [f"{first}" if first == last else f"{first}/{last}" for first, last in found]


REGNAL = [
    ("in þe .xvj. yere of kyng Richard þe secounde", "1392-06-22/1393-06-21"),
    ("the xvj yere of the regne of kyng Richard the secunde after the conquest", "1392-06-22/1393-06-21"),
    ("þe ȝere of kyng Herry þe fourþe .ix.", "1407-09-30/1408-09-29"),
    ("anno regni regis Henrici sexti post conquestum octauo", "1429-09-01/1430-08-31"),
    ("anno regni regis Ricardi secundi quartodecimo", "1390-06-22/1391-06-21"),
    ("anno regni regis Henrici quarti decimo", "1408-09-30/1409-09-29"),
    ("anno r. r. Henr(ici) vj^ti viij^o", "1429-09-01/1430-08-31"),
    ("anno quarto regis Henrici quinti", "1416-03-21/1417-03-20"),
    ("l'an du regne le roi Richard seconde xvj", "1392-06-22/1393-06-21"),
    ("lan du regne nostre seignour le roi Henri quint puis le conqueste tierz", "1415-03-21/1416-03-20"),
    ("on seynt Bartholomew day the yere of kyng Edward þe thridde xxiij", "1349-08-24"),
    ("þe Tewesday bifore Mihelmasse þe nynþe ȝeer of kyng Edward þe þridde", "1335-09-26"),
    ("die lune proxima post festum sancti Michaelis anno regni regis Edwardi tercii vicesimo primo", "1347-10-01"),
    ("le lundi prochein apres la feste de seint Michel lan du regne le roi Edward tierz vintisme", "1346-10-02"),
    ("in vigilia apostolorum Symonis et Iude anno regni regis Henrici quarti tercio", "1401-10-27"),
    ("crastino sancti Martini anno regni regis Henrici sexti vij", "1428-11-12"),
    ("on seynt Iohn euen þe baptist þe xx ȝere of kyng Richard þe secounde", "1397-06-23 1396-06-23"),
    ("þe fourþe ȝere of kyng Edward þe sone of kyng Edward", "1310-07-08/1311-07-07"),
    ("anno regni regis Henrici filii regis Iohannis vicesimo", "1235-10-28/1236-10-27"),
    ("in the fyfte yere of the reigne of oure souereyn lord kyng Henry the sexte of Englond and of Fraunce",
     "1426-09-01/1427-08-31"),
    ("the foure and twentithe yere of kyng Edward the thridde", "1350-01-25/1351-01-24"),
    ("Henri þe fifte, kyng of Englond, þe iij ȝere of his regne", "1415-03-21/1416-03-20"),
    ("kyng Edward þe thridde was a man. in the secunde yere of the same kyng", "1328-01-25/1329-01-24"),
    ("Ricardus secundus regnauit. anno regni sui quarto", "1380-06-22/1381-06-21"),
    ("Friday before þe Embyr dayes before Cristemasse þe xlix ȝere of kyng Henry þe sixte", "1470-12-14"),
    ("Wednesday next after þe vtas of þe xij. day þe viij. ȝere of kyng Edward þe thridde", "1335-01-18"),
    ("the fyrst day of decembre, the same yere of our lord & the fyrst yere of kyng Harry the seuenth", "1485-12-01"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), REGNAL)
def test_a_regnal_clause(text: str, expected: str) -> None:
    (clause,) = clauses(text)
    assert clause.kind is ClauseKind.REGNAL
    assert clause.readings
    assert set(days(clause)) <= set(expected.split())
    assert clause.problem == ""
    assert all(reading.said and reading.authority for reading in clause.readings)


GRACE = [
    ("the yere of oure lord m cccc xxx", "1430"), ("anno domini millesimo quadringentesimo tricesimo", "1430"),
    ("in þe ȝere of oure lord a þousand foure hundrid and þritti", "1430"), ("Explicit anno domini M CCCC LXI", "1461"),
    ("in þe ȝere of grace a M CCCC and xv", "1415"), ("lan de grace mil quatre cenz et quinze", "1415"),
    ("þe yeer of oure lord a M CCC iiij score and xij", "1392"), ("anno gracie 1388", "1388"), ("quod monachus 1461", "1461"),
    ("anno domini Mˡ ccccᵐᵒ xxᵒ", "1420"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "year"), GRACE)
def test_a_year_of_grace_is_read_in_both_reckonings(text: str, year: str) -> None:
    (clause,) = clauses(text)
    assert clause.kind is ClauseKind.CALENDAR
    assert days(clause) == [f"{year}-03-25/{int(year) + 1}-03-24", f"{year}-01-01/{year}-12-31"]


DAYS_OF_GRACE = [
    ("quarto die decembris anno domini millesimo cccc^mo xxiiij^to", "1424-12-04"),
    ("Anno domini Mˡ cccc° xx° quarto die mensis Maii", "1420-05-04"),
    ("the xxiiij day of the moneth of August the yere of oure Lord a M CCCC iiij score and v", "1485-08-24"),
    ("x° kalendas Iunii anno domini mcccc", "1400-05-23"), ("20 May 1425", "1425-05-20"),
    ("the Saturday aftir þe purificacioun of oure lady þe ȝere of our lord m cccc xl", "1441-02-04 1440-02-06"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), DAYS_OF_GRACE)
def test_a_day_in_a_year_of_grace(text: str, expected: str) -> None:
    (clause,) = clauses(text)
    assert days(clause) == expected.split()


@pytest.mark.parametrize(
    "text",
    ["in þe xx ȝere of hys age", "xij yere olde", "a yere", "al þe yere", "in kyng Richardes tyme", "kyng Herry þe fourþe",
     "take .xx. eyren and .iij. hennes and xij hen", "and of xx may þou take .ij. march", "let it stonde .iij. dayes. Than take",
     "euery yere at Michelmasse gader plommes", "on Good Friday ete fisch", "in somer or in May day", "a M^l eyren",
     "boile it iiij. houres and in the xv. day draw", "in þe fifte ȝere of abbot Richard", "þe .xij. ȝere of pope Iohn the xxij",
     "the fourthe yere of kyng Charles", "and dide it in þe ȝere", "of oure lord kyng Richard", "þe first ȝere of þe kyng"],
)  # fmt: skip
def test_what_is_no_date(text: str) -> None:
    assert clauses(text) == ()


PROBLEMS = [
    ("the xx day of May", "no year is named"), ("the Monday next after Michaelmas", "no year is named"),
    ("the xxiiij yere of kyng Richard the secounde", "the last year of Richard II was 23"),
    ("þe ij ȝere of kyng Richard þe fourþe", "Richard I, Richard II, Richard III"),
    ("þe iij yere of kyng Iohn of Fraunce", "England's alone"), ("the yere of kyng Henry the sixte", "no year of the reign"),
    ("anno regni sui quarto", "none is named before"), ("in the same yere on the xx day of May", "no year that is named before"),
    ("on the xx day of May the first ȝere of kyng Iohn", "20 May 1200 is 2 John"),
    ("the yere of oure lord xxx", "lacks its hundreds"),
    ("þe ȝere of kyng Richard þe sone of kyng Iohn xij", "no King Richard son of John"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told"), PROBLEMS)
def test_a_clause_without_a_date_says_why(text: str, told: str) -> None:
    (clause,) = clauses(text)
    assert clause.readings == ()
    assert told in clause.problem


def test_every_king_of_a_name_is_given_where_the_number_is_left_out() -> None:
    (clause,) = clauses("þe xx ȝere of kyng Edward")
    assert [reading.said.partition(":")[0] for reading in clause.readings] == [
        "20 Edw. I", "20 Edw. II", "20 Edw. III", "20 Edw. IV"]  # fmt: skip


def test_a_saint_of_whom_there_are_two_gives_two_readings() -> None:
    (clause,) = clauses("þe fest of seynt John the xij yere of kyng Edward þe thridde")
    assert days(clause) == ["1338-06-24", "1338-12-27"]


def test_a_weekday_is_held_against_the_date() -> None:
    (right,) = clauses("Saturday the xij day of Iuyn the v yere of kyng Henry the fifte")
    assert "a Saturday, as stated" in right.readings[0].said
    (wrong,) = clauses("Wednesday the xij day of Iuyn the v yere of kyng Henry the fifte")
    assert wrong.problem == "12 June 1417 was a Saturday, not a Wednesday"
    assert days(wrong) == ["1417-06-12"]


def test_a_weekday_may_decide_between_the_beginnings_of_the_year() -> None:
    told = convert("Monday 12 March 1453")
    assert days(told) == ["1453-03-12"]
    assert "of 2 readings" in told.readings[0].said


def test_two_days_that_do_not_meet_are_both_given() -> None:
    (clause,) = clauses("on seynt Bartholomew day þe xx day of May þe xvj yere of kyng Richard þe secounde")
    assert days(clause) == ["1392-08-24", "1393-05-20"]
    assert "do not fall on one day" in clause.problem


def test_two_dates_stay_two() -> None:
    first, second = clauses("fro the xij yere of kyng Edward the fourthe to the xv yere of the same kyng")
    assert days(first) == ["1472-03-04/1473-03-03"]
    assert days(second) == ["1475-03-04/1476-03-03"]


def test_the_same_year_is_the_last_that_was_named() -> None:
    first, second = clauses(
        "the ij day of May the xvj yere of kyng Richard the secounde. And on seynt Bartholomew day the same yere he cam"
    )
    assert days(first) == ["1393-05-02"]
    assert days(second) == ["1392-08-24"]


def test_a_gap_ends_a_clause_and_punctuation_does_not() -> None:
    (clause,) = clauses("the .xvj. yere, of kyng / Richard þe secounde")
    assert days(clause) == ["1392-06-22/1393-06-21"]
    assert clauses("the .xvj. yere of [...] Richard þe") == ()


def test_a_clause_covers_its_words_and_the_article_before_them() -> None:
    tokens = tokens_of("This was mad in þe .xvj. yere of kyng Richard þe secounde at Eldernesse")
    (clause,) = dated_clauses(tokens)
    assert [token.expanded for token in tokens[clause.start : clause.stop]] == [
        "þe", ".xvj.", "yere", "of", "kyng", "Richard", "þe", "secounde"]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "king", "first"),
    [("kyng Herry þe fourþe", "Henry IV", "1399-09-30"), ("Ricardi secundi post conquestum", "Richard II", "1377-06-22"),
     ("le roi Henri quint", "Henry V", "1413-03-21"), ("kyng Edward þe sone of kyng Henri", "Edward I", "1272-11-20"),
     ("kyng Henry the sext kepte", "Henry VI", "1422-09-01"), ("rex Edwardus tercius", "Edward III", "1327-01-25")],
)  # fmt: skip
def test_a_numbered_king_bounds_the_wording(text: str, king: str, first: str) -> None:
    (found,) = numbered_kings(tokens_of(text))
    assert (found.king, str(found.bounds.not_before), found.bounds.not_after) == (king, first, None)
    assert king in found.said


@pytest.mark.parametrize(
    "text", ["kyng Richard", "kyng Richard .ij. daies", "Richard þe seconde potel", "kyng Charles þe fifte"]
)
def test_a_king_without_number_is_not_numbered(text: str) -> None:
    assert numbered_kings(tokens_of(text)) == ()


@pytest.mark.parametrize("text", ["", "banana", "16", "Richard", "14 June and 16 Ric. II and 3 John"])
def test_what_a_scholar_types_is_one_date_or_told(text: str) -> None:
    told = convert(text)
    assert told.readings == ()
    assert "16 Ric. II" in told.problem
