"""Expected shortfall of a normal and of a log-normal total below a target.

E(T - X)+ = (T - m) P(z) + s p(z), z = (T - m) / s, for a normal total; for a
log-normal one T P(z) - mean P(z - s), z = (ln T - mu) / s: closed forms of any text on
partial expectations (from memory). The figures for N(10,000, 1,500) and for a
log-normal of mean 10,000 were worked out from them, not printed. The total stands in
for a sample: its own quantiles at the middle of 20,000 equal shares, so what is left is
the error of that grid (under 1 part in 10,000) and rounding to cents.
"""

import math

import numpy as np
import pytest
from scipy.stats import norm

from pricebook.forecast import Evening

SHARES = (np.arange(20_000) + 0.5) / 20_000


def sample(units):
    cents = np.floor(units * 100 + 0.5).astype(np.int64)
    return Evening(totals_cents=tuple(np.sort(cents).tolist()), lots=())


def normal_figures(mean, sd, target):
    z = (target - mean) / sd
    missed = norm.cdf(z)
    return (target - mean) * missed + sd * norm.pdf(z), missed


def log_normal_figures(mean, log_sd, target):
    mu = math.log(mean) - log_sd**2 / 2
    z = (math.log(target) - mu) / log_sd
    return target * norm.cdf(z) - mean * norm.cdf(z - log_sd), norm.cdf(z)


@pytest.mark.parametrize(
    ("target", "short", "missed", "when_missed"),
    [
        (9000, 226.679471, 0.252492538, 897.767011),
        (11000, 1226.679471, 0.747507462, 1641.026387),
    ],
)
def test_a_normal_total(target, short, missed, when_missed):
    assert normal_figures(10_000, 1_500, target) == pytest.approx((short, missed))
    total = sample(norm.ppf(SHARES, 10_000, 1_500))
    assert total.shortfall(target * 100) / 100 == pytest.approx(short, abs=0.03)
    assert 1 - total.chance_of(target * 100) == pytest.approx(missed, abs=6e-5)
    found = total.mean_shortfall_when_missed(target * 100)
    assert found / 100 == pytest.approx(when_missed, abs=0.3)


@pytest.mark.parametrize(
    ("target", "short", "missed"),
    [(9000, 358.910812, 0.334761564), (11000, 1429.201094, 0.717878562)],
)
def test_a_log_normal_total(target, short, missed):
    assert log_normal_figures(10_000, 0.2, target) == pytest.approx((short, missed))
    mu = math.log(10_000) - 0.02
    total = sample(np.exp(mu + 0.2 * norm.ppf(SHARES)))
    assert total.shortfall(target * 100) / 100 == pytest.approx(short, abs=0.05)
    assert 1 - total.chance_of(target * 100) == pytest.approx(missed, abs=6e-5)


def test_mean_spread_and_quantiles_of_a_normal_total():
    total = sample(norm.ppf(SHARES, 10_000, 1_500))
    assert total.mean_cents == 1_000_000
    assert total.sd_cents == pytest.approx(150_000, rel=5e-4)
    assert total.standard_error_cents == pytest.approx(1060.66, rel=5e-4)
    for share, cents in total.quantiles.items():
        assert cents / 100 == pytest.approx(norm.ppf(share, 10_000, 1_500), abs=0.7)
