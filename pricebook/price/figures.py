"""The figures of an advice, each with its reason, and the costs behind them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from pricebook.bidding import Outlook


class Costs(Protocol):
    """What the advice must know of a cost sheet."""

    @property
    def cash_to_buy_cents(self) -> int:
        """Cash to be spent [cents]."""

    @property
    def used_up_cents(self) -> int:
        """What the piece uses up [cents]."""

    @property
    def full_cost_cents(self) -> int:
        """Used up, gifts in kind and time given [cents]."""

    @property
    def hours(self) -> float:
        """Hours of work [h]."""


@dataclass(frozen=True, slots=True)
class PieceCosts:
    """The costs of a piece where there is no cost sheet.

    Parameters
    ----------
    cash_to_buy_cents, used_up_cents, full_cost_cents : int
        As on a cost sheet. [cents]
    hours : float
        Hours of work. [h]

    Examples
    --------
    >>> PieceCosts(9_000, 7_200, 21_500, 6.5).hours
    6.5
    """

    cash_to_buy_cents: int
    used_up_cents: int
    full_cost_cents: int
    hours: float


@dataclass(frozen=True, slots=True)
class Figure:
    """An amount of money and the reason for it.

    Parameters
    ----------
    cents : int or None
        The amount; None where there is none to give. [cents]
    reason : str
        Why, in a sentence.
    """

    cents: int | None
    reason: str


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of money that is always there, and the reason for it.

    Parameters
    ----------
    cents : int
        The amount. [cents]
    reason : str
        Why, in a sentence.
    """

    cents: int
    reason: str


@dataclass(frozen=True, slots=True)
class Chance:
    """A chance and the reason for it.

    Parameters
    ----------
    share : float
        From 0 to 1. [-]
    reason : str
        Why, in a sentence.
    """

    share: float
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What to ask for a piece, and what may come of it.

    Parameters
    ----------
    fair_market_value : Figure
        From comparable sales alone; none without one.
    estimate_low, estimate_high : Amount
        Stated quantiles of the hammer price, of the lots that sell.
    opening_bid : Amount
        On the ladder.
    reserve : Figure
        Never above the low estimate; none where the opening bid does as well.
    reserve_too_high : Figure
        What a reserve half as high again as the best would cost.
    chance_of_sale : Chance
        The chance that somebody opens.
    expected_hammer, expected_net : Amount
        Averages, an unsold piece counting as 0: for totals, not for one lot.
    pay_per_hour : Figure
        What the expected hammer price pays for an hour.
    break_even : mapping of str to Figure
        Hammer prices by name: "cash repaid", "used up", "full cost", and "wanted
        net" where one is wanted.
    median_value_cents : int
        The believed median of bidders' values. [cents]
    outlook : Outlook
        The chance of each rung.
    warnings : tuple of str
        Where theory is thin.
    """

    fair_market_value: Figure
    estimate_low: Amount
    estimate_high: Amount
    opening_bid: Amount
    reserve: Figure
    reserve_too_high: Figure
    chance_of_sale: Chance
    expected_hammer: Amount
    expected_net: Amount
    pay_per_hour: Figure
    break_even: Mapping[str, Figure]
    median_value_cents: int
    outlook: Outlook
    warnings: tuple[str, ...]
