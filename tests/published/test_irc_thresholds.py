"""Thresholds in the text of the US Internal Revenue Code.

IRC 6115(a): disclosure for a payment "in excess of $75", the whole payment being
meant. IRC 170(f)(8): acknowledgment of a contribution of "$250 or more". IRC 6714: 10
a missed disclosure, at most 5,000 an event. IRC 170(i): 14 cents a mile, and 12 trips
of 20 miles = 33.60 in an accounting firm's article. IRC 170(e)(1)(A): a gift of one's
own work counts at cost; an association of enrolled agents answers that material of
100 sold for 5,000 makes 100. IRC 1011(b), from memory: basis goes to the sold part in
the ratio of price to value. Exact to the cent.
"""

import pytest

from pricebook import receipts


@pytest.mark.parametrize(("paid", "due"), [(75_00, False), (75_01, True)])
def test_disclosure_is_due_above_75(paid, due):
    assert receipts.buyer(paid, 10_00, True).disclosure is due


@pytest.mark.parametrize(("gift", "needed"), [(249_99, False), (250_00, True)])
def test_acknowledgment_is_needed_from_a_gift_of_250(gift, needed):
    told = receipts.buyer(400_00 + gift, 400_00, True)
    assert told.gift_cents == gift
    assert told.acknowledgment is needed
    assert told.acknowledgment_on_payment  # 400 and more was paid either way


@pytest.mark.parametrize(
    ("missed", "penalty"), [(3, 30_00), (500, 5000_00), (501, 5000_00)]
)
def test_missed_disclosures_cost_10_each_and_at_most_5000(missed, penalty):
    assert receipts.missed_disclosures_cents(missed) == penalty


def test_12_trips_of_20_miles_come_to_33_60():
    assert receipts.miles_cents(12 * 20) == 33_60


def test_a_makers_own_work_counts_at_its_material_whatever_it_sells_for():
    made = receipts.maker_basis(
        "maker", materials_cents=100_00, fair_market_value_cents=5000_00
    )
    assert made.deductible_cents == 100_00


@pytest.mark.unconfirmed
def test_a_maker_who_is_paid_65_of_650_has_sold_a_tenth_of_the_cost():
    made = receipts.maker_basis(
        "maker",
        materials_cents=120_00,
        received_cents=65_00,
        fair_market_value_cents=650_00,
    )
    assert (made.to_sale_cents, made.deductible_cents) == (12_00, 108_00)
