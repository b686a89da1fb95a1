"""Rounding to whole dollars and to cents, in public instructions.

IRS instructions: drop below 50 cents, raise 50 to 99; when adding, keep the cents and
round only the total: 1.39 to 1, 2.50 to 3, 1.49 to 1. Iowa instructions: 129.49 to
129, 235.50 to 236. Halves to even would make 2.50 into 2. Exact.
"""

import pytest

from pricebook import money, receipts


@pytest.mark.parametrize(
    ("cents", "whole"),
    [(1_39, 1), (2_50, 3), (1_49, 1), (129_49, 129), (235_50, 236)],
)
def test_half_a_dollar_is_raised(cents, whole):
    assert receipts.whole_units(cents) == whole


def test_a_total_is_rounded_once():
    rows = [1_50, 1_50, 1_50]
    assert receipts.whole_units(sum(rows)) == 5
    assert sum(receipts.whole_units(row) for row in rows) == 6


@pytest.mark.parametrize(
    ("amount", "cents"), [(0.125, 13), (2.675, 268), (1.005, 101), (-0.125, -13)]
)
def test_half_a_cent_is_raised_whatever_the_binary_form(amount, cents):
    assert money.half_up(money.exact(amount) * 100) == cents
