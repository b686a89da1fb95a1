"""The chance that the hammer falls on each rung of a ladder of bids."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import TypeGuard, cast

from pricebook.bidding.arguments import crowd_faults, number_faults, room_faults
from pricebook.bidding.crowd import Crowd, crowd_of
from pricebook.bidding.ladder import Ladder
from pricebook.bidding.ladders import LadderLike, ladder_of
from pricebook.bidding.values import LogNormal, Values
from pricebook.errors import SpecError, raise_all

_HARDLY_EVER = 1e-9
_MOST_RUNGS = 20_000


def rung_chances(
    values: Values, crowd: Crowd, prices: Sequence[float]
) -> dict[float | None, float]:
    """Return the chance of each rung, and of no sale.

    Parameters
    ----------
    values : Values
        What one bidder may think the piece is worth.
    crowd : Crowd
        How many bid.
    prices : sequence of numbers
        The rungs from the opening bid up, rising. Nobody bids above the last.
        [money]

    Returns
    -------
    dict
        Chance by price in the order of the rungs, then the chance of no sale
        under None; the chances sum to 1. [-]

    Raises
    ------
    SpecError
        If there is no rung, one is below 0, or they do not rise.

    Notes
    -----
    At each rung one of the willing bidders other than the holder takes it. With
    F_i the chance that a value lies below rung i, and A(F) = F^n or
    e^(-lambda (1 - F)) the chance that all do,

        p_i = (1 - F_i) (D_i - D_{i-1}),  D_i = (A(F_{i+1}) - A(F_i))/(F_{i+1} - F_i),

    without D_{-1} at the opening bid and with F = 1 above the last rung
    (Rothkopf & Harstad 1994; David et al. 2007).

    Examples
    --------
    >>> from pricebook.bidding.crowd import FixedCrowd
    >>> from pricebook.bidding.values import Uniform
    >>> chances = rung_chances(Uniform(0, 1), FixedCrowd(2), [0.5, 0.6, 0.7, 0.8, 0.9])
    >>> [round(chance, 3) for chance in chances.values()]
    [0.55, 0.08, 0.06, 0.04, 0.02, 0.25]
    """
    raise_all(SpecError, _rung_faults(prices))
    above = [values.above(float(price)) for price in prices] + [0.0]
    chances: dict[float | None, float] = {}
    before = 0.0
    for price, (here, higher) in zip(prices, pairwise(above), strict=True):
        slope = crowd.slope(higher, here - higher)
        # a difference of nearly equal slopes may come out a hair below nothing
        chances[price] = max(0.0, here * (slope - before))
        before = slope
    chances[None] = crowd.none_above(above[0])
    return chances


def _rung_faults(prices: Sequence[float]) -> list[str]:
    """Say what is wrong with a row of rungs."""
    if isinstance(prices, str) or not isinstance(prices, Sequence) or not prices:
        return [f"the ladder is {prices!r}; give at least the opening bid."]
    faults = [
        fault
        for i, price in enumerate(prices, 1)
        for fault in number_faults(f"rung {i} of the ladder", price, least=0)
    ]
    return faults or [
        f"the ladder goes backwards: {high} follows {low}; each rung must be higher "
        "than the one before."
        for low, high in pairwise(prices)
        if high <= low
    ]


def climb(values: Values, crowd: Crowd, ladder: Ladder, opening: int) -> list[float]:
    """List the rungs from an opening bid to where hardly anybody bids on.

    Parameters
    ----------
    values : Values
        What one bidder may think the piece is worth.
    crowd : Crowd
        How many bid.
    ladder : Ladder
        The ladder. [cents]
    opening : int
        The opening bid, a rung. [cents]

    Returns
    -------
    list of float
        The rungs; a higher bid than the last has a chance below 1e-9. [cents]

    Raises
    ------
    SpecError
        If the opening bid is not on the ladder, or more than 20,000 rungs
        are needed.

    Examples
    --------
    >>> from pricebook.bidding.crowd import FixedCrowd
    >>> from pricebook.bidding.ladders import TEN_PERCENT
    >>> from pricebook.bidding.values import Uniform
    >>> climb(Uniform(0, 32_000), FixedCrowd(2), TEN_PERCENT, 28_000)
    [28000, 30000, 32000]
    """
    found: list[float] = list(ladder.rungs(opening, opening))
    while values.above(found[-1]) * crowd.bidders > _HARDLY_EVER:
        if found[-1] == ladder.top_cents:
            break
        if len(found) == _MOST_RUNGS:
            raise SpecError(
                f'the ladder "{ladder.name}" takes more than {_MOST_RUNGS} rungs from '
                f"{opening} to where bidding ends; give it longer steps."
            )
        found.append(ladder.next_bid(int(found[-1])))
    return found


def rungs(
    median: float,
    sigma: float,
    bidders: float,
    ladder: LadderLike | Sequence[float],
    crowd: str,
    opening: float | None = None,
) -> dict[float | None, float]:
    """Return the chance that the hammer falls on each rung, and of no sale.

    Parameters
    ----------
    median : float
        Median of the bidders' values. [money]
    sigma : float
        Spread of the logarithms of the values, above 0. [-]
    bidders : float
        How many bid; asked, never inferred. [-]
    ladder : sequence of numbers, Ladder, str or sequence of pairs
        The rungs from the opening bid up, rising; nobody bids above the last. Or
        a ladder in another form that `ladder_of` reads, with `opening`. [money]
    crowd : str
        "fixed": exactly so many bidders. "poisson": so many on average.
    opening : float, optional
        Opening bid, a rung: the lowest one unless given. Needed when the ladder
        starts from 0. [money]

    Returns
    -------
    dict
        Chance by price, and of no sale under None; they sum to 1. [-]

    Raises
    ------
    SpecError
        If the ladder goes backwards, the opening bid is not on it, or another
        argument cannot be; one sentence each.

    Notes
    -----
    See `rung_chances`. Real bidders jump: take the prices as bounds.

    Examples
    --------
    >>> chances = rungs(300, 0.5, 3, [150, 200, 250, 300], "poisson")
    >>> [(price, round(chance, 3)) for price, chance in chances.items()]
    [(150, 0.213), (200, 0.095), (250, 0.124), (300, 0.504), (None, 0.064)]
    """
    faults = room_faults(median, sigma) + crowd_faults(bidders, crowd)
    if opening is not None:
        faults += number_faults("opening", opening, least=0)
    raise_all(SpecError, faults)
    values = LogNormal.of_median(float(median), float(sigma))
    people = crowd_of(bidders, crowd)
    return rung_chances(values, people, _prices(values, people, ladder, opening))


def _prices(
    values: Values,
    crowd: Crowd,
    ladder: LadderLike | Sequence[float],
    opening: float | None,
) -> Sequence[float]:
    """Return the rungs that bidding may reach, from a ladder in any form."""
    if not isinstance(ladder, (Ladder, str, Mapping)) and isinstance(ladder, Iterable):
        ladder = cast("Sequence[float]", tuple(ladder))
    if _is_row(ladder):
        raise_all(SpecError, _rung_faults(ladder))
        if opening is None:
            return ladder
        if opening not in ladder:
            raise SpecError(
                f"the opening bid {opening} is not on the ladder; open at one of its "
                "rungs."
            )
        return ladder[list(ladder).index(opening) :]
    whole = ladder_of(cast("LadderLike", ladder))
    if opening is None and whole.first_cents > 0:
        opening = whole.first_cents
    if opening is None:
        raise SpecError(
            f'the ladder "{whole.name}" needs an opening bid; give one of its rungs.'
        )
    raise_all(SpecError, number_faults("opening", opening, whole=True))
    return climb(values, crowd, whole, int(opening))


def _is_row(ladder: object) -> TypeGuard[Sequence[float]]:
    """Tell whether a ladder is written as its rungs."""
    if not isinstance(ladder, Sequence) or isinstance(ladder, str):
        return False
    return not any(isinstance(rung, Sequence | Mapping) for rung in ladder)


def expected_on_ladder(chances: dict[float | None, float]) -> float:
    """Return the average hammer price, an unsold piece counting as 0.

    Parameters
    ----------
    chances : dict
        Chance by price, as `rungs` returns it. [-]

    Returns
    -------
    float
        The average. [money]

    Examples
    --------
    >>> expected_on_ladder({100: 0.5, 200: 0.25, None: 0.25})
    100.0
    """
    return sum(price * chance for price, chance in chances.items() if price is not None)
