"""Raw veneer as it comes from one log: leaves of a flitch, in the order of slicing."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.rates.rows import Row


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaves(Row):
    """Leaves of one log that can be bought, numbered as they were sliced.

    Parameters
    ----------
    species : str
        The wood, as piece files name it.
    length_mm : float
        Usable length of every leaf. [mm]
    widths_mm : tuple of float
        Usable width of each leaf, in order; widths drift through a flitch; none
        where all are used up. [mm]
    price_cents : int
        Price of one bundle. [cents]
    bundle : int
        How many leaves, one after another, are sold together. [-]
    first_number : int
        The number written on the first leaf. [-]
    on_hand : int
        How many of them, from the first one on, lie in the rack. [-]
    """

    species: str
    length_mm: float
    widths_mm: tuple[float, ...]
    price_cents: int
    bundle: int = 1
    first_number: int = 1
    on_hand: int = 0

    def faults(self) -> Iterator[str]:
        """Yield what is wrong with the row."""
        yield from Row.faults(self)
        if not (math.isfinite(self.length_mm) and self.length_mm > 0):
            yield f"length is {self.length_mm:g} mm; it must be more than 0."
        if any(not (math.isfinite(mm) and mm > 0) for mm in self.widths_mm):
            yield "the usable width of every leaf must be more than 0."
        if self.price_cents <= 0:
            yield f"price is {self.price_cents} cents; it must be more than 0."
        if self.bundle < 1 or self.first_number < 0:
            yield "a bundle has 1 leaf or more, and leaves are numbered from 0 up."
        if not 0 <= self.on_hand <= len(self.widths_mm):
            yield (
                f"on_hand is {self.on_hand} of {len(self.widths_mm)} leaves; it counts "
                "those in the rack, from the first one on."
            )
