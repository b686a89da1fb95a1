"""What one lot may fetch on its ladder, when its median value is itself unsure."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pricebook.bidding.arguments import number_faults
from pricebook.bidding.crowd import Crowd
from pricebook.bidding.hammer import Hammer
from pricebook.bidding.ladder import Ladder
from pricebook.bidding.rungs import climb, rung_chances
from pricebook.bidding.values import LogNormal
from pricebook.errors import SpecError, raise_all

NORMAL_NODES = (
    (0.0, 0.4571428571428571),
    (1.1544053947399682, 0.2401231786050128),
    (-1.1544053947399682, 0.2401231786050128),
    (2.366759410734541, 0.03075712396758647),
    (-2.366759410734541, 0.03075712396758647),
    (3.750439717725742, 0.0005482688559722178),
    (-3.750439717725742, 0.0005482688559722178),
)
"""Scores and weights of the seven-point Gauss-Hermite rule for a normal number."""


def room_values(belief: LogNormal, sigma: float) -> tuple[tuple[LogNormal, float], ...]:
    """Return the rooms that a belief allows, with the weight of each.

    Parameters
    ----------
    belief : LogNormal
        The median of the bidders' values, and how unsure it is. [money]
    sigma : float
        Spread of the values within one room, on the log scale. [-]

    Returns
    -------
    tuple of (LogNormal, float)
        Bidders' values, and the weight; the weights sum to 1.

    Examples
    --------
    >>> rooms = room_values(LogNormal.of_median(300, 0.2), 0.5)
    >>> len(rooms), round(sum(weight for _, weight in rooms), 12)
    (7, 1.0)
    """
    return tuple(
        (LogNormal(belief.mu + score * belief.sigma, sigma), weight)
        for score, weight in NORMAL_NODES
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """Chance of each rung, and of no sale; together they make 1.

    Parameters
    ----------
    rungs : tuple of (price, chance)
        From the opening bid up. [money, -]
    no_sale : float
        The chance that nobody opens. [-]

    Examples
    --------
    >>> lot = Outlook(rungs=((100, 0.5), (200, 0.25)), no_sale=0.25)
    >>> lot.chance_of_sale, lot.mean, lot.quantile(0.5), lot.chance_at_least(150)
    (0.75, 100.0, 100, 0.25)
    """

    rungs: tuple[tuple[int, float], ...]
    no_sale: float

    @property
    def chance_of_sale(self) -> float:
        """The chance that somebody opens [-]."""
        return 1 - self.no_sale

    @property
    def mean(self) -> float:
        """The average hammer price, an unsold piece counting as 0 [money]."""
        return math.fsum(price * chance for price, chance in self.rungs)

    def chance_at_least(self, price: float) -> float:
        """Return the chance that the hammer reaches a price [-]."""
        return math.fsum(chance for rung, chance in self.rungs if rung >= price)

    def quantile(self, share: float) -> int:
        """Return the rung that this share of the sold stays at or below.

        Parameters
        ----------
        share : float
            Between 0 and 1, of the lots that sell. [-]

        Returns
        -------
        int
            The rung. [money]

        Raises
        ------
        SpecError
            If the share is not between 0 and 1.
        """
        raise_all(SpecError, number_faults("share", share, above=0, below=1))
        left = float(share) * math.fsum(chance for _, chance in self.rungs)
        for price, chance in self.rungs:
            left -= chance
            if left <= 1e-15:
                return price
        return self.rungs[-1][0]


def outlook(
    belief: LogNormal, sigma: float, crowd: Crowd, ladder: Ladder, opening_cents: int
) -> Outlook:
    """Return what a lot may fetch, rung by rung.

    Parameters
    ----------
    belief : LogNormal
        The median of the bidders' values, and how unsure it is. [cents]
    sigma : float
        Spread of the values within one room, on the log scale. [-]
    crowd : Crowd
        How many bid.
    ladder : Ladder
        The ladder of bids.
    opening_cents : int
        The opening bid, a rung. [cents]

    Returns
    -------
    Outlook
        Chance of each rung, averaged over the rooms that the belief allows.

    Raises
    ------
    SpecError
        If the opening bid is not on the ladder.

    Examples
    --------
    >>> from pricebook.bidding import TEN_PERCENT, PoissonCrowd
    >>> belief = LogNormal.of_median(30_000, 0.2)
    >>> lot = outlook(belief, 0.5, PoissonCrowd(4), TEN_PERCENT, 15_000)
    >>> lot.quantile(0.25), lot.quantile(0.75), round(lot.chance_of_sale, 3)
    (24000, 45000, 0.972)
    """
    rooms = room_values(belief, sigma)
    # higher rooms weigh next to nothing; the last rung takes what they bid beyond it
    high = LogNormal(belief.mu + 2.5 * belief.sigma, sigma)
    prices = climb(high, crowd, ladder, opening_cents)
    whole = dict.fromkeys([*prices, None], 0.0)
    for values, weight in rooms:
        for price, chance in rung_chances(values, crowd, prices).items():
            whole[price] += weight * chance
    no_sale = whole.pop(None)
    rungs = tuple((int(p), chance) for p, chance in whole.items() if p is not None)
    return Outlook(rungs=rungs, no_sale=no_sale)


def value_with_reserve(
    belief: LogNormal,
    sigma: float,
    crowd: Crowd,
    reserve: float,
    unsold_value: float,
) -> float:
    """Return what a lot is worth before the sale, with a reserve.

    Parameters
    ----------
    belief, sigma, crowd
        As for `outlook`, in any one unit of money.
    reserve : float
        The lowest price at which the piece goes. [money]
    unsold_value : float
        What an unsold piece is still worth to the seller. [money]

    Returns
    -------
    float
        Average hammer price, and the unsold value where it does not sell. [money]

    Examples
    --------
    >>> from pricebook.bidding import FixedCrowd
    >>> belief = LogNormal.of_median(1, 1e-6)
    >>> round(value_with_reserve(belief, 0.5, FixedCrowd(3), 1, 0.5), 6)
    1.104895
    """
    total = 0.0
    for values, weight in room_values(belief, sigma):
        lot = Hammer(values=values, crowd=crowd, opening=reserve)
        total += weight * (lot.mean + unsold_value * (1 - lot.chance_of_sale))
    return total
