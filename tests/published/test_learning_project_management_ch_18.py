"""Unit learning, a project-management textbook, chapter 18, Table 18-1.

812 hours for the first unit at a 75 % rate. The table's totals are sums of rounded
rows, so they are met to 5 hours; single units to a tenth, twice its last digit.
"""

import pytest

from pricebook import labour


def test_the_250th_unit():
    assert 812 * labour.unit_factor(250, 0.75) == pytest.approx(82.1, abs=0.2)


def test_the_total_and_the_mean_of_250_units():
    total = 812 * labour.total_factor(250, 0.75, "unit")
    assert total == pytest.approx(34170, abs=5)
    assert total / 250 == pytest.approx(137, abs=0.5)


def test_the_first_unit_from_120_hours_at_the_100th():
    assert 120 / labour.unit_factor(100, 0.75) == pytest.approx(811.4, abs=0.5)
