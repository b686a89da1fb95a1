"""Coverage from volume solids, transfer efficiency and dry film.

Coatings question-and-answer archive, "Calculating coating coverage": coverage
[ft2/gal] = 1604 * volume solids * transfer efficiency / dry film [mil]. The October
2003 answer works 52 %, 30 % and 1.5 mil to 167; the May 2004 answer works 52 %, 35 %
and 1.5 mil to 194.5 (1604 * 0.52 * 0.35 / 1.5 = 194.62: its last digit is cut).
"""

import pytest

from pricebook import finish
from pricebook.finish import cut

SQUARE_FEET_PER_M2 = 1 / 0.3048**2


def square_feet_per_gallon(solids, transfer, mils):
    m2_per_l = finish.coverage_m2_per_l(solids, mils * 25.4, transfer)
    return m2_per_l * cut.L_PER_US_GAL * SQUARE_FEET_PER_M2


def test_the_example_of_october_2003():
    # printed to the whole foot, with 1604 for 1604.17
    assert square_feet_per_gallon(0.52, 0.30, 1.5) == pytest.approx(167, abs=0.5)


def test_the_example_of_may_2004():
    assert square_feet_per_gallon(0.52, 0.35, 1.5) == pytest.approx(194.5, abs=0.2)
