"""12 CFR 235.3 and 235.4: the cap on debit interchange, rate and fixed part.

21 cents and 5 basis points, and 1 cent for preventing fraud: 100.00 gives 0.27,
1,049.40 gives 0.7447 and so 0.74. It is the shape of a card fee, not what a merchant
pays. Worked from the rule by hand; to the cent, half up.
"""

import pytest

from pricebook import proceeds
from pricebook.proceeds import CardFee, Rest


@pytest.mark.parametrize(("charged", "fee"), [(100_00, 27), (1_049_40, 74)])
def test_the_capped_fee_is_rate_and_fixed_part(charged, fee):
    rules = [CardFee("issuer", 0.0005, 22), Rest("charity")]
    assert proceeds.split(charged, rules).amounts["issuer"] == fee
