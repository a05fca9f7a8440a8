"""What is said wherever the words of a recipe are printed to be read."""

from collections.abc import Iterable

from collate.model.findings import ItemFindings
from collate.model.witness import ItemKind

CAUTION = (
    "These are historical texts, not instructions. Old recipes can hurt: raw fish and eggs, poisonous plants "
    "and pigments, lead vessels, allergens, food kept warm or cooled slowly, protected animals. Nothing here "
    "has been tested or marked as safe. Before you cook from one, ask your local food-safety authority; for "
    "anything medical, a licensed practitioner."
)


def has_recipes(items: Iterable[ItemFindings]) -> bool:
    """Say whether any of some items is a recipe."""
    return any(item.kind is ItemKind.RECIPE for item in items)
