"""Years as copies write them, of a reign or of grace: words in, kings and numbers out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from collate.lexicon.date_numbers import Atom, atoms_at, numbers_at
from collate.lexicon.date_words import Word, is_at, king_of, skip
from collate.lexicon.grace import GraceYear
from collate.lexicon.rule_words import rule_words

_BEFORE_KING = ("article", "of", "our", "style", "lord", "same", "reign", "begin")
_ERA = (
    *("article", "of", "our", "lord", "god", "christ", "grace"),
    *("incarnation", "style", "in", "saintly", "date"),
)
_SIGNS_OF_ERA = ("lord", "god", "christ", "grace", "incarnation")


@dataclass(frozen=True, slots=True)
class KingPhrase:
    """The words [start, stop) that name a king; `same` refers to the last one named.

    `sons` are the fathers named with him, the nearest first. `titled` says that he is called king,
    `foreign` is the realm where it is not England, `maybe_year` that his number may be the year's.
    """

    start: int
    stop: int
    name: str = ""
    number: int | None = None
    sons: tuple[str, ...] = ()
    titled: bool = False
    same: bool = False
    short: bool = False
    foreign: str = ""
    maybe_year: bool = False
    conquest: bool = False


@dataclass(frozen=True, slots=True)
class YearPhrase:
    """The words [start, stop) that name a year: of a king (`number` None if none is given), or of grace.

    `same` refers to the last year named.
    """

    start: int
    stop: int
    king: KingPhrase | None = None
    number: int | None = None
    grace: GraceYear | None = None
    same: bool = False


def king_at(words: Sequence[Word], at: int) -> KingPhrase | None:
    """Return the king named from a word on: "kyng Herry þe fourþe", "regis Henrici sexti", "Ric. II"."""
    start = at
    at = _to_king(words, at)
    same = any(is_at(words, place, "same") for place in range(start, at))
    said = any(is_at(words, place, "king") for place in range(start, at))
    titled = is_at(words, at, "king")
    at = skip(words, at + titled, "our", "lord", "style", "article") if titled else at
    name = king_of(words[at].key) if at < len(words) and not words[at].broken else None
    if name is None and (letter := _by_letter(words, start)):
        return letter
    if name is None:
        return KingPhrase(start, at, titled=True, same=True) if titled and same else None
    if name.name == "Maud" or (is_at(words, at, "same", "lord", "of") and not titled):
        return None
    found = KingPhrase(start, at + 1, name.name, titled=titled or said, same=same, short=name.short)
    return _with_realm(words, _with_number(words, found))


def _to_king(words: Sequence[Word], at: int) -> int:
    """Step over what stands before a king's title: "oure souerayn and liege lord"."""
    at = skip(words, at, *_BEFORE_KING)
    while is_at(words, at, "and") and is_at(words, at + 1, "style"):
        at = skip(words, at + 1, *_BEFORE_KING)
    return at


def _by_letter(words: Sequence[Word], at: int) -> KingPhrase | None:
    """Read "R. II": one letter is a king's name if his number follows."""
    name = king_of(words[at].key) if at < len(words) and len(words[at].key) == 1 else None
    found = _numbered(words, KingPhrase(at, at + 1, name.name, short=True)) if name else None
    return _with_number(words, found) if found else None


def _titled_after(words: Sequence[Word], king: KingPhrase) -> KingPhrase | None:
    """Read the title behind the name: "Ricardus rex", "Edwardus dei gracia rex"."""
    after = skip(words, king.stop, "article", "our", "lord", "god", "grace", "style", "state")
    if king.titled or not is_at(words, after, "king"):
        return None
    return replace(king, stop=after + 1, titled=True)


def _with_number(words: Sequence[Word], king: KingPhrase) -> KingPhrase:
    """Read what follows a king's name in any order: his number, his father, *after the conquest*."""
    while True:
        longer = (
            _numbered(words, king)
            or _after_conquest(words, king)
            or _son(words, king)
            or _titled_after(words, king)
        )
        if longer is None:
            return king
        king = longer


def _numbered(words: Sequence[Word], king: KingPhrase) -> KingPhrase | None:
    if king.number is not None or king.sons:
        return None
    at = skip(words, king.stop, "article", "style")
    year_after = is_at(words, at + 1, "year") and bool(numbers_at(words, at + 2))
    atom = next((atom for atom in atoms_at(words, at) if _numbers_a_king(atom, year_after=year_after)), None)
    if atom is None and at < len(words) and words[at].letters and (king.short or not words[at].language):
        atom = Atom(words[at].letters or 0) if (words[at].letters or 9) <= 8 else None
    if atom is None or words[at].broken or is_at(words, at + 1, "day", "days"):
        return None
    if is_at(words, at + 1, "year") and not year_after and (atom.language != "la" or atom.oblique):
        return None
    if (atom.language != "la" or atom.oblique) and any(number.value > 8 for number in numbers_at(words, at)):
        return None
    return replace(king, stop=at + 1, number=atom.value, maybe_year=atom.language != "la")


def _numbers_a_king(atom: Atom, *, year_after: bool) -> bool:
    """Say whether a number may be a king's: up to 8, and in Latin an ablative only before another year."""
    return atom.value <= 8 and atom.alone and (year_after or not atom.oblique)


def _after_conquest(words: Sequence[Word], king: KingPhrase) -> KingPhrase | None:
    at = skip(words, king.stop, "after", "article", "of", "in")
    if at > king.stop and is_at(words, at, "conquest"):
        return replace(king, stop=at + 1, conquest=True)
    return None


def _son(words: Sequence[Word], king: KingPhrase) -> KingPhrase | None:
    at = skip(words, king.stop, "article")
    if not is_at(words, at, "son"):
        return None
    at = skip(words, at + 1, "article", "of", "in", "our", "style", "lord", "same")
    at = skip(words, at, "king", "article")
    father = king_of(words[at].key) if at < len(words) else None
    return replace(king, stop=at + 1, sons=(*king.sons, father.name)) if father else None


def _with_realm(words: Sequence[Word], king: KingPhrase) -> KingPhrase:
    """Read "of England and of France"; a king of another realm than England is foreign."""
    at = skip(words, king.stop, "of", "article", "king")
    if not is_at(words, at, "england", "realm", "foreign"):
        return king
    foreign = "" if is_at(words, at, "england") else words[at].written
    stop = at + 1
    joining = ("and", "of", "article", "lord", "style")
    while is_at(words, further := skip(words, stop, *joining), "england", "realm"):
        foreign, stop = ("" if is_at(words, further, "england") else foreign), further + 1
    return _with_number(words, replace(king, stop=stop, foreign=foreign))


def year_at(words: Sequence[Word], at: int) -> YearPhrase | None:
    """Return the year named from a word on: of a reign, of grace, "the same year", or None."""
    if at >= len(words):
        return None
    return _grace(words, at) or _regnal(words, at) or _king_first(words, at) or _same_year(words, at)


def _year_word(words: Sequence[Word], at: int) -> list[tuple[int | None, int]]:
    """Return the numbers that may stand with the word *year* at a place, and where each stops."""
    found: list[tuple[int | None, int]] = []
    numbers = numbers_at(words, at)
    found += [(each.value, each.stop + 1) for each in numbers if is_at(words, each.stop, "year")]
    if is_at(words, at, "year"):
        after = skip(words, at + 1, "article")
        found += [(number.value, number.stop) for number in numbers_at(words, after) if number.value < 100]
        found.append((None, at + 1))
    return found


def _regnal(words: Sequence[Word], at: int) -> YearPhrase | None:
    """Read a year and then its king: "the xvj yere of kyng Richard", "anno regni regis Henrici octauo"."""
    for number, stop in _year_word(words, at):
        between = skip(words, stop, "article", "of", "in", "reign", "our", "begin")
        if is_at(words, between, "his") or (is_at(words, between, "reign") and _his(words, between)):
            return _of_his_reign(words, at, number, stop)
        king = king_at(words, stop)
        if king is None and number is not None and (end := _of_the_same(words, stop)):
            return YearPhrase(at, end, KingPhrase(stop, end, same=True), number)
        if king is None or not (king.titled or king.same or king.number or king.short or king.sons):
            continue
        if not (found := _number_after(words, king, number)):
            continue
        return replace(found, start=at)
    return None


def _of_the_same(words: Sequence[Word], at: int) -> int | None:
    """Return where "of the same" stops, with nothing behind it that it could be the same of."""
    end = skip(words, at, "of", "article", "same")
    closed = end == len(words) or words[end].broken or is_at(words, end, "and", "in")
    return end if closed and is_at(words, end - 1, "same") else None


def _his(words: Sequence[Word], at: int) -> bool:
    """Say whether "reign" belongs to a king named before: "regni sui", "regni nostri", "of our reign"."""
    after = skip(words, at, "reign", "of", "article")
    if is_at(words, after, "our"):
        return not is_at(words, skip(words, after, "our", "style", "article"), "lord", "king", "style")
    return is_at(words, after, "his", "same")


def _of_his_reign(words: Sequence[Word], at: int, number: int | None, stop: int) -> YearPhrase | None:
    """Read "the xvj yere of his regne", "anno regni sui": the king is the last one named."""
    end = skip(words, stop, "article", "of", "in", "reign", "his", "same", "our")
    if not any(is_at(words, place, "reign") for place in range(stop, end)):
        return None
    if number is None:
        number, end = next(((n.value, n.stop) for n in numbers_at(words, end) if n.value < 60), (None, end))
    if number is None:
        return None
    return YearPhrase(at, end, KingPhrase(stop, end, same=True), number)


def _number_after(words: Sequence[Word], king: KingPhrase, number: int | None) -> YearPhrase | None:
    """Return the year of a king, its number before him or, where there was none, behind him."""
    stop = skip(words, king.stop, "reign", "of", "article") if is_at(words, king.stop, "reign") else king.stop
    if number is not None:
        return YearPhrase(king.start, stop, king, number)
    after = skip(words, stop, "article", "year", "reign", "of", "his", "in")
    for found in numbers_at(words, after):
        if found.value < 60 and not is_at(words, found.stop, "day", "month") and not words[after].broken:
            return YearPhrase(king.start, found.stop + is_at(words, found.stop, "year"), king, found.value)
    return YearPhrase(king.start, king.stop, king)


def _king_first(words: Sequence[Word], at: int) -> YearPhrase | None:
    """Read a king and then the year, or a modern citation: "regis Henrici sexti anno octauo"."""
    for number in numbers_at(words, at):
        king = king_at(words, number.stop) if number.value < 60 else None
        if king is not None and not is_at(words, number.stop, "of", "article", "king", "our"):
            return YearPhrase(at, king.stop, king, number.value)
    king = king_at(words, at) if not is_at(words, at, "article", "of") else None
    if king is None or not (king.titled or king.number or king.same):
        return None
    year = skip(words, king.stop, "article", "in", "and")
    for value, stop in _year_word(words, year):
        if value is not None:
            stop = _through_reign(words, stop)
            return YearPhrase(at, stop, king, value)
    return None


def _through_reign(words: Sequence[Word], stop: int) -> int:
    end = skip(words, stop, "of", "article", "his", "reign", "same")
    return end if any(is_at(words, place, "reign") for place in range(stop, end)) else stop


def _grace(words: Sequence[Word], at: int) -> YearPhrase | None:
    """Read "the yere of oure lord m cccc xxx", "anno domini millesimo", "A.D. 1425", "anno 1425"."""
    start = at
    if is_at(words, at, "year", "incarnation", "date"):
        at += 1
    elif not _anno_domini(words, at):
        return _number_first(words, at)
    else:
        at = skip(words, at, "lord", "year", "article") if words[at].key != "a" else at + 2
    after = skip(words, at, *_ERA)
    era = any(is_at(words, place, *_SIGNS_OF_ERA) for place in range(start, after))
    for number in numbers_at(words, after):
        if (era or number.value >= 1000) and not _names_day(words, number.stop):
            both = words[after].both
            return YearPhrase(start, number.stop, grace=GraceYear(number.value, both))
    return None


def _anno_domini(words: Sequence[Word], at: int) -> bool:
    if words[at].key == "a" and at + 1 < len(words) and words[at + 1].key == "d":
        return True
    return words[at].key in rule_words("grace-year")


def _number_first(words: Sequence[Word], at: int) -> YearPhrase | None:
    for number in numbers_at(words, at):
        if is_at(words, number.stop, "year") and number.value >= 1000:
            end = skip(words, number.stop + 1, *_ERA)
            if any(is_at(words, place, *_SIGNS_OF_ERA) for place in range(number.stop, end)):
                return YearPhrase(at, end, grace=GraceYear(number.value))
    return None


def _names_day(words: Sequence[Word], at: int) -> bool:
    """Say whether a number that ends here is that of a day: "m cccc xx quarto die Maii" is 1420."""
    return is_at(words, at, "day") and not is_at(words, at + 1, "saint", "lord", "feast")


def bare_year(words: Sequence[Word], at: int) -> YearPhrase | None:
    """Return a year of grace that stands bare behind a day: "20 May 1425"."""
    at_number = skip(words, at, "article", "in", "of")
    for number in numbers_at(words, at_number):
        if number.value >= 1000 and not is_at(words, number.stop, "day"):
            return YearPhrase(at_number, number.stop, grace=GraceYear(number.value, words[at_number].both))
    return None


def _same_year(words: Sequence[Word], at: int) -> YearPhrase | None:
    """Read "the same yere", "the yere aforeseid", "anno supradicto", "eodem anno"."""
    end = skip(words, at, "same", "year", "article")
    span = range(at, end)
    era = skip(words, end, *_ERA)
    end = era if any(is_at(words, place, "lord", "grace") for place in range(end, era)) else end
    if any(is_at(words, place, "same") for place in span) and any(is_at(words, p, "year") for p in span):
        return YearPhrase(at, end, same=True)
    return None
