"""Density classes of particleboard, ANSI A208.1.

M is 640 to 800 kg/m3 (40 to 50 lb/ft3), H is above 800, as an architectural woodwork
page quotes the standard; LD below 640 is from memory.
"""

import pytest

from pricebook import cautions
from pricebook.errors import SpecError

CLASSES = [(640, "M"), (720, "M"), (800, "M"), (801, "H"), (880, "H")]


@pytest.mark.parametrize(("density_kg_m3", "grade"), CLASSES)
def test_medium_and_high_density(density_kg_m3, grade):
    assert cautions.density_class(density_kg_m3) == grade


@pytest.mark.unconfirmed
@pytest.mark.parametrize("density_kg_m3", [639, 560, 500])
def test_low_density(density_kg_m3):
    assert cautions.density_class(density_kg_m3) == "LD"


def test_the_table_in_data_says_the_same(reference):
    for row in reference("ansi_a208_1"):
        within = (
            max(float(row["from_kg_m3"]), 500) + float(row["to_kg_m3"] or 900)
        ) / 2
        assert cautions.density_class(within) == row["grade"]


@pytest.mark.parametrize("density", [0, -700, 44.9, 299, 1201, float("nan"), True])
def test_a_density_that_no_board_has_is_refused(density):
    with pytest.raises(SpecError, match="no board for furniture is outside"):
        cautions.density_class(density)
