"""Edges by name on rolls by name: what to buy, and which edge is cut from which."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pricebook.banding.door import rolls
from pricebook.errors import LayoutError, raise_all
from pricebook.lengths import show
from pricebook.rates import Roll
from pricebook.takeoff import Edge

LEAST_OVER_MM = 1.5
"""Banding stands over the panel by 1/16 in and more (common practice, no source)."""

_CASH = 10**8
"""Cash goes before the worth of what lies in the rack: one cent of it outweighs all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RollPlan:
    """One roll with the edges cut from it.

    Parameters
    ----------
    number : int
        Which roll of the whole plan, from 1. [-]
    roll : Roll
        The row of the price book.
    from_rack : bool
        Whether it lies in the rack already.
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
    def worth_cents(self) -> int:
        """What the roll costs, or is worth in the rack. [cents]."""
        return self.roll.value_cents if self.from_rack else self.roll.price_cents


@dataclass(frozen=True, slots=True, kw_only=True)
class BandingPlan:
    """All rolls for the edges of a piece or a batch.

    Parameters
    ----------
    rolls : tuple of RollPlan
        The rolls, numbered.
    proven : bool
        Whether no other rolls cost less.
    """

    rolls: tuple[RollPlan, ...]
    proven: bool

    @property
    def cash_cents(self) -> int:
        """What there is to pay for rolls. [cents]."""
        return sum(p.roll.price_cents for p in self.rolls if not p.from_rack)

    @property
    def verdict(self) -> str:
        """How close the plan is to the least possible cost, in words."""
        if self.proven:
            return "least possible cost, proven"
        return "not proven to be the least possible cost"


def band(
    edges: Sequence[Edge], stock: Sequence[Roll], *, over_mm: float = LEAST_OVER_MM
) -> BandingPlan:
    """Find the cheapest rolls for edges, what lies in the rack first.

    Parameters
    ----------
    edges : sequence of Edge
        Edges of one piece or of several that share rolls.
    stock : sequence of Roll
        What can be bought and what lies in the rack.
    over_mm : float
        Least width that the banding stands over the panel. [mm]

    Returns
    -------
    BandingPlan
        Rolls and edges; every edge is one length without a splice.

    Raises
    ------
    LayoutError
        If an edge has no roll wide or long enough, by name.

    Notes
    -----
    An edge takes the narrowest banding of its wood that is wide enough. Least
    cash first, then least worth taken from the rack, then the fewest rolls.
    """
    widths = {edge: _width(edge, stock, over_mm) for edge in edges}
    raise_all(LayoutError, _too_narrow(widths, over_mm))
    plans: list[RollPlan] = []
    proven = True
    for species, width in dict.fromkeys((e.species, w) for e, w in widths.items()):
        own = [e for e in edges if (e.species, widths[e]) == (species, width)]
        kinds = [r for r in stock if (r.species, r.width_mm) == (species, width)]
        part, sure = _part(own, kinds, len(plans))
        plans += part
        proven = proven and sure
    return BandingPlan(rolls=tuple(plans), proven=proven)


def _width(edge: Edge, stock: Sequence[Roll], over_mm: float) -> float | None:
    wide = [
        roll.width_mm
        for roll in stock
        if roll.species == edge.species and roll.width_mm >= edge.width_mm + over_mm
    ]
    return min(wide, default=None)


def _too_narrow(widths: dict[Edge, float | None], over_mm: float) -> Iterator[str]:
    for edge, width in widths.items():
        if width is None:
            least = edge.width_mm + over_mm
            yield (
                f'"{edge.name}": no {edge.species} banding is '
                f"{show(least)} ({show(least, 'mm')}) wide or wider; add one to the "
                "price book."
            )


def _part(
    edges: Sequence[Edge], kinds: Sequence[Roll], before: int
) -> tuple[list[RollPlan], bool]:
    single = [edge for edge in edges for _ in range(edge.count)]
    offers = [(r, True) for r in kinds if r.on_hand]
    offers += [(r, False) for r in kinds if r.to_buy]
    answer = rolls(
        [edge.cut_mm for edge in single],
        [
            (r.length_mm, max(r.value_cents, 1), r.on_hand)
            if rack
            else (r.length_mm, r.price_cents * _CASH, None)
            for r, rack in offers
        ],
        [edge.name for edge in single],
    )
    plans = [
        RollPlan(
            number=before + number,
            roll=offers[kind][0],
            from_rack=offers[kind][1],
            edges=tuple(single[i] for i in cut),
            left_mm=left,
        )
        for number, ((kind, cut), left) in enumerate(
            zip(answer.plan, answer.left_mm, strict=True), start=1
        )
    ]
    return plans, answer.proven
