"""Conversion factors, NIST SP 811 Appendix B and Handbook 44 Appendix C.

The definitions (1 in = 25.4 mm, 1 lb = 453.59237 g, 1 gal = 231 in3, standard gravity
9.80665 m/s2) are exact; the rest is worked out from them here.
"""

import pytest

from pricebook import cautions, lengths

MM_PER_INCH, GRAM_PER_POUND, GRAVITY = 25.4, 453.59237, 9.80665


def test_inch_and_foot():
    assert lengths.MM_PER_INCH == MM_PER_INCH
    assert lengths.read("1 ft") == 304.8


def test_pound_force_in_newtons():
    assert pytest.approx(GRAM_PER_POUND / 1000 * GRAVITY) == cautions.N_PER_LBF
    assert round(cautions.newtons(1), 7) == 4.4482216  # as printed


def test_pound_a_cubic_foot():
    factor = GRAM_PER_POUND / 1000 / (0.012 * MM_PER_INCH) ** 3
    assert pytest.approx(factor) == cautions.KG_M3_PER_LB_FT3
    assert round(cautions.KG_M3_PER_LB_FT3, 6) == 16.018463  # as printed


def test_gallon_of_231_cubic_inches():
    from pricebook.cautions.notes import GALLON_L

    assert pytest.approx(231 * (MM_PER_INCH / 100) ** 3) == GALLON_L
