"""Rules that many parts of a piece share, each a sentence when broken."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pricebook.errors import SpecError, finite, nearest, raise_all, shown
from pricebook.lengths import show

MOST_MM = 30_000.0
"""No length of a piece of furniture is greater. [mm]"""
MOST_COUNTED = 10_000
"""No piece of furniture has more of anything that is counted. [-]"""


def positive(name: str, length_mm: float) -> Iterator[str]:
    """Yield a fault unless a length is more than 0."""
    number = finite(length_mm)
    if number is None or number <= 0:
        yield f"{name} is {_plain(length_mm)} mm; it must be more than 0."
    else:
        yield from _too_long(name, number)


def not_negative(name: str, length_mm: float) -> Iterator[str]:
    """Yield a fault unless a length is 0 or more."""
    number = finite(length_mm)
    if number is None or number < 0:
        yield f"{name} is {_plain(length_mm)} mm; it must be 0 or more."
    else:
        yield from _too_long(name, number)


def counted(
    name: str, value: float, *, least: int = 1, most: int = MOST_COUNTED
) -> Iterator[str]:
    """Yield a fault unless a value is a whole number that things come in."""
    number = finite(value)
    if number is None or number != int(number):
        yield f"{name} is {_plain(value)}; it must be a whole number."
    elif number < least:
        yield f"{name} is {_plain(value)}; it must be {least} or more."
    elif number > most:
        yield f"{name} is {number:,.0f}; it must be {most:,} or fewer."


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


def _too_long(name: str, length_mm: float) -> Iterator[str]:
    if length_mm > MOST_MM:
        most = both(MOST_MM)
        yield f"{name} is {both(length_mm)}; furniture measures at most {most}."


def _plain(value: object) -> str:
    number = finite(value)
    return shown(value) if number is None else f"{number:g}"


def refuse(faults: Iterable[str]) -> None:
    """Raise a SpecError with every fault, or return when there is none."""
    raise_all(SpecError, faults)
