"""Unit learning, an operations-management text, Table 7S.1 and its worked example.

Factors are printed to three decimals, so they are met to one of the last.
"""

import pytest

from pricebook import labour

FACTORS = [(10, 0.8, 0.477, 6.315), (20, 0.9, 0.634, 14.608)]


@pytest.mark.parametrize(("unit", "rate", "factor", "total"), FACTORS)
def test_unit_and_total_factors(unit, rate, factor, total):
    assert labour.unit_factor(unit, rate) == pytest.approx(factor, abs=0.001)
    assert labour.total_factor(unit, rate, "unit") == pytest.approx(total, abs=0.001)


def test_ten_units_of_2000_hours_at_80_percent():
    # the text multiplies by the rounded factors: 954 and 12,630
    assert 2000 * labour.unit_factor(10, 0.8) == pytest.approx(954, abs=1.1)
    assert 2000 * labour.total_factor(10, 0.8, "unit") == pytest.approx(12630, abs=1.1)
