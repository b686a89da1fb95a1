"""Streamlined Sales and Use Tax Agreement, section 324: rounding.

Carry the tax to the third decimal and round up when that is above four; per item or
per invoice, at the seller's election; state and local rates added up. 4.50 at 5 % is
0.225 and so 0.23 (half to even would give 0.22). Three items of 33.33 at 7.25 %: 2.42
each by item, 7.2493 and so 7.25 by invoice. Worked from the rule by hand, exact.
"""

from pricebook import proceeds


def test_a_third_decimal_of_5_is_rounded_up():
    assert proceeds.sales_tax_cents([4_50], 0.05, per="item") == (23,)


def test_the_election_makes_a_cent_of_difference():
    lots = [33_33] * 3
    assert sum(proceeds.sales_tax_cents(lots, 0.0725, per="item")) == 7_26
    assert sum(proceeds.sales_tax_cents(lots, 0.0725, per="invoice")) == 7_25
