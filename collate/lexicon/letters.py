"""A judge that knows letters only: it stands in where no lexicon is wanted."""

from dataclasses import dataclass

from collate.model.form import Form, Judgement, Relation


@dataclass(frozen=True, slots=True)
class LettersJudge:
    """Judges two forms by their normal forms alone: equal, or unlike in some measure."""

    def __call__(self, a: Form, b: Form) -> Judgement:
        """Judge two forms."""
        if a.normal == b.normal:
            return Judgement(Relation.SAME, 1.0, "the same normal form", "spelling rules")
        return Judgement(
            Relation.DIFFERENT, likeness(a.normal, b.normal), "unlike letters", "letters", sure=False
        )

    def keys(self, form: Form) -> tuple[str, ...]:
        """Return the normal form: nothing else is known of a form."""
        return (form.normal,)

    def listed(self, form: Form) -> bool:
        """Say that no form stands in a table."""
        return False

    def plainly_two(self, a: Form, b: Form) -> bool:
        """Say nothing: two forms have to be judged."""
        return False

    def is_function(self, form: Form) -> bool:
        """Say whether a form is very short, for want of better knowledge."""
        return len(form.normal) < 3

    def names(self, form: Form) -> bool:
        """Say that no form stands in a table."""
        return False

    def number(self, forms: tuple[Form, ...]) -> float | None:
        """Return the value of a numeral: of words that are numbers nothing is known."""
        return forms[0].value if len(forms) == 1 else None

    def counts(self, form: Form) -> bool:
        """Say whether a form is a numeral."""
        return form.value is not None


letters_judge = LettersJudge()


def likeness(a: str, b: str) -> float:
    """Return twice the longest common subsequence over the joint length: 0 to 1."""
    if not a or not b:
        return 0.0
    row = [0] * (len(b) + 1)
    for letter in a:
        diagonal = 0
        for at, other in enumerate(b, 1):
            diagonal, row[at] = row[at], diagonal + 1 if letter == other else max(row[at], row[at - 1])
    return 2 * row[-1] / (len(a) + len(b))
