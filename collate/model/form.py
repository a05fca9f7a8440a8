"""A form as it is compared, and what a judge may say of two."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache
from typing import Protocol

from collate.model.value import value
from collate.model.witness import Token, TokenKind


@dataclass(frozen=True, slots=True, eq=False)
class Form:
    """All that a comparison needs of a token: how it is spelled, and what it may be."""

    folded: str
    normal: str
    kind: TokenKind = TokenKind.WORD
    headwords: tuple[str, ...] = ()
    value: float | None = None
    language: str = "en"
    _hash: int = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Keep the hash: that of the spellings and headwords, which tell nearly all forms apart."""
        object.__setattr__(self, "_hash", hash((self.folded, self.normal, self.headwords)))

    def __hash__(self) -> int:
        """Return the hash that was kept."""
        return self._hash

    def __eq__(self, other: object) -> bool:
        """Say whether two forms are equal in all their parts, as they are where they are one object."""
        if self is other:
            return True
        if not isinstance(other, Form) or self._hash != other._hash:
            return False
        return _parts(self) == _parts(other)

    def __reduce__(self) -> tuple[type["Form"], "_Parts"]:
        """Return how it is made again in another process, where hashes differ."""
        return Form, _parts(self)


_Parts = tuple[str, str, TokenKind, tuple[str, ...], float | None, str]


def _parts(form: Form) -> _Parts:
    return form.folded, form.normal, form.kind, form.headwords, form.value, form.language


class Relation(StrEnum):
    """How two forms relate."""

    SAME = "same"
    SPELLING = "spelling"
    INFLECTION = "inflection"
    TENSE = "tense"
    MOOD = "mood"
    DIFFERENT = "different"


@value
class Judgement:
    """What is said of two forms: `likeness` runs from 0 to 1; `reason` names the ground.

    `sure` is False where only the look of the letters speaks. `slight` marks an inflection that
    changes neither number nor tense (-n or none, -eth or -es). `one_sense` marks two words of one sense
    that stand for one another by dialect (hem and them).
    """

    relation: Relation
    likeness: float
    reason: str
    authority: str
    sure: bool = True
    slight: bool = False
    one_sense: bool = False


def one_word(judgement: Judgement) -> bool:
    """Say whether two forms are one word in one meaning: spelled or ended otherwise at most."""
    spelled = judgement.relation in (Relation.SAME, Relation.SPELLING)
    return spelled or (judgement.relation is Relation.INFLECTION and judgement.slight)


def same_forms(one: Sequence[Form], other: Sequence[Form], judge: "Judge") -> bool:
    """Say whether two runs of forms are, one by one, the same words, spelled or ended otherwise at most."""
    if len(one) == len(other) == 1:
        return one_word(judge(one[0], other[0]))
    return len(one) == len(other) and all(one_word(judge(a, b)) for a, b in zip(one, other, strict=True))


def are_one_word(a: Form, b: Form, judge: "Judge") -> bool:
    """Say the same of two forms: of those that are seldom one word at less cost than by judging them."""
    return not judge.plainly_two(a, b) and one_word(judge(a, b))


class Judge(Protocol):
    """What says how two forms relate."""

    def __call__(self, a: Form, b: Form) -> Judgement:
        """Judge two forms; their order makes no difference."""

    def __hash__(self) -> int:
        """Return a hash, so that what a judge has said can be kept."""

    def keys(self, form: Form) -> tuple[str, ...]:
        """Return the keys of a form, its surest identity first.

        Forms without a common key are no one word, unless one of them is not `listed`.
        """

    def listed(self, form: Form) -> bool:
        """Say whether a table knows the form."""

    def plainly_two(self, a: Form, b: Form) -> bool:
        """Say whether two forms are soon seen to be no one word; False where they need to be judged."""

    def is_function(self, form: Form) -> bool:
        """Say whether a form can only be a function word (an article, a preposition, and, it)."""

    def names(self, form: Form) -> bool:
        """Say whether a table has the form, or one of its normal form, as it stands."""

    def number(self, forms: tuple[Form, ...]) -> float | None:
        """Return the value of the one number that some words write (two hundred, iiij skore), or None."""

    def counts(self, form: Form) -> bool:
        """Say whether a form is a number, or may be part of one that is written in several words (ij c)."""


def form_of(token: Token) -> Form:
    """Return the compared form of a token; equal forms are one object, so that they are soon compared."""
    return _form(
        token.expanded.casefold(), token.normal, token.kind, token.headwords, token.value, token.language
    )


def same_word(a: Token, b: Token, judge: Judge) -> bool:
    """Say of two tokens whether they are one word, as `are_one_word` does of their forms."""
    return are_one_word(form_of(a), form_of(b), judge)


@lru_cache(maxsize=262144)
def _form(
    folded: str,
    normal: str,
    kind: TokenKind,
    headwords: tuple[str, ...],
    value: float | None,
    language: str,
) -> Form:
    return Form(folded, normal, kind, headwords, value, language)
