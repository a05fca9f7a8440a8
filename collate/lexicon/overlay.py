"""An editor's rulings laid over the lexicon: the judge and the words of one edition."""

from collections import ChainMap
from functools import lru_cache

from collate.lexicon.judge import AS_RULED, Judge, shipped_judge
from collate.lexicon.words import Lexicon, key_of, lexicon
from collate.model.words import Reading, UserWords


@lru_cache(maxsize=8)
def judge_of(user: UserWords) -> Judge:
    """Return the judge of an edition with these rulings."""
    if user == UserWords():
        return shipped_judge()
    same = {_pair(r.form, r.other): r.reason for r in user.rulings if r.same}
    apart = {_pair(r.form, r.other): r.reason for r in user.rulings if not r.same}
    return Judge(words_of(user), same, apart)


@lru_cache(maxsize=8)
def words_of(user: UserWords) -> Lexicon:
    """Return the lexicon of an edition: a form it rules on has that headword and no other."""
    base = lexicon()
    if not user.readings and not user.glosses:
        return base
    glosses = dict(user.glosses)
    heads = [_reglossed(line, glosses) for line in base.headwords]
    numbers = {tuple(line.split("\t")[:2]): number for number, line in enumerate(heads)}
    features = [*base.features, AS_RULED]
    forms: dict[str, str] = {}
    for reading in user.readings:
        number = numbers.setdefault((reading.headword, reading.word_class), len(heads))
        if number == len(heads):
            heads.append(_reglossed(_line(reading), glosses))
        key = key_of(reading.form)
        forms[key] = " ".join(filter(None, (forms.get(key), f"{number}:{len(features) - 1}")))
    return Lexicon(ChainMap(forms, dict(base.forms)), heads, features, base.rules)


def _pair(a: str, b: str) -> tuple[str, str]:
    first, second = sorted((key_of(a), key_of(b)))
    return first, second


def _line(reading: Reading) -> str:
    gloss = reading.gloss or reading.headword
    return "\t".join((reading.headword, reading.word_class, "general", gloss, "the edition's words.tsv"))


def _reglossed(line: str, glosses: dict[str, str]) -> str:
    fields = line.split("\t")
    gloss = glosses.get(f"{fields[0]} ({fields[1]})", glosses.get(fields[0]))
    return line if gloss is None else "\t".join((*fields[:3], gloss, "the edition's words.tsv"))
