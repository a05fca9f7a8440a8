"""The lexicon: a form in, the words it may be out.

The tables of headwords are compiled into two lists (`python -m collate.lexicon.compile`), so that a
run reads only the lines it asks for. A user's own words are laid over them.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache

from collate.lexicon.distance import one_move_away
from collate.lexicon.spelling import Rules, fold, normalise, rules_in_force
from collate.lexicon.tables import compiled_list, table

TABLES = (
    "function",
    "numbers",
    "verbs_general",
    "verbs_kitchen",
    "verbs_further",
    "verbs_wider",
    "kitchen",
    "people",
    "general",
    "nouns_wider",
)
"""The tables of headwords under `data/`, in the order in which their senses are named."""

COLUMNS = ("headword", "class", "kind", "features", "forms", "gloss", "authority")


@dataclass(frozen=True, slots=True)
class Headword:
    """A word as a dictionary heads it.

    `name` and `word_class` together are its identity, which tokens carry: "sethen (verb)".
    """

    name: str
    word_class: str
    kind: str
    gloss: str
    authority: str
    identity: str = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Keep the identity."""
        object.__setattr__(self, "identity", f"{self.name} ({self.word_class})")


@dataclass(frozen=True, slots=True)
class Sense:
    """What a form may be: a headword in some of its parts; `rule` is "" where the form is listed."""

    headword: Headword
    features: tuple[str, ...]
    rule: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Lexicon:
    """Forms and headwords as compiled lines, read when asked for.

    `forms` maps a key (or "=" and a normal form) to references "headword:features"; `headwords` and
    `features` are what they count into.
    """

    forms: Mapping[str, str]
    headwords: Sequence[str]
    features: Sequence[str]
    rules: Rules = field(default_factory=rules_in_force)


@lru_cache(maxsize=131072)
def key_of(form: str) -> str:
    """Return the key of a form: folded, with þ as th, ȝ as y or gh, v as u, j and y as i, ff- as f."""
    folded = fold(form).translate(_LETTERS)
    if "ȝ" in folded or "3" in folded:
        folded = folded.replace("3", "ȝ")
        folded = ("i" + folded[1:] if folded[0] == "ȝ" else folded).replace("ȝ", "gh")
    return folded[1:] if folded.startswith("ff") else folded


_LETTERS = str.maketrans(
    {
        "þ": "th",
        "ð": "th",
        "v": "u",
        "j": "i",
        "y": "i",
        "ſ": "s",
        "ı": "i",
        "ꝛ": "r",
        "ƿ": "w",
        "æ": "ae",
        "ʒ": "ȝ",
        "ᵹ": "g",
        "ꝺ": "d",
        "ꝼ": "f",
        "ꞃ": "r",
        "ꞅ": "s",
        "ꞇ": "t",
        "ꝩ": "w",
    }
)


@cache
def lexicon() -> Lexicon:
    """Return the lexicon as shipped."""
    head, _, features = compiled_list("headwords").partition("\n\n")
    parts = compiled_list("forms").replace("\n", "\t").split("\t")
    forms = dict(zip(parts[0:-1:2], parts[1::2], strict=True))
    return Lexicon(forms, head.split("\n"), features.rstrip("\n").split("\n"))


def is_headword(said: str) -> bool:
    """Say whether the lexicon as shipped has a headword: "sethen", or "sethen (verb)"."""
    return said in _headword_names()


@cache
def _headword_names() -> frozenset[str]:
    fields = [line.split("\t", 2) for line in lexicon().headwords]
    return frozenset(name for each in fields for name in (each[0], f"{each[0]} ({each[1]})"))


def senses(form: str, words: Lexicon) -> tuple[Sense, ...]:
    """Return what a form may be; () if nothing is known that it could be.

    A listed form is taken before one of the same normal form, that before a listed stem with a
    regular ending, and that before a form one cheap alternation away. The last two are derived:
    their senses name the rule.
    """
    return _senses(key_of(form), fold(form), words)


def is_listed(form: str, words: Lexicon) -> bool:
    """Say whether a form, or one of the same normal form, stands in a table."""
    return any(not sense.rule for sense in senses(form, words))


@lru_cache(maxsize=131072)
def _senses(key: str, folded: str, words: Lexicon) -> tuple[Sense, ...]:
    if not key:
        return ()
    found = words.forms.get(key)
    if found is None:
        normal = normalise(folded, words.rules)
        parts = (words.forms.get(normal), words.forms.get(f"={normal}"))
        found = " ".join(part for part in parts if part)
    if found:
        return _read(found, words)
    return _by_ending(key, words) or _by_alternation(key, words)


def _read(found: str, words: Lexicon) -> tuple[Sense, ...]:
    if not found:
        return ()
    return tuple(_sense(reference, words) for reference in dict.fromkeys(found.split(" ")))


@cache
def _endings() -> tuple[tuple[str, str, str, tuple[str, ...]], ...]:
    rows = table("endings", "ending", "class", "of", "features", "authority")
    found = [(ending, kind, of, tuple(features.split(","))) for ending, kind, of, features, _ in rows]
    return tuple(sorted(found, key=lambda row: -len(row[0])))


def _by_ending(key: str, words: Lexicon) -> tuple[Sense, ...]:
    """Read a form as a listed stem with a regular ending, or as a participle with y- (one, not several)."""
    found = _of_ending(key, words)
    if found or not key.startswith("i") or len(key) <= 4:
        return found
    bare = (*_read(words.forms.get(key[1:], ""), words), *_of_ending(key[1:], words))
    return tuple(
        Sense(sense.headword, ("past-participle",), "y-")
        for sense in bare
        if "past-participle" in sense.features
    )


def _of_ending(key: str, words: Lexicon) -> tuple[Sense, ...]:
    """Read a form as a listed stem with a regular ending."""
    found: dict[tuple[Headword, tuple[str, ...]], Sense] = {}
    for ending, kind, of, features in _endings():
        if not key.endswith(ending) or len(key) - len(ending) < 3:
            continue
        for sense in _of_stem(key[: -len(ending)], words):
            if sense.headword.word_class == kind and of in sense.features:
                found.setdefault((sense.headword, features), Sense(sense.headword, features, f"-{ending}"))
    return tuple(found.values())


def _of_stem(stem: str, words: Lexicon) -> Iterator[Sense]:
    """Yield the senses of a stem: as it is, with -e, or with its last consonant single."""
    stems = [stem, stem + "e"]
    if len(stem) > 3 and stem[-1] == stem[-2] and stem[-1] not in "aeiou":
        stems.append(stem[:-1])
    for each in stems:
        if found := words.forms.get(each):
            yield from _read(found, words)


REACH = 0.2
"""The cost up to which one alternation leads from an unlisted form to a listed one."""


def _by_alternation(key: str, words: Lexicon) -> tuple[Sense, ...]:
    """Read a form as the listed one that the cheapest single alternation makes of it."""
    if len(key) < 3:
        return ()
    for other, name in one_move_away(key, REACH, words.forms):
        return tuple(replace(sense, rule=name) for sense in _read(words.forms[other], words))
    return ()


def _sense(reference: str, words: Lexicon) -> Sense:
    number, _, features = reference.partition(":")
    return Sense(_headword(words.headwords[int(number)]), tuple(words.features[int(features)].split(",")))


@lru_cache(maxsize=16384)
def _headword(line: str) -> Headword:
    name, word_class, kind, gloss, authority = line.split("\t")
    return Headword(name, word_class, kind, gloss, authority)
