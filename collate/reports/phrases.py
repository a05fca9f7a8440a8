"""What several reports say in the same words: sigla, raised numbers, witnesses, who has an item."""

from collections.abc import Sequence

from collate.model.edition import Edition, Witness
from collate.model.findings import ItemFindings

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


def raised(number: str) -> str:
    """Return a number in raised figures."""
    return number.translate(_RAISED)


def joined(sigla: Sequence[str]) -> str:
    """Join sigla: without blanks where each is a single character."""
    return ("" if all(len(siglum) == 1 for siglum in sigla) else " ").join(sigla)


def described(witness: Witness, base: str = "") -> list[str]:
    """Return what is said of a witness behind its siglum: name, date, and `base` if that says anything."""
    parts = [witness.name] if witness.name != witness.siglum else []
    if witness.hand:
        parts.append(f"{witness.hand.stated} ({witness.hand.not_before}–{witness.hand.not_after})")
    return [*parts, base] if base else parts


def base_said(edition: Edition) -> str:
    """Say that a witness is the base, and why where a rule chose it."""
    return f"the base: {edition.base_reason}" if edition.base_reason else "the base"


def item_name(found: ItemFindings) -> str:
    """Return the item's number or name as the base has it, with a siglum where another item has that name."""
    collation = found.collation
    siglum, colon, _ = collation.key.partition(":")
    if colon and siglum in collation.sigla:
        return collation.key
    return collation.items[collation.sigla.index(found.base)].label


def title(found: ItemFindings) -> str:
    """Return the item's number or name and its heading."""
    item = found.collation.items[found.collation.sigla.index(found.base)]
    return f"{item_name(found)}  {item.heading}".rstrip()


def who(found: ItemFindings, edition: Edition) -> str:
    """Say who has an item and who lacks it, and its base if that is not the edition's."""
    told = f"In {joined(found.collation.sigla)}."
    if found.absent:
        told += f" Not in {joined(found.absent)}."
    if found.base != edition.base:
        told += f" Base here: {found.base}."
    return told
