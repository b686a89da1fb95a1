"""Areas of discs and sheets in square feet.

Plane geometry: pi d2 / 4 / 144 for discs, length x width / 144 for sheets (9 x 11 in).
"""

import pytest

from pricebook.consumables import disc_area_m2, life_of_other_m2

SQ_FT = 0.3048**2
SHEET = 9 * 11 / 144


@pytest.mark.parametrize(("inches", "square_feet"), [(5, 0.13635), (6, 0.19635)])
def test_discs(inches, square_feet):
    assert disc_area_m2(inches * 25.4) / SQ_FT == pytest.approx(square_feet, abs=1e-5)


def test_a_larger_abrasive_lasts_in_proportion():
    # a quarter sheet of 0.171875 sq ft against a 5-in disc of 0.13635 sq ft
    found = life_of_other_m2(10, disc_area_m2(127), SHEET / 4 * SQ_FT)
    assert found == pytest.approx(10 * 0.171875 / 0.13635, abs=1e-3)
