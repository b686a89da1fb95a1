"""Cumulative-average learning, an accountancy study text, page 324 (pdf page 330).

100 hours for the first unit at an 80 % rate. The text's last increment prints
254.76, a slip: 8 x 30.72 = 245.76, which its own totals confirm.
"""

import pytest

from pricebook import labour

PRINTED = [(1, 100, 100), (2, 80, 160), (4, 64, 256), (8, 51.2, 409.6)]
PRINTED += [(16, 40.96, 655.36)]


@pytest.mark.parametrize(("units", "mean_h", "total_h"), PRINTED)
def test_totals_and_averages_are_as_printed(units, mean_h, total_h):
    total = 100 * labour.total_factor(units, 0.8, "cumulative average")
    assert total == pytest.approx(total_h, abs=0.005)  # two decimals printed
    assert total / units == pytest.approx(mean_h, abs=0.005)


def test_the_slip_in_the_last_increment_is_not_copied():
    last = [100 * labour.total_factor(n, 0.8, "cumulative average") for n in (8, 16)]
    assert last[1] - last[0] == pytest.approx(245.76, abs=0.005)
