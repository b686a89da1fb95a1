"""What an auction brings with a reserve, and which reserve is best.

J. Riley, W. Samuelson, Optimal Auctions, American Economic Review 71, 1981; R. Myerson,
Optimal Auction Design, Mathematics of Operations Research 6(1), 1981, 58-73. Uniform
values on 0 to 1, n bidders, reserve r: (n-1)/(n+1) + r^n - 2n/(n+1) r^(n+1), and the
best reserve (1 + v)/2 for an unsold value v, whatever n; for two bidders 1/3, and 5/12
with a reserve of 1/2. With a Poisson number of bidders (mean lambda, M = lambda (1-r)):
1 + (1 - 2r) e^-M - 2 (1 - e^-M)/lambda, which is 1/e at lambda 2, r 1/2. In general
n times the integral from r of (v f + F - 1) F^(n-1), Myerson's virtual values, done
below by Gauss's rule: another road than the package takes.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
from scipy import integrate, optimize, stats

from pricebook.bidding import (
    Exponential,
    FixedCrowd,
    Hammer,
    PoissonCrowd,
    Uniform,
    best_reserve,
    chance_of_sale,
    expected_hammer,
)

SIGMAS = (0.05, 0.25, 0.5, 1, 2)


def virtual_value_mean(sigma, n, opening):
    """Integrate Myerson's virtual values of the highest bidder."""

    def weighted(z):
        v, below = np.exp(sigma * z), stats.norm.cdf(z)
        virtual = v * stats.norm.pdf(z) - stats.norm.sf(z) * sigma * v  # times f dv
        return virtual * below ** (n - 1)

    start = math.log(opening) / sigma
    ends = np.linspace(start, max(start, 0) + 10 + sigma, 60)
    parts = [integrate.fixed_quad(weighted, a, b, n=16)[0] for a, b in pairwise(ends)]
    return n * math.fsum(parts)


def test_two_bidders_bring_a_third_and_five_twelfths():
    lots = [
        Hammer(values=Uniform(0, 1), crowd=FixedCrowd(2), opening=r) for r in (0, 0.5)
    ]

    assert [lot.mean for lot in lots] == pytest.approx([1 / 3, 5 / 12], rel=1e-12)
    assert lots[1].chance_of_sale == pytest.approx(0.75, rel=1e-12)


@pytest.mark.parametrize("n", [1, 2, 3, 4, 5, 10])
@pytest.mark.parametrize("r", [0, 0.25, 0.5, 0.9, 0.999])
def test_uniform_values_with_a_reserve(n, r):
    lot = Hammer(values=Uniform(0, 1), crowd=FixedCrowd(n), opening=r)

    closed = (n - 1) / (n + 1) + r**n - 2 * n / (n + 1) * r ** (n + 1)

    assert lot.mean == pytest.approx(closed, abs=1e-13)
    assert lot.chance_of_sale == pytest.approx(1 - r**n, abs=1e-13)


@pytest.mark.parametrize(
    ("n", "mean"),
    [(1, math.exp(-1)), (2, 0.66809124), (5, 1.30713073), (10, 1.93037630)],
)
def test_exponential_values_with_a_reserve_of_one(n, mean):
    lot = Hammer(values=Exponential(1), crowd=FixedCrowd(n), opening=1)

    # r P(sale) + integral of P(second > v): quadrature of scipy
    tail, _ = integrate.quad(
        lambda v: stats.binom.sf(1, n, math.exp(-v)), 1, 60, epsabs=1e-12
    )
    assert lot.mean == pytest.approx(1 - (1 - math.exp(-1)) ** n + tail, abs=1e-10)
    assert lot.mean == pytest.approx(mean, abs=5e-9)


@pytest.mark.parametrize("mean", [0.5, 1, 2, 3, 5, 8, 40])
@pytest.mark.parametrize("r", [0, 0.25, 0.5, 0.75])
def test_a_poisson_crowd_with_uniform_values(mean, r):
    lot = Hammer(values=Uniform(0, 1), crowd=PoissonCrowd(mean), opening=r)

    m = mean * (1 - r)
    closed = 1 + (1 - 2 * r) * math.exp(-m) - 2 * (1 - math.exp(-m)) / mean

    assert lot.mean == pytest.approx(closed, abs=1e-13)


def test_a_poisson_crowd_of_two_brings_one_over_e():
    lot = Hammer(values=Uniform(0, 1), crowd=PoissonCrowd(2), opening=0.5)

    assert lot.mean == pytest.approx(1 / math.e, rel=1e-13)


@pytest.mark.parametrize("sigma", SIGMAS)
@pytest.mark.parametrize("n", [1, 2, 3, 6, 40])
@pytest.mark.parametrize("r", [0.5, 0.8, 1, 1.5])
def test_log_normal_values_by_virtual_values(sigma, n, r):
    ours = expected_hammer(1, sigma, n, r, "fixed")

    # virtual values of either sign cancel: they lose digits that the package keeps
    assert ours == pytest.approx(virtual_value_mean(sigma, n, r), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("sigma", [0.4, 0.5, 0.6])
@pytest.mark.parametrize("mean", [1, 3, 6])
@pytest.mark.parametrize("r", [0, 0.5, 1.2])
def test_a_poisson_crowd_is_a_mixture_of_fixed_ones(sigma, mean, r):
    chances = stats.poisson.pmf(np.arange(1, 80), mean)
    fixed = [expected_hammer(1, sigma, n, r, "fixed") for n in range(1, 80)]
    sales = [chance_of_sale(1, sigma, n, r, "fixed") for n in range(1, 80)]

    assert expected_hammer(1, sigma, mean, r, "poisson") == pytest.approx(
        float(chances @ fixed), rel=1e-10
    )
    assert chance_of_sale(1, sigma, mean, r, "poisson") == pytest.approx(
        float(chances @ sales), rel=1e-10
    )


@pytest.mark.parametrize("unsold", [0, 0.25, 0.5, 1, 3])
@pytest.mark.parametrize("sigma", SIGMAS)
def test_the_best_reserve_meets_its_condition(sigma, unsold):
    found = best_reserve(1, sigma, unsold)

    values = stats.lognorm(sigma)
    rate = math.exp(values.logsf(found) - values.logpdf(found))
    assert found - rate == pytest.approx(unsold, abs=1e-9 * max(1, found))


@pytest.mark.parametrize("crowd", ["fixed", "poisson"])
@pytest.mark.parametrize("bidders", [2, 3, 6])
def test_no_other_reserve_brings_more(crowd, bidders):
    unsold = 0.25

    def loss(r):
        sale = chance_of_sale(1, 0.6, bidders, r, crowd)
        return -expected_hammer(1, 0.6, bidders, r, crowd) - unsold * (1 - sale)

    best = optimize.minimize_scalar(
        loss, bounds=(0.3, 3), method="bounded", options={"xatol": 1e-7}
    )
    # flat at the top: a minimum is found to the root of the precision
    assert best_reserve(1, 0.6, unsold) == pytest.approx(best.x, abs=1e-4)


@pytest.mark.parametrize("unsold", [0, 0.3])
def test_best_reserves_in_closed_form(unsold):
    assert Uniform(0, 1).best_reserve(unsold) == (1 + unsold) / 2
    assert Exponential(1).best_reserve(unsold) == 1 + unsold
