"""IRS Form 8283 (Rev. 12-2021): noncash gifts above 500, and above 5,000.

The threshold is measured on the deduction after it was brought down to cost
(instructions, Dec 2020). Exact.
"""

import pytest

from pricebook import receipts


@pytest.mark.parametrize(
    ("deduction", "form"),
    [
        (500_00, "none"),
        (500_01, "section A"),
        (5000_00, "section A"),
        (5000_01, "section B and appraisal"),
    ],
)
def test_the_form_follows_the_deduction(deduction, form):
    assert receipts.noncash_form(deduction) == form


def test_a_piece_worth_2400_that_cost_310_calls_for_no_form():
    made = receipts.maker_basis(
        "maker", materials_cents=310_00, fair_market_value_cents=2400_00
    )
    assert made.noncash_form == "none"
