"""Theoretical spreading rate in both unit systems.

A coatings maker's note "Spreading Rate", General Information: 1604 * solids / mils
and 1000 * solids / micrometres. Examples: 65 % at 5.0 mil gives 208.52 ft2/gal; 65 %
at 125 um gives 5.2 m2/L. (Its metric formula line reads 100; its example uses 1000.)
"""

import pytest

from pricebook import finish
from pricebook.finish import cut


def test_the_example_in_square_feet_a_gallon():
    m2_per_l = finish.coverage_m2_per_l(0.65, 5 * 25.4, 1)
    square_feet = m2_per_l * cut.L_PER_US_GAL / 0.3048**2
    assert square_feet == pytest.approx(208.52, abs=0.1)  # 1604 for 1604.17


def test_the_example_in_square_metres_a_litre():
    assert finish.coverage_m2_per_l(0.65, 125, 1) == pytest.approx(5.2, abs=1e-9)
