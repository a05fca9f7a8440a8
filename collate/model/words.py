"""What an editor rules about words, over the lexicon's head."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Ruling:
    """Two forms ruled one word (`same`) or not; `reason` is the editor's."""

    form: str
    other: str
    same: bool
    reason: str


@dataclass(frozen=True, slots=True)
class Reading:
    """A form ruled to belong to a headword of a class; `gloss` may say what that means."""

    form: str
    headword: str
    word_class: str
    gloss: str = ""


@dataclass(frozen=True, slots=True)
class UserWords:
    """All rulings of an edition's words.tsv."""

    rulings: tuple[Ruling, ...] = ()
    readings: tuple[Reading, ...] = ()
    glosses: tuple[tuple[str, str], ...] = ()
