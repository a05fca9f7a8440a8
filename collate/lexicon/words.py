"""The lexicon: a form in, the words it may be out.

The tables of headwords are compiled into two lists (`python -m collate.lexicon.compile`), so that a
run reads only the lines it asks for. A user's own words are laid over them.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache

from collate.lexicon.spelling import Rules, fold, normalise, rules_in_force
from collate.lexicon.tables import compiled_list

TABLES = ("function", "numbers", "verbs_general", "verbs_kitchen", "kitchen", "people", "general")
"""The tables of headwords under `data/`, in the order in which their senses are named."""

COLUMNS = ("headword", "class", "kind", "features", "forms", "gloss", "authority")


@dataclass(frozen=True, slots=True)
class Headword:
    """A word as a dictionary heads it. `name` and `word_class` together are its identity."""

    name: str
    word_class: str
    kind: str
    gloss: str
    authority: str

    @property
    def identity(self) -> str:
        """The identity that tokens carry: "sethen (verb)"."""
        return f"{self.name} ({self.word_class})"


@dataclass(frozen=True, slots=True)
class Sense:
    """What a form may be: a headword in some of its parts. `ending` names the rule that read it."""

    headword: Headword
    features: tuple[str, ...]
    ending: str = ""


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
    {"þ": "th", "ð": "th", "v": "u", "j": "i", "y": "i", "ſ": "s", "ꝛ": "r", "ƿ": "w", "æ": "ae", "ʒ": "ȝ"}
)


@cache
def lexicon() -> Lexicon:
    """Return the lexicon as shipped."""
    head, _, features = compiled_list("headwords").partition("\n\n")
    parts = compiled_list("forms").replace("\n", "\t").split("\t")
    forms = dict(zip(parts[0:-1:2], parts[1::2], strict=True))
    return Lexicon(forms, head.split("\n"), features.rstrip("\n").split("\n"))


def senses(form: str, words: Lexicon) -> tuple[Sense, ...]:
    """Return what a form may be; () if neither it, its normal form nor its stem is listed.

    A listed form is taken before one of the same normal form, and that before a stem with a
    regular ending.
    """
    return _senses(key_of(form), fold(form), words)


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
        return tuple(_sense(reference, words) for reference in dict.fromkeys(found.split(" ")))
    return ()


def _sense(reference: str, words: Lexicon) -> Sense:
    number, _, features = reference.partition(":")
    return Sense(_headword(words.headwords[int(number)]), tuple(words.features[int(features)].split(",")))


@lru_cache(maxsize=16384)
def _headword(line: str) -> Headword:
    name, word_class, kind, gloss, authority = line.split("\t")
    return Headword(name, word_class, kind, gloss, authority)
