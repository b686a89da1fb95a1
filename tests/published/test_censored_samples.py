"""A normal fitted to a sample of which part is only known to lie below a limit.

The likelihood of a censored normal sample (J. Tobin, Econometrica 26, 1958) and the
one peak that it has in 1/s and m/s (R. Olsen, Econometrica 46, 1978), from memory. The
checks: scipy's own fit to censored data; the expectation-maximization steps with
E[y | y < c] = m - s L and E[y^2 | y < c] = m^2 + s^2 - s (c + m) L, L = phi/Phi; and
the closed form without any censored value.
"""

import math

import numpy as np
import pytest
from scipy import optimize, stats

from pricebook.bidding import fit_sold_and_unsold, log_likelihood, shrink

SOLD = [120, 150, 160, 185, 210, 240, 275, 320]
UNSOLD = [100, 150, 200]
CASES = [
    (SOLD, UNSOLD),
    (SOLD, [700, 90]),
    ([100, 101], [99.5] * 6),
    ([40, 900], [45] * 20),
    (SOLD, [60]),
    ([100, 101], [1e6, 99]),
]


def by_expectation(sold, unsold):
    """Climb by expectation-maximization, slow but of another kind."""
    y, c = np.log(sold), np.log(unsold)
    m, s = y.mean(), y.std()
    for _ in range(60_000):
        z = (c - m) / s
        ratio = np.exp(stats.norm.logpdf(z) - stats.norm.logcdf(z))
        first = m - s * ratio
        second = m**2 + s**2 - s * (c + m) * ratio
        total = len(y) + len(c)
        new = (y.sum() + first.sum()) / total
        spread = math.sqrt(((y**2).sum() + second.sum()) / total - new**2)
        if abs(new - m) + abs(spread - s) < 1e-13:
            break
        m, s = new, spread
    return m, s


@pytest.mark.parametrize(("sold", "unsold"), CASES)
def test_the_fit_agrees_with_expectation_maximization(sold, unsold):
    assert fit_sold_and_unsold(sold, unsold) == pytest.approx(
        by_expectation(sold, unsold), abs=1e-6
    )


def test_the_fit_agrees_with_scipys_own():
    data = stats.CensoredData(uncensored=np.log(SOLD), left=np.log(UNSOLD))

    def closely(function, start, args=(), disp=0):
        options = {"xatol": 1e-10, "fatol": 1e-12, "maxiter": 4_000}
        return optimize.minimize(
            function, start, args=args, method="Nelder-Mead", options=options
        ).x

    expected = stats.norm.fit(data, optimizer=closely)

    assert fit_sold_and_unsold(SOLD, UNSOLD) == pytest.approx(expected, abs=1e-7)


@pytest.mark.parametrize(("sold", "unsold"), CASES)
def test_the_log_likelihood_agrees_with_scipys(sold, unsold):
    mu, sigma = fit_sold_and_unsold(sold, unsold)

    expected = stats.norm.logpdf(np.log(sold), mu, sigma).sum()
    expected += stats.norm.logcdf(np.log(unsold), mu, sigma).sum()

    assert log_likelihood(mu, sigma, sold, unsold) == pytest.approx(expected, rel=1e-12)
    for dm, ds in ((1e-3, 0), (-1e-3, 0), (0, 1e-3), (0, -1e-3)):
        assert log_likelihood(mu + dm, sigma + ds, sold, unsold) < expected


def test_without_unsold_pieces_it_is_mean_and_spread_of_the_logarithms():
    mu, sigma = fit_sold_and_unsold(SOLD, [])

    assert mu == pytest.approx(np.log(SOLD).mean(), rel=1e-13)
    assert sigma == pytest.approx(np.log(SOLD).std(), rel=1e-12)


def test_leaving_the_unsold_out_puts_the_price_too_high():
    with_unsold = fit_sold_and_unsold(SOLD, UNSOLD)
    sold_only = fit_sold_and_unsold(SOLD, [])

    assert sold_only.median > 1.15 * with_unsold.median


def test_a_middle_drawn_to_a_prior_has_the_highest_posterior():
    prior, sigma = (200, 0.35), 0.4

    def against(m):
        logs = stats.norm.logpdf(np.log(SOLD), m, sigma).sum()
        logs += stats.norm.logcdf(np.log(UNSOLD), m, sigma).sum()
        return -logs - stats.norm.logpdf(m, math.log(prior[0]), prior[1])

    best = optimize.minimize_scalar(against, bracket=(5, 5.5), tol=1e-12)
    step = 1e-4
    bend = (against(best.x + step) - 2 * best.fun + against(best.x - step)) / step**2

    belief = shrink(SOLD, sigma, prior, UNSOLD)

    assert belief.median.mu == pytest.approx(best.x, abs=1e-6)
    assert belief.median.sigma == pytest.approx(bend**-0.5, rel=1e-4)
