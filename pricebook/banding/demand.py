"""What the edges ask for and what the rolls offer, in whole numbers."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from numbers import Integral
from typing import Any

from pricebook.errors import LayoutError, finite, raise_all, shown
from pricebook.lengths import show

PER_MM = 1_000_000
"""Lengths count to the millionth of a millimetre, so 1/64 in is exact."""


@dataclass(frozen=True)
class Demand:
    """Edges grouped by length, longest first, and kinds of rolls, in whole units.

    Parameters
    ----------
    edges : tuple of int
        Length of each edge, in the order given. [units]
    capacities : tuple of int
        Length of one roll of each kind. [units]
    prices_cents : tuple of int
        Price of one roll of each kind. [cents]
    at_most : tuple of int
        How many of each kind there are, or could be of use. [-]
    unit_mm : float
        One unit. [mm]
    """

    edges: tuple[int, ...]
    capacities: tuple[int, ...]
    prices_cents: tuple[int, ...]
    at_most: tuple[int, ...]
    unit_mm: float

    @cached_property
    def sizes(self) -> tuple[int, ...]:
        """The different lengths, longest first. [units]."""
        return tuple(sorted(set(self.edges), reverse=True))

    @cached_property
    def counts(self) -> tuple[int, ...]:
        """How many edges have each of the different lengths. [-]."""
        found = Counter(self.edges)
        return tuple(found[size] for size in self.sizes)

    @cached_property
    def total(self) -> int:
        """Length of all edges together. [units]."""
        return sum(self.edges)

    def cost_cents(self, bought: Sequence[int]) -> int:
        """Return what so many rolls of each kind cost. [cents]."""
        return sum(n * c for n, c in zip(bought, self.prices_cents, strict=True))


_MOST = 10**12
"""No price in cents and no count of rolls is larger."""


def read_demand(
    lengths_mm: Sequence[float],
    rolls: Sequence[Sequence[float | None]],
    names: Sequence[str] = (),
) -> Demand:
    """Return the edges and the rolls in whole units, or refuse them.

    Parameters
    ----------
    lengths_mm : sequence of float
        Length to cut for each edge. [mm]
    rolls : sequence of (length_mm, price_cents) or (length_mm, price_cents, at_most)
        The kinds of rolls. [mm, cents, -]
    names : sequence of str
        What to call the edges in a refusal; "edge 1", "edge 2" if empty.

    Returns
    -------
    Demand
        The same in whole units.

    Raises
    ------
    LayoutError
        If a length, a price or a count makes no sense, or an edge is longer than
        every roll there is; one sentence for each.
    """
    lengths_mm, rolls = _row("edges", lengths_mm), _row("rolls", rolls)
    called = _names(names, len(lengths_mm))
    faults = [_edge_fault(*pair) for pair in zip(called, lengths_mm, strict=True)]
    faults += [_roll_fault(i + 1, roll) for i, roll in enumerate(rolls)]
    raise_all(LayoutError, [fault for fault in faults if fault])
    edges = [_units(length) for length in lengths_mm]
    capacities = [_units(roll[0]) for roll in rolls]
    limits = [_limit(roll, len(edges)) for roll in rolls]
    present = [c for c, most in zip(capacities, limits, strict=True) if most > 0]
    longest = max(present, default=0)
    raise_all(
        LayoutError,
        [
            _too_long(name, length, longest)
            for name, length in zip(called, edges, strict=True)
            if length > longest
        ],
    )
    unit = math.gcd(*edges, *capacities) or 1
    return Demand(
        edges=tuple(length // unit for length in edges),
        capacities=tuple(length // unit for length in capacities),
        prices_cents=tuple(int(roll[1] or 0) for roll in rolls),
        at_most=tuple(limits),
        unit_mm=unit / PER_MM,
    )


def _names(names: Sequence[str], count: int) -> list[str]:
    """Return what to call each edge, or refuse names that are not one an edge."""
    given = _row("names of edges", names)
    if not given:
        return [f"edge {i + 1}" for i in range(count)]
    if len(given) != count or not all(isinstance(name, str) for name in given):
        raise LayoutError(
            f"names of edges are {shown(given)} for {count} edges; give one a length, "
            "or none."
        )
    return given


def _units(length_mm: float | None) -> int:
    from fractions import Fraction

    return round(Fraction(length_mm or 0) * PER_MM)


def _limit(roll: Sequence[float | None], edges: int) -> int:
    most = roll[2] if len(roll) > 2 else None
    return edges if most is None else min(int(most), edges)


def _is_length(value: object) -> bool:
    number = finite(value)
    return number is not None and number < 1e9 and _units(number) > 0


def _row(what: str, given: Sequence[Any]) -> list[Any]:
    """Return what was given in a row as a list, or refuse it."""
    try:
        if not isinstance(given, (str, bytes, Mapping)):
            return list(given)
    except TypeError:
        pass
    raise LayoutError(f"{what} are {shown(given)}; give them in a row.")


def _is_whole(value: object, least: int) -> bool:
    whole = isinstance(value, Integral) and not isinstance(value, bool)
    return whole and least <= int(value) <= _MOST  # type: ignore[call-overload]


def _edge_fault(name: str, length: object) -> str:
    if _is_length(length):
        return ""
    return f"{name} is {shown(length)} mm long; a length to band is a number above 0."


def _roll_fault(number: int, roll: Sequence[object]) -> str:
    where = f"roll {number}"
    if isinstance(roll, str) or not hasattr(roll, "__len__") or len(roll) not in {2, 3}:
        return (
            f"{where} is {shown(roll)}; give its length in mm and its price in cents."
        )
    if not _is_length(roll[0]):
        return (
            f"{where} is {shown(roll[0])} mm long; a roll's length is a number above 0."
        )
    if not _is_whole(roll[1], 1):
        return (
            f"{where} costs {shown(roll[1])} cents; a price is a whole number of cents "
            f"above 0, at most {_MOST:,}."
        )
    if len(roll) > 2 and roll[2] is not None and not _is_whole(roll[2], 0):
        return (
            f"{where} may be used {shown(roll[2])} times at most; give a whole number, "
            "0 or more, or leave it out."
        )
    return ""


def _too_long(name: str, length: int, longest: int) -> str:
    needed = _both(length / PER_MM)
    if not longest:
        return f"{name} is {needed} long and there is no roll; add a kind of roll."
    return (
        f"{name} is {needed} long and the longest roll is {_both(longest / PER_MM)}; "
        "an edge is one length without a splice, so add a longer roll."
    )


def _both(length_mm: float) -> str:
    return f"{length_mm:,.10g} mm ({show(length_mm)})"
