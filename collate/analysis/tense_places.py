"""A collation in, its verbs brought together: which verbs of the witnesses stand at one place."""

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence, Set
from dataclasses import replace
from functools import lru_cache, partial
from itertools import pairwise

from collate.analysis.tense import verb_groups
from collate.analysis.tense_forms import further_verbs, voiced
from collate.analysis.tense_words import Hint
from collate.lexicon.rule_words import letter_pairs, rule_words
from collate.lexicon.words import Lexicon, Sense, key_of, senses
from collate.model.collation import Collation
from collate.model.tense import Tense, VerbGroup, VerbSetting
from collate.model.value import value
from collate.model.witness import ItemKind, Token, TokenKind

_FAR = 60
"""Beyond how many columns no verb with its auxiliaries reaches."""

NEAR = 4
"""Over how many columns one verb is sought in two witnesses that have it in another order."""


@value
class Placed:
    """A verb of one witness (by its index) and the columns it stands in."""

    witness: int
    group: VerbGroup
    finite: int
    main: int
    first: int
    stop: int


Place = tuple[Placed, ...]
"""Verbs of several witnesses that answer to one another."""


def verbs_of(collation: Collation, kind: ItemKind, lexicon: Lexicon) -> tuple[tuple[VerbGroup, ...], ...]:
    """Return the verbs of each witness, each form read as a verb that the others have there too."""
    hints = _hints(collation, lexicon)
    return tuple(
        _with_commands(verb_groups(item.tokens, kind, lexicon, hint), item.tokens)
        for item, hint in zip(collation.items, hints, strict=True)
    )


def _hints(collation: Collation, lexicon: Lexicon) -> list[dict[int, Hint]]:
    """Return for each witness the tokens whose verb is one that all witnesses share in their column.

    It is surely a verb where one of the witnesses has a form that can be nothing else.
    """
    hints: list[dict[int, Hint]] = [{} for _ in collation.sigla]
    texts = [item.tokens for item in collation.items]
    for column in collation.columns:
        found: list[tuple[int, int, frozenset[str]]] = []
        for w, span in enumerate(column.spans):
            if span.stop - span.start == 1:
                token = texts[w][span.start]
                english = token.kind is TokenKind.WORD and token.language == "en"
                if english and (verbs := _verbs_of(token.expanded, lexicon)):
                    found.append((w, span.start, verbs))
        if len(found) < 2:
            continue
        shared = frozenset.intersection(*[verbs for _, _, verbs in found])
        if shared:
            forms = {collation.items[w].tokens[at].expanded for w, at, _ in found}
            surely = any(_surely(form, lexicon) for form in forms) or _only_as_verbs(forms, lexicon)
            hint = Hint(shared, surely)
            for w, at, _ in found:
                hints[w][at] = hint
    return hints


@lru_cache(maxsize=16384)
def _verbs_of(form: str, lexicon: Lexicon) -> frozenset[str]:
    found = _senses(form, lexicon)
    if _may_be_voiced(form) or form[-1:] in rule_words("may-end-verb"):
        found = (*found, *further_verbs(key_of(form), lexicon))
    return frozenset(s.headword.identity for s in found if s.headword.word_class == "verb")


def _senses(form: str, lexicon: Lexicon) -> tuple[Sense, ...]:
    found = senses(form.casefold(), lexicon)
    return voiced(key_of(form), found, lexicon) if _may_be_voiced(form) else found


def _may_be_voiced(form: str) -> bool:
    """Say whether a form begins with a letter that may stand for another: *vele*, *zette*."""
    return form[:1].casefold() in rule_words("may-be-voiced")


def _only_as_verbs(forms: Set[str], lexicon: Lexicon) -> bool:
    """Say whether several forms are one word only if they are verbs, and finite ones: *rit*, *rood*."""
    if len({key_of(form) for form in forms}) == 1:
        return False
    found = [_senses(form, lexicon) for form in forms]
    other = [{s.headword.identity for s in each if s.headword.word_class != "verb"} for each in found]
    parts = [{f for s in each if s.headword.word_class == "verb" for f in s.features} for each in found]
    past = [not each.isdisjoint(("preterite", "preterite-plural")) for each in parts]
    finite = all(not each or not each.isdisjoint(_FINITE) for each in parts)
    return finite and any(past) and not all(past) and not set.intersection(*other)


@lru_cache(maxsize=16384)
def _surely(form: str, lexicon: Lexicon) -> bool:
    found = _senses(form, lexicon)
    finite = any(f in _FINITE for s in found for f in s.features)
    return finite and all(s.headword.word_class == "verb" for s in found)


_FINITE = ("present-3s", "present-plural", "preterite", "preterite-plural")


def _with_commands(groups: Sequence[VerbGroup], tokens: Sequence[Token]) -> tuple[VerbGroup, ...]:
    """Mark the verbs that stand in one sentence with a command."""
    sentence = _sentences(tokens)
    commanded = {sentence[group.finite] for group in groups if group.tense is Tense.IMPERATIVE}
    if not commanded:
        return tuple(groups)
    return tuple(
        replace(group, settings=group.settings | {VerbSetting.COMMANDED})
        if sentence[group.finite] in commanded
        else group
        for group in groups
    )


def _sentences(tokens: Sequence[Token]) -> list[int]:
    """Return for each token the number of its sentence: a point with a capital after it ends one."""
    found: list[int] = []
    number = 0
    for at, token in enumerate(tokens):
        found.append(number)
        ends = token.kind is TokenKind.PUNCTUATION and at + 1 < len(tokens)
        if ends and tokens[at + 1].expanded[:1].isupper():
            number += 1
    return found


def places(collation: Collation, verbs: Sequence[Sequence[VerbGroup]]) -> tuple[Place, ...]:
    """Bring together the verbs that answer to one another, in the order of their columns.

    They are of one verb, or of one auxiliary, and share a column; a verb that stands up to four columns
    off, where the other witness has no word in its column nor it in the other's, is the same one moved.
    """
    every = sorted(
        (placed for w, groups in enumerate(verbs) for placed in _placed(collation, w, groups)),
        key=lambda placed: (placed.finite, placed.witness, placed.first),
    )
    found: list[list[Placed]] = []
    first = 0
    moved = partial(_moved, collation)
    for placed in every:
        while first < len(found) and placed.finite - found[first][-1].finite > _FAR:
            first += 1
        near = found[first:]
        home = _home(near, placed, _together) or _home(near, placed, moved)
        if home is None:
            found.append([placed])
        else:
            home.append(placed)
    return tuple(tuple(place) for place in _answering(found))


ANSWERS = 16
"""Over how many columns a verb that has no fellow answers to the one of its headword that has none."""


def _answering(found: list[list[Placed]]) -> list[list[Placed]]:
    """Join the verbs that stand alone, each in its witness, to others of their headword not far off.

    *haue we þe beste weye lerned* answers to *lernede we þe beste weye*. Auxiliaries and modals
    alone do not, nor a headword that stands alone more than once in that stretch.
    """
    alone: dict[str, list[int]] = {}
    light = rule_words("light-verb")
    for number, place in enumerate(found):
        if len(place) == 1 and place[0].group.headword and place[0].group.headword not in light:
            alone.setdefault(place[0].group.headword, []).append(number)
    gone: set[int] = set()
    for numbers in alone.values():
        for number, other in pairwise(numbers):
            a, b = found[number][-1], found[other][0]
            near = other not in gone and abs(a.main - b.finite) <= ANSWERS
            if (
                number not in gone
                and near
                and a.witness != b.witness
                and _alone(found, numbers, number, other)
            ):
                found[number].append(b)
                gone.add(other)
    return [place for number, place in enumerate(found) if number not in gone]


def _alone(found: Sequence[Sequence[Placed]], numbers: Sequence[int], number: int, other: int) -> bool:
    """Say whether no third verb of the headword stands alone near two others."""
    here = found[number][0].finite
    near = [k for k in numbers if abs(found[k][0].finite - here) <= ANSWERS]
    return near == [number, other]


def _placed(collation: Collation, w: int, groups: Sequence[VerbGroup]) -> Iterator[Placed]:
    starts = [column.spans[w].start for column in collation.columns]
    for group in groups:
        own = [bisect_right(starts, at) - 1 for at in group.verbs]
        finite, main = (bisect_right(starts, at) - 1 for at in (group.finite, group.main))
        if group.verbs[0] and _is_ne(collation.items[w].tokens[group.verbs[0] - 1]):
            own.append(bisect_right(starts, group.verbs[0] - 1) - 1)
        yield Placed(w, group, finite, main, min(own), max(own) + 1)


def _is_ne(token: Token) -> bool:
    """Say whether a word is *ne*, which other copies may write in one with its verb: *ne wot*, *not*."""
    return token.expanded in rule_words("ne")


def _home(
    found: Sequence[list[Placed]], placed: Placed, meets: Callable[[Placed, Placed], bool]
) -> list[Placed] | None:
    for place in found:
        met = False
        for other in place:
            if other.witness == placed.witness:
                met = False
                break
            met = met or meets(other, placed)
        if met:
            return place
    return None


def _one_verb(a: VerbGroup, b: VerbGroup) -> bool:
    return not {a.headword, *a.others}.isdisjoint({b.headword, *b.others})


def _unlisted_pair(a: VerbGroup, b: VerbGroup) -> bool:
    """Say whether one of two verbs is in no table and begins as the other does."""
    first, second = a.headword, b.headword
    if not (first.startswith("~") or second.startswith("~")):
        return False
    same = letter_pairs("begins-alike")
    letters = [same.get(name[:1], name[:1]) for name in (first.lstrip("~"), second.lstrip("~"))]
    return letters[0] == letters[1] != ""


def _together(a: Placed, b: Placed) -> bool:
    """Say whether two verbs are one, in columns they share, or begin with one auxiliary in one column."""
    if a.first >= b.stop or b.first >= a.stop:
        return False
    if _one_verb(a.group, b.group):
        return True
    if a.finite == b.finite and a.main == b.main and _unlisted_pair(a.group, b.group):
        return True
    auxiliaries = a.group.settings & b.group.settings & {VerbSetting.BE, VerbSetting.HAVE}
    return a.finite == b.finite and bool(auxiliaries)


def _moved(collation: Collation, a: Placed, b: Placed) -> bool:
    """Say whether a verb stands a few columns off, each witness having nothing where the other has it."""
    if abs(a.finite - b.finite) > NEAR or not _one_verb(a.group, b.group):
        return False
    spans = collation.columns[b.finite].spans[a.witness], collation.columns[a.finite].spans[b.witness]
    return all(span.start == span.stop for span in spans)
