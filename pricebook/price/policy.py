"""How the advice on a price is worked out: every assumption, stated once."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.bidding import TEN_PERCENT, Ladder
from pricebook.bidding.arguments import (
    cents_faults,
    crowd_faults,
    number_faults,
    spread_faults,
)
from pricebook.errors import SpecError, raise_all
from pricebook.money import Number
from pricebook.price.fees import Shares, check_sum, read_shares


@dataclass(frozen=True, slots=True, kw_only=True)
class PricePolicy:
    """What is asked, and what is assumed, before a price is advised.

    Parameters
    ----------
    bidders : float
        How many are likely to bid on the piece. Asked; there is no default. [-]
    unsold_value_cents : int
        What an unsold piece is still worth: what it would net at its next sale, 0
        if there is none. Asked; there is no default. [cents]
    crowd : str
        "poisson": so many bidders on average. "fixed": exactly so many.
    sigma : float
        Spread of bidders' values on the log scale; 0.5 is a modelling assumption,
        no source. [-]
    comparable_sigma : float
        Spread of comparable prices on the log scale; 0.4 is a modelling
        assumption, no source. [-]
    comparable_bidders : int
        How many bid at the comparable sales. Three makes the middle price and the
        middle value the same; an assumption, for prices do not show it. [-]
    yearly_change : number
        By what share comparable prices rise in a year; 0 leaves them. [-]
    comparable_age_days : int
        An older comparable is used but named in a warning. [d]
    retail_share, retail_sigma : float
        Hammer price as a share of the retail price of a comparable new piece, and
        its spread. 0.66 was seen for new goods in second-price sales at four
        preschools (preschool_auctions_2008); the spread is an
        assumption. [-]
    cost_share, cost_sigma : float, float or None
        Hammer price as a share of full cost, and its spread: an assumption, no
        source; None leaves cost out. [-]
    opening_share : float
        Opening bid as a share of the believed median value. [-]
    low_share, high_share : float
        The quantiles of the hammer price that make the estimate. [-]
    ladder : Ladder
        The ladder of bids.
    fee_shares : number or sequence of numbers
        Fees that are shares of the hammer price. [-]
    fixed_fee_cents : int
        Fees that are the same at every price. [cents]
    wanted_net_cents : int, optional
        A net that the charity wants from the piece. [cents]

    Raises
    ------
    SpecError
        If a number cannot be; one sentence each.
    MoneyError
        If fees are no shares, or sum to 1 or more.

    Examples
    --------
    >>> PricePolicy(bidders=4, unsold_value_cents=0).opening_share
    0.5
    >>> PricePolicy(bidders=4, unsold_value_cents=0, sigma=0)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: sigma is 0; it must be more than 0.
    """

    bidders: float
    unsold_value_cents: int
    crowd: str = "poisson"
    sigma: float = 0.5
    comparable_sigma: float = 0.4
    comparable_bidders: int = 3
    yearly_change: Number = 0
    comparable_age_days: int = 1095
    retail_share: float = 0.66
    retail_sigma: float = 0.5
    cost_share: float = 1.0
    cost_sigma: float | None = 0.7
    opening_share: float = 0.5
    low_share: float = 0.25
    high_share: float = 0.75
    ladder: Ladder = TEN_PERCENT
    fee_shares: Shares = ()
    fixed_fee_cents: int = 0
    wanted_net_cents: int | None = None

    def __post_init__(self) -> None:
        raise_all(SpecError, self._faults() + self._share_faults())
        check_sum(read_shares(self.fee_shares, "fee_shares"), "fee_shares")

    def _faults(self) -> list[str]:
        """Say what is wrong with what was asked and with the spreads."""
        faults = crowd_faults(self.bidders, self.crowd)
        if self.bidders is None:
            faults = ["bidders is not stated; ask how many are likely to bid."]
        faults += cents_faults("unsold_value_cents", self.unsold_value_cents)
        faults += cents_faults("fixed_fee_cents", self.fixed_fee_cents)
        if self.wanted_net_cents is not None:
            faults += cents_faults("wanted_net_cents", self.wanted_net_cents)
        spreads = {
            "sigma": self.sigma,
            "comparable_sigma": self.comparable_sigma,
            "retail_sigma": self.retail_sigma,
        }
        if self.cost_sigma is not None:
            spreads["cost_sigma"] = self.cost_sigma
        for name, spread in spreads.items():
            faults += spread_faults(name, spread)
        if not isinstance(self.ladder, Ladder):
            faults.append(f"ladder is {self.ladder!r}; read it with ladder_of first.")
        return faults

    def _share_faults(self) -> list[str]:
        """Say what is wrong with the shares and the counts."""
        faults = [
            *number_faults("retail_share", self.retail_share, above=0),
            *number_faults("cost_share", self.cost_share, above=0),
            *number_faults("opening_share", self.opening_share, above=0, most=1),
            *number_faults("low_share", self.low_share, above=0, below=1),
            *number_faults("high_share", self.high_share, above=0, below=1),
            *number_faults("yearly_change", self.yearly_change, above=-1),
            *number_faults(
                "comparable_bidders", self.comparable_bidders, least=2, whole=True
            ),
            *number_faults(
                "comparable_age_days", self.comparable_age_days, above=0, whole=True
            ),
        ]
        if not faults and self.low_share >= self.high_share:
            faults.append(
                f"low_share is {self.low_share} and high_share is {self.high_share}; "
                "the low one must be lower."
            )
        return faults
