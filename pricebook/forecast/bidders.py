"""The two bidders of a lot who settle its price, and the rung that they stop at."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from pricebook.errors import SpecError
from pricebook.forecast.lots import Lot

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from pricebook.bidding import Ladder

    Floats = NDArray[np.float64]

_MOST_RUNGS = 100_000


def exceedances(
    lot: Lot, rng: np.random.Generator, crowd: Floats
) -> tuple[Floats, Floats]:
    """Draw the share of values above the highest bidder's, and the second's."""
    import numpy as np

    first = rng.standard_exponential(crowd.size)
    second = rng.standard_exponential(crowd.size)
    bidders = float(lot.bidders)
    if lot.crowd == "poisson":
        mean = bidders * crowd
        return first / mean, (first + second) / mean
    first /= bidders
    if bidders == 1:
        return -np.expm1(-first), np.full(crowd.size, 1.0)
    second = first + second / (bidders - 1)
    return -np.expm1(-first), -np.expm1(-second)


def chance_above(lot: Lot, middle: Floats, cents: float | Floats) -> Floats:
    """Return the chance that one bidder's value reaches a price, by evening."""
    import numpy as np
    from scipy.special import ndtr

    with np.errstate(divide="ignore"):
        return np.asarray(ndtr((middle - np.log(cents)) / lot.sigma), dtype=float)


def on_ladder(
    lot: Lot,
    rng: np.random.Generator,
    ladder: Ladder,
    worth: Floats,
    middle: Floats,
    first: Floats,
    second: Floats,
    crowd: Floats,
) -> Floats:
    """Draw the rung at which bidding stops, where at least two are willing.

    Parameters
    ----------
    lot : Lot
        The lot.
    rng : numpy.random.Generator
        The lot's own source of draws.
    ladder : Ladder
        The ladder, with the opening bid on it; nobody bids above its last rung.
    worth : array
        What the second bidder would pay, one value an evening. [cents]
    middle : array
        Logarithm of the median value of that evening.
    first, second : array
        Share of values above the highest bidder's and above the second's. [-]
    crowd : array
        Factor on how many bid. [-]

    Returns
    -------
    array
        The hammer price. [cents]

    Notes
    -----
    All c bidders at or above the second value's rung are equally likely to hold
    it. When the highest does, it stops there; else the highest takes the next rung
    if it is worth that much. The others between that rung and the second value are
    Poisson, or binomial in a fixed crowd.
    """
    import numpy as np

    rungs = _rungs(lot, ladder, float(worth.max()))
    at = np.maximum(np.searchsorted(rungs, worth, side="right") - 1, 0)
    between = np.maximum(chance_above(lot, middle, rungs[at]) - second, 0.0)
    if lot.crowd == "poisson":
        others = rng.poisson(float(lot.bidders) * crowd * between)
    else:
        share = np.minimum(between / (1 - second), 1.0)
        others = rng.binomial(max(int(lot.bidders) - 2, 0), share)
    holds = rng.random(worth.size) < 1 / (2 + others)
    willing = first <= chance_above(lot, middle, rungs[at + 1])
    return np.asarray(rungs[at + (~holds & willing)], dtype=float)


def _rungs(lot: Lot, ladder: Ladder, highest_cents: float) -> Floats:
    """List the rungs from the opening bid to one above the highest value."""
    import numpy as np

    doubled = 2.0 ** math.ceil(math.log2(max(highest_cents, 1.0)))
    rungs = _rungs_to(ladder, int(lot.opening_cents), doubled)
    if len(rungs) > _MOST_RUNGS:
        raise SpecError(
            f'{lot.name}: the ladder "{ladder.name}" takes more than {_MOST_RUNGS} '
            f"bids to {highest_cents:.0f} cents; give it longer steps."
        )
    return np.asarray([*rungs, np.inf], dtype=float)


@lru_cache(maxsize=256)
def _rungs_to(ladder: Ladder, opening_cents: int, cents: float) -> tuple[int, ...]:
    """List the rungs up to the first above an amount; lots often share them."""
    rungs = [opening_cents]
    while rungs[-1] <= cents and rungs[-1] != ladder.top_cents:
        rungs.append(ladder.next_bid(rungs[-1]))
        if len(rungs) > _MOST_RUNGS:
            break
    return tuple(rungs)
