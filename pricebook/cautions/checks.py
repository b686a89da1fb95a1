"""Checks of a number that a person gave."""

from __future__ import annotations

import math


def is_number(amount: object) -> bool:
    """Tell whether a value is a finite number."""
    real = isinstance(amount, (int, float)) and not isinstance(amount, bool)
    return real and math.isfinite(amount)  # type: ignore[arg-type]


def not_above_zero(what: str, amount: float, unit: str) -> list[str]:
    """List the fault of a number that must be above 0."""
    if is_number(amount) and amount > 0:
        return []
    return [f"{what} is {amount!r} {unit}; it must be a number above 0."]
