"""A number in, its arabic figures out."""

from decimal import Decimal


def figures(value: float) -> str:
    """Return a number in arabic figures without an exponent: whole, or to six places (figures, if small)."""
    if value == int(value):
        return str(int(value))
    if abs(value) < 0.001:
        return f"{Decimal(f'{value:.6g}'):f}"
    return f"{value:.6f}".rstrip("0").rstrip(".")
