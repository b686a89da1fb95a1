"""Weight of 4 x 8 ft sheets of particleboard, by geometry: length, width, density.

40, 45 and 50 lb/ft3 over 1/2, 5/8 and 3/4 in; at 45: 60, 75 and 90 lb. The trade's
"80 to 90 lb" for a 3/4 in sheet is 40 to 45 lb/ft3 (common practice, no source).
"""

import pytest

from pricebook import cautions

LB_KG, FT3_M3 = 0.45359237, 0.3048**3  # exact: NIST SP 811, Appendix B
SHEETS_LB = [
    (40, 1 / 2, 53.33),
    (40, 5 / 8, 66.67),
    (40, 3 / 4, 80.0),
    (45, 1 / 2, 60.0),
    (45, 5 / 8, 75.0),
    (45, 3 / 4, 90.0),
    (50, 1 / 2, 66.67),
    (50, 5 / 8, 83.33),
    (50, 3 / 4, 100.0),
]


def sheet_lb(density_lb_ft3, thickness_in, along_in=96, across_in=48):
    mass_kg = cautions.panel_mass_kg(
        along_in * 25.4,
        across_in * 25.4,
        thickness_in * 25.4,
        density_lb_ft3 * LB_KG / FT3_M3,
    )
    return mass_kg / LB_KG


@pytest.mark.parametrize(("density", "thickness_in", "weight_lb"), SHEETS_LB)
def test_a_full_sheet(density, thickness_in, weight_lb):
    assert sheet_lb(density, thickness_in) == pytest.approx(weight_lb, abs=0.01)


def test_an_oversize_sheet():
    # 49 x 97 x 3/4 in is 2.063 ft3
    assert sheet_lb(45, 3 / 4, 97, 49) == pytest.approx(92.8, abs=0.05)


def test_a_sheet_in_metric():
    mass_kg = cautions.panel_mass_kg(2438.4, 1219.2, 19.05, 720)
    assert mass_kg == pytest.approx(40.78, abs=0.005)
