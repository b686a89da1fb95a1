"""What to buy and to cut for the edges of a job: rolls, edges on each, and the rest."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from pricebook.lengths import show
from pricebook.money import exact, half_up, share_out
from pricebook.rates import Roll
from pricebook.takeoff import Edge


@dataclass(frozen=True, slots=True, kw_only=True)
class RollPlan:
    """One roll, and the edges cut from it.

    Parameters
    ----------
    number : int
        Which roll of the whole plan, from 1. [-]
    roll : Roll
        The row of the price book.
    from_rack : bool
        Whether it lies in the rack already; else it is bought.
    edges : tuple of Edge
        Edges cut from it, one entry a copy.
    left_mm : float
        The rest, in one piece: stock. [mm]
    """

    number: int
    roll: Roll
    from_rack: bool
    edges: tuple[Edge, ...]
    left_mm: float

    @property
    def cash_cents(self) -> int:
        """What is paid for it now. [cents]."""
        return 0 if self.from_rack else self.roll.price_cents

    @property
    def worth_cents(self) -> int:
        """What the whole roll is worth, by its price or the rack. [cents]."""
        return self.roll.value_cents if self.from_rack else self.roll.price_cents

    @property
    def used_mm(self) -> float:
        """Length cut from it, end allowances included. [mm]."""
        return float(sum(exact(edge.cut_mm) for edge in self.edges))

    @property
    def used_cents(self) -> int:
        """What the length cut from it is worth, pro rata. [cents]."""
        share = exact(self.used_mm) / exact(self.roll.length_mm)
        return min(self.worth_cents, half_up(self.worth_cents * share))

    def words(self, unit: str = "in") -> str:
        """Return what to cut from the roll, as a sentence for the bench."""
        where = "from the rack" if self.from_rack else "to buy"
        copies = Counter((edge.name, edge.cut_mm) for edge in self.edges)
        cuts = ", ".join(
            f"{name} {show(cut_mm, unit)}" + (f", {n} times" if n > 1 else "")
            for (name, cut_mm), n in copies.items()
        )
        rest = f"{show(self.left_mm, unit)} left" if self.left_mm else "nothing left"
        length = show(self.roll.length_mm, unit)
        return (
            f"Roll {self.number}, {self.roll.key}, {length} ({where}): {cuts}; {rest}."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """All edges that share one species and one width of banding.

    Parameters
    ----------
    species, form : str
        The wood and how it is stuck on.
    width_mm : float
        Width of the banding. [mm]
    rolls : tuple of RollPlan
        The rolls, those of the rack first.
    least_possible_cents : int
        No set of rolls to buy, beside the rack, costs less cash. [cents]
    proven : bool
        Whether no other rolls cost less cash, nor take less from the rack.
    """

    species: str
    form: str
    width_mm: float
    rolls: tuple[RollPlan, ...]
    least_possible_cents: int
    proven: bool

    @property
    def cash_cents(self) -> int:
        """What the rolls to buy cost. [cents]."""
        return sum(roll.cash_cents for roll in self.rolls)

    @property
    def used_cents(self) -> int:
        """What the lengths cut are worth. [cents]."""
        return sum(roll.used_cents for roll in self.rolls)

    @property
    def to_buy(self) -> tuple[tuple[str, int], ...]:
        """Key of each kind of roll to buy, and how many. [-]."""
        return tuple(Counter(r.roll.key for r in self.rolls if not r.from_rack).items())

    @property
    def from_rack(self) -> tuple[tuple[str, int], ...]:
        """Key of each kind of roll taken from the rack, and how many. [-]."""
        return tuple(Counter(r.roll.key for r in self.rolls if r.from_rack).items())


@dataclass(frozen=True, slots=True, kw_only=True)
class BandingPlan:
    """All rolls for the edges of a piece or a batch.

    Parameters
    ----------
    bands : tuple of Band
        One for each species and width.
    """

    bands: tuple[Band, ...]

    @property
    def rolls(self) -> tuple[RollPlan, ...]:
        """All rolls, band after band."""
        return tuple(roll for band in self.bands for roll in band.rolls)

    @property
    def cash_cents(self) -> int:
        """What there is to pay for rolls. [cents]."""
        return sum(band.cash_cents for band in self.bands)

    @property
    def used_cents(self) -> int:
        """What the lengths cut are worth, end allowances included. [cents]."""
        return sum(band.used_cents for band in self.bands)

    @property
    def least_possible_cents(self) -> int:
        """No set of rolls costs less cash. [cents]."""
        return sum(band.least_possible_cents for band in self.bands)

    @property
    def proven(self) -> bool:
        """Whether no other rolls cost less."""
        return all(band.proven for band in self.bands)

    @property
    def verdict(self) -> str:
        """How close the plan is to the least possible cost, in words."""
        if self.proven:
            return "least possible cost, proven"
        if not (self.least_possible_cents and self.cash_cents):
            return "not proven to be the least possible cost"
        over = exact(self.cash_cents) / self.least_possible_cents - 1
        tenths = max(1, half_up(1000 * over))
        return f"within {tenths / 10:.1f} % of the least possible cost"

    @property
    def used_by_piece(self) -> dict[str, int]:
        """What each piece uses up; the shares of a roll go by length. [cents]."""
        shares: Counter[str] = Counter()
        for roll in self.rolls:
            weights = [edge.cut_mm for edge in roll.edges]
            cents = share_out(roll.used_cents, weights)
            for edge, part in zip(roll.edges, cents, strict=True):
                shares[edge.piece] += part
        return dict(shares)

    def words(self, unit: str = "in") -> tuple[str, ...]:
        """Return one sentence a roll for the bench, lengths in "in" or "mm"."""
        return tuple(roll.words(unit) for roll in self.rolls)
