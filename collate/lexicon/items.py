"""Labels of items: what number or name a label means, and what kind of item it heads."""

from collections.abc import Sequence
from functools import cache, lru_cache

from collate.lexicon.numerals import figures, read_numeral
from collate.lexicon.rule_words import rule_words
from collate.lexicon.tables import table
from collate.model.witness import ItemKind


@lru_cache(maxsize=65536)
def item_key(label: str) -> str:
    """Return what a label is matched by: its number as a figure, or its name in small letters."""
    bare = label.strip(".:·").casefold() or label
    number = read_numeral(bare) or read_numeral(f".{bare}.")
    return figures(number.value) if number else bare


@cache
def _kinds() -> dict[str, ItemKind]:
    return {word: ItemKind(kind) for word, kind, _ in table("item_kinds", "word", "kind", "authority")}


def item_kind(label: str, heading: Sequence[str]) -> ItemKind:
    """Return the kind of an item by its label or, failing that, by how its heading begins.

    `heading` holds normal forms. The first word tells, or any word after "here" ("Here begynneth
    the prologe"). A number, or a name that tells nothing, heads a recipe.
    """
    kinds = _kinds()
    if (name := item_key(label)) in kinds:
        return kinds[name]
    here = bool(heading) and heading[0] in rule_words("heading-here")
    telling = heading if here else heading[:1]
    return next((kinds[word] for word in telling if word in kinds), ItemKind.RECIPE)
