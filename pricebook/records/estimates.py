"""Estimates against hammer prices: how many fell inside, and how far off."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from pricebook.errors import SpecError, raise_all
from pricebook.forecast.faults import number_fault, whole_fault

ENOUGH_LOTS = 20
"""Below this many lots sold nothing is said about the estimates: of 20 lots with an
80 % range anything from 12 to 19 inside is ordinary luck."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LotOutcome:
    """What was expected of a lot and what came.

    Parameters
    ----------
    lot : str
        The lot.
    estimate_low_cents, estimate_high_cents : int
        The printed estimate. [cents]
    hammer_cents : int or None
        What it sold for; None when it did not. [cents]
    fair_market_value_cents : int, optional
        Fair market value as printed, where there was one. [cents]

    Raises
    ------
    SpecError
        If an amount is not whole cents, the estimate is upside down, or 0.

    Examples
    --------
    >>> chest = LotOutcome(lot="7", estimate_low_cents=25000,
    ...                    estimate_high_cents=35000, hammer_cents=33000)
    >>> chest.is_inside, chest.over_middle
    (True, 1.1)
    """

    lot: str
    estimate_low_cents: int
    estimate_high_cents: int
    hammer_cents: int | None
    fair_market_value_cents: int | None = None

    def __post_init__(self) -> None:
        place = f"lot {self.lot}"
        low, high = self.estimate_low_cents, self.estimate_high_cents
        faults = [
            *whole_fault(f"{place}: estimate_low_cents", low),
            *whole_fault(f"{place}: estimate_high_cents", high, least=1),
        ]
        if not faults and low > high:
            faults.append(f"{place}: the estimate runs from {low} down to {high}.")
        if self.hammer_cents is not None:
            faults += whole_fault(f"{place}: hammer_cents", self.hammer_cents)
        if self.fair_market_value_cents is not None:
            key = f"{place}: fair_market_value_cents"
            faults += whole_fault(key, self.fair_market_value_cents, least=1)
        raise_all(SpecError, faults)

    @property
    def is_inside(self) -> bool:
        """Whether it sold inside its estimate, the ends included."""
        hammer = self.hammer_cents
        if hammer is None:
            return False
        return self.estimate_low_cents <= hammer <= self.estimate_high_cents

    @property
    def middle_cents(self) -> Fraction:
        """Middle of the estimate, in cents."""
        return Fraction(self.estimate_low_cents + self.estimate_high_cents, 2)

    @property
    def over_middle(self) -> float | None:
        """Hammer price over the middle of the estimate; None when unsold."""
        if self.hammer_cents is None:
            return None
        return float(self.hammer_cents / self.middle_cents)

    @property
    def over_fair_market_value(self) -> float | None:
        """Hammer price over fair market value; None when unsold or not stated."""
        if self.hammer_cents is None or self.fair_market_value_cents is None:
            return None
        return self.hammer_cents / self.fair_market_value_cents


@dataclass(frozen=True, slots=True, kw_only=True)
class HitRate:
    """How many hammer prices fell inside their estimates.

    Parameters
    ----------
    hits : int
        Lots sold inside.
    lots : int
        Lots sold.
    unsold : int
        Lots that did not sell and so say nothing here.
    stated_share : float
        What share the estimates were meant to hold. [-]
    """

    hits: int
    lots: int
    unsold: int
    stated_share: float

    @property
    def share(self) -> float | None:
        """Share of the lots sold that fell inside; None when none sold."""
        return self.hits / self.lots if self.lots else None

    @property
    def band(self) -> tuple[int, int]:
        """Fewest and most hits of the central 95 % when the estimates are right."""
        return _central_band(self.lots, self.stated_share)

    @property
    def chance(self) -> float:
        """Chance of a number of hits as unlikely as this when they are right.

        Two-sided exact binomial: all numbers of hits no likelier than this one.
        """
        chances = _binomial(self.lots, self.stated_share)
        here = chances[self.hits] * (1 + 1e-7)
        return min(1.0, math.fsum(chance for chance in chances if chance <= here))

    @property
    def sentence(self) -> str:
        """What may be said, and no more."""
        if not self.lots:
            return "No lot with an estimate sold, so nothing is said of the estimates."
        said = f"{self.hits} of {self.lots} hammer prices fell inside the estimate"
        if self.lots < ENOUGH_LOTS:
            return (
                f"{said}; fewer than {ENOUGH_LOTS} lots sold say nothing about "
                "whether the estimates are too narrow or too wide."
            )
        low, high = self.band
        meant = (
            f"{low} to {high} are ordinary for a {100 * self.stated_share:g} % range"
        )
        if self.hits < low:
            return f"{said}; {meant}, so the estimates are too narrow or off centre."
        if self.hits > high:
            return f"{said}; {meant}, so the estimates are wider than stated."
        return f"{said}; {meant}, so nothing speaks against the estimates."


@dataclass(frozen=True, slots=True, kw_only=True)
class Ratios:
    """Hammer prices over what was expected, sums over sums.

    Parameters
    ----------
    over_middle : float or None
        Over the middle of the estimate, lots sold only; None when none sold. [-]
    lots : int
        How many lots stand behind it.
    over_fair_market_value : float or None
        Over fair market value, lots sold that state one. [-]
    lots_with_value : int
        How many lots stand behind that.
    """

    over_middle: float | None
    lots: int
    over_fair_market_value: float | None
    lots_with_value: int


def hit_rate(outcomes: Iterable[LotOutcome], stated_share: float) -> HitRate:
    """Count the hammer prices that fell inside their estimates.

    Parameters
    ----------
    outcomes : iterable of LotOutcome
        The lots; unsold ones are counted apart.
    stated_share : float
        What share of hammer prices the estimates were meant to hold, such as 0.5
        for quartiles. [-]

    Returns
    -------
    HitRate
        The counts, the binomial band and what may be said.

    Raises
    ------
    SpecError
        If the share is not between 0 and 1.

    Notes
    -----
    Exact binomial distribution; the band leaves at most 2.5 % on either side.
    With fewer than 20 lots sold no verdict is given.

    Examples
    --------
    >>> rows = [LotOutcome(lot=str(n), estimate_low_cents=100,
    ...                    estimate_high_cents=200, hammer_cents=150 + 10 * n)
    ...         for n in range(9)]
    >>> print(hit_rate(rows, 0.8).sentence)
    6 of 9 hammer prices fell inside the estimate; fewer than 20 lots sold say ...
    """
    faults = [*number_fault("stated_share", stated_share, above=True)]
    if not faults and stated_share >= 1:
        faults.append(f"stated_share is {stated_share}; it must be between 0 and 1.")
    raise_all(SpecError, faults)
    rows = list(outcomes)
    sold = [row for row in rows if row.hammer_cents is not None]
    return HitRate(
        hits=sum(row.is_inside for row in sold),
        lots=len(sold),
        unsold=len(rows) - len(sold),
        stated_share=float(stated_share),
    )


def hammer_ratios(outcomes: Iterable[LotOutcome]) -> Ratios:
    """Return hammer prices over estimates and over fair market values.

    Parameters
    ----------
    outcomes : iterable of LotOutcome
        The lots; unsold ones are left out.

    Returns
    -------
    Ratios
        Sum of hammer prices over sum of what was expected of the same lots.

    Examples
    --------
    >>> chest = LotOutcome(lot="7", estimate_low_cents=25000,
    ...                    estimate_high_cents=35000, hammer_cents=33000,
    ...                    fair_market_value_cents=30000)
    >>> hammer_ratios([chest]).over_fair_market_value
    1.1
    """
    sold = [row for row in outcomes if row.hammer_cents is not None]
    valued = [row for row in sold if row.fair_market_value_cents is not None]
    return Ratios(
        over_middle=_ratio(sold, [row.middle_cents for row in sold]),
        lots=len(sold),
        over_fair_market_value=_ratio(
            valued, [Fraction(row.fair_market_value_cents or 0) for row in valued]
        ),
        lots_with_value=len(valued),
    )


def _ratio(rows: Sequence[LotOutcome], expected: Sequence[Fraction]) -> float | None:
    if not rows:
        return None
    return float(sum(row.hammer_cents or 0 for row in rows) / sum(expected))


def _binomial(count: int, share: float) -> list[float]:
    """Return the chance of each number of hits, by logarithms so that none is lost."""
    hit, miss, ways = math.log(share), math.log1p(-share), math.lgamma(count + 1)
    return [
        math.exp(
            ways
            - math.lgamma(hits + 1)
            - math.lgamma(count - hits + 1)
            + hits * hit
            + (count - hits) * miss
        )
        for hits in range(count + 1)
    ]


def _central_band(count: int, share: float, tail: float = 0.025) -> tuple[int, int]:
    chances = _binomial(count, share)
    below = above = 0.0
    low, high = 0, count
    while below + chances[low] < tail:
        below += chances[low]
        low += 1
    while above + chances[high] <= tail:
        above += chances[high]
        high -= 1
    return low, high
