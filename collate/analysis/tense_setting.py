"""All that decides of one verb, brought together; and what is found of it."""

from collections.abc import Sequence
from dataclasses import field

from collate.analysis.tense_context import Hangs
from collate.analysis.tense_subjects import Clause
from collate.analysis.tense_words import Role, Word
from collate.model.tense import Subject, Tense
from collate.model.value import value

PRESENTS = ("infinitive", "present", "present-3s", "present-plural")
PRETERITES = ("preterite", "preterite-plural")


@value
class Earlier:
    """A verb before in the same sentence: its tense, subject, whether it has an auxiliary, its place."""

    tense: Tense
    subject: Subject
    built: bool
    at: int
    main: int
    hangs: Hangs = Hangs.NOTHING


@value
class Setting:
    """All that decides of one verb: its words and place, its clause, the verb before it.

    `instructs` says that the item is a recipe.
    """

    words: Sequence[Word]
    at: int
    clause: Clause
    hangs: Hangs
    before: Earlier | None
    instructs: bool

    @property
    def word(self) -> Word:
        """The verb."""
        return self.words[self.at]

    def after(self, stop: int = 1) -> Word | None:
        """Return a word after the verb, None beyond a sentence's end."""
        after = self.words[self.at + 1 : self.at + 1 + stop]
        return after[-1] if len(after) == stop and not any(word.opens for word in after) else None

    def joined(self) -> bool:
        """Say whether the verb has no subject of its own and *and* joins it to the one before."""
        stopper = self.clause.stopper
        own = self.clause.subject is not None
        return not own and stopper is not None and self.words[stopper].role is Role.COORDINATOR


@value
class Finding:
    """A tense, its ground, the subject; `free` says that the form would be a preterite beside a present."""

    tense: Tense
    reason: str
    subject: Subject = field(default_factory=Subject)
    free: bool = False
