"""A line fitted to hours of which those at 0 are only known to lie at or below it.

Rows and figures as printed in the manual of a statistics package (sas_qlim_22_2). The
printed estimates stop short of the peak: their own log-likelihood is the lower one, so
they are held to 1e-4 and the printed log-likelihood to its five decimals. The peak
itself is held to scipy's general minimizer. The likelihood: J. Tobin, Econometrica 26,
1958; the one peak in 1/s and b/s: R. Olsen, Econometrica 46, 1978 (from memory).
"""

import math

import numpy as np
import pytest
from scipy import optimize, stats

from pricebook.bidding import (
    censored_regression,
    fit_sold_and_unsold,
    log_likelihood,
)

HOURS = [0, 0, 0, 0, 0, 0, 1000, 1960, 0, 2100, 3686, 1920, 0, 1728, 1568, 1316, 0]
EDUCATION = [8, 8, 9, 10, 11, 11, 12, 12, 13, 13, 14, 14, 15, 16, 16, 17, 17]
EXPERIENCE = [9, 12, 10, 15, 4, 6, 1, 29, 3, 36, 11, 38, 14, 3, 19, 7, 15]
YEARS = list(zip(EDUCATION, EXPERIENCE, strict=True))

LOTS = [
    ([120, 150, 160, 185, 210, 240, 275, 320], [100, 150, 200]),
    ([120, 150, 160, 185, 210, 240, 275, 320], [700, 90]),
    ([40, 90, 900], [45] * 20),
    ([100, 100.5, 101], [1e6, 99]),
    ([100, 120, 160], []),
]


def height(coefficients, sigma, values, features, limits):
    """Write the log-likelihood out with scipy's normal distribution."""
    y, c = np.array(values, float), np.array(limits, float)
    x = np.column_stack([np.ones(len(y)), np.array(features, float)])
    line, seen = x @ coefficients, y > c
    return (
        stats.norm.logpdf(y[seen], line[seen], sigma).sum()
        + stats.norm.logcdf(c[~seen], line[~seen], sigma).sum()
    )


def test_the_log_likelihood_of_the_hours_is_the_printed_one():
    fit = censored_regression(HOURS, YEARS, censored_below=0)

    assert fit.log_likelihood == pytest.approx(-74.93700, abs=5e-6)
    assert (fit.rows, fit.censored) == (17, 9)


def test_the_estimates_are_the_printed_ones():
    fit = censored_regression(HOURS, YEARS, censored_below=0)

    printed = (-5598.295129, 373.123254, 63.336247)
    assert fit.coefficients == pytest.approx(printed, rel=1e-4)
    assert fit.sigma == pytest.approx(1582.859635, rel=1e-4)
    at_print = height(printed, 1582.859635, HOURS, YEARS, [0] * 17)
    assert at_print <= fit.log_likelihood


def test_scipys_minimizer_finds_the_same_peak():
    def depth(at):
        line = np.array([at[0] * 1000, at[1] * 100, at[2] * 10])
        return -height(line, math.exp(at[3]), HOURS, YEARS, [0] * 17)

    # predictors of one size, else it stalls
    best = optimize.minimize(
        depth,
        [0, 0, 0, 7],
        method="Nelder-Mead",
        options={"xatol": 1e-10, "fatol": 1e-12, "maxiter": 9_000, "maxfev": 9_000},
    )
    fit = censored_regression(HOURS, YEARS, censored_below=0)

    expected = (best.x[0] * 1000, best.x[1] * 100, best.x[2] * 10)
    assert fit.coefficients == pytest.approx(expected, rel=1e-5)
    assert fit.sigma == pytest.approx(math.exp(best.x[3]), rel=1e-5)
    assert fit.log_likelihood == pytest.approx(-best.fun, abs=1e-8)


@pytest.mark.parametrize(("sold", "unsold"), LOTS)
def test_without_predictors_it_is_the_fit_of_sold_and_unsold(sold, unsold):
    count = len(sold) + len(unsold)
    limits = [-math.inf] * len(sold) + [math.log(r) for r in unsold]

    fit = censored_regression(
        [math.log(p) for p in sold + unsold], [[]] * count, censored_below=limits
    )

    mu, sigma = fit_sold_and_unsold(sold, unsold)
    assert fit.coefficients == pytest.approx((mu,), abs=1e-9)
    assert fit.sigma == pytest.approx(sigma, abs=1e-9)
    assert fit.log_likelihood == pytest.approx(
        log_likelihood(mu, sigma, sold, unsold), abs=1e-9
    )


def test_with_no_limit_it_is_least_squares():
    fit = censored_regression(HOURS, YEARS, censored_below=-math.inf)

    x = np.column_stack([np.ones(17), EDUCATION, EXPERIENCE])
    line, left, *_ = np.linalg.lstsq(x, np.array(HOURS, float), rcond=None)
    sigma = math.sqrt(left[0] / 17)
    assert fit.coefficients == pytest.approx(line, rel=1e-10)
    assert fit.sigma == pytest.approx(sigma, rel=1e-10)
    # n normal densities at their own spread (hand formula)
    expected = -17 / 2 * (math.log(2 * math.pi * sigma**2) + 1)
    assert fit.log_likelihood == pytest.approx(expected, rel=1e-12)
    assert fit.censored == 0


@pytest.mark.parametrize("seed", range(3))
def test_a_line_known_beforehand_is_found_again(seed):
    rng = np.random.default_rng(seed)
    x = rng.uniform([0, 500], [1, 2000], (2000, 2))
    hidden = 4 + 1.5 * x[:, 0] + 0.001 * x[:, 1] + 0.5 * rng.standard_normal(2000)
    limits = rng.uniform(4, 7, 2000)

    fit = censored_regression(np.maximum(hidden, limits), x, censored_below=limits)

    share = fit.censored / fit.rows
    assert 0.2 < share < 0.6
    assert fit.coefficients == pytest.approx((4, 1.5, 0.001), rel=0.1)
    assert fit.sigma == pytest.approx(0.5, rel=0.1)
    # the value seen least squares alone leans towards the limit
    seen = hidden > limits
    ones = np.column_stack([np.ones(seen.sum()), x[seen]])
    naive = np.linalg.lstsq(ones, hidden[seen], rcond=None)[0]
    assert abs(fit.coefficients[1] - 1.5) < abs(naive[1] - 1.5)


def test_no_step_away_from_the_peak_is_likelier():
    fit = censored_regression(HOURS, YEARS, censored_below=0)
    peak = np.array([*fit.coefficients, fit.sigma])

    for at in range(4):
        for share in (-1e-3, 1e-3):
            moved = peak.copy()
            moved[at] *= 1 + share
            there = height(moved[:3], moved[3], HOURS, YEARS, [0] * 17)
            assert there < fit.log_likelihood
