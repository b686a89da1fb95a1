"""The chance of each rung of a ladder of bids.

E. David, A. Rogers, N. Jennings, J. Schiff, S. Kraus, M. Rothkopf, Optimal Design of
English Auctions with Discrete Bid Levels, ACM Transactions on Internet Technology 7(2),
2007, after M. Rothkopf & R. Harstad, Management Science 40, 1994. Its mean
is the sum over rungs of (F_{i+1}^n - F_i^n)/(F_{i+1} - F_i) (l_i (1-F_i) -
l_{i+1} (1-F_{i+1})), worked out below in exact fractions for uniform values.
"""

from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest

from pricebook.bidding import (
    FixedCrowd,
    PoissonCrowd,
    Uniform,
    expected_hammer,
    expected_on_ladder,
    rung_chances,
    rungs,
)

TENTHS = [Fraction(i, 10) for i in range(10)]


def paper_mean(rungs_, n):
    """Give the mean by the paper's formula, values uniform on 0 to 1."""
    ends = [*rungs_, Fraction(1)]
    return sum(
        sum(b**k * a ** (n - 1 - k) for k in range(n)) * (a * (1 - a) - b * (1 - b))
        for a, b in pairwise(ends)
    )


@pytest.mark.parametrize("n", [1, 2, 3, 5, 12])
@pytest.mark.parametrize("first", [0, 3, 5, 9])
def test_means_agree_with_the_formula_in_fractions(n, first):
    chances = rung_chances(Uniform(0, 1), FixedCrowd(n), TENTHS[first:])

    assert expected_on_ladder(chances) == pytest.approx(
        float(paper_mean(TENTHS[first:], n)), abs=1e-12
    )
    assert sum(chances.values()) == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize(
    ("n", "by_hand", "no_sale"),
    [
        (2, [0.55, 0.08, 0.06, 0.04, 0.02], 0.25),
        (3, [0.455, 0.144, 0.126, 0.096, 0.054], 0.125),
        (5, [0.23255, 0.1752, 0.2079, 0.2064, 0.1467], 0.03125),
    ],
)
def test_chances_from_a_half_up(n, by_hand, no_sale):
    # n = 2, first rung: (.6^2 - .5^2)/.1 * .5 = .55; second: (1.3 - 1.1) * .4 = .08
    chances = rung_chances(Uniform(0, 1), FixedCrowd(n), TENTHS[5:])

    assert list(chances.values()) == pytest.approx([*by_hand, no_sale], abs=1e-12)


def bid_by_bid(values, crowd, prices, seed, draws):
    """Hold auctions in which a willing bidder, picked by chance, takes each rung."""
    rng = np.random.default_rng(seed)
    worth = values(rng, (draws, crowd.max()))
    worth[np.arange(crowd.max()) >= crowd[:, None]] = -1
    holder, fell = np.full(draws, -1), np.full(draws, np.nan)
    for price in prices:
        willing = worth >= price
        has_holder = holder >= 0
        willing[has_holder, holder[has_holder]] = False
        lots = rng.random(worth.shape)
        lots[~willing] = -1
        goes_on = willing.any(axis=1) & (has_holder | (price == prices[0]))
        holder[goes_on] = lots.argmax(axis=1)[goes_on]
        fell[goes_on] = price
    return fell


@pytest.mark.parametrize("kind", ["fixed", "poisson"])
def test_auctions_held_bid_by_bid_agree(kind):
    draws, prices = 60_000, [150, 200, 225, 300, 320, 400, 600]
    rng = np.random.default_rng(7)
    crowd = rng.poisson(3, draws) if kind == "poisson" else np.full(draws, 3)

    fell = bid_by_bid(
        lambda rng, shape: 300 * np.exp(0.5 * rng.standard_normal(shape)),
        crowd,
        prices,
        8,
        draws,
    )

    for price, chance in rungs(300, 0.5, 3, prices, kind).items():
        seen = np.isnan(fell) if price is None else fell == price
        error = np.sqrt(chance * (1 - chance) / draws)
        assert abs(seen.mean() - chance) < 4 * error


@pytest.mark.parametrize("kind", ["fixed", "poisson"])
def test_a_fine_ladder_comes_near_to_no_ladder(kind):
    gaps = []
    for steps in (200, 800):
        ladder = [float(p) for p in np.geomspace(100, 4_000, steps)]
        mean = expected_on_ladder(rungs(300, 0.5, 3, ladder, kind))
        gaps.append(abs(mean - expected_hammer(300, 0.5, 3, 100, kind)))

    assert gaps[1] < gaps[0] / 3
    assert gaps[1] < 0.3


def test_a_poisson_ladder_is_a_mixture_of_fixed_ones():
    from scipy import stats

    prices = [0.3, 0.5, 0.6, 0.8]
    mixed = rung_chances(Uniform(0, 1), PoissonCrowd(4), prices)
    for price in prices:
        whole = sum(
            float(stats.poisson.pmf(n, 4))
            * rung_chances(Uniform(0, 1), FixedCrowd(n), prices)[price]
            for n in range(1, 60)
        )
        assert mixed[price] == pytest.approx(whole, abs=1e-12)
