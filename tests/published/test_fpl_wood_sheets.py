"""Forest Products Laboratory sheets of single woods.

Walnut and sycamore: Hardwoods of North America, FPL-GTR-83 (1995). Mahogany, sapele
and Indian rosewood: fact sheets of tropical woods, Center for Wood Anatomy Research.
"""

import pytest

from pricebook import cautions

HARDNESS_LBF = {"mahogany": 800, "sapele": 1500, "Indian rosewood": 3170}


@pytest.fixture(scope="module")
def woods(wood_rows):
    return cautions.species_from_rows(wood_rows)


def test_walnut_hardness_in_newtons_as_the_sheet_prints_it():
    # the sheet prints 4,492 N beside 1,010 lbf; the exact product is 4,492.7
    assert cautions.newtons(1010) == pytest.approx(4492, abs=1)


def test_walnut_and_sycamore_specific_gravity(woods):
    assert woods["walnut"].specific_gravity == 0.55
    assert woods["sycamore"].specific_gravity == 0.49


@pytest.mark.parametrize("wood", HARDNESS_LBF)
def test_hardness_of_tropical_woods(woods, wood):
    newtons = HARDNESS_LBF[wood] * 4.4482216
    assert woods[wood].hardness_n == pytest.approx(newtons, rel=0.0001)


def test_another_list_of_sapele_is_kept_and_not_used(woods):
    printed = [figure.value for figure in woods["sapele"].all_of("hardness")]
    assert printed == [1500, 1510]
    assert "not used: 1510.0 lbf (hardness_lists)" in woods["sapele"].choice("hardness")
