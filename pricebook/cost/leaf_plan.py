"""A plan of raw leaves of which some lie in the rack already."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from pricebook.money import half_up
from pricebook.veneer.leaf_match import LeafPlan


@dataclass(frozen=True, kw_only=True)
class RackedLeaves(LeafPlan):
    """A plan of leaves of which some lie in the rack already.

    Parameters
    ----------
    in_rack : int
        How many leaves, from the first one on, need not be bought. [-]
    turned : tuple of str
        Faces of free grain that lie across the leaves.
    """

    in_rack: int = 0
    turned: tuple[str, ...] = ()

    @property
    def reach(self) -> int:
        """How many leaves, from the first one on, are cut into. [-]."""
        return self.leaves_used[-1] - self.flitch.first_number + 1 if self.laid else 0

    @property
    def from_rack(self) -> int:
        """How many of the leaves cut lie in the rack. [-]."""
        return min(self.reach, self.in_rack)

    @property
    def bundles(self) -> int:
        """How many bundles to buy, after the rack. [-]."""
        return ceil((self.reach - self.from_rack) / self.flitch.bundle)

    @property
    def leaves_to_buy(self) -> int:
        """How many leaves those bundles hold. [-]."""
        more = len(self.flitch.widths_mm) - self.in_rack
        return min(self.bundles * self.flitch.bundle, max(more, 0))

    @property
    def left(self) -> int:
        """How many leaves of those bought stay whole. [-]."""
        return self.leaves_to_buy - (self.reach - self.from_rack)

    @property
    def left_cents(self) -> int:
        """What these are worth. [cents]."""
        if not self.leaves_to_buy:
            return 0
        cut = Fraction(self.leaves_to_buy - self.left, self.leaves_to_buy)
        return self.cost_cents - half_up(self.cost_cents * cut)

    @property
    def used_cents(self) -> int:
        """What the leaves cut are worth, those of the rack by their bundle. [cents]."""
        racked = Fraction(self.flitch.price_cents * self.from_rack, self.flitch.bundle)
        return half_up(racked) + self.cost_cents - self.left_cents

    @property
    def waste(self) -> str:
        """What is trimmed off, in words."""
        trimmed, _, _ = super().waste.rpartition("; ")
        whole = self.left or "no"
        word = "leaf is" if self.left <= 1 else "leaves are"
        racked = f"; {self.from_rack} from the rack" if self.from_rack else ""
        return f"{trimmed}; {whole} {word} left whole{racked}."
