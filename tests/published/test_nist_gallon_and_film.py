"""The US gallon, the inch and the pound behind every shellac and film figure.

NIST Handbook 44 (nist_hb_44), Appendix C: 1 US gallon = 231 cubic inches; pint
28.875, quart 57.75, 128 fluid ounces. NIST SP 811 (nist_sp_811), Appendix B: 1 in =
25.4 mm, 1 lb = 453.59237 g, both exact. The film constant follows: 231 in3 spread one
thousandth of an inch thick over square feet of 144 in2.
"""

import pytest

from pricebook import finish
from pricebook.finish import cut, film

CUBIC_INCHES_PER_GALLON = 231
SQUARE_INCHES_PER_SQUARE_FOOT = 144
MM_PER_INCH = 25.4


def test_a_gallon_is_231_cubic_inches():
    litres = CUBIC_INCHES_PER_GALLON * (MM_PER_INCH / 100) ** 3
    assert pytest.approx(litres, rel=1e-12) == cut.L_PER_US_GAL


def test_a_pound_in_a_gallon_is_119_83_grams_a_litre():
    grams = 453.59237 / (CUBIC_INCHES_PER_GALLON * (MM_PER_INCH / 100) ** 3)
    assert finish.flakes_kg(1, 1) * 1000 == pytest.approx(grams, rel=1e-12)
    assert grams == pytest.approx(119.83, abs=0.005)


def test_a_gallon_covers_1604_square_feet_at_one_mil():
    # 231 in3 / (0.001 in * 144 in2/ft2) = 1604.17 ft2; printed as 1604
    square_feet = CUBIC_INCHES_PER_GALLON / (0.001 * SQUARE_INCHES_PER_SQUARE_FOOT)
    m2 = finish.coverage_m2_per_l(1, MM_PER_INCH, 1) * cut.L_PER_US_GAL
    assert m2 / (0.3048**2) == pytest.approx(square_feet, rel=1e-12)
    assert square_feet == pytest.approx(1604, abs=0.5)


def test_a_mil_is_a_thousandth_of_an_inch():
    assert pytest.approx(MM_PER_INCH * 1000 / 1000) == film.UM_PER_MIL
    assert finish.mils(50.8) == pytest.approx(2)
