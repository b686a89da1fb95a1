"""Rules that many parts of a piece share, each a sentence when broken."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from pricebook.errors import SpecError, nearest, raise_all


def positive(name: str, length_mm: float) -> Iterator[str]:
    """Yield a fault unless a length is more than 0."""
    if not (math.isfinite(length_mm) and length_mm > 0):
        yield f"{name} is {length_mm:g} mm; it must be more than 0."


def not_negative(name: str, length_mm: float) -> Iterator[str]:
    """Yield a fault unless a length is 0 or more."""
    if not (math.isfinite(length_mm) and length_mm >= 0):
        yield f"{name} is {length_mm:g} mm; it must be 0 or more."


def at_least(name: str, value: float, least: float) -> Iterator[str]:
    """Yield a fault unless a number reaches its least value."""
    if not (math.isfinite(value) and value >= least):
        yield f"{name} is {value:g}; it must be {least:g} or more."


def one_of(name: str, value: str, known: Iterable[str]) -> Iterator[str]:
    """Yield a fault unless a word is one of those known."""
    names = list(known)
    if value not in names:
        yield f'{name} is "{value}"; {nearest(value, names)}'


def refuse(faults: Iterable[str]) -> None:
    """Raise a SpecError with every fault, or return when there is none."""
    raise_all(SpecError, faults)
