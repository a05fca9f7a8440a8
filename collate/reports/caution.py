"""What is said wherever the words of a recipe are printed to be read."""

from collate.model.findings import ItemFindings
from collate.model.witness import ItemKind

CAUTION = (
    "These are historical texts, not instructions. Old recipes can hurt: raw fish and eggs, poisonous plants "
    "and pigments, lead vessels, allergens, food kept warm or cooled slowly, protected animals. Nothing here "
    "has been tested or marked as safe. Before you cook from one, ask your local food-safety authority; for "
    "anything medical, a licensed practitioner."
)


def is_recipe(found: ItemFindings) -> bool:
    """Say whether an item is a recipe: a page with one has the caution at its end."""
    return found.kind is ItemKind.RECIPE
