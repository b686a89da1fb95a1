"""The steps of a ladder of about ten per cent, as an auctioneer explains them.

"Bidding increments", an auctioneer's published explainer, 31 January 2018: by 10 below
100; 1xx by 10; 2xx by 20; 300 and 400 by x00, x20, x50, x80; from 500 by 50; and so
on tenfold. Seen as a note of its steps, not at its own page.
"""

import pytest

from pricebook.bidding import TEN_PERCENT, next_bid

PRINTED = [
    (90, 100),
    (190, 200),
    (200, 220),
    (280, 300),
    (380, 400),
    (500, 550),
    (1_000, 1_100),
    (9_500, 10_000),
]


@pytest.mark.parametrize(("bid", "after"), PRINTED)
def test_next_bids_are_as_printed(bid, after):
    assert next_bid(100 * bid, "1-2-5") == 100 * after


def test_a_decade_of_rungs():
    hundreds = [price // 10_000 for price in TEN_PERCENT.rungs(100_000, 1_000_000)]

    expected = [*range(10, 20), *range(20, 30, 2), 30, 32, 35, 38, 40, 42, 45, 48]
    assert hundreds == [*expected, *range(50, 100, 5), 100]
