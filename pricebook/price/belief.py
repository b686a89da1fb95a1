"""What is believed of a piece's value: comparables, retail and cost in one."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from dataclasses import dataclass

from pricebook.bidding import Belief, FixedCrowd, Hammer, LogNormal, blend, shrink
from pricebook.errors import SpecError
from pricebook.price.comparables import Comparable
from pricebook.price.features import PriceByFeatures
from pricebook.price.policy import PricePolicy


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """What there is to go by.

    Parameters
    ----------
    comparables : tuple of Comparable
        Like pieces that were offered for sale.
    retail_cents : int, optional
        Retail price of a comparable new piece. [cents]
    full_cost_cents : int
        What the piece cost, gifts and hours counted. [cents]
    on : datetime.date
        The day of the advice.
    by : str
        Who judged the fair market value.
    valued_on : datetime.date
        When.
    by_features : PriceByFeatures, optional
        What sales of other pieces say by their features; None if not asked.
    """

    comparables: tuple[Comparable, ...]
    retail_cents: int | None
    full_cost_cents: int
    on: datetime.date
    by: str
    valued_on: datetime.date
    by_features: PriceByFeatures | None = None

    @property
    def sales(self) -> tuple[Comparable, ...]:
        """The comparables that found a buyer."""
        return tuple(row for row in self.comparables if row.is_sold)

    def prices(self, policy: PricePolicy, is_sold: bool) -> list[int]:
        """Return the adjusted prices of the sold, or of the unsold [cents]."""
        return [
            row.aged_cents(self.on, policy.yearly_change)
            for row in self.comparables
            if row.is_sold == is_sold
        ]

    def anchors(self, policy: PricePolicy) -> list[tuple[float, float]]:
        """Return (median, spread) of what is said besides comparables."""
        found = self.market_anchors(policy)
        if policy.cost_sigma is not None and self.full_cost_cents > 0:
            found.append(
                (self.full_cost_cents * float(policy.cost_share), policy.cost_sigma)
            )
        return found

    def market_anchors(self, policy: PricePolicy) -> list[tuple[float, float]]:
        """Return (median, spread) of what retail and other sales say, if known."""
        found = [] if self.by_features is None else self.by_features.anchors
        if self.retail_cents is not None:
            retail = self.retail_cents * float(policy.retail_share)
            found.append((retail, policy.retail_sigma))
        return found


def believed(
    evidence: Evidence, policy: PricePolicy, anchors: Sequence[tuple[float, float]]
) -> Belief | None:
    """Return what is believed of the price of a like piece.

    Parameters
    ----------
    evidence : Evidence
        What there is to go by.
    policy : PricePolicy
        The assumptions.
    anchors : sequence of (median, spread)
        What retail, cost and other sales say. [cents, -]

    Returns
    -------
    Belief or None
        The middle price and its spread; None when there is neither a sale nor an
        anchor. [cents]
    """
    sold = evidence.prices(policy, is_sold=True)
    if not sold and not anchors:
        return None
    return shrink(
        sold,
        policy.comparable_sigma,
        blend(anchors) if anchors else None,
        evidence.prices(policy, is_sold=False),
    )


def value_belief(belief: Belief, policy: PricePolicy) -> LogNormal:
    """Return what is believed of the median of bidders' values.

    Parameters
    ----------
    belief : Belief
        What is believed of hammer prices. [cents]
    policy : PricePolicy
        How many bid at the comparable sales.

    Returns
    -------
    LogNormal
        The median value, and how unsure it is. [cents]

    Notes
    -----
    A hammer price is the second highest value: with n bidders its middle is the
    value that Beta^-1(1/2; n - 1, 2) of all values lie below. With three bidders
    that is the middle value itself.
    """
    room = Hammer(
        values=LogNormal(0, policy.sigma),
        crowd=FixedCrowd(policy.comparable_bidders),
        opening=0,
    )
    shift = math.log(room.quantile(0.5))
    return LogNormal(belief.median.mu - shift, belief.median.sigma)


def something_to_go_by(belief: Belief | None) -> Belief:
    """Return the belief, or refuse when there is nothing to go by.

    Parameters
    ----------
    belief : Belief or None
        What is believed.

    Returns
    -------
    Belief
        The same.

    Raises
    ------
    SpecError
        If there is none.
    """
    if belief is None:
        raise SpecError(
            "there is nothing to judge a price by; give a comparable sale, the retail "
            "price of a comparable new piece, or a cost above 0."
        )
    return belief
