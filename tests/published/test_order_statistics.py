"""The second highest of n values, from textbook order statistics.

Uniform on 0 to 1: (n - 1)/(n + 1). Exponential with mean 1: H_n - 1, H_n the
harmonic number. Standard normal: the table of expected values of normal order
statistics (as in Biometrika Tables for Statisticians, from memory; recomputed below).
Log-normal, two bidders: 2 e^(s^2/2) Phi(-s/sqrt 2), the closed form of the mean of the
lower of two. The k-th of n uniform values is Beta(k, n - k + 1).
"""

import math
from statistics import NormalDist

import pytest
from scipy import integrate, stats

from pricebook.bidding import (
    Exponential,
    FixedCrowd,
    Hammer,
    LogNormal,
    Uniform,
    expected_hammer,
)

NUMBERS = (2, 3, 4, 5, 10, 50, 200)


def mean(values, bidders, opening=0):
    return Hammer(values=values, crowd=FixedCrowd(bidders), opening=opening).mean


class Normal:
    """Normal values, shifted so far up that none is below 0."""

    shift = 30.0

    def above(self, price):
        return 0.5 * math.erfc((price - self.shift) / math.sqrt(2))

    def at_above(self, chance):
        return self.shift - NormalDist().inv_cdf(chance) if chance < 1 else 0.0

    def best_reserve(self, unsold_value):
        raise NotImplementedError


@pytest.mark.parametrize("n", NUMBERS)
def test_uniform(n):
    assert mean(Uniform(0, 1), n) == pytest.approx((n - 1) / (n + 1), rel=1e-12)


@pytest.mark.parametrize("n", NUMBERS)
def test_exponential(n):
    harmonic = math.fsum(1 / k for k in range(1, n + 1))

    assert mean(Exponential(1), n) == pytest.approx(harmonic - 1, rel=1e-12)


@pytest.mark.unconfirmed
@pytest.mark.parametrize(
    ("n", "printed"), [(4, 0.2970113823), (5, 0.4950189705), (3, 0.0)]
)
def test_second_highest_normal(n, printed):
    assert mean(Normal(), n) - Normal.shift == pytest.approx(printed, abs=1e-9)


@pytest.mark.parametrize("n", [2, 7, 30])
def test_normal_table_against_quadrature(n):
    def weighted(z):
        below = stats.norm.cdf(z)
        return z * n * (n - 1) * below ** (n - 2) * (1 - below) * stats.norm.pdf(z)

    expected, _ = integrate.quad(weighted, -10, 10, epsabs=1e-12)

    assert mean(Normal(), n) - Normal.shift == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("sigma", [0.05, 0.25, 0.4, 0.5, 0.6, 1, 2])
def test_lower_of_two_log_normal(sigma):
    closed = 2 * math.exp(sigma**2 / 2) * NormalDist().cdf(-sigma / math.sqrt(2))

    assert expected_hammer(1, sigma, 2, 0, "fixed") == pytest.approx(closed, rel=1e-12)


@pytest.mark.parametrize("n", [2, 3, 5, 40])
@pytest.mark.parametrize("share", [0.1, 0.25, 0.5, 0.75, 0.9, 0.999])
def test_quantiles_of_the_second_highest(n, share):
    values = LogNormal.of_median(1, 0.5)
    lot = Hammer(values=values, crowd=FixedCrowd(n), opening=0)

    below = stats.beta(n - 1, 2).ppf(share)
    expected = math.exp(0.5 * stats.norm.ppf(below))

    assert lot.quantile(share) == pytest.approx(expected, rel=1e-9)


def test_the_middle_of_the_second_of_three_is_the_middle_value():
    lot = Hammer(values=LogNormal(0, 0.5), crowd=FixedCrowd(3), opening=0)

    assert lot.quantile(0.5) == pytest.approx(1, rel=1e-12)
