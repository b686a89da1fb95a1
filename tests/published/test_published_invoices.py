"""Buyers' invoices: hammer price, premium on it, sales tax on both.

New York TSB-A-24(48)S, 16 Oct 2024: the premium is part of the taxable receipt. An
auctioneer's article of 8 June 2010: 100 with 10 % and 6 % is 116.60, tax 6.60;
1,500,000 with 10 % and 7.25 % is 1,769,625.00, tax 119,625.00, the same as 1,650,000
without a premium. Exact to the cent.
"""

import pytest

from pricebook import proceeds
from pricebook.proceeds import Premium, Rest, SalesTax


def invoice(hammer, premium, tax):
    rules = [SalesTax("state", tax, "hammer_plus_premium"), Rest("charity")]
    if premium:
        rules.insert(0, Premium("auction house", premium))
    return proceeds.split(hammer, rules)


@pytest.mark.parametrize(
    ("hammer", "premium", "rate", "tax", "charged"),
    [
        (100_00, 0.10, 0.06, 6_60, 116_60),
        (1_500_000_00, 0.10, 0.0725, 119_625_00, 1_769_625_00),
        (1_650_000_00, 0, 0.0725, 119_625_00, 1_769_625_00),
    ],
)
def test_the_tax_is_on_hammer_price_and_premium(hammer, premium, rate, tax, charged):
    made = invoice(hammer, premium, rate)
    assert (made.tax_cents, made.charged_cents) == (tax, charged)
    assert made.amounts["state"] == tax
