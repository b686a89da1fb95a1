"""Log-normal score of S. Baran, S. Lerch, 2015.

Log-normal distribution based EMOS models for probabilistic wind speed forecasting,
Quarterly Journal of the Royal Meteorological Society 141.

The paper's closed form is held against the definition of the score, the integral of
(F(x) - [x >= y])2, by quadrature: values agree to 1e-8 of the scale.
"""

import math

import pytest
from scipy.integrate import quad
from scipy.stats import lognorm

from pricebook.records import crps_log_normal, pinball

CASES = [
    (1, 0, 0.5, 0.1207919621),
    (0.5, 0, 0.5, 0.3357131004),
    (2, 0, 0.5, 0.6478693515),
    (1, 0, 1, 0.2674054670),
    (3, 1, 0.4, 0.2875657818),
    (250, math.log(300), 0.5, 43.2150255183),
]


@pytest.mark.parametrize(("actual", "mu", "sigma", "score"), CASES)
def test_the_closed_form_is_the_integral(actual, mu, sigma, score):
    chance = lognorm(sigma, scale=math.exp(mu)).cdf
    below = quad(lambda x: chance(x) ** 2, 0, actual, epsabs=1e-11, limit=200)[0]
    far = math.exp(mu + 9 * sigma)
    above = quad(lambda x: (1 - chance(x)) ** 2, actual, far, epsabs=1e-9, limit=400)[0]
    found = crps_log_normal(actual, mu, sigma)
    assert found == pytest.approx(below + above, rel=1e-8)
    assert found == pytest.approx(score, rel=1e-9)


def test_it_is_twice_the_pinball_loss_over_all_quantiles():
    spread = lognorm(0.5)

    def loss(share):
        return 2 * pinball(share, 1.3, float(spread.ppf(share)))

    # the loss has a corner where the quantile meets what came
    corner = float(spread.cdf(1.3))
    total = quad(loss, 0, corner)[0] + quad(loss, corner, 1)[0]
    assert crps_log_normal(1.3, 0, 0.5) == pytest.approx(total, abs=1e-7)
