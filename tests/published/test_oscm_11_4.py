"""Largest remainder in an open textbook of college mathematics, section 11.4.

27 among 13, 12, 5, 16, 7, 9: 6, 5, 2, 7, 3, 4. 616 among
46,310, 224,230, 20, 16,560, 38,450 with at least one each: 87, 424, 1, 31, 73. Exact.
"""

from pricebook import money


def test_27_are_shared_out_as_printed():
    weights = (13, 12, 5, 16, 7, 9)
    assert money.share_out(27, weights) == (6, 5, 2, 7, 3, 4)


def test_616_with_at_least_one_each_are_shared_out_as_printed():
    """The third, whose quota is below one, gets one; the others share the rest."""
    shares = money.share_out(615, (46_310, 224_230, 16_560, 38_450))
    assert shares == (87, 424, 31, 73)
