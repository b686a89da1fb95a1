"""What an evening raises, as a distribution: mean, quantiles, chances, shortfall."""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from pricebook.errors import SpecError
from pricebook.forecast.faults import whole
from pricebook.money import half_up

QUANTILE_PERCENT = (5, 10, 25, 50, 75, 90, 95)


@dataclass(frozen=True, slots=True, kw_only=True)
class LotForecast:
    """What one lot brings over all evenings drawn.

    Parameters
    ----------
    name : str
        What the lot is called.
    mean_cents : int
        Mean of what it adds to the total, 0 when it passes. [cents]
    sd_cents : int
        Standard deviation of the same. [cents]
    sold_share : float
        Share of evenings in which it sells. [-]
    """

    name: str
    mean_cents: int
    sd_cents: int
    sold_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Evening:
    """The total of an evening, drawn many times over.

    Parameters
    ----------
    totals_cents : tuple of int
        Total of each evening drawn, lowest first. [cents]
    lots : tuple of LotForecast
        The lots, in the order of the catalogue.
    seed : int
        Where the draws began; the same seed gives the same evenings.
    common : float
        Spread of the factor that all lots of an evening share. [-]
    turnout : float
        Spread of the factor on how many bid. [-]

    Notes
    -----
    A quantile is the lowest total drawn that at least that share of evenings does
    not exceed. Every figure is a mean over draws: `standard_error_cents` says how
    far the mean may be off for that reason alone, nothing about the inputs.

    Examples
    --------
    >>> drawn = Evening(totals_cents=(100, 200, 300, 400), lots=())
    >>> drawn.mean_cents, drawn.quantiles[0.5], drawn.chance_of(300)
    (250, 200, 0.5)
    >>> drawn.shortfall(300), drawn.mean_shortfall_when_missed(300)
    (75, 150)
    """

    totals_cents: tuple[int, ...]
    lots: tuple[LotForecast, ...]
    seed: int = 0
    common: float = 0.0
    turnout: float = 0.0

    def __post_init__(self) -> None:
        totals = self.totals_cents
        if len(totals) < 2:
            raise SpecError(
                f"{len(totals)} evenings were drawn; it takes 2 or more to say how "
                "far totals spread."
            )
        if any(a > b for a, b in pairwise(totals)):
            raise SpecError("totals are out of order; give the lowest first.")

    @property
    def evenings(self) -> int:
        """How many evenings were drawn."""
        return len(self.totals_cents)

    @property
    def mean_cents(self) -> int:
        """Mean total, in cents."""
        return half_up(Fraction(sum(self.totals_cents), self.evenings))

    @property
    def sd_cents(self) -> int:
        """Standard deviation of the total, in cents."""
        count, total = self.evenings, sum(self.totals_cents)
        squares = sum(cents * cents for cents in self.totals_cents)
        variance = Fraction(count * squares - total * total, count * (count - 1))
        return half_up(math.sqrt(variance))

    @property
    def standard_error_cents(self) -> float:
        """Standard error of the mean over the draws, sd / sqrt(n), in cents."""
        return self.sd_cents / math.sqrt(self.evenings)

    @property
    def quantiles(self) -> dict[float, int]:
        """Totals by the share of evenings at or below them, in cents."""
        return {percent / 100: self._quantile(percent) for percent in QUANTILE_PERCENT}

    def _quantile(self, percent: int) -> int:
        return self.totals_cents[-(-percent * self.evenings // 100) - 1]

    @property
    def lots_sold(self) -> float:
        """How many lots sell in the mean."""
        return math.fsum(lot.sold_share for lot in self.lots)

    def chance_of(self, target_cents: int) -> float:
        """Return the share of evenings that reach a target.

        Parameters
        ----------
        target_cents : int
            The total to reach, 0 or more. [cents]

        Returns
        -------
        float
            Share of evenings at or above the target. [-]

        Raises
        ------
        SpecError
            If the target is not whole cents, 0 or more.
        """
        return 1 - self._missed(target_cents) / self.evenings

    def chance_standard_error(self, target_cents: int) -> float:
        """Return the standard error of the chance over the draws.

        Parameters
        ----------
        target_cents : int
            The total to reach, 0 or more. [cents]

        Returns
        -------
        float
            sqrt(p (1 - p) / n). [-]

        Notes
        -----
        Where no evening drawn, or every one, reaches the target this is 0; the
        chance may still be off by about 3 / n.
        """
        chance = self.chance_of(target_cents)
        return math.sqrt(chance * (1 - chance) / self.evenings)

    def shortfall(self, target_cents: int) -> int:
        """Return how far an evening stays below a target, in the mean over all.

        Parameters
        ----------
        target_cents : int
            The total to reach, 0 or more. [cents]

        Returns
        -------
        int
            Mean of max(target - total, 0), evenings that reach it counting 0. [cents]

        Raises
        ------
        SpecError
            If the target is not whole cents, 0 or more.
        """
        return half_up(Fraction(self._short_sum(target_cents), self.evenings))

    def mean_shortfall_when_missed(self, target_cents: int) -> int | None:
        """Return how far below a target the evenings end that miss it.

        Parameters
        ----------
        target_cents : int
            The total to reach, 0 or more. [cents]

        Returns
        -------
        int or None
            Mean of target - total over those evenings; None when none misses. [cents]

        Raises
        ------
        SpecError
            If the target is not whole cents, 0 or more.
        """
        missed = self._missed(target_cents)
        if missed == 0:
            return None
        return half_up(Fraction(self._short_sum(target_cents), missed))

    def _missed(self, target_cents: int) -> int:
        target = whole("target_cents", target_cents)
        return bisect_left(self.totals_cents, target)

    def _short_sum(self, target_cents: int) -> int:
        missed = self._missed(target_cents)
        return int(target_cents) * missed - sum(self.totals_cents[:missed])
