"""Eight estimates pooled by precision: the coaching experiments in eight schools.

D. Rubin, Estimation in Parallel Randomized Experiments, Journal of Educational
Statistics 6(4), 1981; A. Gelman and others, Bayesian Data Analysis, section 5.5, which
prints a pooled 7.7 with a standard error of 4.1 (data and figures from memory).
"""

import math

import pytest

from pricebook.bidding import blend

EFFECTS = (28, 8, -3, 7, -1, 1, 18, 12)
ERRORS = (15, 10, 16, 11, 9, 11, 10, 18)


@pytest.mark.unconfirmed
def test_the_pooled_effect():
    pooled = blend([(math.exp(y), s) for y, s in zip(EFFECTS, ERRORS, strict=True)])

    assert pooled.mu == pytest.approx(7.7, abs=0.05)  # printed to 0.1
    assert pooled.sigma == pytest.approx(4.1, abs=0.05)


@pytest.mark.unconfirmed
def test_the_pooled_effect_with_a_spread_of_ten_between_schools():
    anchors = [
        (math.exp(y), math.hypot(s, 10)) for y, s in zip(EFFECTS, ERRORS, strict=True)
    ]

    weights = [1 / (s**2 + 100) for s in ERRORS]
    mean = sum(w * y for w, y in zip(weights, EFFECTS, strict=True)) / sum(weights)
    assert tuple(blend(anchors)) == pytest.approx((mean, sum(weights) ** -0.5))
