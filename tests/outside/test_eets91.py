"""T. Austin, Two Fifteenth-Century Cookery-Books, EETS OS 91 (1888): one dish in two manuscripts,
Harley 279 no. xxxvj (p. 13) and Harley 4016 (p. 85), out of copyright; the substantive list is an
editor's. Marks folded."""

from tests.making import found, substantives

H = """Take Vele, Kyde, or Henne, an boyle hem in fayre Water, or ellys in freysshe brothe, an smyte hem in
pecys, an pyke hem clene; an þan draw þe same brothe þorwe a straynoure, an caste þer-to Percely, Sawge,
Ysope, Maces, Clowys, an let boyle tyl þe flesshe be y-now; þan sette it from þe fyre, & a-lye it vp with
raw ȝolkys of eyroun, & caste þer-to pouder Gyngere, Veriows, Safroun, & Salt, & þanne serue it forth for a
gode mete."""
W = """Take veel, keed, or hen, and boyle hem in faire water or elles in good fressh broth, and smyte hem in
peces, and pike hem clene; And drawe the same broth thorgh a streynour, And cast there-to parcelly,
Isoppe, Sauge, Maces and clowes, And lete boyle til þe flessh be ynogh; and þen set hit fro the fire, and
aley hit vp with rawe yolkes of eyren, and caste thereto pouder ginger, and vergeous, & a litel saffron and
salte, and ceson hit vppe and serue it forth."""

ACCIDENTALS = [
    "vele/veel",
    "kyde/keed",
    "an/and",
    "fayre/faire",
    "pecys/peces",
    "pyke/pike",
    "straynoure/streynour",
    "percely/parcelly",
    "ysope/isoppe",
    "flesshe/flessh",
    "y-now/ynogh",
    "fyre/fire",
    "ȝolkys/yolkes",
    "eyroun/eyren",
    "gyngere/ginger",
    "veriows/vergeous",
]


def test_the_editors_substantive_list() -> None:
    said = substantives(found({"H": H, "W": W}, "H"))
    for expected in [
        ("", "good", "W", "addition"),  # freysshe] good fressh W
        ("þan", "", "W", "omission"),  # an þan draw] And drawe W
        ("", "and", "W", "addition"),  # Maces,] add. and W
        ("for a gode mete", "", "W", "omission"),
        ("þanne", "ceson hit vppe and", "W", "substitution"),  # & þanne] and ceson hit vppe and W
        ("Sawge, Ysope", "", "W", "transposition"),
    ]:
        assert expected in said, said
    added = [reading for lemma, reading, _, kind in said if kind == "addition"]
    assert "(and) a litel" in added  # Safroun] a litel saffron W, with the & before it
    assert added.count("and") == 3  # before clowes, þen and vergeous


def test_no_accidental_is_listed_as_substantive() -> None:
    said = substantives(found({"H": H, "W": W}, "H"))
    pairs = {(lemma.casefold(), reading.casefold()) for lemma, reading, _, _ in said}
    for pair in ACCIDENTALS:
        ours, theirs = pair.split("/")
        assert (ours, theirs) not in pairs
    swapped = {("sawge, ysope", "")}  # Sawge, Ysope] tr. W
    left = {("", "good"), ("þan", ""), ("", "and"), ("for a gode mete", ""), ("þanne", "ceson hit vppe and")}
    left |= {("", "(and) a litel")}
    assert pairs - left <= swapped
