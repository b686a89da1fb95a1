"""A how-to page on the weight of sheets: 1/2 in MDF, 4 x 8 ft, 700 kg/m3.

Source: panel_weight_page. It prints 26.39 kg and 58.19 lb from rounded steps; its
low-density particleboard is 31 lb/ft3 x 1.33 ft3 = 41.23 lb (1.3333 ft3 gives 41.33).
"""

import pytest

from pricebook import cautions


def test_a_half_inch_sheet_of_mdf():
    mass_kg = cautions.panel_mass_kg(2438.4, 1219.2, 12.7, 700)
    assert mass_kg == pytest.approx(26.39, abs=0.1)
    assert mass_kg / 0.45359237 == pytest.approx(58.19, abs=0.2)


def test_a_half_inch_sheet_of_low_density_particleboard():
    mass_kg = cautions.panel_mass_kg(2438.4, 1219.2, 12.7, 31 * 16.018463)
    assert mass_kg / 0.45359237 == pytest.approx(41.23, abs=0.15)
