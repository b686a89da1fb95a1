"""Pinball loss in the documentation of two general-purpose libraries.

sktime 0.31, class PinballLoss: y and three quantiles forecast, printed losses. The
example of scikit-learn's mean_pinball_loss is from memory, and was worked out again.
The printed figures have all their digits, so the tolerance is that of a float.
"""

import pytest

from pricebook.records import pinball_scores

ACTUAL = (3, -0.5, 2, 7, 2)
FORECAST = {
    0.05: (1.25, 0, 1, 4, 0.625),
    0.5: (2.5, 0, 2, 8, 1.25),
    0.95: (3.75, 0, 3, 12, 1.875),
}


def scores(actual, forecast):
    rows = [
        (y, {share: column[at] for share, column in forecast.items()})
        for at, y in enumerate(actual)
    ]
    return pinball_scores(rows)


def test_loss_by_quantile_and_mean():
    found = scores(ACTUAL, FORECAST)
    assert found.lots == 5
    assert dict(found.by_share) == pytest.approx(
        {0.05: 0.16625, 0.5: 0.275, 0.95: 0.09625}, abs=1e-12
    )
    assert found.mean == pytest.approx(0.1791666667, abs=1e-9)


@pytest.mark.unconfirmed
@pytest.mark.parametrize(
    ("share", "forecast", "loss"),
    [
        (0.1, (0, 2, 3), 0.0333333333),
        (0.1, (1, 2, 4), 0.3),
        (0.9, (0, 2, 3), 0.3),
        (0.9, (1, 2, 4), 0.0333333333),
    ],
)
def test_three_values_one_of_them_off_by_one(share, forecast, loss):
    found = scores((1, 2, 3), {share: forecast})
    assert found.mean == pytest.approx(loss, abs=1e-9)
