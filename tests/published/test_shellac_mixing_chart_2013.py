"""Ounces of flakes for each cut and measure of alcohol.

A supplier's "Shellac Mixing Chart", rev. 11/13 (two pages; also lists: mix only what
is used within 3 months). Printed whole here; exact, since an ounce is 1/16 lb and
the measures are halves of a gallon.
"""

import pytest

from pricebook import finish
from pricebook.finish import cut

CUTS = (1, 1.5, 2, 2.5, 3)
GALLONS = {"gallon": 1, "half gallon": 1 / 2, "quart": 1 / 4, "pint": 1 / 8,
           "cup": 1 / 16}  # fmt: skip
OUNCES = {
    "gallon": (16, 24, 32, 40, 48),
    "half gallon": (8, 12, 16, 20, 24),
    "quart": (4, 6, 8, 10, 12),
    "pint": (2, 3, 4, 5, 6),
    "cup": (1, 1.5, 2, 2.5, 3),
}


@pytest.mark.parametrize("measure", OUNCES)
def test_flakes_for_each_cut_are_as_printed(measure):
    alcohol_l = GALLONS[measure] * cut.L_PER_US_GAL
    kg = [finish.flakes_kg(cut_lb, alcohol_l) for cut_lb in CUTS]
    ounces = [16 * mass / 0.45359237 for mass in kg]
    assert ounces == pytest.approx(OUNCES[measure], rel=1e-12)
