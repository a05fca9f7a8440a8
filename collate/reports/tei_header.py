"""An edition in, the header of its TEI document out."""

from collections.abc import Mapping
from importlib.metadata import PackageNotFoundError, version

from collate.model.edition import DateRange, Edition, Witness
from collate.reports.tei_categories import TAXONOMIES
from collate.reports.tei_mixed import XML_ID, Mixed
from collate.reports.tei_names import Names
from collate.settings import Attachment

_PLACES = {
    Attachment.INLINE: (
        "The text is that of the base. Each place where a witness differs from it in any letter, point or"
        " abbreviation is an app; every witness that has the item stands in exactly one reading of it, and"
        " text outside of any app is common to all. An empty reading is an omission, unless its type is"
        " lacuna or absent."
    ),
    Attachment.END_POINTS: (
        "The text is that of the base, whole. Each place where a witness differs from it in any letter, point"
        " or abbreviation has an app in standOff: from and to point to the anchors between which its lemma"
        " stands. Every witness that has the item stands in exactly one reading of it, and text that no app"
        " points to is common to all. An app of the type absent points to a whole item and names only those"
        " that do not have it. An empty reading is an omission, unless its type is lacuna or absent."
    ),
}
_ENCODED = {
    Attachment.INLINE: {"method": "parallel-segmentation", "location": "internal"},
    Attachment.END_POINTS: {"method": "double-end-point", "location": "external"},
}
_SAID = (
    "The type of a rdg is its kind and its ana points to its weight and to the ground of the judgement"
    " (interp in standOff). Readings of one substance stand in one rdgGrp. The type of an app is"
    " substantive if any of its readings is, accidental if none is.",
    "Where one verb is present in some witnesses and past in others, the ana of the app points to what that"
    " is about and to its ground, and the ana of each reading to its tense.",
    "Readings that exclude one another are the two ends of one transposition.",
    "pb, cb and lb belong to the witness that edRef names; an n of lb is the line of the manuscript's page.",
    "Blanks are those of the base where it has the words; line ends within paragraphs are blanks.",
)
_NORMALISED = (
    "Nothing is normalised: spelling, capitals and points are those of the witnesses. Words were compared in"
    " a normal form that is not given here. Abbreviations are written out in ex; where a sign stands in the"
    " copy it is kept in abbr, unless witnesses that share the word have other signs for it."
)
_JULIAN = "calendar-julian"
_CALENDAR = (
    "The Julian calendar, the year counted from 1 January. Years are those of the catalogues and not turned"
    " into Gregorian ones: where notBefore and notAfter stand, they have the same years."
)
_HYPHENS = (
    "A word that goes on in the next line or page is written as one, with break='no' on the lb or pb within"
    " it; hyphens are only those of the copy."
)


def header(edition: Edition, names: Names, attachment: Attachment) -> str:
    """Return the header: title, witnesses, principles, the categories that readings are put in, hands."""
    mixed = Mixed("teiHeader", {})
    _file(mixed, edition, names)
    _encoding(mixed, attachment)
    _profile(mixed, edition, names)
    return mixed.done()


def _line(mixed: Mixed, tag: str, attributes: Mapping[str, str], text: str) -> None:
    mixed.whole(tag, attributes, text)
    mixed.text("\n")


def _begin(mixed: Mixed, tag: str, attributes: Mapping[str, str] | None = None) -> None:
    mixed.begin(tag, attributes or {})
    mixed.text("\n")


def _end(mixed: Mixed) -> None:
    mixed.end()
    mixed.text("\n")


def _file(mixed: Mixed, edition: Edition, names: Names) -> None:
    mixed.text("\n")
    _begin(mixed, "fileDesc")
    _begin(mixed, "titleStmt")
    _line(mixed, "title", {}, edition.title)
    _end(mixed)
    _begin(mixed, "publicationStmt")
    _line(mixed, "p", {}, "Not published: the working apparatus of an edition.")
    _end(mixed)
    _begin(mixed, "sourceDesc")
    _begin(mixed, "listWit")
    for witness in edition.witnesses:
        _witness(mixed, witness, names.identities[witness.siglum], is_base=witness.siglum == edition.base)
    for _ in range(3):
        _end(mixed)


def _witness(mixed: Mixed, witness: Witness, identity: str, *, is_base: bool) -> None:
    mixed.begin("witness", {XML_ID: identity, "ana": "#state-base" if is_base else ""})
    mixed.whole("abbr", {"type": "siglum"}, witness.siglum)
    if witness.name != witness.siglum or witness.hand is not None:
        mixed.text(" ")
        mixed.begin("msDesc", {})
        mixed.begin("msIdentifier", {})
        mixed.whole("idno", {}, witness.name)
        mixed.end()
        if witness.hand is not None:
            for tag in ("history", "origin"):
                mixed.begin(tag, {})
            mixed.whole("origDate", _years(witness.hand), witness.hand.stated)
            for _ in range(2):
                mixed.end()
        mixed.end()
    _end(mixed)


def _years(date: DateRange) -> dict[str, str]:
    """Return the attributes of a date: its years, and that they are of the Julian calendar."""
    first, last = f"{date.not_before:04}", f"{date.not_after:04}"
    return {
        "calendar": f"#{_JULIAN}",
        "notBefore": first,
        "notAfter": last,
        "notBefore-custom": first,
        "notAfter-custom": last,
        "datingMethod": f"#{_JULIAN}",
    }


def _encoding(mixed: Mixed, attachment: Attachment) -> None:
    _begin(mixed, "encodingDesc")
    _begin(mixed, "appInfo")
    mixed.begin("application", {"ident": "collate", "version": _version()})
    mixed.whole("label", {}, "collate")
    _end(mixed)
    _end(mixed)
    _begin(mixed, "editorialDecl")
    for said in (_PLACES[attachment], *_SAID):
        _line(mixed, "p", {}, said)
    for tag, said in (("normalization", _NORMALISED), ("hyphenation", _HYPHENS)):
        mixed.begin(tag, {})
        mixed.whole("p", {}, said)
        _end(mixed)
    _end(mixed)
    _begin(mixed, "classDecl")
    for name, title, categories in TAXONOMIES:
        _taxonomy(mixed, name, title, categories)
    _end(mixed)
    mixed.empty("variantEncoding", _ENCODED[attachment])
    mixed.text("\n")
    _end(mixed)


def _taxonomy(mixed: Mixed, name: str, title: str, categories: Mapping[str, str]) -> None:
    _begin(mixed, "taxonomy", {"n": name})
    _line(mixed, "desc", {}, title)
    for category, said in categories.items():
        mixed.begin("category", {XML_ID: f"{name}-{category}"})
        mixed.whole("catDesc", {}, said)
        _end(mixed)
    _end(mixed)


def _profile(mixed: Mixed, edition: Edition, names: Names) -> None:
    _begin(mixed, "profileDesc")
    if any(witness.hand for witness in edition.witnesses):
        _begin(mixed, "calendarDesc")
        mixed.begin("calendar", {XML_ID: _JULIAN})
        mixed.whole("p", {}, _CALENDAR)
        _end(mixed)
        _end(mixed)
    _begin(mixed, "langUsage")
    _line(mixed, "language", {"ident": "enm"}, "Middle English")
    _line(mixed, "language", {"ident": "la"}, "Latin, in single words and phrases")
    _line(mixed, "language", {"ident": "xno"}, "Anglo-Norman, in single words and phrases")
    _end(mixed)
    if names.hands:
        _begin(mixed, "handNotes")
        for (siglum, hand), identity in names.hands.items():
            said = f"Hand {hand} of {siglum}."
            _line(
                mixed, "handNote", {XML_ID: identity, "n": hand, "corresp": names.pointers((siglum,))}, said
            )
        _end(mixed)
    _end(mixed)


def _version() -> str:
    """Return the version of this package, 0 where it is not installed."""
    try:
        return version("collate")
    except PackageNotFoundError:
        return "0"
