"""Worked examples of what was paid and what was got for it.

IRS Publication 557 (2001), "Disclosure of Quid Pro Quo Contributions", and
Publication 1771: 100 for a ticket worth 40. Publication 526 (2001), "Contributions
From Which You Benefit", example 1: 65 for a dinner worth 25 (the gift of 40 is the
subtraction); example 2 in a 2014 reprint: 500 for a week worth 500, at a charity
auction. A tax guide of 2013, section 14.3, after Reg. 1.170A-1(h)(5): 500 for a vase
worth 100 in the catalogue. A legal question-and-answer page on fund-raising events:
300 for a ticket, dinner 50. Two accounting firms' articles: 150 for 80; 100 for 30.
Exact to the cent: these are subtractions.
"""

import pytest

from pricebook import receipts


@pytest.mark.parametrize(
    ("paid", "value", "gift", "disclosure"),
    [
        (100_00, 40_00, 60_00, True),  # Pub 557, Pub 1771
        (65_00, 25_00, 40_00, False),  # Pub 526, example 1
        (500_00, 500_00, 0, False),  # Pub 526, example 2
        (500_00, 100_00, 400_00, True),  # tax guide 2013
        (300_00, 50_00, 250_00, True),  # legal question-and-answer page
        (150_00, 80_00, 70_00, True),  # accounting firm's article
        (100_00, 30_00, 70_00, True),  # accounting firm's article, Sept 2018
    ],
)
def test_the_gift_is_what_was_paid_above_the_value(paid, value, gift, disclosure):
    told = receipts.buyer(paid, value, True)
    assert (told.gift_cents, told.deductible_cents) == (gift, gift)
    assert told.disclosure is disclosure


def test_a_catalogue_value_lets_the_buyer_of_the_vase_deduct_400():
    """IRS page "Charity Auctions": the buyer must have known the value before."""
    assert receipts.buyer(500_00, 100_00, True).deductible_cents == 400_00


def test_without_a_catalogue_the_gift_stands_but_no_deductible_part_is_stated():
    """Form 990 part VIII line 1: reported whether or not the giver may deduct it."""
    told = receipts.buyer(500_00, 100_00, False)
    assert told.deductible_cents is None
    assert told.gift_cents == 400_00
