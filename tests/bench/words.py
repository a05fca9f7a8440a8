"""Measure the judge of two words: `python -m tests.bench.words` prints the table of docs/method.md.

Sources: 111 attested spelling groups counted in T. Austin, Two Fifteenth-Century Cookery-Books, EETS OS
91 (1888), and 57 false friends from the same; A. L. Mayhew and W. W. Skeat, A Concise Dictionary of Middle
English (Oxford 1888), whose cross-references lead from a variant to its main entry.
"""

import gzip
import json
import random
import re
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from collate.lexicon.compile import Row, from_rows, rows
from collate.lexicon.judge import Judge, shipped_judge
from collate.lexicon.spelling import normalise, rules_in_force
from collate.lexicon.words import key_of, lexicon
from collate.model.form import Form, Relation
from tests.making import DATA

GROUPS = DATA / "middle-english" / "variants.json"
ENTRIES = DATA / "mayhew-skeat" / "mayhew_skeat_entries.jsonl.gz"

OF_ONE_HEADWORD = {frozenset(("seethe", "sodden")), frozenset(("grind", "ground"))}
"""Groups that list two parts of one verb: judged the same, rightly."""


@dataclass(frozen=True)
class Share:
    """How many of how many, and the cases that failed."""

    right: int
    of: int
    failed: tuple[str, ...] = ()

    @property
    def share(self) -> float:
        """The share as a fraction."""
        return self.right / max(self.of, 1)


def form(word: str) -> Form:
    """Return a word as the judge takes it."""
    return Form(word.casefold(), normalise(word, rules_in_force()))


def groups() -> dict[str, list[str]]:
    """Return the attested groups: id -> forms."""
    return {g["id"]: [f["form"] for f in g["forms"]] for g in json.loads(GROUPS.read_text("utf-8"))}


def within(judge: Judge, chosen: dict[str, list[str]]) -> Share:
    """Count the pairs of a group that are judged one word."""
    pairs = [(a, b) for forms in chosen.values() for a, b in combinations(forms, 2)]
    failed = [f"{a}/{b}" for a, b in pairs if judge(form(a), form(b)).relation is Relation.DIFFERENT]
    return Share(len(pairs) - len(failed), len(pairs), tuple(failed))


def across(judge: Judge, chosen: dict[str, list[str]], others: dict[str, list[str]]) -> Share:
    """Count the pairs of two groups that are judged one word (which they are not)."""
    seen, merged = 0, []
    for name, forms in chosen.items():
        for other, theirs in others.items():
            if (
                name == other
                or (other in chosen and other < name)
                or frozenset((name, other)) in OF_ONE_HEADWORD
            ):
                continue
            for a in forms:
                for b in theirs:
                    if a == b:
                        continue
                    seen += 1
                    if judge(form(a), form(b)).relation is not Relation.DIFFERENT:
                        merged.append(f"{a}/{b}")
    return Share(len(merged), seen, tuple(merged))


def held_out() -> tuple[Judge, dict[str, list[str]]]:
    """Return a judge without every fifth group's words, and those groups."""
    every = groups()
    out = {name: forms for number, (name, forms) in enumerate(every.items()) if number % 5 == 4}
    keys = {key_of(f) for forms in out.values() for f in forms}
    gone = {(row[0], row[1]) for row in rows() if keys & {key_of(spelling) for spelling in row[4].split(" ")}}
    kept: Iterator[Row] = (row for row in rows() if (row[0], row[1]) not in gone)
    return Judge(from_rows(kept)), out


def cross_references() -> list[tuple[str, str]]:
    """Return (variant, main entry) of every entry that only says "see X"."""
    pairs = []
    with gzip.open(ENTRIES, "rt", encoding="utf-8") as lines:
        for line in lines:
            entry = json.loads(line)
            if (found := re.search(r"\bsee ([A-ZȜÞ][\w-]+)", entry["text"])) and len(entry["text"]) < 60:
                pairs.append((entry["head"].strip("- ").lower(), found[1].strip("-").lower()))
    return [(a, b) for a, b in pairs if a.isalpha() and b.isalpha() and a != b]


def found_references(judge: Judge) -> tuple[Share, Share]:
    """Count the cross-references judged one word: all, and those with a form the lexicon lacks."""
    results = []
    for a, b in cross_references():
        verdict = judge(form(a), form(b))
        results.append((f"{a}/{b}", verdict.relation is not Relation.DIFFERENT, verdict.sure))
    unlisted = [result for result in results if not result[2]]
    return _share(results), _share(unlisted)


def _share(results: Sequence[tuple[str, bool, bool]]) -> Share:
    failed = tuple(name for name, right, _ in results if not right)
    return Share(len(results) - len(failed), len(results), failed)


def speed(judge: Judge, count: int = 100_000) -> float:
    """Return the seconds that `count` distinct pairs of forms take."""
    words = sorted({f for forms in groups().values() for f in forms} | {a for a, _ in cross_references()})
    chance = random.Random(1)
    pairs: set[tuple[str, str]] = set()
    while len(pairs) < count:
        pairs.add((chance.choice(words), chance.choice(words)))
    forms = [(form(a), form(b)) for a, b in sorted(pairs)]
    start = time.perf_counter()
    for a, b in forms:
        judge(a, b)
    return time.perf_counter() - start


def table() -> Iterable[str]:
    """Yield the lines of the table."""
    judge = shipped_judge()
    every = groups()
    yield f"forms in the lexicon: {len(lexicon().forms)} keys, {len(lexicon().headwords)} headwords"
    same, merged = within(judge, every), across(judge, every, every)
    yield f"within groups judged one word: {same.share:.4f} of {same.of}; failed {same.failed[:10]}"
    yield f"across groups judged one word: {merged.share:.4f} of {merged.of}; {merged.failed[:10]}"
    bare, out = held_out()
    same, merged = within(bare, out), across(bare, out, every)
    yield f"held out: within {same.share:.4f} of {same.of}; failed {same.failed[:80]}"
    yield f"held out: across {merged.share:.4f} of {merged.of}; {merged.failed[:80]}"
    all_of, unlisted = found_references(judge)
    yield f"Mayhew & Skeat, see X: {all_of.share:.4f} of {all_of.of}; unlisted {unlisted.share:.4f} of {unlisted.of}"
    yield f"   left: {all_of.failed[:60]}"
    yield f"100,000 distinct pairs: {speed(judge):.2f} s"


if __name__ == "__main__":
    for line in table():
        print(line)
