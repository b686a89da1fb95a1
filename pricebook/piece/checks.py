"""Rules that many parts of a piece share, each a sentence when broken."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pricebook.errors import SpecError, finite, nearest, raise_all, shown
from pricebook.lengths import show


def positive(name: str, length_mm: float) -> Iterator[str]:
    """Yield a fault unless a length is more than 0."""
    number = finite(length_mm)
    if number is None or number <= 0:
        yield f"{name} is {_plain(length_mm)} mm; it must be more than 0."


def not_negative(name: str, length_mm: float) -> Iterator[str]:
    """Yield a fault unless a length is 0 or more."""
    number = finite(length_mm)
    if number is None or number < 0:
        yield f"{name} is {_plain(length_mm)} mm; it must be 0 or more."


def at_least(name: str, value: float, least: float) -> Iterator[str]:
    """Yield a fault unless a number reaches its least value."""
    number = finite(value)
    if number is None or number < least:
        yield f"{name} is {_plain(value)}; it must be {least:g} or more."


def one_of(name: str, value: str, known: Iterable[str]) -> Iterator[str]:
    """Yield a fault unless a word is one of those known."""
    names = list(known)
    if not isinstance(value, str) or value not in names:
        yield f"{name} is {shown(value)}; {nearest(shown(value), names)}"


def both(length_mm: float) -> str:
    """Return a length in inches and in millimetres."""
    return f"{show(length_mm)} ({show(length_mm, 'mm')})"


def _plain(value: object) -> str:
    number = finite(value)
    return shown(value) if number is None else f"{number:g}"


def refuse(faults: Iterable[str]) -> None:
    """Raise a SpecError with every fault, or return when there is none."""
    raise_all(SpecError, faults)
