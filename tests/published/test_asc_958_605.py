"""FASB ASC 958-605-25-20 and 25-16, as accounting firms' articles cite them.

Oct 2013: an item recorded at 4,000 and sold for 5,000 or 3,000 changes the
contribution by +1,000 or -1,000; one recorded at 1,000 and sold for 1,000, 1,500 or
500 leaves that as net contribution. Given work is recorded when it makes or betters
an asset, or is skilled and would be bought. The Codification itself was not seen.
"""

import pytest

from pricebook import receipts


@pytest.mark.parametrize(
    ("carried", "sold", "change"),
    [
        (4000_00, 5000_00, 1000_00),
        (4000_00, 3000_00, -1000_00),
        (1000_00, 1000_00, 0),
        (1000_00, 1500_00, 500_00),
        (1000_00, 500_00, -500_00),
    ],
)
def test_a_sale_re_measures_the_gift_to_the_cash(carried, sold, change):
    assert receipts.remeasured_cents(carried, sold) == change


@pytest.mark.parametrize(
    ("betters", "skilled", "bought", "recorded"),
    [
        (True, False, False, True),  # veneering the charity's own chest
        (False, True, True, True),
        (False, True, False, False),
        (False, False, True, False),
    ],
)
def test_given_work_is_recorded_on_either_limb(betters, skilled, bought, recorded):
    found = receipts.service_is_recorded(
        makes_or_betters_an_asset=betters, skilled=skilled, would_be_bought=bought
    )
    assert found is recorded
